"""A logo or a photograph that takes long to load: the files are shown as they are."""

from collections.abc import Iterator

from sitegen.model import Series
from sitegen.problems import Problem, found
from sitegen.reading.folder import Inventory
from sitegen.reading.media import can_draw

_LOGO, _PHOTO = 60_000, 400_000
"""Most bytes: a logo is on every page, and a page without its fonts has 60 kB; a photograph loads when one
scrolls to it, in less than a second where a telephone gets 4 Mbit/s (common practice, no source)."""


def heavy_pictures(series: Series, inventory: Inventory) -> Iterator[Problem]:
    """Own pictures of more bytes than a page should wait for; ffmpeg makes a photograph small."""
    logo, photo = series.details.look.logo, series.details.trainer.photo
    location = series.details.location
    if logo and (size := _bytes(logo.file, inventory)) > _LOGO:
        message = f"the logo has {size // 1000} kB and is on every page"
        advice = "export it as SVG, or as a PNG about 90 pixels high"
        yield found("warning", "heavy-picture", location.at("look", "logo", "file"), message, advice)
    if photo and (size := _bytes(photo.file, inventory)) > _PHOTO and not can_draw():
        message = f"the photograph has {size // 1000} kB, and may say where it was taken"
        advice = "install ffmpeg, which makes it small, or export it 1280 pixels wide without its data"
        yield found("warning", "heavy-picture", location.at("trainer", "photo", "file"), message, advice)


def _bytes(file: str, inventory: Inventory) -> int:
    return inventory.stamps[file].size if file in inventory.stamps else 0
