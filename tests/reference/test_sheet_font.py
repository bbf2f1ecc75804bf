"""The widths from which the build tells what fits, against the font files themselves (OpenType, hmtx)."""

import json

import pytest
from fontTools.ttLib import TTFont

from sitegen.resources import themes_folder

THEME = themes_folder() / "tidewater"
TABLE = json.loads((THEME / "metrics" / "sheet-font.json").read_text(encoding="utf-8"))


def advances(weight: str) -> dict[str, int]:
    """Thousandths of an em by character, over the files of a weight."""
    found = {}
    for path in sorted(THEME.glob(f"fonts/barlow-semi-condensed-*-{weight}.woff2")):
        font = TTFont(path)
        metrics, em = font["hmtx"], font["head"].unitsPerEm
        found |= {
            chr(code): round(metrics[glyph][0] * 1000 / em) for code, glyph in font.getBestCmap().items()
        }
    return found


@pytest.mark.parametrize("weight", ["400", "700"])
def test_every_width_is_that_of_the_font(weight: str) -> None:
    font = advances(weight)
    widths = dict(zip(TABLE["characters"], TABLE[weight], strict=True))
    assert {character: font[character] for character in widths} == widths


def test_the_letters_of_central_european_languages_are_measured() -> None:
    wanted = "äöüÄÖÜßéèêëàâçñúíóåæøœąćęłńśźżčďěňřšťůžőűșț“”„‚‘’–—·×€"
    assert set(wanted) <= set(TABLE["characters"])


def test_the_font_comes_with_its_licence() -> None:
    licence = (THEME / "fonts" / "barlow-semi-condensed-OFL.txt").read_text(encoding="utf-8")
    assert "SIL Open Font License, Version 1.1" in licence
