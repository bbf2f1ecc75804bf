"""``sitegen check --tidy``: habits become the documented form, and nothing else in a file changes."""

from pathlib import Path

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from sitegen.cli import main
from sitegen.reading.reader import read_series
from sitegen.reading.tidying import tidied
from tests.folders import SeriesFolder
from tests.notation.test_habits import UNDERSTOOD

EPISODE = "episodes/01-first-steps.yaml"

BEFORE = """\
# The head stays.
title: First steps   # so does this
number: 1
lasts: 35 to 40 mins

blocks:
  - name: Pair
    kind: cardio
    format: Super set      # two of them
    at: "0:10"
    rounds: 3 sets
    rest: {between_exercises: 15, between_sets: "60 to 90 secs"}
    items:
      - exercise: chair-squat      # tall
        dose: 3x10
        tempo: 30X0
        effort: 'RPE8'
      - {note: "Slow, and 3x10", exercise: backpack-row, load: '8,5 kgs', dose: 10 L/R, effort: 2 RIR}
  - name: Ladder
    kind: strength
    format: straight sets
    at: "1:10"
    items:
      - {exercise: chair-squat, dose: 12/10/8}
      - exercise: backpack-row
        dose: "max (2 RIR)"
"""
AFTER = """\
# The head stays.
title: First steps   # so does this
number: 1
lasts: 35-40 min

blocks:
  - name: Pair
    kind: conditioning
    format: superset      # two of them
    at: "0:10"
    rounds: 3
    rest: {between_exercises: 15 s, between_sets: 60-90 s}
    items:
      - exercise: chair-squat      # tall
        dose: 10
        tempo: 3-0-x-0
        effort: RPE 8
      - {note: "Slow, and 3x10", exercise: backpack-row, load: 8.5 kg, dose: 10 each side, effort: 2 in reserve}
  - name: Ladder
    kind: strength
    format: straight sets
    at: "1:10"
    items:
      - {exercise: chair-squat, dose: [12, 10, 8]}
      - exercise: backpack-row
        dose: max, 2 in reserve
"""


@pytest.mark.parametrize("ends", ["\n", "\r\n"], ids=["LF", "CRLF"])
@pytest.mark.parametrize("mark", ["", "\ufeff"], ids=["plain", "byte-order mark"])
def test_only_the_habits_change(ends: str, mark: str) -> None:
    before, after = ((mark + text.replace("\n", ends)).encode() for text in (BEFORE, AFTER))
    tidy, changes = tidied("episodes", EPISODE, before)
    assert tidy.decode() == after.decode()
    assert (changes[0].line, changes[0].before, changes[0].after) == (4, "35 to 40 mins", "35-40 min")
    assert tidied("episodes", EPISODE, tidy) == (tidy, [])


def test_a_record_in_braces_keeps_commas_in_quotes() -> None:
    text = b"title: x\nnumber: 1\nblocks:\n  - {name: A, kind: strength, format: straight sets, items: [{exercise: a, dose: max (2 RIR)}]}\n"
    tidy, _ = tidied("episodes", EPISODE, text)
    assert b'dose: "max, 2 in reserve"' in tidy


def test_the_series_says_the_same_before_and_after(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    series = SeriesFolder(tmp_path)
    series.write(EPISODE, BEFORE.replace("load: '8,5 kgs', ", ""))
    before = read_series(series.root)
    assert main(["check", "--content", str(series.root)]) == 0
    assert "written by habit and understood; --tidy writes the documented form" in capsys.readouterr().err
    assert main(["check", "--tidy", "--content", str(series.root)]) == 0
    said = capsys.readouterr().err
    assert f"{EPISODE}:15: 3x10 is now 10" in said
    assert "by habit" not in said
    assert (series.root / EPISODE).read_text() == AFTER.replace("load: 8.5 kg, ", "")
    assert read_series(series.root).episodes == before.episodes


_DOSES = st.sampled_from(list(UNDERSTOOD["dose"]))
_EFFORTS = st.sampled_from(list(UNDERSTOOD["effort"]))


@given(
    st.lists(
        st.tuples(_DOSES, _EFFORTS, st.booleans(), st.sampled_from(["", "  # by feel", "   # 3x10"])),
        min_size=1,
        max_size=6,
    )
)
def test_comments_order_and_other_keys_stay(items: list[tuple[str, str, bool, str]]) -> None:
    """The file without its doses and efforts is the same before and after, and so is what YAML reads of it."""

    def quoted(text: str) -> str:
        return "'" + text.replace("'", "''") + "'"

    lines = [
        "title: x",
        "number: 1",
        "blocks:",
        "  - name: A",
        "    kind: strength",
        "    format: straight sets",
        "    items:",
    ]
    for number, (dose, effort, flow, comment) in enumerate(items):
        if flow:
            lines.append(
                f"      - {{dose: {quoted(dose)}, exercise: e{number}, effort: {quoted(effort)}}}{comment}"
            )
        else:
            lines += [
                f"      - exercise: e{number}{comment}",
                f"        dose: {quoted(dose)}{comment}",
                f"        effort: {quoted(effort)}",
            ]
    before = "\n".join(lines) + "\n"
    after = tidied("episodes", EPISODE, before.encode())[0].decode()
    assert len(after.splitlines()) == len(before.splitlines())
    for one, other in zip(before.splitlines(), after.splitlines(), strict=True):
        assert one.partition("#")[2] == other.partition("#")[2]
    old, new = (yaml.load(text, yaml.BaseLoader)["blocks"][0]["items"] for text in (before, after))
    assert [list(item) for item in old] == [list(item) for item in new]
    assert [item["exercise"] for item in old] == [item["exercise"] for item in new]
    assert tidied("episodes", EPISODE, after.encode()) == (after.encode(), [])


def test_names_become_ids_and_spellings_the_documented_ones(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    series = SeriesFolder(tmp_path)
    series.edit(EPISODE, "number: 1\n", "number: 1\nreleased: 14 September 2026  # a Monday\n")
    series.edit(EPISODE, "exercise: chair-squat, at", "exercise: Sit to stands, at")
    series.edit(EPISODE, "dose: 8 each side", "dose: 8/side")
    series.edit(EPISODE, "dose: 30 s", "dose: 30secs")
    series.edit(
        "exercises/chair-squat.yaml", "kit: [sturdy-chair]", 'kit: "Sturdy Chair"   # the kitchen one'
    )
    series.edit("exercises/chair-squat.yaml", "note: For knees", "dose: half the reps\n    note: For knees")
    assert main(["check", "--content", str(series.root)]) == 1

    assert main(["check", "--tidy", "--content", str(series.root)]) == 0

    capsys.readouterr()
    episode = (series.root / EPISODE).read_text()
    assert "released: 2026-09-14  # a Monday\n" in episode
    for written in ("exercise: chair-squat, at", "dose: 8 each side", "dose: 30 s"):
        assert written in episode
    exercise = (series.root / "exercises/chair-squat.yaml").read_text()
    assert "kit: sturdy-chair   # the kitchen one\n" in exercise
    assert "dose: half\n" in exercise


@pytest.mark.parametrize(
    ("written", "documented"),
    [
        ("15s", "15 s"), ("2min", "2 min"), ("20m/side", "20 m each side"), ("30 secs", "30 s"), ("8–12", "8-12"),
        ("10 per side", "10 each side"), ("10 reps", "10"), ("1:30", "1:30"), ("2 min", "2 min"), ("max", "max"),
    ],
)  # fmt: skip
def test_a_dose_that_is_read_as_it_stands_is_only_spelled_anew(written: str, documented: str) -> None:
    text = f"title: x\nnumber: 1\nblocks:\n  - name: A\n    kind: strength\n    format: straight sets\n    items:\n      - {{exercise: a, dose: {written}}}\n"
    assert f"dose: {documented}}}".encode() in tidied(
        "episodes", EPISODE, text.replace("1:30", "'1:30'").encode()
    )[0].replace(b"'", b"")


def test_doses_for_another_number_of_sets_than_the_block_has_are_kept_as_they_contradict_it() -> None:
    text = BEFORE.replace("rounds: 3 sets", "rounds: 2")

    after = tidied("episodes", EPISODE, text.encode())[0].decode()

    assert "        dose: [10, 10, 10]\n" in after
