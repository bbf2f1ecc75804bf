"""Faults, some of which the program had once: each is put back by a patch, and edits should show it.

A test that never fails proves nothing: ``python -m tests.bench faults`` puts back each of these and makes
random edits until a site is wrong (``tests.building.edits``). The names of what a page was made from are
left out one kind after another, as somebody might who keeps such a list by hand.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import AbstractContextManager, contextmanager
from dataclasses import dataclass
from functools import partial
from typing import Any
from unittest import mock

from sitegen.building import build as building
from sitegen.building.known_site import KnownSite
from sitegen.building.snapshot import Snapshot
from sitegen.commands import build as command
from sitegen.pages import fact_store, facts, inputs, page, site, theme
from sitegen.reading import linking
from sitegen.system import file_states, noted_reads

Patch = Callable[[], AbstractContextManager[object]]


@dataclass(frozen=True, slots=True)
class Fault:
    """How a fault is put back, and edits of which one at least makes a wrong site then."""

    put_back: Patch
    shown_by: tuple[str, ...]


def _names_left_out(kind: str) -> Patch:
    """What is read of that kind of name is taken to be as it was."""
    plain = inputs.Inputs._digest

    def digest(self: inputs.Inputs, name: str) -> str:
        return "as it was" if name.partition(" ")[0] == kind else plain(self, name)

    return lambda: mock.patch.object(inputs.Inputs, "_digest", digest)


def _without_file_names() -> AbstractContextManager[object]:
    """The library of exercises is known by the bytes of its files in order, without their names."""
    plain = linking.Linker.__init__

    def init(self: Any, results: Any, files: Any, digests: Any, before: Any, *rest: Any) -> None:
        plain(self, results, files, digests, before, *rest)
        found = [
            result.digest for result in self.results if result.kind in ("series", "exercises", "routines")
        ]
        self.library = linking.digest_of("\n".join(found).encode())
        self._before = before if before is not None and before.library == self.library else None

    return mock.patch.object(linking.Linker, "__init__", init)


@contextmanager
def _size_and_time() -> Iterator[None]:
    """A file of the same size and time of writing is taken to be the same."""

    def of(status: Any) -> file_states.InputState:
        return file_states.InputState(status.st_size, status.st_mtime_ns, 1, 0)

    with (
        mock.patch.object(file_states.InputState, "of", of),
        mock.patch.object(file_states.InputState, "is_settled", return_value=True),
    ):
        yield


@contextmanager
def _cache_of_the_output_folder() -> Iterator[None]:
    """What was read is remembered for an output folder, whatever content it is built from."""
    folder = building.cache_folder

    class Elsewhere(building.Builder):
        def __init__(self, content: Any, out: Any, **options: Any) -> None:
            with mock.patch.object(building, "cache_folder", return_value=folder(out)):
                super().__init__(content, out, **options)

    with _size_and_time(), mock.patch.object(building, "Builder", Elsewhere):
        yield


@contextmanager
def _libraries_unseen() -> Iterator[None]:
    """The versions of libraries are no part of what a page is made from."""
    with (
        mock.patch.object(building, "code_fingerprint", return_value="the program"),
        mock.patch.object(command, "libraries", list),
    ):
        yield


def _key_without(part: str) -> Patch:
    """What every page is made from, without its theme, say."""
    plain = site.Site.__init__

    def init(self: Any, series: Any, cues: Any, of_theme: Any, code: str, *rest: Any, **options: Any) -> None:
        plain(self, series, cues, of_theme, code, *rest, **options)
        parts = {
            "theme": of_theme.digest,
            "series": series.digests.get("series.yaml"),
        }
        self.key = page.fingerprint(code, *(value for name, value in parts.items() if name != part))

    return lambda: mock.patch.object(site.Site, "__init__", init)


def _shared_brings_nothing() -> AbstractContextManager[object]:
    """A result that several pages share does not bring along what was read for it."""
    return mock.patch.object(noted_reads, "note_all")


def _given_nothing() -> AbstractContextManager[object]:
    """How a page is made is known by its function alone, whatever that is given."""
    return mock.patch.dict(page._IDENTITIES, {partial: lambda made: page._function(made.func)})


def _facts_for_ever() -> AbstractContextManager[object]:
    """A fact that was worked out once stands."""

    def bring(self: Any, of_site: Any, of_inputs: Any, *rest: Any) -> facts.Facts:
        always = mock.Mock(spec=of_inputs)
        always.key = lambda names: "as it was"
        return plain(self, of_site, always, *rest)

    plain = fact_store.FactStore.bring_up_to_date
    return mock.patch.object(fact_store.FactStore, "bring_up_to_date", bring)


def _told_nothing() -> AbstractContextManager[object]:
    """What sessions say of an exercise is opened without being noted, and is not told either."""
    plain = facts.FactOfExercise.__init__

    def init(self: Any, whole: Any, exercise: str, identity: str) -> None:
        plain(self, whole, exercise, "as it was")

    return mock.patch.object(facts.FactOfExercise, "__init__", init)


@contextmanager
def _stamps_unseen() -> Iterator[None]:
    """A file of the site that somebody changed is taken for the one that was written."""
    plain = KnownSite.is_current
    with mock.patch.object(KnownSite, "is_current", lambda self, of_page, stamp=None: plain(self, of_page)):
        yield


@contextmanager
def _theme_without_names() -> Iterator[None]:
    """A theme is known by the bytes of its files, without their names."""
    plain = theme.fingerprint

    def fingerprint(language: object, *parts: object) -> str:
        return plain(language, *parts[1::2]) if len(parts) > 1 else plain(language, *parts)

    with mock.patch.object(theme, "fingerprint", fingerprint):
        yield


def _every_day() -> AbstractContextManager[object]:
    """On another day the command takes the same episodes to be out."""
    return mock.patch.object(Snapshot, "holds_on", return_value=True)


def _themes_unseen() -> AbstractContextManager[object]:
    """The command looks for changes in the content only."""

    def fingerprint_of(folders: Iterable[Any], *options: object) -> str:
        return plain(list(folders)[-1:], *options)

    plain = command.fingerprint_of
    return mock.patch.object(command, "fingerprint_of", fingerprint_of)


_EXERCISES = ("an exercise renamed", "an exercise's name", "two exercises swapped")

FAULTS: Mapping[str, Fault] = {
    "digest of the library without file names": Fault(_without_file_names, ("an exercise renamed",)),
    "equal size and time taken for the same bytes": Fault(_size_and_time, ("equal size and time",)),
    "cache of the output folder": Fault(_cache_of_the_output_folder, ("another series",)),
    "versions of libraries not in the key": Fault(_libraries_unseen, ("a library",)),
    "theme not in the key": Fault(_key_without("theme"), ("a string", "a template")),
    "digest of the theme without file names": Fault(_theme_without_names, ("a language's strings",)),
    "series.yaml not in the key": Fault(_key_without("series"), ("the address", "the time of day", "a need")),
    "shared results bring nothing along": Fault(
        _shared_brings_nothing, ("a picture redrawn", "muscles", "no kit", "an exercise's name")
    ),
    "what a page is given not in its recipe": Fault(
        _given_nothing, ("a string", "an episode renamed", "other media")
    ),
    "facts never out of date": Fault(_facts_for_ever, ("a dose", "an exercise's name")),
    "facts of an exercise not in its page's recipe": Fault(_told_nothing, ("a dose", "sets")),
    "stamps of written files not compared": Fault(_stamps_unseen, ("a file of the site",)),
    "the day not in the snapshot": Fault(_every_day, ("the day",)),
    "themes not in the snapshot": Fault(_themes_unseen, ("a string", "a style")),
    "lists not noted": Fault(
        _names_left_out("list"), ("an episode more", "an exercise more", "an episode less")
    ),
    "titles not noted": Fault(_names_left_out("title"), ("a title", "numbers swapped")),
    "what lists show of an episode not noted": Fault(
        _names_left_out("episode"), ("a summary", "another film", "no length")
    ),
    "what a session says not noted": Fault(_names_left_out("session"), ("a dose", "sets")),
    "what lists show of an exercise not noted": Fault(_names_left_out("exercise"), _EXERCISES),
    "words of an exercise not noted": Fault(_names_left_out("words"), ("a cue",)),
    "pages in the trainer's words not noted": Fault(_names_left_out("page"), ("a page's words",)),
    "captions not noted": Fault(_names_left_out("cues"), ("captions", "two captions swapped")),
    "media not noted": Fault(_names_left_out("media"), ("other media", "a picture redrawn")),
    "facts not noted": Fault(_names_left_out("fact"), ("a dose", "a title")),
}
