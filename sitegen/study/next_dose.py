"""The next dose and load of an exercise from what the series asked for before: first more, then heavier.

- **Repetitions first, then load.** A dose grows to the top of its range; where it was asked for there with
  repetitions left over, the load takes the smallest step that a household has and the repetitions go back to
  the foot of the range. American College of Sports Medicine 2009, *Progression Models in Resistance Training
  for Healthy Adults*, Medicine & Science in Sports & Exercise 41:687-708: 8 to 12 repetitions for strength of
  beginners, 10 to 25 for local endurance, and 2 to 10 % more load once the current load can be done for one
  or two repetitions over the desired number. A set that is to stop with two repetitions in reserve counts as
  such a set here, because nobody tells the program what clients did. A range such as 8-12 only counts once it
  has been asked for twice in a row with the same load: who has just begun with it may still be at its foot.
- **A step that is too large is not taken.** A load may rise by what the series allows (ACSM's 10 % where it
  says nothing). Household loads come in coarse steps, so a larger one is taken where the repetitions go down
  enough to make up for it: where by Epley 1985 (what can be lifted once is the load times 1 + repetitions/30)
  the heavier load can be done at the foot of the range with the same repetitions in reserve. From 12 to 8
  with 2 in reserve that is just 10 %. Where no step is small enough at 12, the repetitions first grow to 15,
  then 20. A tin that is twice as heavy is never such a step.
- **The volume of all sets** may not rise by more than the series allows (``bounds: rise:``).
- **Counts are those that coaches write**: even ones, and the tops of the ranges. Where only one repetition
  may be added to such a count, it comes twice and then two are added (common practice, no source). It is one
  where two would be more than the series allows in no more sets than before: else nothing ever grew.
- **After a week off**, and after three weeks without the exercise, the last dose comes again (common
  practice, no source).
- **Doses that grow by themselves**, ``max`` and doses set by set, stay as they are: they are the
  trainer's to change.

Steps of time, steps walked and metres are common practice, no source. What somebody really did can be put in
the place of what was asked for: a :class:`EarlierDose` with her dose, her load and the effort she felt.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from sitegen.model import Block, Bounds, Item, Kit
from sitegen.notation import Dose, Effort, Load, LoadPart, Quantity
from sitegen.study.doses import dose_in
from sitegen.study.load import EQUAL, load_mass, part_mass
from sitegen.study.need_limits import MOST_RPE, STEPS, rpe_of
from sitegen.study.span import ROUNDING
from sitegen.study.vessels import fits

LOADED_RANGE = (8, 12)
"""Repetitions with a load: ACSM 2009 for beginners."""
HIGHER_TOPS = (15, 20)
"""Tops of the range where the loads of a house are too far apart: within the 10 to 25 of ACSM 2009."""
FREE_RANGE = (8, 15)
"""Without a load: up to where ACSM 2009 sees strength pass into endurance (10 to 15 repetitions)."""
HOLD_RANGE = (15, 45)
"""Seconds (common practice, no source)."""
WALK_RANGE = (20, 60)
"""Steps or metres (common practice, no source)."""
HOLD_STEP, WALK_STEP, COUNT_STEP = 5, 4, 2
"""How much more a set asks for at once: seconds that a clock on the wall shows, steps that end on the foot
they began with, twice over, and repetitions where there is much in reserve (our choice)."""
LOAD_RISE = 0.10
"""Largest rise in load where the series sets no other bound: ACSM 2009 has loads go up by 2 to 10 % at a
time."""
EPLEY = 30
"""Of 1RM = w (1 + r/30) (Epley 1985): how much heavier a load may be for fewer repetitions."""
LONG_AGO_DAYS = 21
"""After so long the last dose comes again (common practice, no source)."""
FULL_RPE = 9
"""An effort from here on leaves no repetition to add safely."""
SPARE_RPE = 7
"""With an effort of so much or less two repetitions may be added at once, else one (common practice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class EarlierDose:
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
    showings: Sequence[EarlierDose],
    *,
    sets: float,
    kit: Mapping[str, Kit],
    bounds: Bounds,
    day: date | None = None,
    after_week_off: bool = False,
    most_kg: float | None = None,
) -> NextDose:
    """The dose after the last showing, for a block of so many sets.

    ``day`` is that of the next session, ``most_kg`` the most that the form lets one hold in all hands.
    Showings are in their order. Raises ValueError where there is none.
    """
    if not showings:
        raise ValueError("a dose follows from one before it")
    last = showings[-1]
    before = f"episode {last.number}: {_words(last.item)}"
    again = NextDose(dose=last.item.dose, load=last.item.load, change="again", reason="")
    if halted := _halted(last, day, after_week_off):
        return replace(again, reason=f"{before}; {halted}, so the same again")
    heavier = heavier_loads(last.item.load, kit) if last.item.load is not None else ()
    loads = [one for one in heavier if most_kg is None or load_mass(one).high <= most_kg]
    most = LOAD_RISE if bounds.load_rise is None else bounds.load_rise

    def is_too_much(one: NextDose, sets: float = sets) -> bool:
        return bounds.rise is not None and volume_rise(last, one, sets) > bounds.rise + ROUNDING

    grown = _grown(showings, loads, most)
    if grown.change == "more" and is_too_much(grown, last.sets):
        grown = _grown(showings, loads, most, by_one=True)
    if grown.change in ("again", "full"):
        return replace(grown, reason=f"{before}; {grown.reason}")
    if bounds.rise is not None and is_too_much(grown):
        reason = (
            f"{before}; more in {sets:g} sets would rise by more than {bounds.rise:.0%}, so the same again"
        )
        return replace(again, reason=reason)
    return replace(grown, reason=f"{before}; {grown.reason}")


def _halted(last: EarlierDose, day: date | None, after_week_off: bool) -> str:
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
    if dose.measure == "breaths":
        return "breaths stay as they are"
    effort = _effort(last.item)
    if effort is not None and rpe_of(effort) >= FULL_RPE:
        return f"{effort} leaves nothing to add"
    return ""


def _effort(item: Item) -> Effort | None:
    """What is written with the item, or in its dose."""
    if item.effort is None and item.dose is not None and item.dose.reserve is not None:
        return Effort("reserve", *item.dose.reserve)
    return item.effort


def _grown(
    showings: Sequence[EarlierDose], loads: Sequence[Load], most: float, *, by_one: bool = False
) -> NextDose:
    """One step on from the last showing; ``loads`` are the next heavier ones, the smallest step first.

    ``by_one`` adds one repetition at most, whatever count that makes.
    """
    last = showings[-1]
    asked = [(one.item.dose, one.item.load) for one in showings[-2:]]
    twice = len(asked) == 2 and asked[0] == asked[1]
    dose, load, effort = dose_in(last.block, last.item), last.item.load, _effort(last.item)
    steps = _Steps.of(dose, load, effort, most)
    same = NextDose(dose=dose, load=load, change="full", reason="")
    if dose.high < steps.tops[0]:
        return _more(same, steps.added(dose.high, steps.tops[0], twice=twice, by_one=by_one), steps.tops[0])
    if load is None:
        return replace(same, reason=f"{dose} is the top of its range")
    if effort is None:
        reason = f"{dose} is the top of its range; write an effort, so that a heavier load can be proposed"
        return replace(same, reason=reason)
    if (heavier := next((one for one in loads if steps.takes(dose, load, one, effort)), None)) is not None:
        if dose.low < dose.high and not twice:
            reason = f"{dose} again, to be sure of its top; then {heavier}"
            return replace(same, change="again", reason=reason)
        percent = round(_share(load, heavier) * 100 - 100)
        back = steps.foot_of(dose)
        way = "again" if back == dose else "back to"
        reason = f"top of the range, so {heavier} (+{percent} %) and {way} {back}"
        return NextDose(dose=back, load=heavier, change="heavier", reason=reason)
    if loads and (higher := next((top for top in steps.tops if top > dose.high), None)) is not None:
        percent = round(_share(load, loads[0]) * 100 - 100)
        grown = _more(same, steps.added(dose.high, higher, twice=twice, by_one=by_one), higher)
        return replace(
            grown, reason=f"{loads[0]} would be {percent} % more, too large a step yet; {grown.reason}"
        )
    reason = f"{dose} is the top of its range, and no load of the house is a small enough step"
    return replace(same, reason=reason)


def _more(same: NextDose, more: int, top: int) -> NextDose:
    dose = same.dose
    assert dose is not None
    if not more:
        return replace(same, change="again", reason=f"{dose} again before it is more, on the way to {top}")
    grown = replace(dose, low=dose.low + more, high=dose.high + more)
    return replace(same, dose=grown, change="more", reason=f"now {grown}, on the way to {top}")


def _share(load: Load, heavier: Load) -> float:
    return load_mass(heavier).mid / load_mass(load).mid


@dataclass(frozen=True, slots=True, kw_only=True)
class _Steps:
    """The range of a dose, and what is a step in it."""

    foot: int
    tops: tuple[int, ...]
    """The usual top, then those for loads that are far apart."""
    size: int
    """What is added at once."""
    counted: bool
    """Whether it is in repetitions."""
    most: float
    """Rise in load that may always be taken, as a fraction."""

    @classmethod
    def of(cls, dose: Dose, load: Load | None, effort: Effort | None, most: float) -> "_Steps":
        if dose.kind == "time":
            return cls(foot=HOLD_RANGE[0], tops=HOLD_RANGE[1:], size=HOLD_STEP, counted=False, most=most)
        if dose.kind == "distance" or dose.unit == "steps":
            return cls(foot=WALK_RANGE[0], tops=WALK_RANGE[1:], size=WALK_STEP, counted=False, most=most)
        size = COUNT_STEP if effort is not None and rpe_of(effort) <= SPARE_RPE else 1
        foot, top = LOADED_RANGE if load else FREE_RANGE
        tops = (top, *HIGHER_TOPS) if load else (top,)
        return cls(foot=foot, tops=tops, size=size, counted=True, most=most)

    def added(self, count: int, top: int, *, twice: bool, by_one: bool) -> int:
        """What is added to a count on the way to its top; 0 for a usual count that comes once more before.

        ``twice`` says that it was asked for twice.
        """
        if not self.counted:
            return min(self.size, top - count)
        if by_one:
            return min(1, top - count)
        to = min(count + self.size, top)
        if to == top or to % 2 == 0:
            return to - count
        return to - 1 - count or (min(2, top - count) if twice else 0)

    def foot_of(self, dose: Dose) -> Dose:
        """The dose at the foot of the range, as wide as it is, and never more than it is."""
        low = min(self.foot, dose.low)
        return replace(dose, low=low, high=low + dose.high - dose.low)

    def takes(self, dose: Dose, load: Load, heavier: Load, effort: Effort) -> bool:
        """Whether the step from one load to a heavier one is small enough."""
        share = _share(load, heavier)
        if share <= 1 + self.most + ROUNDING:
            return True
        reserve = MOST_RPE - rpe_of(effort)
        done, next_ = dose.high + reserve, self.foot_of(dose).high + reserve
        return self.counted and share <= (1 + done / EPLEY) / (1 + next_ / EPLEY) + ROUNDING


def heavier_loads(load: Load, kit: Mapping[str, Kit], size: float = 1.0) -> Iterator[Load]:
    """Loads of the same pieces that are one household step heavier, the smallest step first.

    One of two hands alone may take the step: the plan of rotation then shares it out. ``size`` 0.5 stands for
    half of the usual step: a quarter of a litre, which is a cup.
    """
    stepped = [_stepped(part, kit, size) for part in load.parts]
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


def lighter_load(load: Load, kit: Mapping[str, Kit]) -> Load | None:
    """A load of the same pieces, each one household step lighter; None where one of them cannot be."""
    parts = [_lighter(part, kit) for part in load.parts]
    return Load(tuple(part for part in parts if part is not None)) if None not in parts else None


def _lighter(part: LoadPart, kit: Mapping[str, Kit]) -> LoadPart | None:
    piece = kit.get(part.piece or "")
    if piece is None:
        return None
    if piece.weighs:
        mass = part_mass(part).mid
        lighter = [w for w in piece.weighs if w.base < mass * (1 - EQUAL)]
        return replace(part, quantity=max(lighter, key=lambda w: w.base)) if lighter else None
    amount = round(part.quantity.amount - STEPS.get(part.quantity.unit, part.quantity.amount), 3)
    return replace(part, quantity=Quantity(amount, part.quantity.unit)) if amount > 0 else None


def _stepped(part: LoadPart, kit: Mapping[str, Kit], size: float) -> LoadPart | None:
    """A part one step heavier: half a litre or kilogram more, or the next weight there is; None without."""
    piece = kit.get(part.piece or "")
    if piece is None:
        return None
    if piece.weighs:
        heavier = sorted(
            (w for w in piece.weighs if w.base > part_mass(part).mid * (1 + EQUAL)), key=lambda w: w.base
        )
        return replace(part, quantity=heavier[0]) if heavier else None
    step = STEPS.get(part.quantity.unit)
    if step is None:
        return None
    more = replace(part, quantity=Quantity(round(part.quantity.amount + step * size, 3), part.quantity.unit))
    return more if fits(more, piece) else None


def volume_rise(last: EarlierDose, grown: NextDose, sets: float) -> float:
    """Change of repetitions times load over all sets, at the middle of the ranges, as a fraction."""
    before = _middle(dose_in(last.block, last.item)) * last.sets
    after = _middle(grown.dose or dose_in(last.block, last.item)) * sets
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
