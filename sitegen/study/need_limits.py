"""What a need allows at most, and what becomes of a dose, a tempo, an effort and a load under it.

Each rule is common practice, no source, where none is named:

- **Effort.** Perceived exertion and repetitions in reserve are one scale here: RPE 10 less a point for
  each repetition in reserve (Zourdos et al. 2016, Journal of Strength and Conditioning Research, from
  memory). A set filmed with 2 in reserve that is to leave 4 is two repetitions shorter, by the meaning of
  the word; it is never cut to less than half, for the effort that is shown with it holds in any case. In
  other blocks nothing runs out at the last repetition, so that only the effort is shown.
- **Sets in parts** (``8 + 5``: a few more after a breath) are a way to come nearer to the end than in one
  go. Where they leave less than the limit asks for, or sets to the most are not allowed, the first part is
  the set.
- **Sets to the most** become :data:`timing.MAX_REPS` at its low end, where they are not allowed.
- **Holds** are cut to the limit. A timed dose counts as a hold where the position is likely kept: in
  strength, except for walking and stepping; in conditioning, for trunk and carries. A relaxed stretch of a
  warm-up or cool-down is none: nothing is braced in it.
- **Speed.** An explosive lift takes two seconds instead: the slower end of what the American College of
  Sports Medicine calls moderate (2009, Progression Models: 1-2 s up, 1-2 s down).
- **Load.** The limit is on all that is held together and is shared out evenly. Fills are taken at their
  heaviest and rounded down to what can be seen on a vessel. Of a piece that is itself a weight the
  heaviest that there is within the limit is taken. What would be left with next to nothing is a limit
  that this form cannot keep; so is a share of the filmed load, in a form with a load, where neither is
  written, and any limit on the load in a form with a piece of which nobody wrote whether it is a load.
"""

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from typing import TypeVar

from sitegen.model import Kit, Limits
from sitegen.notation import Dose, Duration, Effort, Load, LoadPart, Quantity, Tempo
from sitegen.notation.quantity import MASS_UNITS_KG
from sitegen.study.load import KG_PER_LITRE, load_mass, part_mass
from sitegen.study.span import ROUNDING
from sitegen.study.timing import MAX_REPS

Amount = TypeVar("Amount", int, float)

MOST_RPE = 10
"""The top of the scale: no limit."""
CALM_LIFT = 2
"""Seconds. Moderate speed is 1 to 2 s up and 1 to 2 s down in ACSM 2009; the calm end of it."""
MOVING_PATTERNS = ("locomotion", "step", "mobility")
"""What a timed dose of strength moves through; other patterns are likely to be held."""
STILL_PATTERNS = ("trunk", "carry")
"""What is likely to be held in conditioning too."""
WORKING_KINDS = ("strength", "conditioning")
"""Kinds of block whose sets are an effort even where none is written."""

LEAST_KG = 0.2
"""What weighs less is not worth lifting: the limit then asks for a form without a load."""
STEPS = {"kg": 0.5, "g": 50.0, "lb": 1.0, "l": 0.5, "ml": 100.0, "US gal": 0.25, "imperial gal": 0.25}
"""By unit, steps that one can see or weigh at home; a fifth of them below one step."""


@dataclass(frozen=True, slots=True, kw_only=True)
class UnlimitedForm:
    """What a form of an item asks for, before any limit."""

    kind: str
    """Of the block."""
    pattern: str
    """Of the form."""
    dose: Dose | None
    work: Duration | None = None
    """The block's work time, where the format sets the dose."""
    tempo: Tempo | None = None
    """As written with the item."""
    usual_tempo: Tempo
    """In which it is done where the item gives none."""
    effort: Effort | None = None
    load: Load | None = None
    """What is held in this form."""
    own_load: bool = False
    """True where it takes a load of which nothing is written."""
    load_untold: bool = False
    """True where it takes a piece that may be a load, and nothing says of how many kilograms."""
    filmed_kg: float | None = None
    """What is held in the form as filmed; None where nothing is written."""
    most_kg: float | None = None
    """Most that the form itself lets one hold where nothing is written."""
    heaviest_kg: float | None = None
    """Most that its kit can weigh in both hands where nothing is written; None where that depends on the
    filling."""

    @property
    def whole_dose(self) -> Dose | None:
        """The dose, or the work time as a dose."""
        if self.dose is None and self.work is not None:
            return Dose(kind="time", low=self.work.low, high=self.work.high)
        return self.dose

    @property
    def is_hold(self) -> bool:
        """True where the position is likely to be kept for the time of the dose."""
        dose = self.whole_dose
        if dose is None or dose.kind != "time":
            return False
        if self.kind == "strength":
            return self.pattern not in MOVING_PATTERNS
        return self.kind == "conditioning" and self.pattern in STILL_PATTERNS


@dataclass(frozen=True, slots=True, kw_only=True)
class Prescription:
    """What one set asks for within some limits."""

    dose: Dose | None
    tempo: Tempo | None = None
    effort: Effort | None = None
    load: Load | None = None
    most_kg: float | None = None
    """Most that may be held, where nobody wrote what is; None without such a limit."""
    changes: tuple[str, ...] = ()
    """What the limits changed, of :data:`CHANGES`."""


CHANGES = ("effort", "fewer", "counted", "shorter", "slower", "lighter", "light")
"""Less effort, fewer repetitions, a number instead of as many as can be done, a shorter hold, a slower
lift, a lighter load, a bound on a load that nobody wrote."""


def merge(limits: Iterable[Limits]) -> Limits:
    """The stricter of every limit."""
    merged = Limits()
    for one in limits:
        merged = Limits(
            effort=_lower(merged.effort, one.effort),
            max_sets=merged.max_sets and one.max_sets,
            load=_lower(merged.load, one.load),
            load_share=_lower(merged.load_share, one.load_share),
            speed=merged.speed and one.speed,
            hold=_lower(merged.hold, one.hold),
            session=_lower(merged.session, one.session),
        )
    return merged


def _lower(one: Amount | None, other: Amount | None) -> Amount | None:
    if one is None or other is None:
        return one if other is None else other
    return min(one, other)


def prescribe(asked: UnlimitedForm, limits: Limits, kit: Mapping[str, Kit]) -> Prescription | None:
    """What is left of it within the limits; None where a limit cannot be kept in this form."""
    held = _held(asked, limits, kit)
    if held is None:
        return None
    load, most_kg, lighter = held
    dose, changed = _dose(asked, limits)
    tempo, slower = _tempo(asked, limits, dose)
    effort, easier = _effort(asked, limits)
    return Prescription(
        dose=dose,
        tempo=tempo,
        effort=effort,
        load=load,
        most_kg=most_kg,
        changes=(*changed, *easier, *slower, *lighter),
    )


# --- effort and dose -------------------------------------------------------------------------


def rpe_of(effort: Effort) -> int:
    """The most perceived exertion that an effort asks for."""
    return effort.high if effort.scale == "rpe" else MOST_RPE - effort.low


def _dose(asked: UnlimitedForm, limits: Limits) -> tuple[Dose | None, tuple[str, ...]]:
    dose, whole = asked.dose, asked.whole_dose
    if dose is not None and dose.sets:
        each = [_dose(replace(asked, dose=one), limits) for one in dose.sets]
        changed = dict.fromkeys(change for _, changes in each for change in changes)
        return Dose.of_sets([one for one, _ in each if one is not None]), tuple(changed)
    if asked.is_hold and whole is not None and limits.hold is not None and whole.high > limits.hold:
        return replace(whole, low=min(whole.low, limits.hold), high=limits.hold, parts=()), ("shorter",)
    if dose is None or dose.kind == "time":
        return dose, ()
    changes: tuple[str, ...] = ()
    if dose.kind == "max" and not limits.max_sets:
        few = int(MAX_REPS.low)
        dose, changes = replace(dose, kind="count", low=few, high=few), ("counted",)
    if dose.parts and _comes_too_near(asked, limits):
        first = dose.parts[0]
        dose, changes = replace(dose, low=first, high=first, parts=()), ("fewer",)
    if limits.effort is None:
        return dose, changes
    floor = MOST_RPE - limits.effort
    short = floor - _filmed_reserve(asked, dose, floor)
    if dose.reserve is not None and dose.reserve[0] < floor:
        dose = replace(dose, reserve=(floor, max(floor, dose.reserve[1])))
        changes = (*changes, "effort")
    elif dose.kind == "max" and dose.reserve is None:
        dose, changes = replace(dose, reserve=(floor, floor)), (*changes, "effort")
    if asked.kind == "strength" and dose.kind == "count" and dose.unit == "reps" and short > 0:
        fewer = _fewer(dose, short)
        if (fewer.low, fewer.high) != (dose.low, dose.high):
            dose, changes = fewer, (*changes, "fewer")
    return dose, changes


def _filmed_reserve(asked: UnlimitedForm, dose: Dose, unsaid: int) -> int:
    """Fewest repetitions that the item as written leaves; ``unsaid`` where it does not say."""
    if asked.dose is not None and asked.dose.kind == "max" and dose.kind == "count":
        return unsaid  # it is the number just chosen, and no set to the most any more
    said = [MOST_RPE - rpe_of(asked.effort)] if asked.effort is not None else []
    said += [dose.reserve[0]] if dose.reserve is not None else []
    return min(said, default=unsaid)


def _comes_too_near(asked: UnlimitedForm, limits: Limits) -> bool:
    """Whether a set in parts comes nearer to the end than a need allows."""
    if not limits.max_sets:
        return True
    return limits.effort is not None and asked.effort is not None and rpe_of(asked.effort) > limits.effort


def _fewer(dose: Dose, short: int) -> Dose:
    def cut(count: int) -> int:
        return max(math.ceil(count / 2), count - short)

    if dose.parts:
        parts = tuple(map(cut, dose.parts))
        return replace(dose, low=sum(parts), high=sum(parts), parts=parts)
    return replace(dose, low=cut(dose.low), high=cut(dose.high))


def _effort(asked: UnlimitedForm, limits: Limits) -> tuple[Effort | None, tuple[str, ...]]:
    most, effort, dose = limits.effort, asked.effort, asked.dose
    if most is None:
        return effort, ()
    if effort is None:
        said = dose is not None and (dose.reserve is not None or dose.kind == "max")
        if said or asked.kind not in WORKING_KINDS:
            return None, ()
        counted = dose is not None and dose.kind == "count" and dose.unit == "reps"
        limit = Effort("reserve", MOST_RPE - most, MOST_RPE - most) if counted else Effort("rpe", most, most)
        return limit, ("effort",)
    if rpe_of(effort) <= most:
        return effort, ()
    if effort.scale == "rpe":
        return Effort("rpe", min(effort.low, most), most), ("effort",)
    return Effort("reserve", MOST_RPE - most, max(effort.high, MOST_RPE - most)), ("effort",)


def _tempo(asked: UnlimitedForm, limits: Limits, dose: Dose | None) -> tuple[Tempo | None, tuple[str, ...]]:
    if limits.speed or dose is None or dose.kind == "time":
        return asked.tempo, ()
    tempo = asked.tempo or asked.usual_tempo
    if tempo.lifting is not None:
        return asked.tempo, ()
    return replace(tempo, lifting=CALM_LIFT), ("slower",)


# --- load ------------------------------------------------------------------------------------


def _held(
    asked: UnlimitedForm, limits: Limits, kit: Mapping[str, Kit]
) -> tuple[Load | None, float | None, tuple[str, ...]] | None:
    """What is held, the bound on a load that nobody wrote, and the changes; None where it cannot be."""
    if asked.load_untold and (limits.load is not None or limits.load_share is not None):
        return None  # it may weigh anything
    if limits.load_share is not None and asked.filmed_kg is None and asked.own_load:
        return None  # a share of what nobody wrote: less of it would be a guess
    most = limits.load
    if limits.load_share is not None and asked.filmed_kg is not None:
        most = _lower(most, limits.load_share * asked.filmed_kg)
    if most is None:
        return asked.load, asked.most_kg, ()
    if asked.load is None:
        if not asked.own_load:
            return None, None, ()
        known = [kg for kg in (asked.most_kg, asked.heaviest_kg) if kg is not None]
        if min(known, default=math.inf) <= most + ROUNDING:
            return None, asked.most_kg, ()
        return (None, most, ("light",)) if most >= LEAST_KG else None
    if load_mass(asked.load).high <= most + ROUNDING:
        return asked.load, None, ()
    kept = held_at_most(asked.load, most, kit)
    return (kept, None, ("lighter",)) if kept is not None else None


def held_at_most(load: Load, most_kg: float, kit: Mapping[str, Kit]) -> Load | None:
    """A load within so many kilograms in every set, shared out evenly; None where that is next to nothing."""
    return load.each_set(lambda one: _within(one, most_kg, kit))


def _within(load: Load, most: float, kit: Mapping[str, Kit]) -> Load | None:
    """The load of one set within so many kilograms in all hands; None where that is next to nothing."""
    if load_mass(load).high <= most + ROUNDING:
        return load
    parts = [lighter(part, most / len(load.parts), kit) for part in load.parts]
    kept = tuple(part for part in parts if part is not None)
    return Load(kept) if len(kept) == len(parts) else None


def lighter(part: LoadPart, most_kg: float, kit: Mapping[str, Kit]) -> LoadPart | None:
    """What one hand may hold within so many kilograms; None where that is next to nothing."""
    if part_mass(part).high <= most_kg + ROUNDING:
        return part
    piece = kit.get(part.piece or "")
    if piece is not None and piece.weighs:
        within = [mass for mass in piece.weighs if mass.base <= most_kg + ROUNDING]
        return replace(part, quantity=max(within, key=lambda mass: mass.base)) if within else None
    unit = part.quantity.unit
    if part.fill is None:
        one = MASS_UNITS_KG[unit]
    else:  # at its heaviest
        one = KG_PER_LITRE[part.fill].high * Quantity(1.0, unit).base
    amount = _rounded_down(most_kg / one, STEPS[unit])
    if amount * one < LEAST_KG:
        return None
    return replace(part, quantity=Quantity(amount, unit))


def _rounded_down(amount: float, step: float) -> float:
    """To whole steps; below one step, to fifths of it."""
    # A fifth of half a litre is 100 ml, which a kitchen measure still shows.
    step = step if amount + ROUNDING >= step else step / 5
    return round(math.floor(amount / step + ROUNDING) * step, 6)
