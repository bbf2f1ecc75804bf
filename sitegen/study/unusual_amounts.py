"""Amounts that are far beyond what people do at home: a digit too many, minutes for seconds.

Every bound here is common practice, no source: well above what sessions at home ask for, so that whatever
passes it is more likely a slip than a wish. They are no advice on how much is good for somebody.
"""

from collections.abc import Iterator
from typing import NamedTuple

from sitegen.model import Block, Item
from sitegen.notation import Dose, Effort, Load
from sitegen.study.load import load_mass
from sitegen.vocabulary import INTERVALS

MOST_OF_A_SET = {"reps": 60, "breaths": 30, "steps": 200, "seconds": 600, "m": 200, "ft": 600, "yd": 200}
"""Of one set, or of one side of it, by what its dose counts; ten minutes are a march in place."""
MOST_SETS = 10
MOST_ROUNDS = 30
"""Of intervals, which are short."""
MOST_REST_S = 600
MOST_WORK_S = 300
"""Of one interval."""
MOST_TIME_S = 3600
"""Of a block that goes by the clock."""
MOST_LOAD_KG = 50.0
"""In all hands together; what a home has to hold weighs less."""
MOST_PHASE_S = 10
"""Of one phase of a repetition."""
_HARDEST_RPE = 10
"""The end of the scale: nothing more is possible."""

_WORDS = {"reps": "repetitions", "seconds": "s"}
"""What messages call the measures of doses that go by another word."""


class UnusualAmount(NamedTuple):
    """An amount that is asked about."""

    keys: tuple[str, ...]
    """Where it is written, from the item, the block or the client's amounts on."""
    check: str
    message: str
    advice: str


def unusual_in_dose_and_load(dose: Dose | None, load: Load | None, *keys: str) -> Iterator[UnusualAmount]:
    """What is asked about in a dose and a load; ``keys`` lead to them."""
    most = 0 if dose is None or dose.kind == "max" else MOST_OF_A_SET[dose.measure]
    if dose is not None and most and dose.high > most:
        word = _WORDS.get(dose.measure, dose.measure)
        yield _too_much((*keys, "dose"), f"{dose.high} {word} in a set", f"{most} {word}")
    if dose is not None and dose.reserve is not None and dose.reserve[0] == 0:
        yield _to_failure((*keys, "dose"), str(dose))
    if load is not None and (kg := load_mass(load).high) > MOST_LOAD_KG:
        yield _too_much((*keys, "load"), f"a load of {kg:.0f} kg", f"{MOST_LOAD_KG:g} kg in all hands")


def unusual_in_item(item: Item) -> Iterator[UnusualAmount]:
    """What is asked about in one item of a session."""
    yield from unusual_in_dose_and_load(item.dose, item.load)
    effort, tempo = item.effort, item.tempo
    if effort is not None and _leaves_nothing(effort):
        yield _to_failure(("effort",), str(effort))
    longest = max(tempo.lowering, tempo.bottom, tempo.lifting or 0, tempo.top) if tempo is not None else 0
    if longest > MOST_PHASE_S:
        yield _too_much(("tempo",), f"{longest} s in one phase of a repetition", f"{MOST_PHASE_S} s")


def unusual_in_block(block: Block) -> Iterator[UnusualAmount]:
    """What is asked about in the sets, rests and times of a block."""
    sets, most = ("rounds", MOST_ROUNDS) if block.format == INTERVALS else ("sets", MOST_SETS)
    if block.sets.high > most:
        yield _too_much(("sets",), f"{block.sets.high} {sets}", str(most))
    lengths = (
        (("rest", "between_exercises"), "a rest", block.rest.between_exercises, MOST_REST_S),
        (("rest", "between_sets"), "a rest", block.rest.between_sets, MOST_REST_S),
        (("rest", "after"), "a rest", block.rest.after, MOST_REST_S),
        (("work",), "an interval", block.work, MOST_WORK_S),
        (("time",), "a block", block.time, MOST_TIME_S),
    )
    for keys, what, length, longest in lengths:
        if length is not None and length.high > longest:
            yield _too_much(keys, f"{what} of {length}", f"{longest // 60} min")


def _leaves_nothing(effort: Effort) -> bool:
    return effort.high >= _HARDEST_RPE if effort.scale == "rpe" else effort.low == 0


def _too_much(keys: tuple[str, ...], what: str, usual: str) -> UnusualAmount:
    message = f"{what}: is that a slip? The most that is usual at home is {usual}"
    return UnusualAmount(keys, "too-much", message, "correct it")


def _to_failure(keys: tuple[str, ...], what: str) -> UnusualAmount:
    message = (
        f"{what} is a set until nothing more is possible, at home and with nobody beside: is that meant?"
    )
    return UnusualAmount(keys, "to-failure", message, "write RPE 8 or 2 in reserve")
