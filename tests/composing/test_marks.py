"""The mark behind an exercise tells whether it is still as the program wrote it."""

import pytest

from sitegen.composing.marks import marked_item, marked_note, own_items, own_notes

ITEM = marked_item(
    ["      # why", "      - exercise: towel-row", "        dose: 8-12", "        tempo: 3-1-1-0"]
)
MARK = ITEM[1].partition("towel-row")[2]
BEFORE, AFTER = ["    items:"], ["      - exercise: wall-sit", "        dose: 20 s"]


def test_the_mark_stands_behind_the_exercise() -> None:
    assert ITEM[1] == f"      - exercise: towel-row{MARK}"
    assert MARK.startswith("   # proposed ")
    assert "\n".join(ITEM).count("proposed") == 1


@pytest.mark.parametrize(
    ("old", "new", "own"),
    [
        pytest.param("", "", True, id="as it was written"),
        pytest.param("      ", "  ", True, id="indented anew"),
        pytest.param("\n", "\r\n", True, id="saved with other line ends"),
        pytest.param("8-12", "8-10", False, id="another dose"),
        pytest.param("towel-row", "bent-over-row", False, id="another exercise"),
        pytest.param("why", "why, and because she likes it", False, id="a word in the comment"),
        pytest.param("      # why", "      # Mind the door.\n      # why", False, id="a comment above"),
        pytest.param("      # why\n", "", False, id="the reason taken away"),
        pytest.param("dose", "effort: RPE 7\n        dose", False, id="another key"),
        pytest.param("-0\n", "-0\n\n        note: Slowly\n", False, id="a key after an empty line"),
        pytest.param(
            "-0\n", "-0\n        # slower than last week\n        note: Slowly\n", False, id="at the end"
        ),
        pytest.param(MARK, "", False, id="the mark taken away"),
        pytest.param(MARK, "   # proposed 000000", False, id="another mark"),
        pytest.param("-0\n", "-0\n      # of the next one\n", True, id="a comment of the next one"),
        pytest.param("-0\n", "-0\n\n", True, id="an empty line behind"),
    ],
)
def test_one_changed_word_makes_it_the_trainers(old: str, new: str, own: bool) -> None:
    text = "\n".join([*BEFORE, *ITEM, *AFTER])
    assert old in text
    found = list(own_items(text.replace(old, new).split("\n")))
    assert bool(found) == own
    if found:
        [piece] = found
        lines = text.replace(old, new).split("\n")[piece.start : piece.end]
        assert [line.strip() for line in lines] == [line.strip() for line in ITEM]


def test_notes_are_the_programs_own_too_and_comments_around_them_are_not() -> None:
    note = marked_note(["  # NOT KEPT: chest has 2 sets. What", "  # helps: a block more."])
    lines = ["  # Ask Robin.", *note, "  # Monday."]
    assert [(one.start, one.end) for one in own_notes(lines)] == [(1, 3)]
    lines[2] = lines[2].replace("more", "less")
    assert not list(own_notes(lines))
    assert not list(own_notes(["  # a word", note[1]]))
