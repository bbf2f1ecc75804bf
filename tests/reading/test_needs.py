"""What a need may say in series.yaml: limits as the trade writes them, and every slip with a way out."""

from pathlib import Path

import pytest

from sitegen.model import Limits
from sitegen.reading.reader import read_series
from tests.folders import SeriesFolder

NEED = "avoids: [jumping]}"


@pytest.fixture
def series(tmp_path: Path) -> SeriesFolder:
    return SeriesFolder(tmp_path)


GOOD = {
    "effort: at least 4 in reserve": Limits(effort=6),
    "effort: 3 in reserve": Limits(effort=7),
    "effort: at most RPE 6": Limits(effort=6),
    "effort: RPE 5": Limits(effort=5),
    "load: 5 kg": Limits(load=5.0),
    "load: at most 800 g": Limits(load=0.8),
    "load: none": Limits(load=0.0),
    "load: 50 %": Limits(load_share=0.5),
    "load: 40 % of the load in the video": Limits(load_share=0.4),
    "load: [5 kg, 50 %]": Limits(load=5.0, load_share=0.5),
    "speed: no": Limits(speed=False),
    "max_sets: no": Limits(max_sets=False),
    "hold: 10 s": Limits(hold=10),
    "session: 40 min": Limits(session=2400),
}


@pytest.mark.parametrize(("written", "limits"), GOOD.items(), ids=GOOD)
def test_limits_are_read(series: SeriesFolder, written: str, limits: Limits) -> None:
    series.edit("series.yaml", NEED, f"limits: {{{written}}}}}")

    assert read_series(series.root).details.needs["no-jumping"].limits == limits


# what stands in the need instead of its demands, with ¦ where the place must point; part of the message,
# part of the advice
SLIPS = {
    "nothing at all": ("advice: Hm}", "neither avoids nor limits anything", "add avoids: with demands"),
    "limits that limit nothing": ("limits: {}}", "neither avoids nor limits anything", "or limits:"),
    "a demand twice": ("avoids: ¦[jumping, jumping]}", "'jumping' is there twice", "keep one"),
    "a demand in both lists": (
        "avoids: [jumping], rather_without: ¦[jumping]}",
        "'jumping' is both avoided and only rather done without",
        "one of the two lists",
    ),
    "a demand that is not known": (
        "avoids: [jumping], rather_without: [¦kneling]}",
        "there is no demand 'kneling'",
        "did you mean 'kneeling'?",
    ),
    "speed allowed": ("limits: {speed: ¦yes}}", "'speed: yes' limits nothing", "write speed: no"),
    "more effort": (
        "limits: {effort: ¦at most 4 in reserve}}",
        "asks for more effort, not for less",
        "at least 4 in reserve",
    ),
    "more exertion": ("limits: {effort: ¦at least RPE 6}}", "asks for more effort", "at most RPE 6"),
    "a range of effort": ("limits: {effort: ¦RPE 5-6}}", "is a range, not a limit", "at most RPE 6"),
    "no repetition left": ("limits: {effort: ¦12 in reserve}}", "leaves no repetition to do", "at least"),
    "a whole load": ("limits: {load: ¦100 %}}", "is no limit", "between 1 % and 99 %"),
    "a volume": ("limits: {load: ¦5 l}}", "is not a mass", "write for example 5 kg"),
    "two masses": ("limits: {load: ¦[5 kg, 4 kg]}}", "two limits of the same kind", "keep the lower one"),
    "a hold of nothing": ("limits: {hold: ¦none}}", "leaves nothing to do", "such as 10 s"),
    "a range of a hold": ("limits: {hold: ¦10-20 s}}", "is a range, not a limit", "the longest time"),
    "an unknown limit": (
        "limits: {¦wait: 5 kg}}",
        "'wait' is not a key of the limits of a need",
        "known keys",
    ),
}


@pytest.mark.parametrize(("written", "message", "advice"), SLIPS.values(), ids=SLIPS)
def test_a_slip_in_a_need(series: SeriesFolder, written: str, message: str, advice: str) -> None:
    place = series.spoil("series.yaml", NEED, written)

    [problem] = series.problems()
    assert message in problem.message
    assert advice in problem.advice
    assert place is None or (problem.line, problem.column) == place


def test_an_episodes_kit_has_to_be_known(series: SeriesFolder) -> None:
    place = series.spoil("episodes/01-first-steps.yaml", "number: 1", "number: 1\nkit: [¦sturdy-char]")

    [problem] = series.problems()
    assert problem.message == "there is no kit 'sturdy-char'"
    assert (problem.line, problem.column) == place
