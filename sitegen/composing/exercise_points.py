"""What one exercise is worth in a session by itself: that it rested, what needs keep of it, wishes, the
level."""

from sitegen.composing.level import HEAVY, LIGHT
from sitegen.composing.needs_kept import NeedsKept
from sitegen.composing.sets_and_rests import is_large
from sitegen.composing.so_far import SoFar
from sitegen.composing.wishes import SessionWishes
from sitegen.model import Block, Item
from sitegen.study.forms import Form
from sitegen.study.load import load_mass
from sitegen.study.next_dose import NextDose
from sitegen.study.volume import STRENGTH
from sitegen.vocabulary import STRAIGHT

FAST = ("jumping", "speed")
"""Demands by which an exercise is fast."""

# All of it is our own choice, in the points of ``session_points``: a set that the week lacks gives 12.
REST_POINTS = 3
"""For each session an exercise was not used in, up to :data:`LONG_UNUSED`: four sessions of rest are worth a
set that the week lacks."""
LONG_UNUSED = 9
"""Sessions, three weeks of three, after which an exercise is as rested as it gets."""
JUST_USED_POINTS = (-24, -14)
"""For an exercise of the session before, and of the one before that: only two sets that the week lacks, or
one, bring it back, so that somebody else comes first."""
NEW_POINTS = 14
"""For an exercise that the series has not shown: as much as four or five sessions of rest, so that new ones
come, but not all at once."""
NEEDS_POINTS = 20
"""Where every need keeps all of it; a need without any form costs as much as two."""
EMPHASIS_POINTS = 15
"""For training what was asked for: a little more than half of the most that rest can give."""
OUTGROWN_POINTS = -26
"""For an exercise without a load, both sides at once, where its pattern has been done with a load since: it
would be a step back, and nearly the longest rest does not outweigh it."""
FULL_POINTS = -6
"""For a dose that cannot grow any more: two sessions of rest, for it still keeps what is there."""
ALONE_POINTS = {"carry": -6, "isolation": -12, "trunk": -6}
"""By patterns, for standing by itself in straight sets: small muscles belong beside another, which works
while they rest."""
LARGE_ALONE_POINTS = (8, -8)
"""The same for a large lift that is made heavy, which needs the long rests of straight sets, and for
another."""
CARRY_ALONE_POINTS = 3
"""For each kilogram of a carry, up to :data:`MOST_CARRY_KG`, that stands by itself: it needs the way."""
MOST_CARRY_KG = 6
"""Beyond it the way, not the weight, decides whether a carry stands by itself."""
MOST_LOAD_POINTS = 12
"""For a large lift with a load, a point for each kilogram, up to a set that the week lacks: more in a heavy
session, less in a light one."""
HURRIED_POINTS = -24
"""For jumping and speed in the conditioning of a light session: as bad as what the session before had."""


class ExercisePoints:
    """Points of exercises for the next session of a series."""

    def __init__(self, so_far: SoFar) -> None:
        self._so_far = so_far

    def of(
        self,
        block: Block,
        item: Item,
        form: Form,
        wishes: SessionWishes,
        *,
        last: int | None,
        needs: NeedsKept,
        dose: NextDose | None,
    ) -> int:
        """Points of an item in a block; ``last`` is the number of the episode that used its exercise last."""
        emphasis = {form.pattern, *form.muscles.prime} & wishes.more
        light, hurries = self._so_far.level is LIGHT, any(one in form.demands for one in FAST)
        return (
            self._unused(last)
            + self._for_needs(needs)
            + EMPHASIS_POINTS * len(emphasis)
            + (self._alone(item, form) if block.format == STRAIGHT else 0)
            + self._heaviness(block, item, form)
            + (HURRIED_POINTS if light and hurries and block.kind not in STRENGTH else 0)
            + (FULL_POINTS if dose is not None and dose.change == "full" else 0)
            + (OUTGROWN_POINTS if self._is_outgrown(block, item, form, last) else 0)
        )

    def _unused(self, last: int | None) -> int:
        if last is None:
            return NEW_POINTS
        ago = self._so_far.room.number - last - 1
        just_used = JUST_USED_POINTS[ago] if ago < len(JUST_USED_POINTS) else 0
        return REST_POINTS * min(LONG_UNUSED, ago) + just_used

    def _for_needs(self, needs: NeedsKept) -> int:
        count = len(self._so_far.details.needs)
        kept = 2 * len(needs.whole) + len(needs.less) - 2 * len(needs.gap)
        return NEEDS_POINTS * kept // (2 * count) if count else 0

    def _alone(self, item: Item, form: Form) -> int:
        if form.pattern == "carry" and item.load is not None:
            return (
                CARRY_ALONE_POINTS * min(MOST_CARRY_KG, round(load_mass(item.load).mid))
                + ALONE_POINTS["carry"]
            )
        return ALONE_POINTS.get(form.pattern, LARGE_ALONE_POINTS[0 if is_large(item, form) else 1])

    def _heaviness(self, block: Block, item: Item, form: Form) -> int:
        """What a load is worth in a session that is to be heavy or light."""
        if block.kind not in STRENGTH or item.load is None or not is_large(item, form):
            return 0
        points = min(MOST_LOAD_POINTS, round(load_mass(item.load).mid))
        return points if self._so_far.level is HEAVY else -points if self._so_far.level is LIGHT else 0

    def _is_outgrown(self, block: Block, item: Item, form: Form, last: int | None) -> bool:
        if block.kind not in STRENGTH or item.load is not None or last is None:
            return False
        one_sided = item.dose is not None and item.dose.per_side
        return not one_sided and self._so_far.history.loaded.get(form.pattern, 0) > last
