"""The trainer's logo and photograph: which files they are, and how large."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from urllib.parse import quote

from sitegen.model import Details, Series
from sitegen.problems import Location, Problem, found
from sitegen.reading.folder import Inventory
from sitegen.reading.picture_size import picture_size

_HELD_BYTES = 2_000
"""An SVG logo of so many bytes stands in the pages themselves: it costs each of them about 1 kB packed and
spares a request, so that a session with a poster stays within its ten (tests/pages/test_page_budgets.py)."""
_MOST_BYTES = 30_000_000
"""No picture for a page is larger; what is read here comes from a folder that may be somebody else's."""


def own_pictures(details: Details) -> tuple[str, ...]:
    """Files of the logo and the photograph that are given."""
    return tuple(file for file, _ in pictures_of(details))


def pictures_of(details: Details) -> Iterator[tuple[str, Location]]:
    """Files of the logo and the photograph that are given, and where they are named."""
    logo, photo = details.look.logo, details.trainer.photo
    if logo:
        yield logo.file, details.location.at("look", "logo", "file")
    if logo and logo.dark:
        yield logo.dark, details.location.at("look", "logo", "dark")
    if photo:
        yield photo.file, details.location.at("trainer", "photo", "file")


def fill_in_sizes(series: Series, inventory: Inventory, problems: list[Problem]) -> Series:
    """The series with their sizes, so that pages leave room, and small logos.

    What is no picture joins ``problems``.
    """
    sizes, held = {}, {}
    for file, location in pictures_of(series.details):
        if file not in inventory.stamps:
            continue  # told where the files meet
        data = _bytes(inventory.root / file)
        size = picture_size(data)
        if size is None:
            message = f"{file!r} is no picture that every browser shows"
            advice = (
                "export it as SVG, PNG, JPEG or WebP, of less than 30 MB (phones write HEIC by themselves)"
            )
            problems.append(found("problem", "picture-form", location, message, advice))
            continue
        sizes[file] = size
        if file.lower().endswith(".svg") and len(data) <= _HELD_BYTES:
            held[file] = f"data:image/svg+xml,{quote(data, safe='/:;,=()')}"
    return replace(series, sizes=sizes, held_in_pages=held) if sizes else series


def _bytes(path: Path) -> bytes:
    try:
        return path.read_bytes() if path.stat().st_size <= _MOST_BYTES else b""
    except OSError:
        return b""
