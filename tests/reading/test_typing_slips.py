"""Slips of a typist in the demo's files: how often the message names their line, and mends the file."""

import time
from pathlib import Path

import pytest

from sitegen.reading.files import read_file
from sitegen.reading.pen_slips import doubtful
from tests.conftest import DEMO
from tests.folders import SeriesFolder
from tests.typing_slips import SLIPS, Outcome, Slip, content_files, outcome, places_of

_SAMPLED = 3
"""Slips of each kind that are tried: ``python -m tests.bench slips`` tries more of the 128,000 there are."""
_LARGEST = 6_000
"""Characters of the files that are spoiled: trials read them again and again."""
# Of 1,246 over all files there were 99.4 and 98.0 in 100 when this was written.
_PLACE_SHARE = 0.97
_MENDED_SHARE = 0.95


def test_messages_name_the_line_of_a_slip_and_mend_it() -> None:
    files = [one for one in content_files(DEMO) if len(one[2]) < _LARGEST]
    tried: list[tuple[Slip, Outcome]] = []
    for number, name in enumerate(SLIPS):
        found = [slip for file in files[number % 5 :: 5] for slip in places_of(*file, name)]
        for slip in found[:: len(found) // _SAMPLED + 1]:
            if one := outcome(slip):
                tried.append((slip, one))
    assert len(tried) > 60
    lost = [f"{slip.name}, {slip.file}:{slip.line}: {one.said}" for slip, one in tried if not one.mended]
    assert sum(one.place for _, one in tried) >= _PLACE_SHARE * len(tried), lost
    assert sum(one.mended for _, one in tried) >= _MENDED_SHARE * len(tried), lost


@pytest.mark.parametrize(
    ("text", "doubts"),
    [
        ("demands: [speed,\n  straining]\n", []),
        ("also: {one: [speed,\n  straining],\n  two: 1}\n", []),
        ("demands: speed, straining]\n", [1]),
        ("name: Step[1\ndemands: speed, straining]\n", [2]),
        ("kit: [towel]\ndemands: speed, straining]\n", [2]),
    ],
)
def test_a_bracket_is_doubtful_where_none_opened_it(text: str, doubts: list[int]) -> None:
    assert doubtful(text) == doubts


HAYLOFT = """\
title: Hayloft
number: 2
blocks:
  - name: Legs
    kind: strength
    format: superset
    at: "1:00"
    your_turn: "2:30"
    sets: 3
    rest: {between_sets: 60 s}
    items:
      - exercise: chair-squat
        at: "1:20"
        dose: 10
      - {exercise: backpack-row, at: "1:40", dose: 10}
"""

ROWS = {
    # id: (old, new with ¦ where the place must point, message, advice)
    "a colon forgotten before a quoted value": ('your_turn: "2:30"', 'your_turn¦ "2:30"', 'there is no colon after the key: `your_turn "2:30"`', 'write `your_turn: "2:30"`'),
    "a colon forgotten before a plain value": ("kind: strength", "kind¦ strength", "there is no colon after the key: `kind strength`", "write `kind: strength`"),
    "a colon forgotten after an entry's hyphen": ("- exercise: chair-squat", "- exercise¦ chair-squat", "there is no colon after the key: `exercise chair-squat`", "write `exercise: chair-squat`"),
    "a colon forgotten above a list": ("blocks:", "blocks¦", "there is no colon after the key: `blocks`", "write `blocks:`"),
    "no space after the colon on the first line": ("title: Hayloft", "title¦:Hayloft", "there is no space after the colon: `title:Hayloft`", "write `title: Hayloft`"),
    "no space after the colon in a list": ("        dose: 10\n", "        dose¦:10\n", "there is no space after the colon: `dose:10`", "write `dose: 10`"),
    "no space after the colon in braces": ("dose: 10}", "dose¦:10}", "there is no space after the colon: `dose:10`", "write `dose: 10`"),
    "no colon in braces": ("dose: 10}", "dose¦ 10}", "there is no colon after the key: `dose 10`", "write `dose: 10`"),
    "a brace that is not closed": ("- {exercise: backpack-row, at: \"1:40\", dose: 10}\n", "- ¦{exercise: backpack-row, at: \"1:40\", dose: 10\n", "the bracket { is opened on this line and not closed", "close it with } at the end of the line"),
    "non-breaking spaces before a key": ("        at: \"1:20\"", "¦\u00a0\u00a0\u00a0\u00a0\u00a0\u00a0\u00a0\u00a0at: \"1:20\"", "this line begins with a non-breaking space, which is no space, though it looks like one", "use spaces: begin it with 8 spaces, typed with the space bar"),
    "a space without width before a key": ("        at: \"1:20\"", "        ¦\u200bat: \"1:20\"", "this line begins with an invisible character (U+200B), which is no space, though it looks like one", "use spaces: begin it with 8 spaces, typed with the space bar"),
    "an en dash": ("- exercise: chair-squat", "¦– exercise: chair-squat", "this line begins with an en dash, `– `, which is no hyphen", "begin the entry with a hyphen and a space: `- `"),
    "a bullet": ("- exercise: chair-squat", "¦• exercise: chair-squat", "this line begins with a bullet, `• `, which is no hyphen", "begin the entry with a hyphen and a space: `- `"),
    "a bullet before every entry": ("- exercise: chair-squat\n        at: \"1:20\"\n        dose: 10\n      - {", "¦• exercise: chair-squat\n        at: \"1:20\"\n        dose: 10\n      • {", "this line begins with a bullet, `• `, which is no hyphen", "begin the entry with a hyphen and a space: `- `; 1 more line of the file begin so"),
    "a bracket that is not opened": ("rest: {between_sets: 60 s}", "rest: ¦between_sets: 60 s}", "the bracket } closes nothing: none is opened before it", "open it before `between_sets:`: `{between_sets:`"),
}  # fmt: skip


@pytest.mark.parametrize(("old", "new", "message", "advice"), ROWS.values(), ids=ROWS)
def test_a_slip_in_an_episode_is_answered_in_these_words(
    tmp_path: Path, old: str, new: str, message: str, advice: str
) -> None:
    file = "episodes/02-hayloft.yaml"
    series = SeriesFolder(tmp_path)
    series.write(file, HAYLOFT)
    assert series.problems() == []
    place = series.spoil(file, old, new)
    [problem] = series.problems()
    assert (problem.message, problem.advice) == (message, advice)
    assert (problem.line, problem.column) == place


def test_a_slip_of_the_hyphen_or_colon_hides_nothing_else_in_the_file() -> None:
    text = HAYLOFT.replace("kind: strength", "kind strength").replace("sets: 3", "set: 3")
    text = text.replace("      - exercise", "      – exercise").replace("number: 2", "number: two")
    told = read_file("episodes", "episodes/02-hayloft.yaml", text.encode()).problems
    assert sorted((p.line, p.check) for p in told) == [
        (2, "malformed"),
        (5, "not-yaml"),
        (9, "unknown-key"),
        (12, "not-yaml"),
    ]


RIGHT = {
    "a wrapped text with a dash at a line's beginning": "summary: Slow\n  – and tall",
    "a plural with its apostrophe": "summary: Mind the ladies'",
    "seconds": 'summary: Hold it for 30"',
    "brackets in a text": "summary: As said [above]",
    "a list in a text of several lines": "notes: |\n  - one\n    - two\n  – three]",
}


@pytest.mark.parametrize("line", RIGHT.values(), ids=RIGHT)
def test_what_is_right_is_left_alone(line: str) -> None:
    told = read_file("episodes", "episodes/02-hayloft.yaml", f"{line}\n{HAYLOFT}".encode())
    assert (told.problems, told.usable) == ((), True)


SWALLOWED = {
    "an en dash in a list of sentences": "  – Sit back\n  - Stand tall",
    "no space after a hyphen": "  -Sit back\n  - Stand tall",
    "a hyphen too far in": "  - Sit back\n   - Stand tall",
}


@pytest.mark.parametrize("cues", SWALLOWED.values(), ids=SWALLOWED)
def test_an_entry_that_yaml_swallows_is_told(tmp_path: Path, cues: str) -> None:
    series = SeriesFolder(tmp_path)
    text = (series.root / "exercises/jumping-jack.yaml").read_text().split("variants:")[0]
    head = "".join(
        line for line in text.splitlines(keepends=True) if line[:4] != "cues" and line[:3] != "  -"
    )
    told = read_file("exercises", "exercises/x.yaml", f"{head}cues:\n{cues}\n".encode())
    assert [one.check for one in told.problems] == ["not-yaml"]
    assert not told.usable


LARGE = {
    "tabs": "title: x\nblocks:\n" + "\t- name: a\n" * 4_000,
    "entries swallowed": "title: x\nnotes:\n" + "  -a\n" * 30_000,
    "spaces in a line": "title: x\nb {a" + " " * 90_000 + "b: {\n",
    "words in braces": "title: x\nb: {" + "a b," * 400,
    "colons forgotten": "title: x\nblocks:\n" + "  - name: a\n    dose:10\n" * 3_000,
}


@pytest.mark.parametrize("text", LARGE.values(), ids=LARGE)
def test_the_time_for_trials_is_bounded(text: str) -> None:
    begun = time.process_time()
    assert read_file("episodes", "episodes/01-x.yaml", text.encode()).problems
    assert time.process_time() - begun < 5  # a fifth of it here
