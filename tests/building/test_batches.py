"""Sessions are decided many at a time: those that nothing has happened to are not even planned."""

import os
import re
import shutil
from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest

from sitegen.building.build import Builder
from sitegen.building.build_directory import BuildDirectory
from sitegen.building.manifest import Manifest
from sitegen.commands.build import state_of_site
from sitegen.pages.needs import series_parts
from tests.building.put_back import FAULTS
from tests.building.scratch import made_from_scratch
from tests.demo_copy import replace
from tests.folders import SeriesFolder
from tests.trees import differences, tree

SESSIONS = ("first", "second", "third", "fourth")
_PAGE = "episodes/first-steps/index.html"


@pytest.fixture
def content(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Four sessions, each a batch of its own."""
    monkeypatch.setattr(series_parts, "SESSIONS", 1)
    folder = SeriesFolder(tmp_path)
    text = (folder.root / "episodes/01-first-steps.yaml").read_text()
    for number, name in enumerate(SESSIONS[1:], start=2):
        folder.write(
            f"episodes/{number:02}-{name}-steps.yaml", text.replace("number: 1", f"number: {number}")
        )
    build(folder.root, tmp_path / "build")
    return folder.root


def build(content: Path, out: Path, today: date | None = None) -> list[str]:
    """Build; gives the addresses of the pages that were planned."""
    planned: list[str] = []
    builder = Builder(content, out, jobs=1, today=today)

    def note(pages, _):  # type: ignore[no-untyped-def]
        found = list(pages)
        planned.extend(page.address for page in found)
        return found

    builder.build(before_writing=note)
    builder.remember()
    return planned


def edit(content: Path, name: str, title: str = "Steps") -> None:
    """Change the summary of a session, or its title, which its neighbours show too."""
    path = next(content.glob(f"episodes/*-{name}-steps.yaml"))
    path.write_text(path.read_text().replace("summary: ", "summary: Now ", 1))
    if title != "Steps":
        replace(content, f"episodes/{path.name}", "title: ", f"title: {title} ")


def sessions_among(addresses: list[str]) -> set[str]:
    """Names of the sessions that some addresses belong to."""
    return {a.split("/")[1].removesuffix("-steps") for a in addresses if a.startswith("episodes/")}


@pytest.mark.parametrize(
    ("title", "wanted"),
    [
        pytest.param("Steps", {"third"}, id="a summary"),
        pytest.param("Other", {"second", "third", "fourth"}, id="a title, which the neighbours name"),
    ],
)
def test_only_sessions_that_are_made_from_what_changed_are_planned(
    content: Path, tmp_path: Path, title: str, wanted: set[str]
) -> None:
    edit(content, "third", title)
    assert sessions_among(build(content, tmp_path / "build")) == wanted
    assert differences(tree(tmp_path / "build"), made_from_scratch(content)) == []


def _scribble(out: Path) -> None:
    (out / _PAGE).write_text("scribbled over")


def _replace_by_a_copy(out: Path) -> None:
    (out / "copy").write_bytes((out / _PAGE).read_bytes())
    (out / "copy").replace(out / _PAGE)


def _note(out: Path) -> None:
    (out / "episodes/first-steps/notes.txt").write_text("mine")


def _no_links(out: Path) -> None:
    def refused(*_: object, **__: object) -> None:
        raise OSError("no links here")

    os.link = refused


MEDDLED: dict[str, Callable[[Path], object]] = {
    "nothing": lambda out: None,
    "a page is scribbled over": _scribble,
    "a page is replaced by its copy": _replace_by_a_copy,
    "a page is removed": lambda out: (out / _PAGE).unlink(),
    "the folder of a session is removed": lambda out: shutil.rmtree(out / "episodes/first-steps"),
    "a page of the needs is removed": lambda out: (out / "needs/index.html").unlink(),
    "a page of the previous site is removed": lambda out: (BuildDirectory(out).staging / _PAGE).unlink(),
    "a page of the previous site is replaced": lambda out: _replace_by_a_copy(BuildDirectory(out).staging),
    "the previous site is removed": lambda out: shutil.rmtree(BuildDirectory(out).staging),
    "a line of the manifest is damaged": lambda out: _damage(BuildDirectory(out).manifest),
    "a file of somebody else lies in the folder of a session": _note,
    "there are no links": _no_links,
}


def _damage(manifest: Path) -> None:
    data = manifest.read_bytes()
    manifest.write_bytes(data[:-20] + b"x" + data[-19:])


@pytest.mark.parametrize("meddle", MEDDLED)
def test_what_was_done_to_the_files_of_sessions_that_did_not_change_is_undone(
    content: Path, tmp_path: Path, meddle: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """In the build with the next edit of another session, and in the one after it."""
    out = tmp_path / "build"
    monkeypatch.setattr(os, "link", os.link)
    edit(content, "third")
    build(content, out)
    MEDDLED[meddle](out)
    for _ in range(2):
        edit(content, "third")
        build(content, out)
        left = set(differences(tree(out), _once_from_scratch(content)))
        assert left <= {"episodes/first-steps/notes.txt"}


_FROM_SCRATCH: dict[frozenset[tuple[str, str]], dict[str, str]] = {}


def _once_from_scratch(content: Path) -> dict[str, str]:
    """The same edits follow whatever was done to the files: content with the same bytes is made once."""
    said = frozenset(tree(content).items())
    if said not in _FROM_SCRATCH:
        _FROM_SCRATCH[said] = made_from_scratch(content)
    return _FROM_SCRATCH[said]


def test_pages_at_old_addresses_lie_in_folders_of_sessions_too(content: Path, tmp_path: Path) -> None:
    out, old, new = tmp_path / "build", "episodes/first-steps/old", "episodes/second-steps"
    with (content / "series.yaml").open("a") as series:
        series.write(f"moved:\n  {old}: {new}\n  before: {new}/chapters.vtt\n")
    for name in ("first", "third", "second"):
        build(content, out)
        assert differences(tree(out), made_from_scratch(content)) == []
        assert (out / old / "index.html").exists()
        edit(content, name)
    next(content.glob("episodes/*-second-*")).unlink()
    build(content, out)
    assert differences(tree(out), made_from_scratch(content)) == []
    assert not (out / old).exists()


@pytest.mark.parametrize("name", ["", "third"])
def test_the_next_build_finds_the_site_as_it_was_left(content: Path, tmp_path: Path, name: str) -> None:
    """By the state that the command keeps, whether all was looked at or most was left as it was."""
    out = tmp_path / "build"
    edit(content, name or "first", "Other")
    builder = Builder(content, out, jobs=1)
    assert builder.build().written.site == state_of_site(out)
    assert builder.build().written.site == state_of_site(out)


def test_the_manifest_holds_every_file_of_the_site(content: Path, tmp_path: Path) -> None:
    edit(content, "third")
    build(content, tmp_path / "build")
    known = Manifest.load(BuildDirectory(tmp_path / "build").manifest)
    assert sorted(known.addresses) == sorted(tree(tmp_path / "build"))


# --- batches of two ---------------------------------------------------------------------------


@pytest.fixture
def pairs(content: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """First and second are a batch, third and fourth another one, with an exercise that is there only; all
    four do one with a picture. On 2 September two are out."""
    monkeypatch.setattr(series_parts, "SESSIONS", 2)
    folder = SeriesFolder.__new__(SeriesFolder)
    folder.root = content
    squat = (content / "exercises/chair-squat.yaml").read_text()
    folder.write(
        "exercises/chair-squat.yaml", f"{squat}pictures: [{{file: media/squat.svg, alt: A squat}}]\n"
    )
    folder.write("media/squat.svg", _DRAWN)
    folder.write(
        "exercises/toe-tap.yaml", squat.replace("Chair squat", "Toe tap").replace("sit to stand", "tap")
    )
    for number, name in enumerate(SESSIONS, start=1):
        path = _file(content, name)
        text = path.read_text().replace(
            f"number: {number}", f"number: {2 * number}\nreleased: 2026-09-0{number}"
        )
        path.write_text(text.replace("jumping-jack", "toe-tap") if number > 2 else text)
    build(content, tmp_path / "build")
    return content


_DRAWN = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 3 2"><path d="M0 0h1"/></svg>'


def _file(content: Path, name: str) -> Path:
    return next(content.glob(f"episodes/*-{name}-steps.yaml"))


def _sub(pattern: str, new: str, file: str) -> Callable[[Path], object]:
    """Replace the first place like that; there is one."""

    def change(content: Path) -> None:
        (path,) = content.glob(file)
        text, places = re.subn(pattern, new, path.read_text(), count=1, flags=re.M)
        assert places, file
        path.write_text(text)

    return change


def _add(number: int) -> Callable[[Path], object]:
    def change(content: Path) -> None:
        text = re.sub(r"^number: \d+", f"number: {number}", _file(content, "first").read_text(), flags=re.M)
        (content / f"episodes/{number:02}-more-steps.yaml").write_text(text)

    return change


def _to_a_plan(content: Path) -> None:
    """No times in a film: announced only."""
    path = _file(content, "third")
    text = re.sub(r"^ +(at|your_turn): .*\n", "", path.read_text(), flags=re.M)
    path.write_text(re.sub(r' at: "[^"]*",', "", text))


_NEED = "  knees: {name: Knees, says: I cannot kneel, avoids: [kneeling]}"
Happening = Callable[[Path], object]
OF_SESSIONS: dict[str, Happening] = {
    "one more before all, which shifts every border": _add(1),
    "one more at a border": _add(5),
    "one more at the end": _add(9),
    "one less": lambda content: _file(content, "first").unlink(),
    "one less at a border": lambda content: _file(content, "second").unlink(),
    "all of a batch less": lambda content: [_file(content, name).unlink() for name in ("third", "fourth")],
    "one goes into another batch by its number": _sub("^number: 2$", "number: 7", "episodes/*first-*"),
    "a number that moves nothing": _sub("^number: 8$", "number: 9", "episodes/*fourth-*"),
    "a filmed one becomes a plan": _to_a_plan,
    "a release date": _sub("^released: .*", "released: 2026-10-01", "episodes/*second-*"),
}
OF_EXERCISES: dict[str, Happening] = {
    "the words of one of one batch": _sub("^cues:$", "cues:\n  - Tap *softly*", "exercises/toe-tap.yaml"),
    "the name of one of one batch": _sub("^name: .*", "name: Tap", "exercises/toe-tap.yaml"),
    "what one of one batch demands": _sub("demands: .*", "demands: [jumping]", "exercises/toe-tap.yaml"),
    "the words of one of both": _sub("^cues:$", "cues:\n  - Stand *up*", "exercises/chair-squat.yaml"),
    "a picture of one of both": _sub("M0 0h1", "M0 0h2", "media/squat.svg"),
    "a block of both": _sub("^name: .*", "name: Warmer", "routines/*.yaml"),
}
OF_ALL: dict[str, Happening] = {
    "the language": _sub("^language: en", "language: en-GB", "series.yaml"),
    "the address": _sub("series.example", "other.example", "series.yaml"),
    "a need more": _sub("^needs:$", f"needs:\n{_NEED}", "series.yaml"),
    "what a need avoids": _sub(r"avoids: \[jumping\]", "avoids: [jumping, speed]", "series.yaml"),
}


@pytest.mark.parametrize(
    "happenings", [OF_SESSIONS, OF_EXERCISES, OF_ALL], ids=["to sessions", "to exercises", "to all"]
)
def test_no_batch_is_left_as_it_was_where_it_should_not_be(
    pairs: Path, tmp_path: Path, happenings: dict[str, Happening]
) -> None:
    """What happened is taken back in the build of what happens next."""
    out = tmp_path / "build"
    shutil.copytree(pairs, tmp_path / "before")
    before = tree(out)
    for what, happen in happenings.items():
        shutil.rmtree(pairs)
        shutil.copytree(tmp_path / "before", pairs)
        happen(pairs)
        build(pairs, out)
        assert tree(out) != before, f"nothing happens: {what}"
        assert differences(tree(out), made_from_scratch(pairs)) == [], what


@pytest.mark.parametrize("name", ["first", "third", "fourth"])
def test_a_removed_file_comes_back_in_whichever_batch_another_session_is_edited(
    pairs: Path, tmp_path: Path, name: str
) -> None:
    (tmp_path / "build/episodes/third-steps/index.html").unlink()
    edit(pairs, name)
    build(pairs, tmp_path / "build")
    assert differences(tree(tmp_path / "build"), made_from_scratch(pairs)) == []


def test_a_picture_in_two_batches_would_be_overlooked_if_shared_results_brought_nothing_along(
    pairs: Path, tmp_path: Path
) -> None:
    """What the table above says of that picture is said by what shared results bring along."""
    with FAULTS["shared results bring nothing along"].put_back():
        edit(pairs, "first")
        edit(pairs, "third")
        build(pairs, tmp_path / "build")
        OF_EXERCISES["a picture of one of both"](pairs)
        build(pairs, tmp_path / "build")
    wrong = sessions_among(differences(tree(tmp_path / "build"), made_from_scratch(pairs)))
    assert wrong == {"first", "third"}


def test_sessions_come_out_at_midnight_and_go_again_where_the_day_is_turned_back(
    pairs: Path, tmp_path: Path
) -> None:
    out = tmp_path / "build"
    for day in (2, 3, 4, 3, 1):
        today = date(2026, 9, day)
        build(pairs, out, today)
        assert differences(tree(out), made_from_scratch(pairs, today)) == [], today
