"""Write the font of the pictures for links: the bold face of the pages as one TrueType file.

The pages' files are WOFF2 in two parts, which what draws the pictures does not read. Run after a change of
the fonts: ``python tests/tools/make_picture_font.py`` (needs fonttools and brotli).
"""

import tempfile
from pathlib import Path

from fontTools.merge import Merger
from fontTools.ttLib import TTFont

THEME = Path(__file__).parents[2] / "themes" / "tidewater"
OUT = THEME / "type" / "barlow-semi-condensed-700.ttf"
_UNUSED = ("GSUB", "GPOS", "GDEF", "STAT", "gasp")
"""Tables for ligatures, kerning and screens; the pictures do without."""


def main() -> None:
    """Write the file."""
    with tempfile.TemporaryDirectory() as folder:
        parts = []
        for path in sorted(THEME.glob("fonts/barlow-semi-condensed-*-700.woff2")):
            font = TTFont(path, recalcTimestamp=False)
            font.flavor = None
            for table in _UNUSED:
                if table in font:
                    del font[table]
            parts.append(f"{folder}/{path.stem}.ttf")
            font.save(parts[-1])
        merged = Merger().merge(parts)
        merged.recalcTimestamp = False
        OUT.parent.mkdir(exist_ok=True)
        merged.save(OUT)


if __name__ == "__main__":
    main()
