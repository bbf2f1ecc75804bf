"""Lay out drawings without names, each with four names of similar exercises, for fresh eyes.

    python -m tests.tools.recognition FOLDER [--count 40] [--seed 1] [--content FOLDER]
    python -m tests.tools.recognition FOLDER --answers FILE

writes ``sheet-1.png`` and so on, ten drawings each, and apart from them ``key.txt``. Whoever judges has not
seen the exercises and writes a line ``7 b`` for each drawing, with ``?`` behind it if unsure; ``--answers``
counts these lines against the key. The wrong names are those of forms of other exercises that are most alike:
same base, movement, kit and muscles.
"""

import argparse
import html
import random
import re
from collections.abc import Sequence
from pathlib import Path

from sitegen.pages.theme import Theme
from sitegen.reading.reader import read_content
from sitegen.study.forms import Form, forms_of
from tests.conftest import ROOT
from tests.tools.contact_sheet import LIGHT, drawn, photograph, sheet_of

LETTERS = "abcd"
ON_A_SHEET = 10
NEAREST = 6
"""The wrong names are drawn from so many of the most similar forms."""


def similar(form: Form, forms: Sequence[Form], dice: random.Random) -> list[Form]:
    """Three forms of three other exercises that might be taken for this one."""
    shown = drawn(form)

    def alike(other: Form) -> int:
        base = form.poses is not None and other.poses is not None
        same_base = base and form.poses.start.get("base") == other.poses.start.get("base")
        muscles = len({*form.muscles.prime} & {*other.muscles.prime})
        return 4 * same_base + 3 * (form.pattern == other.pattern) + 2 * (form.kit == other.kit) + muscles

    others = [other for other in forms if other.exercise != form.exercise and drawn(other) != shown]
    dice.shuffle(others)
    others.sort(key=alike, reverse=True)
    nearest: dict[str, Form] = {}
    for other in others:
        if other.name != form.name and len(nearest) < NEAREST:
            nearest.setdefault(other.exercise, other)
    return dice.sample(list(nearest.values()), len(LETTERS) - 1)


def write_sheets(folder: Path, content: Path, count: int, seed: int) -> None:
    """Write the sheets and the key."""
    series = read_content(content).series
    assert series is not None, "the content does not read"
    forms = [f for f in forms_of(series.exercises).values() if f.poses is not None and not f.link]
    dice = random.Random(seed)
    macro = Theme(ROOT / "themes/tidewater", "en").environment.get_template("drawings.html").module.drawing
    cells, key = [], []
    for number, form in enumerate(dice.sample(forms, count), 1):
        names = [form, *similar(form, forms, dice)]
        dice.shuffle(names)
        key.append(
            f"{number} {LETTERS[names.index(form)]} {form.key.exercise}/{form.key.variant or ''} {form.name}"
        )
        choices = "<br>".join(
            f"{letter}) {html.escape(one.name)}" for letter, one in zip(LETTERS, names, strict=True)
        )
        cells.append(
            f"<div style='font-size:15px'><p><b>{number}</b></p>{''.join(macro(one) for one in drawn(form))}"
            f"<p>{choices}</p></div>"
        )
    folder.mkdir(parents=True, exist_ok=True)
    for sheet, start in enumerate(range(0, count, ON_A_SHEET), 1):
        page = folder / f"sheet-{sheet}.html"
        page.write_text(sheet_of(cells[start : start + ON_A_SHEET], 4, *LIGHT), encoding="utf-8")
        photograph(page)
        page.unlink()
    (folder / "key.txt").write_text("\n".join(key) + "\n", encoding="utf-8")


def count_answers(folder: Path, answers: Path) -> None:
    """Print how many are right, and those that are wrong or unsure."""
    key = {line.split()[0]: line.split(maxsplit=2) for line in (folder / "key.txt").read_text().splitlines()}
    given = dict(re.findall(r"^ *(\d+)\W* ([a-d] *\??)", answers.read_text().lower(), re.MULTILINE))
    right = [number for number in key if given.get(number, "").rstrip("? ") == key[number][1]]
    print(f"{len(right)} of {len(key)} right")
    for number, (_, letter, form) in key.items():
        answer = given.get(number, "none")
        if number not in right or "?" in answer:
            print(f"{number}: {answer} for {letter}, {form}")


def main() -> None:
    """Read the arguments; write sheets or count answers."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folder", type=Path)
    parser.add_argument("--content", type=Path, default=ROOT / "content")
    parser.add_argument("--count", type=int, default=40)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--answers", type=Path)
    args = parser.parse_args()
    if args.answers:
        count_answers(args.folder, args.answers)
    else:
        write_sheets(args.folder, args.content, args.count, args.seed)


if __name__ == "__main__":
    main()
