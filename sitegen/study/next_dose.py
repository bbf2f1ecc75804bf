"""The next dose and load of an exercise from what the series asked for before: first more, then heavier.

- **Repetitions first, then load.** A dose grows repetition by repetition to the top of its range; where
  it was asked for there with repetitions left over, the load takes the smallest step that a household
  has and the repetitions go back to the foot of the range. American College of Sports Medicine 2009,
  *Progression Models in Resistance Training for Healthy Adults*, Medicine & Science in Sports & Exercise
  41:687-708: 8 to 12 repetitions for strength of beginners, 10 to 25 for local endurance, and 2 to 10 %
  more load once the current load can be done for one or two repetitions over the desired number. Here a
  set filmed to stop with at least two repetitions in reserve counts as such a set, because nobody tells
  the program what clients did.
- **After a week off**, and after three weeks without the exercise, the last dose comes again (common
  practice, no source).
- **A step that is too large is not taken.** The load times the repetitions of a set may not rise by more
  than the series allows for loads (ACSM's 10 % where it says nothing), and the volume of all sets not by
  more than ``bounds: rise:``. A tin that is twice as heavy is such a step.
- **Doses that grow by themselves**, ``max`` and doses set by set, stay as they are: they are the
  trainer's to change.

Steps of time, steps walked and metres are common practice, no source.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from sitegen.model import Block, Bounds, Item, Kit
from sitegen.notation import Dose, Effort, Load, LoadPart, Quantity
from sitegen.study.doses import dose_in
from sitegen.study.limits import STEPS, rpe_of
from sitegen.study.load import load_mass, part_mass
from sitegen.study.vessels import fits

LOADED_RANGE = (8, 12)
"""Repetitions with a load: ACSM 2009 for beginners."""
FREE_RANGE = (8, 15)
"""Without one: up to where ACSM 2009 sees strength pass into endurance (10 to 15 repetitions)."""
HOLD_RANGE = (15, 45)
"""Seconds (common practice, no source)."""
WALK_RANGE = (20, 60)
"""Steps or metres (common practice, no source)."""
LOAD_RISE = 0.10
"""ACSM 2009, where the series sets no other bound."""
LONG_AGO_DAYS = 21
"""After so long the last dose comes again (common practice, no source)."""
FULL_RPE = 9
"""An effort from here on leaves no repetition to add safely."""
SPARE_RPE = 7
"""With an effort of so much or less two repetitions may be added at once, else one (common practice)."""
_SLIP = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Showing:
    """One time a form was asked for."""

    number: int
    """Of the episode."""
    day: date | None
    sets: float
    """At the middle of their range."""
    block: Block
    item: Item


@dataclass(frozen=True, slots=True, kw_only=True)
class NextDose:
    """What is proposed, and why."""

    dose: Dose | None
    load: Load | None
    change: str
    """``again``, ``more``, ``heavier`` or ``full`` (the range is used up and no load can be added)."""
    reason: str
    """In one line, for the trainer."""


def next_dose(
    showings: Sequence[Showing],
    *,
    sets: float,
    kit: Mapping[str, Kit],
    bounds: Bounds,
    day: date | None = None,
    after_week_off: bool = False,
) -> NextDose:
    """The dose after the last showing, for a block of so many sets. ValueError where there is no showing."""
    if not showings:
        raise ValueError("a dose follows from one before it")
    last = showings[-1]
    before = f"episode {last.number}: {_words(last.item)}"
    again = NextDose(dose=last.item.dose, load=last.item.load, change="again", reason="")
    if halted := _halted(last, day, after_week_off):
        return replace(again, reason=f"{before}; {halted}, so the same again")
    grown = _grown(last, kit, bounds)
    if grown.change in ("again", "full"):
        return replace(grown, reason=f"{before}; {grown.reason}")
    if _volume_rise(last, grown, sets) > (bounds.rise if bounds.rise is not None else 1.0) + _SLIP:
        return replace(
            again, reason=f"{before}; more in {sets:g} sets would rise too fast, so the same again"
        )
    return replace(grown, reason=f"{before}; {grown.reason}")


def _halted(last: Showing, day: date | None, after_week_off: bool) -> str:
    """Why a dose does not grow, whatever it is; empty where it may."""
    if after_week_off:
        return "a week off lies between"
    if day is not None and last.day is not None and (day - last.day).days >= LONG_AGO_DAYS:
        return f"{(day - last.day).days // 7} weeks lie between"
    dose = last.item.dose
    if dose is None:
        return "the format sets the time"
    if dose.kind == "max":
        return "as many as possible grows by itself"
    if dose.sets or dose.parts or (last.item.load is not None and last.item.load.sets):
        return "a dose set by set or in parts is yours to change"
    effort = last.item.effort
    if effort is not None and rpe_of(effort) >= FULL_RPE:
        return f"{effort} leaves nothing to add"
    return ""


def _grown(last: Showing, kit: Mapping[str, Kit], bounds: Bounds) -> NextDose:
    dose, load = dose_in(last.block, last.item), last.item.load
    foot, top, step = _range(dose, load, last.item.effort)
    if dose.measure == "breaths":
        return NextDose(dose=dose, load=load, change="again", reason="breaths stay as they are")
    if dose.high < top:
        more = min(step, top - dose.high)
        grown = replace(dose, low=dose.low + more, high=dose.high + more)
        return NextDose(dose=grown, load=load, change="more", reason=f"now {grown}, on the way to {top}")
    if load is None:
        return NextDose(dose=dose, load=None, change="full", reason=f"{dose} is the top of its range")
    if last.item.effort is None:
        reason = f"{dose} is the top of its range; write an effort, so that a heavier load can be proposed"
        return NextDose(dose=dose, load=load, change="full", reason=reason)
    most = LOAD_RISE if bounds.load_rise is None else bounds.load_rise
    back = replace(dose, low=max(1, foot), high=max(1, foot + dose.high - dose.low))
    for heavier in heavier_loads(load, kit):
        share = load_mass(heavier).mid / load_mass(load).mid
        if share * _middle(back) <= _middle(dose) * (1 + most) + _SLIP:
            percent = round((share - 1) * 100)
            reason = f"top of the range, so {heavier} (+{percent} %) and back to {back}"
            return NextDose(dose=back, load=heavier, change="heavier", reason=reason)
    reason = f"{dose} is the top of its range, and no load of the house is a small enough step"
    return NextDose(dose=dose, load=load, change="full", reason=reason)


def _range(dose: Dose, load: Load | None, effort: Effort | None) -> tuple[int, int, int]:
    """Foot and top of the range of a dose, and how much is added at once."""
    spare = effort is not None and rpe_of(effort) <= SPARE_RPE
    if dose.kind == "time":
        return (*HOLD_RANGE, 5)
    if dose.kind == "distance" or dose.unit == "steps":
        return (*WALK_RANGE, 4)
    return (*(LOADED_RANGE if load else FREE_RANGE), 2 if spare else 1)


def heavier_loads(load: Load, kit: Mapping[str, Kit]) -> Iterator[Load]:
    """Loads of the same pieces that are one household step heavier, the smallest step first.

    One of two hands alone may take the step: the plan of rotation then shares it out.
    """
    stepped = [_stepped(part, kit) for part in load.parts]
    found: list[Load] = []
    for index, heavier in enumerate(stepped):
        if heavier is not None and len(load.parts) > 1 and kit[heavier.piece or ""].holds is not None:
            parts = [*load.parts]
            parts[index] = heavier
            found.append(Load(tuple(sorted(parts, key=lambda part: -part_mass(part).mid))))
    if all(heavier is not None for heavier in stepped):
        found.append(Load(tuple(part for part in stepped if part is not None)))
    unique = {str(one): one for one in found}
    yield from sorted(unique.values(), key=lambda one: load_mass(one).mid)


def _stepped(part: LoadPart, kit: Mapping[str, Kit]) -> LoadPart | None:
    """A part one step heavier: half a litre or kilogram more, or the next weight there is; None without."""
    piece = kit.get(part.piece or "")
    if piece is None:
        return None
    if piece.weighs:
        heavier = sorted(
            (w for w in piece.weighs if w.base > part_mass(part).mid * 1.02), key=lambda w: w.base
        )
        return replace(part, quantity=heavier[0]) if heavier else None
    step = STEPS.get(part.quantity.unit)
    if step is None:
        return None
    more = replace(part, quantity=Quantity(round(part.quantity.amount + step, 3), part.quantity.unit))
    return more if fits(more, piece) else None


def _volume_rise(last: Showing, grown: NextDose, sets: float) -> float:
    """Change of repetitions times load over all sets, at the middle of the ranges, as a fraction."""
    assert grown.dose is not None
    before = _middle(dose_in(last.block, last.item)) * last.sets
    after = _middle(grown.dose) * sets
    if last.item.load is not None and grown.load is not None:
        before *= load_mass(last.item.load).mid
        after *= load_mass(grown.load).mid
    return after / before - 1 if before else 0.0


def _middle(dose: Dose) -> float:
    return dose.sides * (dose.low + dose.high) / 2


def _words(item: Item) -> str:
    parts = [str(item.dose) if item.dose else "as long as the format says"]
    if item.load:
        parts.append(f"with {item.load}")
    return " ".join(parts)
