"""What next for a client, from what she wrote: proposals for her trainer, never orders.

- **More load.** Where every set of two sessions in a row had at least one repetition more than asked, with
  the load asked for and no harder than asked: 2 to 10 % more, by the smallest household step in that range;
  the repetitions stay as asked. American College of Sports Medicine 2009, *Progression Models in Resistance
  Training for Healthy Adults*, Medicine & Science in Sports & Exercise 41:687-708: once the load can be done
  for one or two repetitions over the desired number on two consecutive sessions (from memory). Where no load
  of the house is such a step, or nothing is held, two repetitions more, up to 15 (where ACSM 2009 sees
  strength pass into endurance); seconds and steps by the ranges of ``study.next_dose``.
- **After pain, dizziness or a remark that speaks of danger nothing gets harder** until a later session went
  without. A form that she names
  in her words about the pain goes one step back: lighter, or fewer repetitions (common practice, no source).
- **After three weeks away** the same again (common practice, no source).

What she left out of her log is not taken for done: no load written is no load known, nor is a set without a
number. A step is proposed only
if her plan, with her needs and limits, would really give it to her.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from sitegen.clients.came_back import AskedForm, CameBack, FormCourse, LoggedExercise, asked_amounts
from sitegen.clients.client import Client, ProposedStep
from sitegen.clients.tailored import Tailor, TailoredSession
from sitegen.model import Kit, Series
from sitegen.notation import Dose, Load
from sitegen.study.load import load_mass, same_mass
from sitegen.study.need_limits import rpe_of
from sitegen.study.next_dose import (
    COUNT_STEP,
    FREE_RANGE,
    HOLD_RANGE,
    HOLD_STEP,
    LONG_AGO_DAYS,
    WALK_RANGE,
    WALK_STEP,
    heavier_loads,
    lighter_load,
)
from sitegen.study.span import ROUNDING

LEAST_RISE, MOST_RISE = 0.02, 0.10
"""Of a load, as fractions (ACSM 2009)."""
OVER = 1
"""Repetitions above the target that count (ACSM 2009: one or two)."""
IN_A_ROW = 2
"""Sessions (ACSM 2009)."""
LEAST_LEFT = 0.5
"""Of a dose after a step back, as a fraction (common practice, no source)."""
_NAMING = 4
"""Letters of a word that names an exercise; shorter ones (up, row) come in other sentences too."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NextStep:
    """What is proposed for one form, or why nothing is."""

    reference: str
    name: str
    proposal: ProposedStep | None
    """None where everything stays as it is."""
    why: str
    """One line for the trainer."""


def next_steps(
    back: CameBack, series: Series, sessions: Sequence[TailoredSession], today: date
) -> tuple[NextStep, ...]:
    """A step for every form that her plan still has and of which she wrote something, proposals first."""
    steps = [
        _Decision(back, course, series.details.kit, sessions, today).step()
        for course in back.courses
        if course.asked is not None
    ]
    kept = _within_her_plan(back.client, series, steps)
    return tuple(sorted(kept, key=lambda step: step.proposal is None))  # proposals first, each as in her plan


class _Decision:
    """Decides on one form."""

    def __init__(
        self,
        back: CameBack,
        course: FormCourse,
        kit: Mapping[str, Kit],
        sessions: Sequence[TailoredSession],
        today: date,
    ) -> None:
        assert course.asked is not None
        self._back, self._course, self._kit, self._today = back, course, kit, today
        self._asked = course.asked.version
        # A sitting in which something hurt is not one that went without, whatever a later log makes of it.
        self._troubled = {one.sitting.key for one in back.troubles}
        self._everywhere = [
            asked
            for (_, reference), asked in asked_amounts(sessions).items()
            if reference == course.reference
        ]

    def step(self) -> NextStep:
        if trouble := self._trouble():
            return trouble
        away = self._days_away()
        if away >= LONG_AGO_DAYS:
            return self._same(f"{away // 7} weeks without a session: the same again")
        dose, load = self._asked.dose, self._asked.load
        if dose is None or dose.kind == "max" or dose.sets or dose.parts or (load is not None and load.sets):
            return self._same("its dose is yours to change")
        last = self._course.entries[-IN_A_ROW:]
        if short := self._not_yet(last, dose, load):
            return self._same(short)
        days = " and ".join(f"{one.day.day} {one.day:%b}" for one in last)
        words = f"at least {OVER} over {dose} on {days}"
        return self._heavier(dose, load, words) if load is not None else self._more(dose, words)

    # --- what keeps everything as it is ----------------------------------------------------

    def _trouble(self) -> NextStep | None:
        """The step after pain, dizziness or a sign of danger that no session without has followed."""
        days = [one.sitting.done for one in self._back.troubles]
        fine = max(
            (one.done for one in self._back.done if one.done and one.key not in self._troubled),
            default=date.min,
        )
        open_ = [
            trouble
            for trouble, day in zip(self._back.troubles, days, strict=True)
            # On the same day, or without one: nobody knows which came first.
            if day is None or day >= fine
        ]
        for trouble in open_:
            if trouble.sitting.pain and self._named_in(trouble.sitting.pain):
                return self._back_step(f"pain: {trouble.sitting.pain}")
        # Pain in this exercise, and it was not done without pain since.
        last_named = [
            one.sitting.done or date.max
            for one in self._back.troubles
            if one.sitting.pain and self._named_in(one.sitting.pain)
        ]
        if last_named and self._course.entries[-1].day <= max(last_named):
            return self._back_step("pain in it, the last time that it was done")
        if open_:
            return self._same(
                "pain, dizziness or a sign of danger since: nothing gets harder before a session without"
            )
        return None

    def _named_in(self, pain: str) -> bool:
        """Whether she names this exercise: its whole name, or each of its longer words."""
        said = pain.casefold()
        words = [word for word in self._course.name.casefold().split() if len(word) >= _NAMING]
        return self._course.name.casefold() in said or (bool(words) and all(word in said for word in words))

    def _days_away(self) -> int:
        last = max((one.done for one in self._back.done if one.done), default=self._today)
        return (self._today - last).days

    def _not_yet(self, last: Sequence[LoggedExercise], dose: Dose, load: Load | None) -> str:
        """Why nothing rises yet; empty where it may."""
        if len(last) < IN_A_ROW:
            return "written down once so far"
        if any(one.sitting.key in self._troubled for one in last):
            return "pain, dizziness or a sign of danger in one of the last two sessions with it"
        if any(not one.counts for one in last):
            return "no repetitions that can be read on one of the last two days"
        if load is not None and any(one.kg is None for one in last):
            return f"no load that can be read on one of the last two days; asked is {load}"
        if load is not None and any(self._lighter_than(one, load) for one in last):
            return f"done with less than {load}"
        asked = self._asked.effort
        if asked is not None and any(one.effort is not None and one.effort > rpe_of(asked) for one in last):
            return f"it felt harder than asked ({asked})"
        if any(min(one.counts) < dose.high + OVER for one in last):
            return f"not yet {OVER} over {dose} in every set on two days in a row"
        # Her page asks for the repetitions of each set: one number does not stand for three.
        if any(one.asked_sets is None for one in last):
            return "how many sets it has on one of the last two days is not in the plan"
        for one in last:
            if one.asked_sets is not None and len(one.counts) < one.asked_sets:
                written = f"{len(one.counts)} of {one.asked_sets} sets"
                return f"{written} written down on {one.day.day} {one.day:%b}"
        if dose.measure == "breaths":
            return "breaths stay as they are"
        return ""

    @staticmethod
    def _lighter_than(entry: LoggedExercise, load: Load) -> bool:
        kg = load_mass(load).mid
        assert entry.kg is not None
        return entry.kg < kg and not same_mass(entry.kg, kg)

    # --- the steps -------------------------------------------------------------------------

    def _heavier(self, dose: Dose, load: Load, words: str) -> NextStep:
        # Half a step too, such as a cup of water: often the only one within the rise that is allowed.
        steps = [one for size in (0.5, 1.0) for one in heavier_loads(load, self._kit, size)]
        mass, most = load_mass(load).mid, self._asked.form.most_kg
        for one in sorted(steps, key=lambda one: load_mass(one).mid):
            rise = load_mass(one).mid / mass - 1
            if most is not None and load_mass(one).high > most:
                continue
            if LEAST_RISE - ROUNDING <= rise <= MOST_RISE + ROUNDING:
                return self._proposed(None, one, f"{words}, so {one} (+{rise:.0%}), with {dose}")
        return self._more(dose, f"{words}; no load of the house is 2 to 10 % more")

    def _more(self, dose: Dose, words: str) -> NextStep:
        if any(asked.version.dose != dose for asked in self._everywhere):
            return self._same(f"{words}; the sessions ask for different doses of it: yours to raise")
        top, size = _range(dose)
        if dose.high >= top:
            return self._same(f"{words}; {dose} is the top of its range: a harder form may be right")
        more = min(size, top - dose.high)
        grown = replace(dose, low=dose.low + more, high=dose.high + more)
        return self._proposed(grown, None, f"{words}, so {grown}")

    def _back_step(self, words: str) -> NextStep:
        dose, load, once = self._asked.dose, self._asked.load, "once it may be done again at all"
        if load is not None and (lighter := lighter_load(load, self._kit)) is not None:
            return self._proposed(None, lighter, f"{words}; back to {lighter}, {once}")
        if dose is not None and dose.kind != "max" and not dose.sets and not dose.parts:
            low = max(1, round(dose.low * LEAST_LEFT), dose.low - _range(dose)[1])
            less = replace(dose, low=low, high=low + dose.high - dose.low)
            if less.high < dose.high:
                return self._proposed(less, None, f"{words}; back to {less}, {once}")
        return self._same(f"{words}; leave it out until you have talked about it")

    def _proposed(self, dose: Dose | None, load: Load | None, why: str) -> NextStep:
        proposal = ProposedStep(form=self._course.reference, dose=dose, load=load, why=why)
        return NextStep(reference=proposal.form, name=self._course.name, proposal=proposal, why=why)

    def _same(self, why: str) -> NextStep:
        return NextStep(reference=self._course.reference, name=self._course.name, proposal=None, why=why)


def _range(dose: Dose) -> tuple[int, int]:
    """Top of the range, and how much is added at once."""
    if dose.kind == "time":
        return HOLD_RANGE[1], HOLD_STEP
    if dose.kind == "distance" or dose.unit == "steps":
        return WALK_RANGE[1], WALK_STEP
    return FREE_RANGE[1], COUNT_STEP


# --- what her plan would make of it --------------------------------------------------------------


def _within_her_plan(client: Client, series: Series, steps: Iterable[NextStep]) -> Iterator[NextStep]:
    """The steps, those left out that her needs and limits would not give her."""
    steps = list(steps)
    wanted = [step.proposal for step in steps if step.proposal is not None]
    if not wanted:
        yield from steps
        return
    accepted = tuple(replace(one, accept=True) for one in wanted)
    trial = Tailor(series, replace(client, proposals=(*client.proposals, *accepted)))
    given: dict[str, list[AskedForm]] = {}
    for (_, reference), asked in asked_amounts(trial.sessions()).items():
        given.setdefault(reference, []).append(asked)
    for step in steps:
        one = step.proposal
        if one is not None and not all(_gives(asked, one) for asked in given.get(one.form, ())):
            why = f"{step.why}; but limits and needs do not allow it"
            yield replace(step, proposal=None, why=why)
        else:
            yield step


def _gives(asked: AskedForm, proposal: ProposedStep) -> bool:
    version = asked.version
    dose = proposal.dose is None or version.dose == proposal.dose
    load = proposal.load is None or (
        version.load is not None and same_mass(load_mass(version.load).mid, load_mass(proposal.load).mid)
    )
    return dose and load
