"""A new season of a series: its library goes along, its episodes stay where they are."""

import os
import re
import shutil
from collections.abc import Collection, Iterator
from datetime import date
from pathlib import Path

from sitegen.commands.next_episode import next_release
from sitegen.model import Series
from sitegen.reading.own_pictures import own_pictures
from sitegen.reading.schemas.texts import FolderBeside
from sitegen.reading.shared_library import version_of
from sitegen.resources import starter_folder

_FOLDERS = ("exercises", "routines", "pages")
_TO_WRITE_ANEW = ("title", "summary", "address")
"""Keys that are the starter's again, so that nothing goes out before they are written: a season at the
address of the one before would take that one's place."""
_LEFT_OUT = ("publish", "moved", "silence", "library")
"""Keys that speak of the old season's places and files."""
_OF_LIBRARY = ("kit", "muscles", "demands", "needs", "cautions", "call_if", "stop_if", "emergency_number")
"""Keys that a series has from a library it reads in place."""


def start_season(old: Path, series: Series, new: Path, today: date, *, in_place: bool) -> None:
    """Write the content of a new season into ``new``, which is not there yet.

    Exercises, shared blocks, pages and series.yaml are copied with every comment; of the media only the
    pictures that these use, logo and photograph among them. With ``in_place`` exercises and blocks stay where
    they are and are read there.
    A library that the old season reads in place is read in place by the new one too.

    Raises ValueError where the new folder is no place to read a library from.
    """
    link = _link(old, series, new, in_place=in_place)
    stays = in_place and series.library is None
    new.mkdir(parents=True)
    for folder in ("pages",) if stays else _FOLDERS:
        if (old / folder).is_dir():
            shutil.copytree(old / folder, new / folder)
    for file in sorted({*own_pictures(series.details), *(() if stays else _pictures(series))}):
        place = new / file
        place.parent.mkdir(parents=True, exist_ok=True)
        shutil.copyfile(old / file, place)
    text = (old / "series.yaml").read_text(encoding="utf-8-sig")
    start = next_release(series, today)
    version = version_of(series.digests)
    head = (
        f"# A new season of {series.details.title!r}, begun on {today}; version {version} of its library.\n"
    )
    season = season_text(text, start, (*_LEFT_OUT, *(_OF_LIBRARY if stays else ())))
    (new / "series.yaml").write_text(head + season + link, encoding="utf-8")


def _link(old: Path, series: Series, new: Path, *, in_place: bool) -> str:
    """The lines of ``library:``; none where the new season has everything of its own."""
    if series.library is None and not in_place:
        return ""
    there, version = old, version_of(series.digests)
    if series.library is not None:
        there, version = old / series.library.folder, series.library.version
    way = os.path.relpath(os.path.realpath(there), os.path.realpath(new)).replace(os.sep, "/")
    folder = FolderBeside().parse(way)
    return (
        "\n# Exercises, shared blocks, kit, needs and cautions are read there and never written to.\n"
        f"library: {{folder: {folder}, version: {version}}}\n"
    )


def season_text(text: str, start: date | None, without: Collection[str] = _LEFT_OUT) -> str:
    """The text of series.yaml for a new season without some keys; its training begins on ``start``."""
    starter = (starter_folder() / "series.yaml").read_text(encoding="utf-8")
    replaced = {key: part for key, part in _parts(starter) if key in _TO_WRITE_ANEW}
    parts = []
    for key, part in _parts(text):
        if key in replaced:
            parts.append(replaced[key])
        elif key == "schedule" and start is not None:
            parts.append(re.sub(r"\bstart: *\d{4}-\d\d-\d\d", f"start: {start}", part, count=1))
        elif key not in without:
            parts.append(part)
    return "".join(parts)


def _parts(text: str) -> Iterator[tuple[str, str]]:
    """The top-level keys of a YAML file with their lines, comments above a key with it."""
    lines = text.splitlines(keepends=True)
    starts = [at for at, line in enumerate(lines) if re.match(r"[A-Za-z_]+ *:", line)]
    for count, at in enumerate(starts):
        end = starts[count + 1] if count + 1 < len(starts) else len(lines)
        yield lines[at].partition(":")[0].strip(), "".join(lines[_above(lines, at) : _above(lines, end)])


def _above(lines: list[str], at: int) -> int:
    """Where the comments that stand directly above a line begin."""
    while at < len(lines) and at > 0 and lines[at - 1].startswith("#"):
        at -= 1
    return at


def _pictures(series: Series) -> set[str]:
    """Those of the series' own exercises."""
    used = {file for exercise in series.exercises.values() for file in exercise.media}
    return {file for file in used if series.in_its_folder(file) == file}
