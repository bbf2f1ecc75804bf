"""Write the widths of the sheet font's characters, from which a build tells what fits on a page.

Run after a change of the fonts: ``python tests/tools/measure_sheet_font.py`` (needs fonttools and brotli).
"""

import json
from pathlib import Path

from fontTools.ttLib import TTFont

THEME = Path(__file__).parents[2] / "themes" / "tidewater"
FONTS = THEME / "fonts"
OUT = THEME / "metrics" / "sheet-font.json"
WEIGHTS = ("400", "700")


def widths(weight: str) -> dict[str, int]:
    """Advance width in thousandths of an em by character, over all files of a weight."""
    found: dict[str, int] = {}
    for path in sorted(FONTS.glob(f"barlow-semi-condensed-*-{weight}.woff2")):
        font = TTFont(path)
        em = font["head"].unitsPerEm
        advances = font["hmtx"]
        for code, glyph in font.getBestCmap().items():
            found.setdefault(chr(code), round(advances[glyph][0] * 1000 / em))
    return found


def main() -> None:
    """Write the file."""
    by_weight = {weight: widths(weight) for weight in WEIGHTS}
    characters = "".join(sorted(set.intersection(*(set(table) for table in by_weight.values()))))
    data: dict[str, object] = {"characters": characters}
    data |= {weight: [table[c] for c in characters] for weight, table in by_weight.items()}
    OUT.parent.mkdir(exist_ok=True)
    OUT.write_text(json.dumps(data, ensure_ascii=False, separators=(",", ":")) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
