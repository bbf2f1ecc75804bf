"""The trainer's logo and photograph: which files they are, and how large."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

from sitegen.model import Details, Series
from sitegen.problems import Location, Problem, found
from sitegen.reading.folder import Inventory
from sitegen.reading.picture_size import picture_size

_MOST_BYTES = 30_000_000
"""No picture for a page is larger; what is read here comes from a folder that may be somebody else's."""


def own_pictures(details: Details) -> tuple[str, ...]:
    """Files of the logo and the photograph that are given."""
    return tuple(file for file, _ in _pictures(details))


def _pictures(details: Details) -> Iterator[tuple[str, Location]]:
    logo, photo = details.look.logo, details.trainer.photo
    if logo:
        yield logo.file, details.location.at("look", "logo", "file")
    if logo and logo.dark:
        yield logo.dark, details.location.at("look", "logo", "dark")
    if photo:
        yield photo.file, details.location.at("trainer", "photo", "file")


def fill_in_sizes(series: Series, inventory: Inventory, problems: list[Problem]) -> Series:
    """The series with their sizes, so that pages leave room; what is no picture joins ``problems``."""
    sizes = {}
    for file, location in _pictures(series.details):
        if file not in inventory.stamps:
            continue  # told where the files meet
        size = _size(inventory.root / file)
        if size is None:
            problems.append(_no_picture(file, location))
        else:
            sizes[file] = size
    return replace(series, sizes=sizes) if sizes else series


def _size(path: Path) -> tuple[int, int] | None:
    try:
        return picture_size(path.read_bytes()) if path.stat().st_size <= _MOST_BYTES else None
    except OSError:
        return None


def _no_picture(file: str, location: Location) -> Problem:
    message = f"{file!r} is no picture that every browser shows"
    advice = (
        "export it as SVG, PNG, JPEG or WebP, of less than 30 MB (phones write HEIC unless told otherwise)"
    )
    return found("problem", "picture-form", location, message, advice)
