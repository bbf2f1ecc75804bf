"""Pictures for links: the same bytes each time, names of any length and script, and told to messengers.

Open Graph (ogp.me): every page has og:title, og:type, og:url and og:image; addresses are absolute.
"""

import io
from dataclasses import replace
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from PIL import Image

from sitegen.building.build import Builder
from sitegen.pages.link_picture import LinkPainter, fitted
from sitegen.pages.sheets.metrics import Ruler
from sitegen.pages.views import Views
from tests.conftest import DEMO, ROOT

RULER = Ruler((ROOT / "themes/tidewater/metrics/sheet-font.json").read_bytes())
SIZES = (120, 100, 84, 70, 58)
TITLES = {
    "short": ("Ballast", 120, 1),
    "two lines": ("A very long haul up the river", 120, 2),
    "smaller": ("A very long haul up the river against wind and tide", 84, 2),
    "one long word": ("Donaudampfschifffahrtsgesellschaftskapitän", 58, 1),
    "of a script that the font lacks": ("満ち潮", 120, 0),
}


@pytest.mark.parametrize(("title", "size", "lines"), TITLES.values(), ids=TITLES)
def test_titles_of_any_length(title: str, size: int, lines: int) -> None:
    found = fitted(RULER, title, 1000, SIZES)

    assert (found[0], len(found[1])) == (size, lines)
    assert all(RULER.width(line, bold=True) * size <= 1000 for line in found[1])


def test_what_does_not_fit_is_cut_with_a_sign() -> None:
    size, lines = fitted(RULER, "Words " * 60, 700, SIZES)

    assert (size, len(lines)) == (58, 2)
    assert lines[-1].endswith("…")
    assert all(RULER.width(line, bold=True) * size <= 700 for line in lines)


def test_the_picture_is_a_png_and_the_same_each_time(tmp_path: Path) -> None:
    builder = Builder(DEMO, tmp_path / "build", jobs=1)
    site = builder.site(builder.read())
    first = site.series.episodes[0]
    made = [
        LinkPainter(site, Views(site), DEMO).session(episode)
        for episode in (first, first, replace(first, title="満ち潮"))
    ]

    assert made[0] == made[1] != made[2]
    picture = Image.open(io.BytesIO(made[0]))
    assert (picture.format, picture.size) == ("PNG", (1200, 630))
    # Ink, paper and the rust of a load or none of it: nothing else has a colour.
    ink = sum(count for count, colour in picture.convert("L").getcolors() or () if colour < 60)
    assert 0.03 < ink / (1200 * 630) < 0.5


def test_pages_say_what_they_are_to_messengers(demo_site: Path) -> None:
    for address in ("index.html", "episodes/ballast/index.html", "schedule/index.html"):
        page = BeautifulSoup((demo_site / address).read_bytes(), "html.parser")
        told = {one["property"]: one["content"] for one in page.select("meta[property^='og:']")}
        assert told["og:title"] == page.title.get_text()  # type: ignore[union-attr]
        assert told["og:url"] == page.select_one("link[rel=canonical]")["href"]  # type: ignore[index]
        assert told["og:type"] == "website"
        assert told["og:description"]
        # This build draws no pictures, and no session has one of the trainer's.
        assert told.keys().isdisjoint({"og:image"})
