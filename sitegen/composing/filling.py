"""The search for the exercises of one shape: what it is given, and what it found in words of the trade."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from math import ceil

from sitegen.composing.conflicts import too_few
from sitegen.composing.pool import ItemCandidate, Pool
from sitegen.composing.proposal import ChosenExercise
from sitegen.composing.reasons import reason_of
from sitegen.composing.search import find
from sitegen.composing.session_frame import SessionFrame
from sitegen.composing.session_shape import SessionShape, is_rotating
from sitegen.composing.showing_history import MAIN_LIFTS
from sitegen.composing.single_exercise import share_of_one
from sitegen.composing.task import (
    QUARTERS,
    BlockToFill,
    FoundSession,
    Option,
    Rules,
    Task,
    TrainingWant,
    summed,
)
from sitegen.composing.wishes import SessionWishes
from sitegen.composing.written_plan import WrittenPlan

# The scale of all points; the weights are our own choice.
USUAL_POINTS = 1
"""For a quarter of a set that a usual week has beyond its lower limits: what everything else is measured
by."""
URGENT_POINTS = 3
"""For a quarter of a set that the week lacks: a lower limit goes before three times as much of the usual."""
LAST_CHANCE_POINTS = 12
"""The same where only this session can still give it: a set of it outweighs all that an exercise may lose for
having been used just before."""
MAIN_POINTS = 6
"""For each of the first quarters of a main lift: a session without one of knee, hinge, push or pull should be
the exception (common practice, no source)."""
MAIN_SETS = 2
"""Sets of a main lift that are worth so much: with two it has had its share, more is for the muscles to
want."""
STAYS = "stays as you wrote it"
"""The reason of an exercise that the trainer chose or changed."""
PROPOSED_BEFORE = 15
"""Points that an exercise loses for each better proposal that has it, so that proposals differ: as much as a
wish for it gains, a little more than a new one does (our choice)."""


class Filling:
    """The search for the exercises of one shape."""

    def __init__(
        self,
        pool: Pool,
        frame: SessionFrame,
        shape: SessionShape,
        wishes: SessionWishes,
        before: Sequence[str],
        written: WrittenPlan | None = None,
    ) -> None:
        self._pool = pool
        self._frame = frame
        self._so_far = pool.so_far
        self.shape = shape
        self.wishes = wishes
        self.before = before
        self.written = written
        """The plan that is composed again; None for a new one."""
        self.kept = self._kept(written)
        self.candidates: list[Mapping[str, ItemCandidate]] = [
            pool.candidates(block, wishes) for block in shape.blocks
        ]

    def _kept(self, written: WrittenPlan | None) -> list[Mapping[int, ItemCandidate]]:
        """Of each block, what stays in which place."""
        if written is None:
            return [{} for _ in self.shape.blocks]
        return [
            {
                at: self._pool.candidate(share_of_one(one), item, self.wishes, dose=None)
                for at, item in written.kept(number)
            }
            for number, one in enumerate(self.shape.blocks)
        ]

    def choices(self, found: FoundSession) -> tuple[tuple[ChosenExercise, ...], ...]:
        """The exercises of a session that was found, each with its reason."""
        kept = {id(one.option): one for block in self.kept for one in block.values()}
        return tuple(
            tuple(
                ChosenExercise(candidate=kept[id(option)], reason=STAYS)
                if id(option) in kept
                else self._choice(candidates[option.key])
                for option in options
            )
            for candidates, options in zip(self.candidates, found.blocks, strict=True)
        )

    def _choice(self, chosen: ItemCandidate) -> ChosenExercise:
        return ChosenExercise(candidate=chosen, reason=reason_of(self._so_far, chosen))

    def find(self, without: frozenset[str] = frozenset()) -> FoundSession | None:
        """The best session, with some rules let go."""
        return None if self.too_few() else find(self.task(without))

    def task(self, without: frozenset[str] = frozenset()) -> Task:
        """What is searched, with some rules let go."""
        places = tuple(
            BlockToFill(
                options=tuple(self._lowered(one.option) for one in candidates.values()),
                count=block.places,
                kept=tuple(one.option for one in kept.values()),
                kept_at=tuple(kept),
                rotating=is_rotating(block.block),
            )
            for block, candidates, kept in zip(self.shape.blocks, self.candidates, self.kept, strict=True)
        )
        history = self._so_far.history
        return Task(
            places=places,
            wants=dict(self._wants()),
            rules=self._rules(without),
            paired=history.paired,
            begun=history.begun,
        )

    def too_few(self) -> str:
        """What keeps a block from being filled; empty for nothing."""
        for number, (block, candidates) in enumerate(zip(self.shape.blocks, self.candidates, strict=True)):
            places = block.places - len(self.kept[number])
            if len(candidates) < places:
                return too_few(block_name(self.shape, number), places, len(candidates))
        return ""

    def _lowered(self, option: Option) -> Option:
        return replace(option, points=option.points - PROPOSED_BEFORE * self.before.count(option.key))

    def taken_off(self, found: FoundSession) -> int:
        """Points that the exercises lost because they were proposed before."""
        keys = [option.key for block in found.blocks for option in block]
        return PROPOSED_BEFORE * sum(map(self.before.count, keys))

    def _wants(self) -> Iterator[tuple[str, TrainingWant]]:
        left = self._so_far.room.left
        for muscle in self._so_far.room.muscles:
            urgent = ceil(muscle.lacks * QUARTERS / left)
            usual = max(0.0, muscle.usual - muscle.done.mid) * QUARTERS / left
            yield (
                muscle.muscle,
                TrainingWant(
                    urgent=urgent,
                    urgent_points=LAST_CHANCE_POINTS if left == 1 else URGENT_POINTS,
                    usual=max(0, round(usual) - urgent),
                    usual_points=USUAL_POINTS,
                ),
            )
        for name in MAIN_LIFTS:
            yield (
                name,
                TrainingWant(urgent=MAIN_SETS * QUARTERS, urgent_points=MAIN_POINTS, usual=0, usual_points=0),
            )

    def _rules(self, without: frozenset[str]) -> Rules:
        room = self._so_far.room
        fixed = self._frame.seconds_fixed(self.shape, self.written)
        seconds = self.wishes.minutes * 60 - fixed if self.wishes.minutes else None
        balance = room.training.balance
        # What stays may be over a bound; that is told, and what is chosen keeps the others all the same.
        load, hard = self._of_kept("load"), self._of_kept("hard")
        most = {one.muscle: int(one.may * QUARTERS) for one in room.muscles if one.may is not None}
        return Rules(
            most={muscle: max(amount, load.get(muscle, 0)) for muscle, amount in most.items()},
            tired=frozenset(
                one.muscle for one in room.muscles if one.tired_from and not hard.get(one.muscle)
            ),
            push_per_pull=room.push_per_pull,
            push=round(balance.push.mid * QUARTERS),
            pull=round(balance.pull.mid * QUARTERS),
            seconds=seconds,
            new=self.wishes.new,
            without=without,
        )

    def _of_kept(self, name: str) -> dict[str, int]:
        """The load, or the hard sets, of each muscle in what stays."""
        return summed(getattr(one.option, name) for block in self.kept for one in block.values())


def block_name(shape: SessionShape, number: int) -> str:
    """``Strength 2``; without a number where it is the only one of its kind."""
    kinds = [one.block.kind for one in shape.blocks]
    kind = kinds[number]
    word = kind.capitalize()
    return word if kinds.count(kind) == 1 else f"{word} {kinds[: number + 1].count(kind)}"
