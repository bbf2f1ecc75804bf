"""The exercises that may stand in a block, each with its next dose, what it gives and what needs keep."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from sitegen.composing.exercise_points import FAST, ExercisePoints
from sitegen.composing.level import may_repeat
from sitegen.composing.needs_kept import ForNeeds, NeedsKept
from sitegen.composing.next_items import BALANCE, NextItems
from sitegen.composing.rises import too_fast
from sitegen.composing.session_shape import BlockShape
from sitegen.composing.sets_and_rests import is_large
from sitegen.composing.showing_history import MAIN_LIFTS, lift_of
from sitegen.composing.single_exercise import counted_alone, seconds_besides_items, session_of, share_of_one
from sitegen.composing.so_far import SoFar
from sitegen.composing.task import QUARTERS, Option
from sitegen.composing.wishes import SessionWishes
from sitegen.model import Block, Item
from sitegen.study.forms import Form, FormKey, shown_form
from sitegen.study.next_dose import NextDose
from sitegen.study.recovery import is_hard
from sitegen.study.timing import block_time, dose_seconds
from sitegen.study.volume import PULL, PUSH, STRENGTH, muscle_shares
from sitegen.vocabulary import AMRAP, EMOM, INTERVALS, MUSCLE_REGIONS

ON_THE_FLOOR = "getting to the floor"
GRIP = "grip"
STRAINS = frozenset({"weight on the wrists", "leaning on the arms", "jumping", BALANCE})
STEPPING = "stairs and steps"

# Turns: smaller ones come first in a block.
TURNS = {"isolation": 2, "trunk": 3, "carry": 4, "locomotion": 4}
UNLOADED_TURN = 1
"""Of patterns in strength blocks: large lifts, those with a load first, before what tires grip and trunk for
them (multiple-joint before single-joint exercises: ACSM 2009, from memory; carries last: common practice, no
source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ItemCandidate:
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
    needs: NeedsKept


class Pool:
    """Candidates of a series for its next session."""

    def __init__(self, so_far: SoFar) -> None:
        self.so_far = so_far
        self._details = so_far.details
        self._forms = so_far.forms
        self._history = so_far.history
        self._regions = MUSCLE_REGIONS | dict(so_far.details.muscles)
        self._items = NextItems(so_far)
        self._points = ExercisePoints(so_far)
        self._for_needs = ForNeeds(so_far)
        self._known: dict[tuple[str, SessionWishes], Mapping[str, ItemCandidate]] = {}

    def candidates(self, shape: BlockShape, wishes: SessionWishes) -> Mapping[str, ItemCandidate]:
        """Candidates for one block by exercise, in the order of the library; worked out once."""
        key = (repr(shape), wishes)
        if key not in self._known:
            self._known[key] = {one.option.key: one for one in self._candidates(shape, wishes)}
        return self._known[key]

    def _candidates(self, shape: BlockShape, wishes: SessionWishes) -> Iterator[ItemCandidate]:
        block = share_of_one(shape)
        for exercise in sorted(self.so_far.series.exercises):
            if exercise in wishes.without or exercise in self._history.elsewhere:
                continue
            key = self._history.last_form.get((exercise, block.kind))
            if key is None and (
                exercise in self._history.last_used or self._new_kind(exercise) != block.kind
            ):
                continue
            form = self._forms[key or FormKey(exercise)]
            if wishes.kit is not None and not set(form.kit) <= wishes.kit:
                continue
            item, dose, question = (
                self._items.of_the_day(key, block) if key else self._items.new(exercise, block)
            )
            if self._fits(shape.block, item) and not self._rises_too_fast(block, item):
                candidate = self.candidate(block, item, wishes, dose=dose, question=question)
                if wishes.serve.isdisjoint(candidate.needs.gap):
                    yield candidate

    def _new_kind(self, exercise: str) -> str:
        form = self._forms[FormKey(exercise)]
        if form.pattern == "mobility":
            return ""
        fast = form.pattern == "locomotion" or any(demand in FAST for demand in form.demands)
        return "conditioning" if fast else "strength"

    def redosed(self, candidate: ItemCandidate, block: Block) -> ItemCandidate:
        """The candidate with its dose for another number of sets."""
        if candidate.dose is None:
            return candidate
        key = FormKey(candidate.item.exercise, candidate.item.variant)
        item, dose, question = self._items.of_the_day(key, block)
        return replace(candidate, item=item, dose=dose, question=question)

    def _fits(self, block: Block, item: Item) -> bool:
        """Whether a dose may come in every set, and has room in its minute, or in the time for all rounds."""
        if item.dose is None or block.format == INTERVALS:
            return True
        if not may_repeat(item.dose, block):
            return False
        room = (
            60 if block.format == EMOM else block.time.high if block.format == AMRAP and block.time else None
        )
        return room is None or dose_seconds(self._details, self._forms, item, item.dose).low <= room

    def _rises_too_fast(self, block: Block, item: Item) -> bool:
        """Whether the sets of the block make more of it than the series allows from session to session."""
        alone = session_of(block, item)
        return any(True for _ in too_fast(self._details, self._forms, self._history.points, alone))

    def may_stand(self, block: Block, item: Item, wishes: SessionWishes) -> bool:
        """Whether an item of a warm-up or a cool-down is what was asked for."""
        form = shown_form(self._forms, item)
        return (
            item.exercise not in wishes.without
            and (wishes.kit is None or set(form.kit) <= wishes.kit)
            and (not wishes.serve or wishes.serve.isdisjoint(self._for_needs.kept(block, item).gap))
        )

    # --- what an item gives ------------------------------------------------------------------

    def candidate(
        self, block: Block, item: Item, wishes: SessionWishes, *, dose: NextDose | None, question: str = ""
    ) -> ItemCandidate:
        """An item with everything that is known of it."""
        form = shown_form(self._forms, item)
        last = max(
            (n for n in map(self._history.last_used.get, (item.exercise, form.exercise)) if n is not None),
            default=None,
        )
        needs = self._for_needs.kept(block, item)
        points = self._points.of(block, item, form, wishes, last=last, needs=needs, dose=dose)
        option = self._option(block, item, form, points, needs, is_new=last is None)
        return ItemCandidate(
            item=item, form=form, option=option, last=last, dose=dose, question=question, needs=needs
        )

    def _option(
        self, block: Block, item: Item, form: Form, points: int, needs: NeedsKept, *, is_new: bool
    ) -> Option:
        one = counted_alone(self._details, self._forms, block, item)
        repeats = self._details.schedule.repeats if self._details.schedule else 1
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
        alone = block_time(self._details, self._forms, replace(block, items=(item,))).long.whole
        return alone - seconds_besides_items(self._details, block, places=1)
