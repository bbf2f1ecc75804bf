"""What a key beside the film makes of an episode's file."""

import difflib

import pytest

from sitegen.watching.changes import ChangeRefused, RowChange, changed
from sitegen.watching.lines import Lines

DRAFT = """\
# A draft. Answer the questions.
title: Lee shore
number: 13
video: {file: media/13.webm}
blocks:
  - name: First superset    # mine
    kind: strength    # QUESTION (0:20): is this strength?
    format: superset    # 0.81
    at: "0:20"
    # QUESTION (1:30): does she hand over here? Then: your_turn: "1:30"
    # QUESTION (0:20): how many sets or rounds? 3 at 1:10?
    items:
      - exercise: towel-row    # 0.93, named at 0:24
        at: "0:22"
        dose: "8"    # 0.88, said at 0:40
      - exercise: step-up    # 0.41, described, not named
        at: "0:55"
        dose: "1"    # QUESTION (1:02): is the dose 10 each side? (0.42) 1 only keeps the place
        # QUESTION (0:55): is step-up shown here?

  - name: Cool-down
    kind: cool-down
    format: straight
    at: "2:00"
    items:
      - exercise: calf-stretch
        at: "2:05"
        dose: "1"    # QUESTION (2:05): no dose was heard; 1 only keeps the place
# Heard but not placed:
#   1:40  plank
notes: kept
"""
LIBRARY = ("towel-row", "step-up", "calf-stretch", "wall-sit")

# action, row, value, where the film stands: lines that come, lines that go.
CHANGES: dict[str, tuple[str, RowChange, list[str], list[str]]] = {
    "it begins here": (
        "here",
        RowChange("0.1", at=58),
        ['        at: "0:58"'],
        ['        at: "0:55"', "        # QUESTION (0:55): is step-up shown here?"],
    ),
    "before its block: the block begins with it": (
        "here",
        RowChange("0.0", at=18),
        ['    at: "0:18"', '        at: "0:18"'],
        ['    at: "0:20"', '        at: "0:22"'],
    ),
    "her turn": (
        "here",
        RowChange("0.turn", at=95),
        ['    your_turn: "1:35"'],
        ['    # QUESTION (1:30): does she hand over here? Then: your_turn: "1:30"'],
    ),
    "yes to what is offered": (
        "accept",
        RowChange("0.1"),
        ['        dose: "10 each side"'],
        [
            '        dose: "1"    # QUESTION (1:02): is the dose 10 each side? (0.42) 1 only keeps the place',
            "        # QUESTION (0:55): is step-up shown here?",
        ],
    ),
    "yes to the turn": (
        "accept",
        RowChange("0.turn"),
        ['    your_turn: "1:30"'],
        ['    # QUESTION (1:30): does she hand over here? Then: your_turn: "1:30"'],
    ),
    "the dose": (
        "dose",
        RowChange("1.0", "40 s each side"),
        ['        dose: "40 s each side"'],
        ['        dose: "1"    # QUESTION (2:05): no dose was heard; 1 only keeps the place'],
    ),
    "sets, asked from an exercise": (
        "sets",
        RowChange("0.1", "3"),
        ["    sets: 3"],
        ["    # QUESTION (0:20): how many sets or rounds? 3 at 1:10?"],
    ),
    "an answer": (
        "answer",
        RowChange("0", "is this strength?"),
        ["    kind: strength"],
        ["    kind: strength    # QUESTION (0:20): is this strength?"],
    ),
    "another exercise is no longer as sure": (
        "exercise",
        RowChange("0.1", "wall-sit"),
        ["      - exercise: wall-sit"],
        [
            "      - exercise: step-up    # 0.41, described, not named",
            "        # QUESTION (0:55): is step-up shown here?",
        ],
    ),
    "a new one": (
        "new",
        RowChange("0", "wall-sit", at=70),
        [
            "      - exercise: wall-sit",
            '        at: "1:10"',
            '        dose: "1"    # QUESTION: which dose? 1 only keeps the place',
        ],
        [],
    ),
    "not shown": (
        "drop",
        RowChange("0.0"),
        [],
        [
            "      - exercise: towel-row    # 0.93, named at 0:24",
            '        at: "0:22"',
            '        dose: "8"    # 0.88, said at 0:40',
        ],
    ),
    "a block of its own": (
        "split",
        RowChange("0.1"),
        [
            "  - name: Block 3",
            "    kind: strength",
            "    format: superset",
            '    at: "0:55"',
            "    items:",
        ],
        [],
    ),
    "one block": (
        "join",
        RowChange("1.0"),
        [],
        [
            "  - name: Cool-down",
            "    kind: cool-down",
            "    format: straight",
            '    at: "2:00"',
            "    items:",
        ],
    ),
}


@pytest.mark.parametrize(("action", "wish", "come", "go"), CHANGES.values(), ids=CHANGES)
def test_a_change_touches_its_lines_only(
    action: str, wish: RowChange, come: list[str], go: list[str]
) -> None:
    after = changed(DRAFT, "13.yaml", action, wish, LIBRARY)
    difference = list(difflib.unified_diff(DRAFT.split("\n"), after.split("\n"), lineterm="", n=0))[2:]
    assert [line[1:] for line in difference if line.startswith("+")] == come
    assert [line[1:] for line in difference if line.startswith("-") and line[1:]] == go


def test_a_turn_goes_with_what_it_closes() -> None:
    text = DRAFT
    for action, wish in (("accept", RowChange("0.turn")), ("split", RowChange("0.1"))):
        text = changed(text, "13.yaml", action, wish, LIBRARY)
    rows = {row.id: row.at for row in Lines(text, "13.yaml").rows}
    assert (rows["0.turn"], rows["1.turn"]) == (None, 90)
    rows = {
        r.id: r.at for r in Lines(changed(text, "13.yaml", "join", RowChange("1"), LIBRARY), "13.yaml").rows
    }
    assert (rows["0.turn"], rows["0.1"]) == (90, 55)


REFUSED = {
    "a time behind the next line": ("here", RowChange("0.0", at=60), "0:55; move that one first"),
    "a time before the line above": ("here", RowChange("1", at=30), "before step-up at 0:55"),
    "yes to no dose": ("accept", RowChange("1.0"), "needs an answer"),
    "away with no dose": (
        "answer",
        RowChange("1.0", "no dose was heard; 1 only keeps the place"),
        "give the dose",
    ),
    "a dose that is none": ("dose", RowChange("0.0", "lots"), "not a dose"),
    "an exercise that is not there": ("new", RowChange("0", "planck", at=70), "write exercises/planck.yaml"),
    "a line that is not there": ("here", RowChange("7.1", at=70), "look again"),
    "a key that is none": ("burn", RowChange("0"), "there is no 'burn'"),
    "the first block joined": ("join", RowChange("0"), "the first block"),
    "a block split at its first exercise": ("split", RowChange("0.0"), "not the first of its block"),
}


@pytest.mark.parametrize(("action", "wish", "words"), REFUSED.values(), ids=REFUSED)
def test_what_would_spoil_the_file_is_refused(action: str, wish: RowChange, words: str) -> None:
    with pytest.raises(ChangeRefused) as refused:
        changed(DRAFT, "13.yaml", action, wish, LIBRARY)
    assert words in str(refused.value)
