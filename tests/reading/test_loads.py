"""Which piece of kit a load is in: settled where there is no doubt, and a named problem where there is."""

from pathlib import Path

import pytest

from sitegen.reading.reader import read_content
from tests.folders import SeriesFolder

EPISODE = "episodes/01-first-steps.yaml"
ROW = "exercises/backpack-row.yaml"
KIT = """kit:
  can: {name: Watering can, holds: 8 l}
  bucket: {name: Bucket, holds: 10 l}
  sack: {name: Sack, holds: 20 kg}
  tin: {name: Food tin, weighs: [400 g, 800 g]}
  towel: {name: Towel}
"""


@pytest.fixture
def series(tmp_path: Path) -> SeriesFolder:
    folder = SeriesFolder(tmp_path)
    folder.edit("series.yaml", "kit:\n", KIT)
    return folder


def hold(series: SeriesFolder, kit: str, load: str) -> tuple[int, int] | None:
    """Give the row other kit and a load; where the ``¦`` in it stands."""
    series.edit(ROW, "kit: [backpack, sturdy-chair]", f"kit: {kit}")
    return series.spoil(EPISODE, "dose: 8 each side,", f"dose: 8 each side, load: {load},")


# kit of the form, load as written, and what is in which piece
SETTLED = {
    "the only container": ("[can, towel]", "4 l water", [("can", "4 l water")]),
    "two of the only container": ("[can]", "5 l water + 4 l water", [("can", "5 l water"), ("can", "4 l water")]),
    "named": ("[can, bucket]", "{bucket: 10 l sand, can: 4 l water}", [("bucket", "10 l sand"), ("can", "4 l water")]),
    "two of a named one": ("[can, bucket]", "{can: 2 x 3 l water}", [("can", "3 l water"), ("can", "3 l water")]),
    "a mass goes to the sack": ("[can, sack]", "8 kg", [("sack", "8 kg")]),
    "mixed kinds": ("[can, sack]", "8 kg + 5 l water", [("sack", "8 kg"), ("can", "5 l water")]),
    "tins": ("[tin]", "2 x 400 g", [("tin", "400 g"), ("tin", "400 g")]),
    "a mass in the only container": ("[can, towel]", "4 kg", [("can", "4 kg")]),
    "full bottles in the sack": ("[sack]", "6 l water", [("sack", "6 l water")]),
    "full to the brim": ("[can]", "8 l sand", [("can", "8 l sand")]),
    "a tin in pounds, near enough": ("[tin]", "0.88 lb", [("tin", "0.88 lb")]),
}  # fmt: skip


@pytest.mark.parametrize(("kit", "load", "settled"), SETTLED.values(), ids=SETTLED)
def test_a_load_is_in_a_piece_of_kit(
    series: SeriesFolder, kit: str, load: str, settled: list[tuple[str, str]]
) -> None:
    hold(series, kit, load)
    assert series.problems() == []
    read = read_content(series.root).series
    assert read is not None
    item = read.episodes[0].blocks[2].items[1]
    assert item.load is not None
    assert [(part.piece, str(part)) for part in item.load.parts] == settled


# kit of the form, load with ¦ where the place must point, check, part of the message, of the advice
BAD = {
    "which container": ("[can, bucket]", "¦10 l sand + 4 l water", "load-kit", "'10 l sand + 4 l water' of 'Backpack row' does not say what it is in: can or bucket", "load: {can: 10 l sand, bucket: 4 l water}"),
    "which sack": ("[sack, tin]", "¦400 g", "load-kit", "does not say what it is in: sack or tin", "load: {sack: 400 g}"),
    "overfull": ("[bucket]", "¦30 l sand", "load-too-large", "30 l sand is more than 'Bucket' (bucket) holds: 10 l", "correct holds:"),
    "overfull, named": ("[can, bucket]", "{can: ¦9 l water}", "load-too-large", "9 l water is more than 'Watering can' (can) holds: 8 l", "smaller load"),
    "heavier than the container full of sand": ("[can]", "¦15 kg", "load-too-large", "15 kg is more than 'Watering can' (can) holds: 8 l", "filled with sand it weighs 12.8 kg at most"),
    "more than the sack carries": ("[sack]", "¦25 kg", "load-too-large", "25 kg is more than 'Sack' (sack) holds: 20 kg", "smaller load"),
    "both hands overfull are one mistake": ("[can]", "¦2 x 9 l water", "load-too-large", "9 l water is more than", "smaller load"),
    "a tin that is not there": ("[tin]", "¦500 g", "load-too-large", "'Food tin' (tin) weighs 400 g or 800 g, not 500 g", "add it under weighs:"),
    "nothing that holds a load": ("[towel]", "¦5 l water", "load-kit", "nothing that 'Backpack row' uses takes a load of 5 l water: towel", "holds: 5 l under towel"),
    "a mass on kit that carries none": ("[towel]", "¦5 kg", "load-kit", "takes a load of 5 kg: towel", "weighs: 5 kg (a weight) under towel"),
    "on kit that holds none, named": ("[towel, can]", "{towel: ¦5 l water}", "load-kit", "'Towel' (towel) holds nothing, but has a load of 5 l water", "holds: 5 l under towel"),
    "water in a tin": ("[tin]", "{tin: ¦1 l water}", "load-kit", "'Food tin' (tin) is a weight and holds no water", "holds: 5 l under tin"),
    "no kit at all": ("[]", "¦5 kg", "load-kit", "'Backpack row' has a load of 5 kg, but no kit to hold", "the kit of backpack-row"),
    "kit that the form does not use": ("[can]", "{bucket: ¦5 l water}", "load-kit", "the load is in 'bucket', which 'Backpack row' does not use", "its kit is can: add bucket to the kit of backpack-row"),
    "misspelt kit": ("[can, bucket]", "{buket: ¦5 l water}", "unknown-kit", "there is no kit 'buket'", "did you mean 'bucket'?"),
    "three parts": ("[can, bucket]", "¦{can: 2 x 1 l water, bucket: 1 l water}", "malformed", "more than two parts", "one for each hand"),
    "no part": ("[can]", "¦{}", "malformed", "names no piece of kit", "{bucket: 5 l water}"),
    "not a load": ("[can]", "{can: ¦5 bananas}", "malformed", "'5 bananas' is not a load", "5 l water"),
}  # fmt: skip


@pytest.mark.parametrize(("kit", "load", "check", "message", "advice"), BAD.values(), ids=BAD)
def test_a_load_in_doubt_is_a_problem_with_its_place(
    series: SeriesFolder, kit: str, load: str, check: str, message: str, advice: str
) -> None:
    place = hold(series, kit, load)
    [problem] = series.problems()
    assert (problem.file, problem.line, problem.column, problem.check) == (EPISODE, *place, check)
    assert message in problem.message
    assert advice in problem.advice


def test_a_shared_block_is_told_once_and_settled_in_every_episode(series: SeriesFolder) -> None:
    """Two episodes use the routine: its load is one problem, and once mended in its kit in both."""
    series.edit(
        "routines/short-warm-up.yaml", "variant: hands-on-seat,", "variant: hands-on-seat, load: 1 kg,"
    )
    episode = (series.root / EPISODE).read_text().replace("number: 1", "number: 2")
    series.write("episodes/02-second-steps.yaml", episode)
    assert [(p.file, p.check) for p in series.problems()] == [("routines/short-warm-up.yaml", "load-kit")]

    series.edit("series.yaml", "{name: Sturdy chair, load: no,", "{name: Keg, holds: 3 kg,")
    read = read_content(series.root).series
    assert read is not None
    loads = [item.load for e in read.episodes for item in e.blocks[0].items if item.load]
    assert [part.piece for load in loads for part in load.parts] == ["sturdy-chair", "sturdy-chair"]


@pytest.mark.parametrize(
    ("written", "message", "advice"),
    [
        ("holds: 30 cm", "says nothing of what it holds", "5 l for a container, or 15 kg for a bag"),
        ("holds: 0 l", "says nothing of what it holds", "5 l for a container"),
        ("holds: much", "'much' is not an amount", "a number and one of kg"),
        ("weighs: 5 l", "'5 l' is not a mass", "400 g"),
    ],
)
def test_what_a_piece_holds(series: SeriesFolder, written: str, message: str, advice: str) -> None:
    series.edit("series.yaml", "towel: {name: Towel}", f"towel: {{name: Towel, {written}}}")
    [problem] = series.problems()
    assert (problem.file, problem.check) == ("series.yaml", "malformed")
    assert message in problem.message
    assert advice in problem.advice
