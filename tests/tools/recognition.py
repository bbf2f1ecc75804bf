"""Lay out drawings without names, each with four names of similar exercises, for fresh eyes.

    python -m tests.tools.recognition FOLDER [--count 40] [--seed 1] [--content FOLDER]
    python -m tests.tools.recognition FOLDER --answers FILE

writes ``sheet-1.png`` and so on, ten drawings each, and apart from them ``key.txt``. Whoever judges has not
seen the exercises and writes a line ``7 b`` for each drawing, with ``?`` behind it if unsure; ``--answers``
counts these lines against the key. The wrong names are those of forms of three other exercises out of the six
that are most alike: same base, movement, kit and muscles. A form that is drawn the same, as far as an eye can
tell, is no wrong name: "slow" and "steady" punches differ in what no drawing shows, so nobody could choose.
"""

import argparse
import html
import math
import random
import re
from collections.abc import Sequence
from pathlib import Path

from sitegen.pages.drawings.picture import PosePicture
from sitegen.pages.drawings.shapes import Disc, Shape
from sitegen.pages.theme import Theme
from sitegen.reading.reader import read_content
from sitegen.study.forms import Form, forms_of
from tests.conftest import ROOT
from tests.tools.contact_sheet import LIGHT, drawn, photograph, sheet_of

LETTERS = "abcd"
ON_A_SHEET = 10
NEAREST = 6
"""The wrong names are drawn from so many of the most similar forms."""
TOLD_APART = 9.0
"""Drawing units (10 cm of the body): what differs less is not seen without the other drawing beside it."""


def drawn_alike(one: Form, other: Form) -> bool:
    """Whether two forms are drawn with the same shapes in nearly the same places."""
    these, those = drawn(one), drawn(other)
    if len(these) != len(those):
        return False
    return all(apart(a, b) < TOLD_APART for a, b in zip(these, those, strict=True))


def apart(one: PosePicture, other: PosePicture) -> float:
    """The furthest that a point of one picture is from where the other has it; endless for other shapes."""
    if [shape.kind for shape in one.shapes] != [shape.kind for shape in other.shapes]:
        return math.inf
    pairs = [(numbers(a), numbers(b)) for a, b in zip(one.shapes, other.shapes, strict=True)]
    if any(len(a) != len(b) for a, b in pairs):
        return math.inf
    return max(abs(x - y) for a, b in pairs for x, y in zip(a, b, strict=True))


def numbers(shape: Shape) -> list[float]:
    """Every number of a shape; of an arrow those that say which way it points; of the ground none."""
    if isinstance(shape, Disc):
        return [shape.x, shape.y]
    found = [float(text) for text in re.findall(r"-?[0-9.]+", shape.path)]
    if shape.kind == "ground":
        return []
    return [value - found[at % 2] for at, value in enumerate(found)] if shape.kind == "arrow" else found


def similar(form: Form, forms: Sequence[Form], dice: random.Random) -> list[Form]:
    """Three forms of three other exercises that might be taken for this one."""

    def alike(other: Form) -> int:
        base = form.poses is not None and other.poses is not None
        same_base = base and form.poses.start.get("base") == other.poses.start.get("base")
        muscles = len({*form.muscles.prime} & {*other.muscles.prime})
        return 4 * same_base + 3 * (form.pattern == other.pattern) + 2 * (form.kit == other.kit) + muscles

    others = [other for other in forms if other.exercise != form.exercise]
    dice.shuffle(others)
    others.sort(key=alike, reverse=True)
    nearest: dict[str, Form] = {}
    for other in others:
        if len(nearest) == NEAREST:
            break
        if other.exercise not in nearest and other.name != form.name and not drawn_alike(form, other):
            nearest[other.exercise] = other
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
