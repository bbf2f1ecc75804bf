"""A new season of a series: its library goes along, its episodes stay where they are."""

import re
import shutil
from collections.abc import Iterator, Mapping
from datetime import date
from pathlib import Path

from sitegen.commands.next_episode import next_release
from sitegen.model import Series
from sitegen.resources import starter_folder

_FOLDERS = ("exercises", "routines", "pages")
_TO_WRITE_ANEW = ("title", "summary", "address")
"""Keys that are the starter's again, so that nothing goes out before they are written: a season at the
address of the one before would take that one's place."""
_LEFT_OUT = ("publish", "moved", "silence")
"""Keys that speak of the old season's places and files."""


def start_season(old: Path, series: Series, version: str, new: Path, today: date) -> None:
    """Write the content of a new season into ``new``, which is not there yet.

    Exercises, shared blocks, pages and series.yaml are copied with every comment; of the media only the
    pictures that these use. ``version`` is the fingerprint of the library taken over.
    """
    new.mkdir(parents=True)
    for folder in _FOLDERS:
        if (old / folder).is_dir():
            shutil.copytree(old / folder, new / folder)
    for file in sorted(_pictures(series)):
        place = new / file
        place.parent.mkdir(parents=True, exist_ok=True)
        shutil.copyfile(old / file, place)
    text = (old / "series.yaml").read_text(encoding="utf-8-sig")
    start = next_release(series, today)
    head = f"# Library taken over from {series.details.title!r} on {today}, version {version}.\n"
    (new / "series.yaml").write_text(head + season_text(text, start), encoding="utf-8")


def season_text(text: str, start: date | None) -> str:
    """The text of series.yaml for a new season; its training begins on ``start``."""
    replaced = _starter_lines()
    parts = []
    for key, part in _parts(text):
        if key in replaced:
            parts.append(replaced[key])
        elif key == "schedule" and start is not None:
            parts.append(re.sub(r"\bstart: *\d{4}-\d\d-\d\d", f"start: {start}", part, count=1))
        elif key not in _LEFT_OUT:
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


def _starter_lines() -> Mapping[str, str]:
    text = (starter_folder() / "series.yaml").read_text(encoding="utf-8")
    return {key: part for key, part in _parts(text) if key in _TO_WRITE_ANEW}


def _pictures(series: Series) -> set[str]:
    found = {picture.file for exercise in series.exercises.values() for picture in exercise.pictures}
    variants = (variant for exercise in series.exercises.values() for variant in exercise.variants)
    return found | {picture.file for variant in variants for picture in variant.pictures}
