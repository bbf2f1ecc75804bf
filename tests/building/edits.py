"""Random edits of a series, each followed by a build that must be what a build from scratch gives.

The random edits know nothing of what pages are made from: whatever a trainer may do to a folder is done,
again and again, to the same site, which is built by the command, so that what the command takes for
"nothing has changed" is tried too. ``python -m tests.bench edits`` does it a thousand times.
"""

import contextlib
import enum
import gc
import io
import os
import random
import re
import shutil
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from datetime import date, timedelta
from pathlib import Path
from unittest import mock

from sitegen import cli
from sitegen.building import theme_choice
from sitegen.pages import inputs
from sitegen.pages.needs import series_parts
from sitegen.problems import ContentError
from sitegen.resources import demo_folder, themes_folder
from tests.building.scratch import made_from_scratch
from tests.demo_copy import copy_demo, leave_out_unused, shorten
from tests.trees import differences, let_settle, tree

_FAR = date(2030, 1, 1)
_SHARED = "shared"
"""The content folder of another series, whose library the edited one reads in place."""

_WITH_PICTURE = """name: Quay step
summary: Step up and down.
pattern: locomotion
muscles: {prime: [calves], assist: [quadriceps]}
demands: [standing]
cues:
  - Whole foot on the step
pictures:
  - {file: media/step-up.svg, alt: A step}
"""


@dataclass
class Edited:
    """A series that is edited, with what is not in its folder."""

    root: Path
    chance: random.Random
    name: str = "content"
    """Of the content folder, below ``root``."""
    together: int = 1
    """Most sessions that are planned and decided together."""
    today: date | None = None
    library: int = 0
    """Version of the Markdown library."""
    log: list[str] = field(default_factory=list)

    @property
    def content(self) -> Path:
        """The content folder."""
        return self.root / self.name

    @property
    def out(self) -> Path:
        """The site."""
        return self.root / "build"

    def pick(self, *patterns: str) -> Path | None:
        """Some file of the content; None where no file is like that."""
        found = sorted(path for pattern in patterns for path in self.content.glob(pattern))
        return self.chance.choice(found) if found else None

    def word(self) -> str:
        """A word that nobody wrote before."""
        return "".join(self.chance.choice("abcdefghijklmnop") for _ in range(6))


Edit = Callable[[Edited], None]


def begin(root: Path, seed: int, episodes: int = 3, *, short: bool = False) -> Edited:
    """A small series in a folder of its own: a few episodes of the demo, and the exercises they need.

    With ``short`` blocks have an exercise or two and few needs are left: pages of every kind are there still,
    and are made in a third of the time.
    """
    content = copy_demo(root, episodes=episodes)
    _share(content)
    if short:
        shorten(content)
    leave_out_unused(content, spare=2 if short else 3)
    _leave_out_unused_media(content)
    shutil.copytree(themes_folder() / "tidewater", root / "themes/tidewater")
    chance = random.Random(seed)
    return Edited(root, chance, together=chance.choice((1, 1, 2)))


def _share(content: Path) -> None:
    """Let all sessions end with one block, which begins with an exercise that has a picture and no poses.

    The demo's first sessions have no exercise in common, so that nothing worked out for one would be used for
    another. And what stands in the picture's file is read with the form, not once more beside it.
    """
    sessions = sorted(content.glob("episodes/*.yaml"))
    ends = [re.findall(r"- routine: (.*)", path.read_text())[-1] for path in sessions]
    for path, end in zip(sessions, ends, strict=True):
        path.write_text(path.read_text().replace(f"- routine: {end}\n", f"- routine: {ends[0]}\n"))
    (content / "exercises/quay-step.yaml").write_text(_WITH_PICTURE)
    block = content / f"routines/{ends[0]}.yaml"
    block.write_text(
        block.read_text().replace("items:\n", "items:\n  - exercise: quay-step\n    dose: 30 s\n", 1)
    )


def _leave_out_unused_media(content: Path) -> None:
    """Leave no file of which an edit would change nothing in the site."""
    said = "".join(path.read_text() for path in content.rglob("*.yaml"))
    for folder in ("media", "captions"):
        for path in (content / folder).iterdir():
            if f"{folder}/{path.name}" not in said:
                path.unlink()


# --- the edits ---------------------------------------------------------------------------------


def _sub(pattern: str, new: str | Callable[[re.Match[str]], str], *files: str) -> Edit:
    """Replace one of the places that are like a pattern, in some file."""

    def edit(series: Edited) -> None:
        path = series.pick(*files)
        if path is None:
            return
        text = path.read_text()
        places = list(re.finditer(pattern, text, re.M))
        if not places:
            return
        match = series.chance.choice(places)
        put = new(match) if callable(new) else match.expand(new.replace("WORD", series.word()))
        path.write_text(text[: match.start()] + put + text[match.end() :])

    return edit


def _other_number(match: re.Match[str]) -> str:
    return f"{match[1]}{int(match[2]) % 12 + 1}"


def _next_number(match: re.Match[str]) -> str:
    """So near the one before that a body can still do it."""
    return f"{match[1]}{int(match[2]) - 1}"


def _other_language(match: re.Match[str]) -> str:
    return "language: en" if match[0] != "language: en" else "language: en-GB"


def _other_day(match: re.Match[str]) -> str:
    return f"{match[1]}{int(match[2]) % 28 + 1:02}"


def _need(pattern: str, new: str) -> Edit:
    """Replace such a line of one of the needs."""
    return _sub(rf"(?<=\n    ){pattern}(?=\n(?:    .*\n)*    (?:avoids|advice):)", new, "series.yaml")


def _say_moved(series: Edited) -> None:
    """An old address of an episode leads to where it is now."""
    path, episode = series.content / "series.yaml", series.pick("episodes/*.yaml")
    if episode is not None:
        text = path.read_text()
        line = f"  episodes/{series.word()}: episodes/{episode.stem.partition('-')[2]}\n"
        path.write_text(
            text.replace("moved:\n", f"moved:\n{line}") if "moved:" in text else f"{text}moved:\n{line}"
        )


def _same_size_and_time(series: Edited) -> None:
    path = series.pick("exercises/*.yaml", "episodes/*.yaml", "captions/*.vtt", "media/*")
    if path is not None:
        before = path.stat()
        data = bytearray(path.read_bytes())
        letters = [place for place, byte in enumerate(data) if chr(byte) in "aeiou"]
        place = series.chance.choice(letters)
        data[place] = ord(series.chance.choice("aeiou"))
        path.write_bytes(bytes(data))
        os.utime(path, ns=(before.st_atime_ns, before.st_mtime_ns))


def _rename_exercise(series: Edited) -> None:
    path = series.pick("exercises/*.yaml")
    if path is not None:
        new = f"{path.stem}s" if series.chance.random() < 0.5 else f"{series.word()}-{path.stem}"
        path.rename(path.with_stem(new))
        _say_otherwise(series, path.stem, new)


def _say_otherwise(series: Edited, old: str, new: str) -> None:
    for path in (*series.content.rglob("*.yaml"), *series.content.rglob("*.md")):
        text = path.read_text()
        path.write_text(re.sub(rf"(?<![\w-]){re.escape(old)}(?![\w-])", new, text))


def _swap(pattern: str) -> Edit:
    def edit(series: Edited) -> None:
        one, other = series.pick(pattern), series.pick(pattern)
        if one is not None and other is not None:
            one_bytes, other_bytes = one.read_bytes(), other.read_bytes()
            one.write_bytes(other_bytes)
            other.write_bytes(one_bytes)

    return edit


def _rename_episode(series: Edited) -> None:
    path = series.pick("episodes/*.yaml")
    if path is not None:
        path.rename(path.with_name(f"{path.name.split('-')[0]}-{series.word()}.yaml"))


def _swap_numbers(series: Edited) -> None:
    one, other = series.pick("episodes/*.yaml"), series.pick("episodes/*.yaml")
    if one is not None and other is not None:
        texts = one.read_text(), other.read_text()
        numbers = [re.search(r"^number: (\d+)$", text, re.M) for text in texts]
        if all(numbers) and one != other:
            for path, text, number in zip((one, other), texts, reversed(numbers), strict=True):
                path.write_text(
                    re.sub(r"^number: \d+$", f"number: {number[1] if number else 0}", text, flags=re.M)
                )


def _copy_episode(series: Edited) -> None:
    path = series.pick("episodes/*.yaml")
    if path is not None and len(list(path.parent.iterdir())) < 6:
        number = 1 + max(int(p.name.split("-")[0]) for p in path.parent.iterdir())
        text = re.sub(r"^number: \d+$", f"number: {number}", path.read_text(), flags=re.M)
        (path.parent / f"{number:02d}-{series.word()}.yaml").write_text(text)


def _drop(pattern: str) -> Edit:
    def edit(series: Edited) -> None:
        path = series.pick(pattern)
        if path is not None and len(list(series.content.glob(pattern))) > 2:
            path.unlink()

    return edit


def _copy_exercise(series: Edited) -> None:
    path = series.pick("exercises/*.yaml")
    if path is not None:
        shutil.copy(path, path.with_stem(series.word()))


def _replace_media(series: Edited) -> None:
    path = series.pick("media/*.mp4", "media/*.webm", "media/*.svg")
    if path is not None:
        path.write_bytes(b"filmed " + series.word().encode())


def _another_film(series: Edited) -> None:
    """A film of another length, where the episode leaves the length to the file."""
    path = series.pick("media/*.mp4")
    if path is not None:
        shutil.copyfile(series.chance.choice(sorted(demo_folder().glob("media/*.mp4"))), path)


def _move_media(series: Edited) -> None:
    """Put a video or picture into another folder and say so where it is named."""
    path = series.pick("media/*.mp4", "media/*.svg")
    if path is not None:
        new = f"media/{series.word()}/{path.name}"
        (series.content / new).parent.mkdir()
        path.rename(series.content / new)
        _say_otherwise(series, f"media/{path.name}", new)


def _redraw(series: Edited) -> None:
    path = series.pick("media/*.svg")
    if path is not None:
        path.write_text(path.read_text().replace("</svg>", f"<!-- {series.word()} --></svg>"))


def _new_page(series: Edited) -> None:
    name = series.word()
    text = f"---\ntitle: {name}\nmenu: {series.chance.choice(['yes', 'no'])}\n---\nSome *words*.\n"
    (series.content / f"pages/{name}.md").write_text(text)


def _touch(series: Edited) -> None:
    path = series.pick("*/*")
    if path is not None:
        os.utime(path)


def _comment(series: Edited) -> None:
    path = series.pick("*/*.yaml")
    if path is not None:
        path.write_text(f"{path.read_text()}# {series.word()}\n")


def _day(series: Edited) -> None:
    released = (date(2026, 9, 1) + timedelta(days=series.chance.randrange(14)), _FAR, None)
    series.today = series.chance.choice(released)


def _theme(pattern: str, new: str, *files: str) -> Edit:
    """Replace the first place that is like a pattern, in some file of the theme that has one."""

    def edit(series: Edited) -> None:
        folder = series.root / "themes/tidewater"
        found = sorted(path for file in files for path in folder.glob(file))
        having = [path for path in found if re.search(pattern, path.read_text(), re.M)]
        path = series.chance.choice(having)
        put = new.replace("WORD", series.word())
        path.write_text(re.sub(pattern, put, path.read_text(), count=1, flags=re.M))

    return edit


def _other_series(series: Edited) -> None:
    """The same site is built from another content folder with files of the same sizes and times."""
    folder = series.root / f"content-{series.word()}"
    shutil.copytree(series.content, folder)
    path = folder / "series.yaml"
    before = path.stat()
    path.write_text(
        re.sub(r"^title: (.)", lambda m: f"title: {m[1].swapcase()}", path.read_text(), flags=re.M)
    )
    os.utime(path, ns=(before.st_atime_ns, before.st_mtime_ns))
    series.name = folder.name


def _translate(series: Edited) -> None:
    """The series in a language of its own; or the theme's strings for it get another name."""
    strings = series.root / "themes/tidewater/strings"
    known = next((folder for folder in (strings / "xx", strings / "xy") if folder.is_dir()), None)
    if known is not None:
        known.rename(strings / ("xy" if known.name == "xx" else "xx"))
        return
    shutil.copytree(strings / "en", strings / "xx")
    path = strings / "xx/site.yaml"
    path.write_text(re.sub(r"^(  \w+: )(\w+)$", rf"\1{series.word()}", path.read_text(), count=1, flags=re.M))
    _sub(r"^language: .*$", "language: xx", "series.yaml")(series)


def _other_theme(series: Edited) -> None:
    """A copy of the theme under another name, with a style of its own."""
    folder = series.root / "themes" / series.word()
    shutil.copytree(series.root / "themes/tidewater", folder)
    style = folder / "styles/site.css"
    style.write_text(f"{style.read_text()}/* {series.word()} */\n")
    path = series.content / "series.yaml"
    text = re.sub(r"^theme: .*\n", "", path.read_text(), flags=re.M)
    path.write_text(f"{text}theme: {folder.name}\n")


def _another_style(series: Edited) -> None:
    """A style more, or that one by another name: a file of the theme whose bytes stay as they are."""
    folder = series.root / "themes/tidewater/styles"
    path = folder / f"extra-{series.word()}.css"
    before = next(folder.glob("extra-*.css"), None)
    if before is None:
        path.write_text(".extra { color: inherit }\n")
    else:
        before.rename(path)


def _share_library(series: Edited) -> None:
    """Exercises, shared blocks and needs are those of another series from now on, read in place; where
    they are so already, an exercise gets a file of the series' own beside it."""
    there, path = series.root / _SHARED, series.content / "series.yaml"
    if there.is_dir():
        found = sorted(there.glob("exercises/*.yaml"))
        shutil.copy(series.chance.choice(found), series.content / "exercises")
        return
    shutil.copytree(series.content, there, ignore=shutil.ignore_patterns("episodes", "captions", "pages"))
    (there / "episodes").mkdir()
    for folder in ("exercises", "routines"):
        for file in (series.content / folder).iterdir():
            file.unlink()
    own = re.sub(r"^needs:\n(?:[ #].*\n|\n)+", "", path.read_text(), flags=re.M)
    path.write_text(f"{own}library: ../{_SHARED}\n")


def _shared(edit: Edit) -> Edit:
    """The edit in the library that is read in place; none where none is."""

    def edit_there(series: Edited) -> None:
        if (series.root / _SHARED).is_dir():
            edit(replace(series, name=_SHARED))

    return edit_there


def _scribble(series: Edited) -> None:
    found = sorted(path for path in series.out.rglob("*") if path.is_file())
    if not found:
        return
    path = series.chance.choice(found)
    if series.chance.random() < 0.5:
        path.unlink()
    else:
        path.write_text(series.word())


def _new_library(series: Edited) -> None:
    """Another version of the Markdown library, which writes emphasis otherwise."""
    series.library += 1


EDITS: Mapping[str, Edit] = {
    "a dose": _sub(r'(dose: "?)(\d+)', _other_number, "episodes/*.yaml", "routines/*.yaml"),
    "sets": _sub(r"(sets: )(\d+)", _other_number, "episodes/*.yaml"),
    "an effort": _sub(r"(effort: )(\d)", _other_number, "episodes/*.yaml"),
    "a title": _sub(r"^title: .*$", "title: The WORD", "episodes/*.yaml", "pages/*.md"),
    "a summary": _sub(r"^summary: .*$", "summary: Now *WORD*.", "episodes/*.yaml", "exercises/*.yaml"),
    "a release date": _sub(r"(^released: 2026-09-0?)(\d)\d?", r"released: 2026-09-1\2", "episodes/*.yaml"),
    "a poster": _sub(
        r"^(poster: .*\n)?captions: ",
        'poster: {file: media/step-up.svg, alt: "WORD"}\ncaptions: ',
        "episodes/*.yaml",
    ),
    "no poster": _sub(r"^poster: .*\n", "", "episodes/*.yaml"),
    "no length": _sub(r', length: "[^"]*"', "", "episodes/*.yaml"),
    "the name of a block": _sub(r"- name: .*$", "- name: Block WORD", "episodes/*.yaml"),
    "the time of an item": _sub(r'(at: "\d:)([0-4])', _other_number, "episodes/*.yaml"),
    "an exercise's name": _sub(r"^name: .*$", "name: New WORD", "exercises/*.yaml"),
    "a variant's name": _sub(r"(?<=    )name: .*$", "name: Variant WORD", "exercises/*.yaml"),
    "another name": _sub(r"^also: \[", "also: [WORD, ", "exercises/*.yaml"),
    "a cue": _sub(r"^cues:\n", "cues:\n  - Think of *WORD*\n", "exercises/*.yaml"),
    "a demand less": _sub(r"demands: \[[^\]]*\]", "demands: []", "exercises/*.yaml"),
    "a demand": _sub(r"demands: \[\]", "demands: [jumping]", "exercises/*.yaml"),
    "no kit": _sub(r"kit: \[[^\]]*\]", "kit: []", "exercises/*.yaml"),
    "muscles": _sub(r"prime: \[[^\]]*\]", "prime: [calves]", "exercises/*.yaml"),
    "a pose": _sub(r"^poses:\n", "poses:\n  says: {start: Stand WORD.}\n", "exercises/*.yaml"),
    "a drawn pose": _sub(r"(^  finish: \{.*?: )(\d+)", _next_number, "exercises/*.yaml"),
    "a pattern": _sub(r"^pattern: .*$", "pattern: squat", "exercises/*.yaml"),
    "captions": _sub(r"\b(the|and|a)\b", "WORD", "captions/*.vtt"),
    "a routine": _sub(r"^name: .*$", "name: Routine WORD", "routines/*.yaml"),
    "a page's words": _sub(r"\b(the|and|a)\b", "WORD", "pages/*.md"),
    "the series' title": _sub(r"^title: .*$", "title: Series WORD", "series.yaml"),
    "the address": _sub(r"^address: .*$", "address: https://WORD.example/", "series.yaml"),
    "the language": _sub(r"^language: .*$", _other_language, "series.yaml"),
    "a language's strings": _translate,
    "another theme": _other_theme,
    "the units": _sub(r"^units: .*$", "units: us", "series.yaml"),
    "a need": _need(r"name: .*", "name: Need WORD"),
    "what a need avoids": _need(r"avoids: \[", "avoids: [straining, "),
    "kit": _sub(r"^    name: (Food tin|Bath towel|Cushion).*$", "    name: Thing WORD", "series.yaml"),
    "the time of day": _sub(r'(time: "1)(\d)', lambda m: f"{m[1]}{(int(m[2]) + 1) % 9}", "series.yaml"),
    "the first day": _sub(r"(start: 2026-09-)(\d\d)", _other_day, "series.yaml"),
    "a move": _say_moved,
    "equal size and time": _same_size_and_time,
    "an exercise renamed": _rename_exercise,
    "an episode renamed": _rename_episode,
    "two exercises swapped": _swap("exercises/*.yaml"),
    "two episodes swapped": _swap("episodes/*.yaml"),
    "two captions swapped": _swap("captions/*.vtt"),
    "two videos swapped": _swap("media/*.mp4"),
    "numbers swapped": _swap_numbers,
    "an episode more": _copy_episode,
    "an episode less": _drop("episodes/*.yaml"),
    "an exercise more": _copy_exercise,
    "an exercise less": _drop("exercises/*.yaml"),
    "a page more": _new_page,
    "a page less": _drop("pages/*.md"),
    "other media": _replace_media,
    "another film": _another_film,
    "media moved": _move_media,
    "a picture redrawn": _redraw,
    "nothing but the time": _touch,
    "a comment": _comment,
    "the day": _day,
    "a string": _theme(r"^(  \w+: )(\w+)$", r"\1WORD", "strings/en/[ehns]*.yaml"),
    "a template": _theme(r"(</main>|</section>)", r"<!-- WORD -->\1", "templates/*.html"),
    "a style more or renamed": _another_style,
    "a style": _theme(r"\Z", "/* WORD */", "styles/*.css"),
    "a library": _new_library,
    "another series": _other_series,
    "a library in place": _share_library,
    "a cue in that library": _shared(_sub(r"^cues:\n", "cues:\n  - Think of *WORD*\n", "exercises/*.yaml")),
    "a name in that library": _shared(
        _sub(r"^name: .*$", "name: Shared WORD", "exercises/*.yaml", "routines/*.yaml")
    ),
    "a demand in that library": _shared(_sub(r"demands: \[\]", "demands: [jumping]", "exercises/*.yaml")),
    "a need in that library": _shared(_need(r"name: .*", "name: Need WORD")),
    "two exercises of that library swapped": _shared(_swap("exercises/*.yaml")),
    "equal size and time in that library": _shared(_same_size_and_time),
    "an exercise less in that library": _shared(_drop("exercises/*.yaml")),
    "a picture redrawn in that library": _shared(_redraw),
    "a file of the site": _scribble,
}  # fmt: skip


# --- the builds --------------------------------------------------------------------------------


@contextmanager
def _library(version: int) -> Iterator[None]:
    """The Markdown library of that version."""
    from markdown_it.renderer import RendererHTML

    from sitegen import resources
    from sitegen.commands import build
    from sitegen.reading import markdown

    plain, installed = RendererHTML.render, resources.libraries()

    def render(self: RendererHTML, *given: object) -> str:
        return str(plain(self, *given)).replace("<em>", f'<em class="v{version}">')  # type: ignore[arg-type]

    for cached in (markdown.inline_html, markdown.block_html):
        cached.cache_clear()
    newer = [*installed, (f"markdown_it_py-{version}.dist-info", version)]
    with mock.patch.object(RendererHTML, "render", render), contextlib.ExitStack() as stack:
        for module in (resources, build):
            stack.enter_context(mock.patch.object(module, "libraries", return_value=newer))
        yield


class Left(enum.Enum):
    """Why nothing was built after an edit."""

    UNTOUCHED = "found nothing to change"
    TAKEN_BACK = "made problems and was taken back"


def wrong_after(series: Edited, name: str) -> list[str] | Left:
    """Do an edit and build; addresses that are not as from scratch.

    A build that breaks off otherwise than with problems of the content counts as one of them.
    """
    series.log.append(name)
    before = series.root / "before"
    shutil.rmtree(before, ignore_errors=True)
    folders = [name for name in (series.name, "themes", _SHARED) if (series.root / name).is_dir()]
    for folder in folders:
        # With its times, so that what is put back looks as it did.
        shutil.copytree(series.root / folder, before / folder)
    state = _state(series)
    EDITS[name](series)
    if _state(series) == state:
        return Left.UNTOUCHED
    with (
        _library(series.library),
        mock.patch.object(series_parts, "SESSIONS", series.together),
        mock.patch.object(inputs, "_MANY", 2),
    ):
        try:
            built = _built_by_command(series)
        except Exception as error:
            return [f"the build broke off: {error!r}"]
        if not built:
            series.name = folders[0]
            for folder in {*folders, _SHARED}:
                shutil.rmtree(series.root / folder, ignore_errors=True)
                if folder in folders:
                    shutil.copytree(before / folder, series.root / folder)
            return Left.TAKEN_BACK
        try:
            with mock.patch.dict(theme_choice._KEPT, clear=True):  # themes are edited too
                wanted = made_from_scratch(series.content, today=series.today)
        except ContentError:
            return ["there are problems that the build did not find"]
        return differences(tree(series.out), wanted)


def _state(series: Edited) -> list[object]:
    folders = (series.name, "themes", _SHARED, "build")
    paths = sorted(path for folder in folders for path in (series.root / folder).rglob("*"))
    # By the system itself, not by the program's own look at files, which is on trial.
    found = [path.lstat() for path in paths]
    states = [(one.st_size, one.st_mtime_ns, one.st_ctime_ns) for one in found]
    return [series.name, series.today, series.library, paths, states]


def _built_by_command(series: Edited) -> bool:
    """Whether the content had no problems. The command runs in this process: starting Python takes longer."""
    words = ["build", "--content", str(series.content), "--out", str(series.out), "--pages-only"]
    words += ["--jobs", str(series.chance.choice((1, 1, 1, 2)))]
    words += ["--include-upcoming"] if series.today is None else ["--today", series.today.isoformat()]
    if series.chance.random() < 0.5:
        let_settle(series.content)  # as after a cup of tea: what was read now is remembered
    with contextlib.redirect_stdout(io.StringIO()), contextlib.redirect_stderr(io.StringIO()):
        status = cli.main(words)
    gc.enable()  # which the command, a run of its own as a rule, has turned off
    return status == cli.OK
