"""The exercises that may stand in a block, each with its next dose, what it gives and what needs keep."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from sitegen.composing.history import History
from sitegen.composing.request import Wishes
from sitegen.composing.rises import too_fast
from sitegen.composing.search import QUARTERS, Option
from sitegen.composing.session_shape import BlockShape
from sitegen.model import Block, Details, Episode, Exercise, Item, Poses, Sides
from sitegen.notation import Dose, Duration, Effort
from sitegen.study.forms import Form, FormKey, Forms, shown_form
from sitegen.study.next_dose import FREE_RANGE, HOLD_RANGE, WALK_RANGE, NextDose, next_dose
from sitegen.study.recovery import is_hard
from sitegen.study.room import Room
from sitegen.study.suitability import Suitability
from sitegen.study.timing import block_time, dose_seconds, pauses
from sitegen.study.volume import KNEE, PULL, PUSH, STRENGTH, CountedItem, counted_items, muscle_shares
from sitegen.vocabulary import AMRAP, EMOM, INTERVALS, STRAIGHT

ON_THE_FLOOR = "getting to the floor"
GRIP = "grip"
STRAINS = frozenset({"weight on the wrists", "leaning on the arms", "jumping", "balance on one leg"})
FAST = ("jumping", "speed")
"""Demands by which an exercise that was never shown is taken for conditioning."""

MAIN_LIFTS = {"knee": KNEE, "hinge": ("hinge",), "push": PUSH, "pull": PULL}
"""What every session should have some sets of, by patterns."""
TURNS = {"isolation": 1, "trunk": 2, "carry": 3, "locomotion": 3}
"""Of patterns in strength blocks: large lifts before what tires grip and trunk for them (multiple-joint
before single-joint exercises: ACSM 2009, from memory; carries last: common practice, no source)."""

REST_POINTS = 2
"""For each session an exercise was not used in, up to :data:`LONG_UNUSED`."""
LONG_UNUSED = 9
NEW_POINTS = 14
NEEDS_POINTS = 20
"""Where every need keeps all of it; a need without any form costs as much as two."""
EMPHASIS_POINTS = 15
OUTGROWN_POINTS = -12
"""For an exercise without a load, both sides at once, where its pattern has been done with a load since: it
would be a step back (our choice)."""
FULL_POINTS = -6
"""For a dose that cannot grow any more."""

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
        self, details: Details, exercises: Mapping[str, Exercise], forms: Forms, history: History, room: Room
    ) -> None:
        self.details = details
        self.exercises = exercises
        self.forms = forms
        self.history = history
        self.room = room
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
            made = self.known(key, block) if key else self.new(exercise, block)
            item, dose, question = made
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

    def known(self, key: FormKey, block: Block) -> tuple[Item, NextDose, str]:
        """The item of a form that was shown before in such a block, with its next dose."""
        showings = self.history.showings[key, block.kind]
        last = showings[-1].item
        counts = [one for one in showings if one.item.dose is not None]
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
        question = "new to the series: is the dose right"
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
        """Whether a dose has room in its minute, or in the time for all rounds."""
        if item.dose is None or block.format == INTERVALS:
            return True
        room = (
            60 if block.format == EMOM else block.time.high if block.format == AMRAP and block.time else None
        )
        return room is None or dose_seconds(self.details, self.forms, item, item.dose).low <= room

    def _rises_too_fast(self, block: Block, item: Item) -> bool:
        """Whether the sets of the block make more of it than the series allows from session to session."""
        alone = _alone(block, item)
        return any(True for _ in too_fast(self.details, self.forms, self.history.points, alone))

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
        option = self._option(block, item, form, points, is_new=last is None)
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
        unused = NEW_POINTS if last is None else REST_POINTS * min(LONG_UNUSED, self.room.number - last - 1)
        kept = 2 * len(needs.whole) + len(needs.less) - 2 * len(needs.gap)
        count = len(self.details.needs)
        emphasis = {form.pattern, *form.muscles.prime} & wishes.more
        return (
            unused
            + (NEEDS_POINTS * kept // (2 * count) if count else 0)
            + EMPHASIS_POINTS * len(emphasis)
            + (FULL_POINTS if dose is not None and dose.change == "full" else 0)
            + (OUTGROWN_POINTS if self._is_outgrown(block, item, form, last) else 0)
        )

    def _is_outgrown(self, block: Block, item: Item, form: Form, last: int | None) -> bool:
        if block.kind not in STRENGTH or item.load is not None or last is None:
            return False
        one_sided = item.dose is not None and item.dose.per_side
        return not one_sided and self.history.loaded.get(form.pattern, 0) > last

    def _option(self, block: Block, item: Item, form: Form, points: int, *, is_new: bool) -> Option:
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
            pattern=form.pattern,
            grip=GRIP in form.demands,
            floor=ON_THE_FLOOR in form.demands,
            strains=STRAINS.intersection(form.demands),
            new=is_new,
            turn=TURNS.get(form.pattern, 0) if strength else None,
        )

    def _seconds(self, block: Block, item: Item) -> float:
        """What an item adds to its block at the long end of every range; 0 where a clock sets the time."""
        if block.format in (AMRAP, EMOM):
            return 0.0
        alone = block_time(self.details, self.forms, replace(block, items=(item,))).long.whole
        return alone - fixed_seconds(self.details, block, places=1)

    def _needs(self, block: Block, item: Item) -> NeedsKeep:
        whole, less, gap = [], [], []
        form = shown_form(self.forms, item)
        kit = frozenset(form.kit)
        for need in self.details.needs:
            fitting = self.suitability.fitting(block, item, [need], kit)
            if not fitting:
                gap.append(need)
            elif not fitting[0].near.unlike and not fitting[0].near.load_lost:
                whole.append(need)
            else:
                less.append((need, fitting[0].form.name))
        return NeedsKeep(whole=tuple(whole), less=tuple(less), gap=tuple(gap))


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


def _is_one_sided(poses: Poses | None) -> bool:
    """Whether the two sides of the body do different things, so that a set is done on each."""
    if poses is None:
        return False
    said = [poses.start, *poses.through, poses.finish or {}]
    return any(
        isinstance(value, Sides) and value.left != value.right for pose in said for value in pose.values()
    )
