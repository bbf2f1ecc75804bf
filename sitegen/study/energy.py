"""An estimate of the energy a session takes, and its minutes by intensity.

Energy: kcal/min = MET x 3.5 x kg / 200 (from 1 MET = 3.5 ml oxygen per kg and minute and 1 litre of
oxygen = 5 kcal; American College of Sports Medicine). It is gross: what the body spends at rest is
in it. Stepping: ACSM's Guidelines for Exercise Testing and Prescription, 10th ed., table 6.3.

MET values are rows of the *2011 Compendium of Physical Activities* (Ainsworth et al., Med Sci
Sports Exerc 43:1575-1581), by code. They are averages of adults and say little about one person; the
2024 edition names the ages they hold for, 19 to 59 (Herrmann et al., J Sport Health Sci 13:6-12). From 60
a MET is 2.7 ml of oxygen (Willis et al. 2024, J Sport Health Sci 13:13-17). Whether an older viewer works at
the same multiple of rest or takes the same oxygen for an exercise is not known here, so where a series is for
people of 60 and over too, the low end of the energy takes 2.7 and the high end 3.5.
"""

from collections.abc import Collection, Iterable
from dataclasses import dataclass, replace

from sitegen.model import Block, Details, Episode, Stepping
from sitegen.notation import Tempo
from sitegen.study.forms import Form, Forms, shown_form
from sitegen.study.span import NOTHING, Span, add_to, total
from sitegen.study.timing import BlockTime, Estimate, SessionTime, session_time


@dataclass(frozen=True, slots=True)
class CompendiumRow:
    """One row of the 2011 Compendium."""

    code: str
    met: float


VIGOROUS_CALISTHENICS = CompendiumRow("02020", 8.0)
"""Names jumping jacks."""
MODERATE_CALISTHENICS = CompendiumRow("02022", 3.8)
"""Names push-ups and lunges."""
LIGHT_CALISTHENICS = CompendiumRow("02024", 2.8)
"""Names sit-ups and crunches."""
CIRCUIT_TRAINING = CompendiumRow("02035", 4.3)
"""Moderate; the vigorous row (02040) has 8.0 and names hardly any rest."""
SQUATS = CompendiumRow("02052", 5.0)
RESISTANCE_TRAINING = CompendiumRow("02054", 3.5)
"""Several exercises, 8 to 15 repetitions."""
STRETCHING = CompendiumRow("02101", 2.3)
SLOW_STAIRS = CompendiumRow("17133", 4.0)
"""The five rows without a line more say all of it in their names."""

BY_KIND = {
    "warm-up": LIGHT_CALISTHENICS,
    "conditioning": CIRCUIT_TRAINING,
    "strength": RESISTANCE_TRAINING,
    "mobility": STRETCHING,
    "cool-down": STRETCHING,
}
BY_PATTERN_IN_STRENGTH = {
    "squat": SQUATS,
    "lunge": MODERATE_CALISTHENICS,
    "step": SLOW_STAIRS,
    "push horizontal": MODERATE_CALISTHENICS,
    "trunk": LIGHT_CALISTHENICS,
    "mobility": STRETCHING,
}
"""Where the pattern says more than the kind of block; the choice of rows is ours."""

STILL_MET = 1.5
"""Upper edge of sedentary, for rests at the low end."""
MODERATE_MET, VIGOROUS_MET = 3.0, 6.0
"""Where these bands begin (*Physical Activity Guidelines for Americans*, 2nd ed. 2018)."""

SEDENTARY, LIGHT, MODERATE, VIGOROUS = "sedentary", "light", "moderate", "vigorous"
BANDS = (SEDENTARY, LIGHT, MODERATE, VIGOROUS)


AGES = (19, 59)
"""Ages for which the tables hold."""
OXYGEN, OXYGEN_FROM_60 = 3.5, 2.7
"""Millilitres for each kilogram and minute of one MET."""

STEP_RATES = (12, 30)
"""Full up-and-down cycles a minute for which the stepping equation holds."""
STEP_HEIGHTS_CM = (4, 40)
"""Both after ACSM's Guidelines, 6th ed. (2000), seen in a restatement only."""


def kcal_per_minute(met: float, body_kg: float, oxygen: float = OXYGEN) -> float:
    """Gross kilocalories a minute."""
    return met * oxygen * body_kg / 200


def stepping_met(stepping: Stepping) -> float:
    """MET of stepping up and down: oxygen in ml/kg/min = 0.2 f + 1.33 x 1.8 x H x f + 3.5.

    f is full up-and-down cycles a minute, H the step's height in metres.
    """
    return stepping_oxygen(stepping) / 3.5


def stepping_oxygen(stepping: Stepping) -> float:
    """Oxygen in ml/kg/min by the stepping equation."""
    rate, metres = stepping.per_minute, stepping.height.base / 100
    return 0.2 * rate + 1.33 * 1.8 * metres * rate + 3.5


def in_range(stepping: Stepping) -> bool:
    """Whether the stepping equation holds for such a step and rate."""
    low, high = STEP_RATES
    shortest, tallest = STEP_HEIGHTS_CM
    return low <= stepping.per_minute <= high and shortest <= stepping.height.base <= tallest


def stepping_at(stepping: Stepping, tempo: Tempo | None) -> Stepping:
    """A step at the rate of a tempo, one repetition being one cycle; without a tempo as it is."""
    return stepping if tempo is None else replace(stepping, per_minute=60 / tempo.seconds)


def met_of(form: Form, kind: str, tempo: Tempo | None = None) -> float:
    """MET of a form in a block of that kind: its own, else by stepping, else by pattern and kind.

    ``tempo`` is one that the item gives itself. A step for which the equation does not hold is estimated by
    pattern and kind: a figure from outside its range would look right and be wrong.
    """
    if form.met is not None:
        return form.met
    if form.stepping is not None:
        stepping = stepping_at(form.stepping, tempo or form.tempo)
        if in_range(stepping):
            return stepping_met(stepping)
    return usual_row(form, kind).met


def usual_row(form: Form, kind: str) -> CompendiumRow:
    """The row of the Compendium for a form that gives no value of its own."""
    if kind == "conditioning" and "jumping" in form.demands:
        return VIGOROUS_CALISTHENICS
    if kind == "strength" and form.pattern in BY_PATTERN_IN_STRENGTH:
        return BY_PATTERN_IN_STRENGTH[form.pattern]
    return BY_KIND[kind]


def band(met: float) -> str:
    """Intensity band: sedentary to 1.5, light under 3, moderate under 6, vigorous from 6 (*Physical
    Activity Guidelines for Americans*, 2nd ed. 2018)."""
    if met <= STILL_MET:
        return SEDENTARY
    if met < MODERATE_MET:
        return LIGHT
    return MODERATE if met < VIGOROUS_MET else VIGOROUS


def session_kcal(details: Details, forms: Forms, episode: Episode, time: SessionTime | None = None) -> Span:
    """Kilocalories of all blocks, from the lightest viewer at the short end of every time to the
    heaviest at the long end. Watching the video between blocks is not counted. ``time`` is the session's,
    where it is known already."""
    times = (time or session_time(details, forms, episode)).blocks
    return total(
        block_kcal(details, forms, block, one) for block, one in zip(episode.blocks, times, strict=True)
    )


def block_kcal(details: Details, forms: Forms, block: Block, time: BlockTime) -> Span:
    """Kilocalories of one block that takes so long.

    The Compendium's values are for an activity as it is usually done, short pauses included (our
    reading), so at the high end the rests inside count as the work does on average; at the low end
    they count as sitting still. The rest after the block is not counted.
    """
    mets = _mets(forms, block)
    light, heavy = (mass.base for mass in details.body_mass)
    resting = min(STILL_MET, _average(time.short, mets))
    low = _met_minutes(time.short, mets, resting)
    high = _met_minutes(time.long, mets, _average(time.long, mets))
    old = details.ages is not None and details.ages.high > AGES[1]
    least = kcal_per_minute(low, light, OXYGEN_FROM_60 if old else OXYGEN)
    return Span.between(least, kcal_per_minute(high, heavy))


def minutes_by_band(
    details: Details,
    forms: Forms,
    episode: Episode,
    time: SessionTime | None = None,
    kinds: Collection[str] | None = None,
) -> dict[str, Span]:
    """Minutes of work (without rests) in each intensity band, over all blocks of an episode, or those of some
    kinds. ``time`` is the session's, where it is known already."""
    times = (time or session_time(details, forms, episode)).blocks
    sums: dict[str, Span] = {}
    for block, one in zip(episode.blocks, times, strict=True):
        if kinds is not None and block.kind not in kinds:
            continue
        bands = [band(met) for met in _mets(forms, block)]
        short, long = _seconds_by_band(bands, one.short), _seconds_by_band(bands, one.long)
        for name, seconds in short.items():
            add_to(sums, name, Span.between(seconds / 60, long[name] / 60))
    return {name: sums.get(name, NOTHING) for name in BANDS}


def _seconds_by_band(bands: Iterable[str], time: Estimate) -> dict[str, float]:
    sums: dict[str, float] = {}
    for name, work in zip(bands, time.work, strict=True):
        sums[name] = sums.get(name, 0.0) + work
    return sums


def _mets(forms: Forms, block: Block) -> list[float]:
    return [met_of(shown_form(forms, item), block.kind, item.tempo) for item in block.items]


def _met_minutes(time: Estimate, mets: Iterable[float], rest_met: float) -> float:
    work = sum(work * met for work, met in zip(time.work, mets, strict=True))
    return (work + time.rest * rest_met) / 60


def _average(time: Estimate, mets: Iterable[float]) -> float:
    seconds = sum(time.work)
    work = sum(work * met for work, met in zip(time.work, mets, strict=True))
    return work / seconds if seconds else STILL_MET
