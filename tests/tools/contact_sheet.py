"""Write a contact sheet of every drawing: an HTML page, and a PNG of it where Chromium is there.

    python -m tests.tools.contact_sheet OUT.html [--content FOLDER] [--only ID,ID] [--names no] [--dark]

Without names the sheet can be shown to somebody who has not seen the exercises, to ask what they see.
"""

import argparse
import html
from pathlib import Path

from playwright.sync_api import sync_playwright

from sitegen.pages.drawings.picture import PosePicture, pictures
from sitegen.pages.theme import Theme
from sitegen.reading.reader import read_content
from sitegen.study.body.movement import move_through, spelled_out
from sitegen.study.forms import Form, forms_of
from tests.conftest import CHROMIUM, CHROMIUM_FLAGS, ROOT

LIGHT = ("#f5f6f4", "#161b21", "#7a8187", "#4c545b", "#a34700")
DARK = ("#14181c", "#eef0ec", "#737c83", "#b0b8bc", "#f39a5b")
"""Paper, ink, far limbs, things and load, as the theme has them."""


def drawn(form: Form) -> tuple[PosePicture, ...]:
    """The pictures of a form; none where it has no poses."""
    if form.poses is None:
        return ()
    poses = spelled_out(form.poses.start, form.poses.through, form.poses.finish)
    return pictures(move_through(poses))


def write_sheet(out: Path, content: Path, only: set[str], *, names: bool, dark: bool, columns: int) -> int:
    """Write the page; gives the number of forms on it."""
    series = read_content(content).series
    assert series is not None, "the content does not read"
    theme = Theme(ROOT / "themes/tidewater", "en")
    macro = theme.environment.get_template("drawings.html").module.drawing
    cells = []
    for key, form in forms_of(series.exercises).items():
        if form.link or (only and key.exercise not in only):
            continue
        shown = drawn(form)
        label = f"{key.exercise}<br>{key.variant or ''}" if names else str(len(cells) + 1)
        body = "".join(macro(picture) for picture in shown) or "<i>none</i>"
        cells.append(f"<div><p>{label}</p>{body}</div>")
    page = sheet_of(cells, columns, *(DARK if dark else LIGHT))
    out.write_text(page, encoding="utf-8")
    return len(cells)


def sheet_of(cells: list[str], columns: int, paper: str, ink: str, far: str, soft: str, load: str) -> str:
    """A page of cells in the theme's colours."""
    style = (ROOT / "themes/tidewater/styles/drawings.css").read_text()
    return (
        f"<!doctype html><title>{html.escape('Contact sheet')}</title><style>{style}"
        f":root{{--ink:{ink};--paper:{paper};--far:{far};--soft:{soft};--load:{load}}}"
        f"body{{margin:8px;background:var(--paper);color:var(--ink);font:11px sans-serif;display:grid;"
        f"grid-template-columns:repeat({columns},1fr);gap:8px}}div{{border-top:1px solid}}"
        f"p{{margin:2px 0;min-height:2.4em}}"
        f".drawing{{display:inline-block;height:118px;width:auto;max-width:49%}}</style>{''.join(cells)}"
    )


def photograph(page: Path, width: int = 1500) -> Path:
    """A PNG beside the page."""
    image = page.with_suffix(".png")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=CHROMIUM_FLAGS)
        tab = browser.new_page(viewport={"width": width, "height": 800})
        tab.goto(page.resolve().as_uri())
        tab.screenshot(path=str(image), full_page=True)
        browser.close()
    return image


def main() -> None:
    """Read the arguments and write the sheet."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("out", type=Path)
    parser.add_argument("--content", type=Path, default=ROOT / "content")
    parser.add_argument("--only", default="")
    parser.add_argument("--names", choices=("yes", "no"), default="yes")
    parser.add_argument("--dark", action="store_true")
    parser.add_argument("--columns", type=int, default=6)
    args = parser.parse_args()
    only = {name for name in args.only.split(",") if name}
    count = write_sheet(
        args.out, args.content, only, names=args.names == "yes", dark=args.dark, columns=args.columns
    )
    print(f"{count} forms: {args.out}, {photograph(args.out)}")


if __name__ == "__main__":
    main()
