"""The exercises that may stand in a block, each with its next dose, what it gives and what needs keep."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from sitegen.composing.history import MAIN_LIFTS, History, lift_of
from sitegen.composing.level import HEAVY, LIGHT, Level, asked_for, may_repeat
from sitegen.composing.request import Wishes
from sitegen.composing.rises import too_fast
from sitegen.composing.search import QUARTERS, Option
from sitegen.composing.session_shape import BlockShape
from sitegen.composing.sets_and_rests import is_large
from sitegen.model import Block, Details, Episode, Exercise, Item, Poses, Sides
from sitegen.notation import Dose, Duration, Effort
from sitegen.study.forms import Form, FormKey, Forms, shown_form
from sitegen.study.load import load_mass
from sitegen.study.next_dose import FREE_RANGE, HOLD_RANGE, WALK_RANGE, NextDose, Showing, next_dose
from sitegen.study.recovery import is_hard
from sitegen.study.room import Room
from sitegen.study.suitability import Suitability
from sitegen.study.timing import block_time, dose_seconds, pauses
from sitegen.study.volume import PULL, PUSH, STRENGTH, CountedItem, counted_items, muscle_shares
from sitegen.vocabulary import AMRAP, EMOM, INTERVALS, MUSCLE_REGIONS, STRAIGHT

ON_THE_FLOOR = "getting to the floor"
GRIP = "grip"
BALANCE = "balance on one leg"
STRAINS = frozenset({"weight on the wrists", "leaning on the arms", "jumping", BALANCE})
STEPPING = "stairs and steps"
FAST = ("jumping", "speed")
"""Demands by which an exercise that was never shown is taken for conditioning."""

# Turns: smaller ones come first in a block.
TURNS = {"isolation": 2, "trunk": 3, "carry": 4, "locomotion": 4}
UNLOADED_TURN = 1
"""Of patterns in strength blocks: large lifts, those with a load first, before what tires grip and trunk for
them (multiple-joint before single-joint exercises: ACSM 2009, from memory; carries last: common practice, no
source)."""

REST_POINTS = 3
"""For each session an exercise was not used in, up to :data:`LONG_UNUSED`."""
LONG_UNUSED = 9
"""Sessions, three weeks of three, after which an exercise is as rested as it gets (our choice)."""
JUST_USED_POINTS = (-24, -14)
"""For an exercise of the session before, and of the one before that: somebody else comes first."""
NEW_POINTS = 14
"""For an exercise that the series has not shown: as much as four or five sessions of rest, so that new ones
come, but not all at once (our choice)."""
NEEDS_POINTS = 20
"""Where every need keeps all of it; a need without any form costs as much as two."""
EMPHASIS_POINTS = 15
"""For training what was asked for: a little more than half of the most that rest can give (our choice)."""
OUTGROWN_POINTS = -26
"""For an exercise without a load, both sides at once, where its pattern has been done with a load since: it
would be a step back (our choice)."""
FULL_POINTS = -6
"""For a dose that cannot grow any more."""
ALONE_POINTS = {"carry": -6, "isolation": -12, "trunk": -6}
"""By patterns, for standing by itself in straight sets: small muscles belong beside another."""
LARGE_ALONE_POINTS = (8, -8)
"""The same for a large lift that is made heavy, and for another."""
CARRY_ALONE_POINTS = 3
"""For each kilogram of a carry, up to six, that stands by itself: it needs the way."""
MOST_LOAD_POINTS = 12
"""For a large lift with a load, a point for each kilogram: more in a heavy session, less in a light one."""
HURRIED_POINTS = -24
"""For jumping and speed in the conditioning of a light session."""

FIRST_EFFORT = Effort("reserve", 4, 4)
"""Of an exercise that the series has not shown yet (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NeedsKeep:
    """What each need makes of an item, by the ids of needs."""

    whole: tuple[str, ...]
    """The same movement and muscles, loaded where it is loaded."""
    less: tuple[tuple[str, str], ...]
    """Another form that trains less of the same, or without the load, with its name."""
    gap: tuple[str, ...]
    """No form at all."""
    astray: frozenset[str]
    """None that trains a prime muscle of it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """One exercise as it would stand in one block."""

    item: Item
    form: Form
    option: Option
    last: int | None
    """Number of the episode it was last used in; None for never."""
    dose: NextDose | None
    """How its dose came about; None for an exercise that is new."""
    question: str
    """What the trainer has to decide before it is filmed; empty for nothing."""
    needs: NeedsKeep


class Pool:
    """Candidates of a series for its next session."""

    def __init__(
        self,
        details: Details,
        exercises: Mapping[str, Exercise],
        forms: Forms,
        history: History,
        room: Room,
        level: Level,
    ) -> None:
        self.details = details
        self.exercises = exercises
        self.forms = forms
        self.history = history
        self.room = room
        self.level = level
        self._regions = MUSCLE_REGIONS | dict(details.muscles)
        self.suitability = Suitability(details, forms)

    def candidates(self, shape: BlockShape, wishes: Wishes) -> tuple[Candidate, ...]:
        """For one block, in the order of the library."""
        return tuple(self._candidates(shape, wishes))

    def _candidates(self, shape: BlockShape, wishes: Wishes) -> Iterator[Candidate]:
        block = share_of_one(shape)
        for exercise in sorted(self.exercises):
            if exercise in wishes.without or exercise in self.history.elsewhere:
                continue
            key = self.history.last_form.get((exercise, block.kind))
            if key is None and (exercise in self.history.last_used or self._new_kind(exercise) != block.kind):
                continue
            form = self.forms[key or FormKey(exercise)]
            if wishes.kit is not None and not set(form.kit) <= wishes.kit:
                continue
            item, dose, question = self.of_the_day(key, block) if key else self.new(exercise, block)
            if self._fits(shape.block, item) and not self._rises_too_fast(block, item):
                candidate = self.candidate(block, item, wishes, dose=dose, question=question)
                if wishes.serve.isdisjoint(candidate.needs.gap):
                    yield candidate

    def _new_kind(self, exercise: str) -> str:
        form = self.forms[FormKey(exercise)]
        if form.pattern == "mobility":
            return ""
        fast = form.pattern == "locomotion" or any(demand in FAST for demand in form.demands)
        return "conditioning" if fast else "strength"

    # --- items -----------------------------------------------------------------------------

    def of_the_day(self, key: FormKey, block: Block) -> tuple[Item, NextDose, str]:
        """The same as :meth:`known` with the effort of the session's level. A light session asks for no more
        than the last one did."""
        item, dose, question = self.known(key, block)
        showings = self.history.showings[key, block.kind]
        if self.level is LIGHT and dose.change in ("more", "heavier"):
            last = _dosed(showings)[-1]
            item = replace(item, dose=last.item.dose, load=last.item.load)
            reason = (
                f"episode {last.number}: {_asked_words(item)}; the same again, for the session is a light one"
            )
            dose = NextDose(dose=item.dose, load=item.load, change="again", reason=reason)
        before = [one.item for one in showings]
        careful = dose.change == "heavier" or BALANCE in self.forms[key].demands
        return asked_for(item, self.level, block.kind, before, careful=careful), dose, question

    def redosed(self, candidate: Candidate, block: Block) -> Candidate:
        """The candidate with its dose for another number of sets."""
        if candidate.dose is None:
            return candidate
        key = FormKey(candidate.item.exercise, candidate.item.variant)
        item, dose, question = self.of_the_day(key, block)
        return replace(candidate, item=item, dose=dose, question=question)

    def known(self, key: FormKey, block: Block) -> tuple[Item, NextDose, str]:
        """The item of a form that was shown before in such a block, with its next dose."""
        showings = self.history.showings[key, block.kind]
        last = showings[-1].item
        counts = _dosed(showings)
        if block.format == INTERVALS:
            dose = NextDose(dose=None, load=last.load, change="again", reason="the format sets the time")
        elif not counts:
            first = self._first_dose(self.forms[key])
            dose = NextDose(dose=first, load=last.load, change="again", reason="a first count for it")
        else:
            dose = next_dose(
                counts,
                sets=self._sets(block, counts[-1].item),
                kit=self.details.kit,
                bounds=self.details.bounds,
                day=self.room.day,
                after_week_off=self.room.after_week_off,
                most_kg=self.forms[key].most_kg,
            )
        item = replace(last, dose=dose.dose, load=dose.load, at=None, note="")
        if counts and counts[-1].item is not last:
            item = replace(item, effort=counts[-1].item.effort, tempo=counts[-1].item.tempo)
        if block.format == INTERVALS:
            item = replace(item, tempo=None)
        if item.dose is not None and item.dose.sets:  # a ladder belongs to the number of its sets
            item = replace(
                item,
                dose=item.dose.of_set(1),
                load=item.load.sets[0] if item.load and item.load.sets else item.load,
            )
        return item, dose, ""

    def new(self, exercise: str, block: Block) -> tuple[Item, None, str]:
        """The item of an exercise that the series has not shown, at the foot of every range."""
        form = self.forms[FormKey(exercise)]
        dose = None if block.format == INTERVALS else self._first_dose(form)
        effort = FIRST_EFFORT if dose is not None and dose.measure == "reps" else Effort("rpe", 6, 6)
        pieces = [self.details.kit[piece] for piece in form.kit if piece in self.details.kit]
        loaded = any(piece.holds or piece.weighs for piece in pieces)
        question = "new to the series: are dose and effort right"
        question += ", and with which load (write load:)?" if loaded else "?"
        return Item(exercise=exercise, dose=dose, effort=effort), None, question

    def _first_dose(self, form: Form) -> Dose:
        sides = _is_one_sided(form.poses)
        if form.poses is not None and form.poses.held:
            return Dose(kind="time", low=HOLD_RANGE[0], high=HOLD_RANGE[0], per_side=sides)
        if form.pattern in ("carry", "locomotion"):
            return Dose(kind="count", low=WALK_RANGE[0], high=WALK_RANGE[0], unit="steps")
        return Dose(kind="count", low=FREE_RANGE[0], high=FREE_RANGE[0], per_side=sides)

    def _sets(self, block: Block, item: Item) -> float:
        [one] = _counted(self.details, self.forms, block, item)
        return one.sets.mid

    def _fits(self, block: Block, item: Item) -> bool:
        """Whether a dose may come in every set, and has room in its minute, or in the time for all rounds."""
        if item.dose is None or block.format == INTERVALS:
            return True
        if not may_repeat(item.dose, block):
            return False
        room = (
            60 if block.format == EMOM else block.time.high if block.format == AMRAP and block.time else None
        )
        return room is None or dose_seconds(self.details, self.forms, item, item.dose).low <= room

    def _rises_too_fast(self, block: Block, item: Item) -> bool:
        """Whether the sets of the block make more of it than the series allows from session to session."""
        alone = _alone(block, item)
        return any(True for _ in too_fast(self.details, self.forms, self.history.points, alone))

    def may_stand(self, block: Block, item: Item, wishes: Wishes) -> bool:
        """Whether an item of a warm-up or a cool-down is what was wished for."""
        form = shown_form(self.forms, item)
        return (
            item.exercise not in wishes.without
            and (wishes.kit is None or set(form.kit) <= wishes.kit)
            and (not wishes.serve or wishes.serve.isdisjoint(self._needs(block, item).gap))
        )

    # --- what an item gives ------------------------------------------------------------------

    def candidate(
        self, block: Block, item: Item, wishes: Wishes, *, dose: NextDose | None, question: str = ""
    ) -> Candidate:
        """An item with everything that is known of it."""
        form = shown_form(self.forms, item)
        last = max(
            (n for n in map(self.history.last_used.get, (item.exercise, form.exercise)) if n is not None),
            default=None,
        )
        needs = self._needs(block, item)
        points = self._points(block, item, form, last, needs, wishes, dose)
        option = self._option(block, item, form, points, needs, is_new=last is None)
        return Candidate(
            item=item, form=form, option=option, last=last, dose=dose, question=question, needs=needs
        )

    def _points(
        self,
        block: Block,
        item: Item,
        form: Form,
        last: int | None,
        needs: NeedsKeep,
        wishes: Wishes,
        dose: NextDose | None,
    ) -> int:
        ago = 0 if last is None else self.room.number - last - 1
        unused = NEW_POINTS if last is None else REST_POINTS * min(LONG_UNUSED, ago)
        if last is not None and ago < len(JUST_USED_POINTS):
            unused += JUST_USED_POINTS[ago]
        kept = 2 * len(needs.whole) + len(needs.less) - 2 * len(needs.gap)
        count = len(self.details.needs)
        emphasis = {form.pattern, *form.muscles.prime} & wishes.more
        return (
            unused
            + (NEEDS_POINTS * kept // (2 * count) if count else 0)
            + EMPHASIS_POINTS * len(emphasis)
            + (self._alone(item, form) if block.format == STRAIGHT else 0)
            + self._heaviness(block, item, form)
            + (HURRIED_POINTS if self._is_hurried(block, form) else 0)
            + (FULL_POINTS if dose is not None and dose.change == "full" else 0)
            + (OUTGROWN_POINTS if self._is_outgrown(block, item, form, last) else 0)
        )

    def _alone(self, item: Item, form: Form) -> int:
        if form.pattern == "carry" and item.load is not None:
            return CARRY_ALONE_POINTS * min(6, round(load_mass(item.load).mid)) + ALONE_POINTS["carry"]
        return ALONE_POINTS.get(form.pattern, LARGE_ALONE_POINTS[0 if is_large(item, form) else 1])

    def _heaviness(self, block: Block, item: Item, form: Form) -> int:
        """What a load is worth in a session that is to be heavy or light."""
        if block.kind not in STRENGTH or item.load is None or not is_large(item, form):
            return 0
        points = min(MOST_LOAD_POINTS, round(load_mass(item.load).mid))
        return points if self.level is HEAVY else -points if self.level is LIGHT else 0

    def _is_hurried(self, block: Block, form: Form) -> bool:
        return self.level is LIGHT and block.kind not in STRENGTH and any(one in form.demands for one in FAST)

    def _is_outgrown(self, block: Block, item: Item, form: Form, last: int | None) -> bool:
        if block.kind not in STRENGTH or item.load is not None or last is None:
            return False
        one_sided = item.dose is not None and item.dose.per_side
        return not one_sided and self.history.loaded.get(form.pattern, 0) > last

    def _option(
        self, block: Block, item: Item, form: Form, points: int, needs: NeedsKeep, *, is_new: bool
    ) -> Option:
        [one] = _counted(self.details, self.forms, block, item)
        repeats = self.details.schedule.repeats if self.details.schedule else 1
        strength = block.kind in STRENGTH
        middle = round(one.sets.mid * QUARTERS) * repeats
        low, high = int(one.sets.low * QUARTERS) * repeats, int(one.sets.high * QUARTERS)
        shares = muscle_shares(form)
        feeds = {muscle: int(middle * share) for muscle, share in shares.items()} if strength else {}
        if strength:
            feeds[f"pattern {form.pattern}"] = middle
            feeds |= {name: middle for name, patterns in MAIN_LIFTS.items() if form.pattern in patterns}
        return Option(
            key=form.exercise,
            points=points,
            feeds=feeds,
            load={muscle: int(low * share) for muscle, share in shares.items()} if strength else {},
            push=middle if strength and form.pattern in PUSH else 0,
            pull=middle if strength and form.pattern in PULL else 0,
            hard=dict.fromkeys(form.muscles.prime, high) if is_hard(one) else {},
            seconds=self._seconds(block, item),
            kit=frozenset(form.kit),
            prime=frozenset(form.muscles.prime),
            assist=frozenset(form.muscles.assist),
            pattern=form.pattern,
            grip=GRIP in form.demands,
            floor=ON_THE_FLOOR in form.demands,
            strains=frozenset(self._strains(item, form)),
            new=is_new,
            turn=self._turn(item, form) if strength else None,
            sort=frozenset() if strength else frozenset(self._sorts(form)),
            lift=lift_of(form.pattern) if strength else "",
            astray=needs.astray if strength else frozenset(),
        )

    def _turn(self, item: Item, form: Form) -> int:
        return TURNS.get(form.pattern, 0 if is_large(item, form) else UNLOADED_TURN)

    def _strains(self, item: Item, form: Form) -> Iterator[str]:
        yield from STRAINS.intersection(form.demands)
        if form.pattern == "carry" or (form.pattern == "hinge" and item.load is not None):
            yield "a braced back"

    def _sorts(self, form: Form) -> Iterator[str]:
        """What a neighbour in conditioning should not be too, so that one part rests while another works."""
        yield from (self._regions[muscle] for muscle in form.muscles.prime)
        yield from (demand for demand in (ON_THE_FLOOR, STEPPING, *FAST) if demand in form.demands)

    def _seconds(self, block: Block, item: Item) -> float:
        """What an item adds to its block at the long end of every range; 0 where a clock sets the time."""
        if block.format in (AMRAP, EMOM):
            return 0.0
        alone = block_time(self.details, self.forms, replace(block, items=(item,))).long.whole
        return alone - fixed_seconds(self.details, block, places=1)

    def _needs(self, block: Block, item: Item) -> NeedsKeep:
        whole, less, gap, astray = [], [], [], set()
        form = shown_form(self.forms, item)
        kit = frozenset(form.kit)
        for need in self.details.needs:
            fitting = self.suitability.fitting(block, item, [need], kit)
            if not fitting or not self.suitability.trains_the_same(item, fitting[0].form):
                astray.add(need)
            if not fitting:
                gap.append(need)
            elif not fitting[0].near.unlike and not fitting[0].near.load_lost:
                whole.append(need)
            else:
                less.append((need, fitting[0].form.name))
        return NeedsKeep(whole=tuple(whole), less=tuple(less), gap=tuple(gap), astray=frozenset(astray))


def fixed_seconds(details: Details, block: Block, places: int) -> float:
    """What a block of so many items takes besides its items, at the long end of every range."""
    after = block.rest.after.high if block.rest.after else 0.0
    if block.format in (AMRAP, EMOM):
        return after + (block.time.high if block.time else 0.0)
    exchange, break_ = pauses(details, block)
    if block.format == STRAIGHT:
        return after + (places - 1) * exchange.high
    return after + block.sets.high * (places - 1) * exchange.high + (block.sets.high - 1) * break_.high


def share_of_one(shape: BlockShape) -> Block:
    """The block as it is for one of its exercises: what a clock sets for all of them is shared out.

    Of as many rounds as possible that supposes exercises of the same length; the finished session is worked
    out with those that it has.
    """
    block = shape.block
    if block.format not in (AMRAP, EMOM) or block.time is None:
        return block
    low, high = (end // shape.places for end in (block.time.low, block.time.high))
    return replace(block, time=Duration(low, high))


def _counted(details: Details, forms: Forms, block: Block, item: Item) -> list[CountedItem]:
    return list(counted_items(details, forms, _alone(block, item)))


def _alone(block: Block, item: Item) -> Episode:
    """A session with nothing but one exercise."""
    blocks = (replace(block, items=(item,)),)
    return Episode(slug="-", number=0, title="-", blocks=blocks, location=block.location)


def _dosed(showings: Sequence[Showing]) -> list[Showing]:
    """Those with a dose. As many as possible is a test: where there is another dose, it goes on from that."""
    doses = [one for one in showings if one.item.dose is not None]
    return [one for one in doses if one.item.dose is not None and one.item.dose.kind != "max"] or doses


def _asked_words(item: Item) -> str:
    return f"{item.dose} with {item.load}" if item.load else str(item.dose)


def _is_one_sided(poses: Poses | None) -> bool:
    """Whether the two sides of the body do different things, so that a set is done on each."""
    if poses is None:
        return False
    said = [poses.start, *poses.through, poses.finish or {}]
    return any(
        isinstance(value, Sides) and value.left != value.right for pose in said for value in pose.values()
    )
