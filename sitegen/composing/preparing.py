"""The warm-up that prepares what a session does, and the cool-down for what worked in it.

Of the shared blocks that the trainer has filmed the one is taken that suits the day; where none of them does
what another choice of their exercises could, that choice is written as a block of its own. Which joints a
muscle belongs to is anatomy; how much of the day's work a warm-up should meet is common practice, no source.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from sitegen.model import Block, Item, Series
from sitegen.notation import Count
from sitegen.notation.english import listed
from sitegen.study.forms import Form, Forms, shown_form
from sitegen.study.volume import muscle_shares
from sitegen.vocabulary import CIRCUIT, COOL_DOWN, MUSCLE_REGIONS, WARM_UP

_JOINTS = {
    "shoulders": (
        "chest", "front shoulder", "side shoulder", "rear shoulder", "rotator cuff", "triceps"
    ),
    "upper back": ("upper back", "lats", "biceps", "neck"),
    "wrists": ("forearms",),
    "trunk": ("abdominals", "obliques", "lower back"),
    "hips": ("glutes", "outer hip", "inner thigh", "hip flexors", "hamstrings"),
    "knees and ankles": ("quadriceps", "calves", "shins"),
}  # fmt: skip
_JOINT_OF = {muscle: joint for joint, muscles in _JOINTS.items() for muscle in muscles}
_JOINT_OF_REGION = {"upper": "shoulders", "trunk": "trunk", "lower": "hips"}

_JOINT_OF_DEMAND = {
    "shoulder load": "shoulders",
    "weight on the wrists": "wrists",
}
"""What loads a joint whatever the muscles are: planks and climbers rest on wrists and shoulders too. A joint
that is loaded so is asked for as by a prime muscle, besides its muscles (our choice)."""

# Shares by which one block is preferred to another; all of them are our own choice, so that warm-ups change
# from session to session where several are about as good, and stay where one is clearly better.
_NEARLY = 0.85
"""A shared block that does so much of what a block of its own would is taken: it is known to everybody."""
_JUST_DONE = 0.7
"""What counts of a shared block that the session before had: another that does three quarters as much
comes."""
_NO_PULSE = 0.5
"""What counts of a warm-up that raises no pulse: jumps, stairs and fast feet may follow on it."""
_ITEM_JUST_DONE = 0.6
"""What counts of a single exercise of a block of its own that the session before had: less than of a whole
shared block, since single exercises are easier to exchange."""
_PLACES = {WARM_UP: 4, COOL_DOWN: 3}
"""Exercises of a block of its own, the pulse raiser or the breathing among them (common practice, no
source)."""
_REMEMBERED = 60
"""Sessions whose warm-ups and cool-downs are known, twenty weeks of three: older ones are no habit any
more."""
_LATELY = 9
"""Warm-ups, or cool-downs, that say how many rounds a new one has: those of three weeks of three."""
_FEWEST_SETS = 2
"""Sets for which every exercise counts at least: a block against the clock has one by its text, more in
truth."""
_MOST_NAMED = 3
"""Joints or muscles that a reason names: a fourth is not read any more."""
_PULSE = "locomotion"
"""Pattern of what raises the pulse."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Prepared:
    """A block before or after the work of a session."""

    block: Block
    """With the times of the film it was last in, which tell whether it is done along with that."""
    reason: str
    """In one line."""


class Preparing:
    """Warm-ups and cool-downs of a series."""

    def __init__(self, series: Series, forms: Forms) -> None:
        self._forms = forms
        self._regions = MUSCLE_REGIONS | dict(series.details.muscles)
        self._shown: dict[str, list[Block]] = {
            kind: [b for e in reversed(series.sessions[-_REMEMBERED:]) for b in e.blocks if b.kind == kind]
            for kind in (WARM_UP, COOL_DOWN)
        }

    def last(self, kind: str) -> tuple[Block, ...]:
        """The last one of that kind; nothing for a series that never had one."""
        return tuple(self._shown[kind][:1])

    def ranked(self, kind: str, work: Sequence[Block], may: Callable[[Block, Item], bool]) -> list[Prepared]:
        """Blocks of that kind for what ``work`` does, of exercises that ``may`` be asked for, the best first;
        none for a series that never had one."""
        shown = self._shown[kind]
        if not shown:
            return []
        asked = self._asked(kind, work)
        routines = {b.routine: b for b in reversed(shown) if b.routine}
        known = [
            (self._value(kind, asked, b.items) * self._share(kind, b), b)
            for _, b in sorted(routines.items(), key=lambda pair: str(pair[0]))  # of equals, by their ids
        ]
        if own := self._own(kind, asked, may):
            known.append((_NEARLY * self._value(kind, asked, own.items), own))
        known.sort(key=lambda pair: -pair[0])
        return [Prepared(block=b, reason=self._reason(kind, asked, b)) for _, b in known]

    def _share(self, kind: str, routine: Block) -> float:
        """What counts of a shared block: less where it was just done or raises no pulse."""
        cold = kind == WARM_UP and not any(
            shown_form(self._forms, item).pattern == _PULSE for item in routine.items
        )
        just_done = routine.routine == self._shown[kind][0].routine
        return (_JUST_DONE if just_done else 1) * (_NO_PULSE if cold else 1)

    def _asked(self, kind: str, work: Sequence[Block]) -> Mapping[str, float]:
        """How much each joint, or for a cool-down each muscle, works."""
        sums: dict[str, float] = {}
        for block in work:
            for item in block.items:
                form = shown_form(self._forms, item)
                loaded = [_JOINT_OF_DEMAND[one] for one in form.demands if one in _JOINT_OF_DEMAND]
                shares = [*self._gives(kind, form).items()]
                shares += [(joint, 1.0) for joint in loaded if kind == WARM_UP]
                for key, share in shares:
                    sums[key] = sums.get(key, 0.0) + share * max(_FEWEST_SETS, block.sets.high)
        return sums

    def _gives(self, kind: str, form: Form) -> Mapping[str, float]:
        shares = muscle_shares(form)
        if kind == COOL_DOWN:
            return shares
        found: dict[str, float] = {}
        for muscle, share in shares.items():
            joint = _JOINT_OF.get(muscle) or _JOINT_OF_REGION[self._regions[muscle]]
            found[joint] = max(share, found.get(joint, 0.0))
        return found

    def _value(self, kind: str, asked: Mapping[str, float], items: Iterable[Item]) -> float:
        """How much of what works is met; of two exercises for one joint the better counts. What is there for
        the pulse prepares no joint."""
        forms = [shown_form(self._forms, item) for item in items]
        given = [self._gives(kind, form) for form in forms if form.pattern != _PULSE]
        return sum(
            much * max((one.get(key, 0.0) for one in given), default=0.0) for key, much in asked.items()
        )

    # --- a block of its own --------------------------------------------------------------------

    def _own(self, kind: str, asked: Mapping[str, float], may: Callable[[Block, Item], bool]) -> Block | None:
        like = self._shown[kind][0]
        block = replace(
            like,
            name=kind.capitalize(),
            routine=None,
            format=CIRCUIT,
            note="",
            items=(),
            sets=self._sets(kind),
        )
        items = [one for one in self._items(kind) if may(replace(block, items=(one,)), one)]
        first, then, last = self._parts(kind, items)
        just_done = {item.exercise for item in like.items}
        chosen: list[Item] = []
        while then and len(first) + len(chosen) + len(last) < _PLACES[kind]:
            now = self._value(kind, asked, chosen)

            def gain(one: Item, now: float = now) -> float:
                more = self._value(kind, asked, [*chosen, one]) - now
                return more * (_ITEM_JUST_DONE if one.exercise in just_done else 1)

            best = max(then, key=gain)
            if gain(best) <= 0:
                break
            then.remove(best)
            chosen.append(best)
        return replace(block, items=(*first, *chosen, *last)) if chosen else None

    def _sets(self, kind: str) -> Count:
        rounds = max(block.sets.high for block in self._shown[kind][:_LATELY])
        return Count(rounds, rounds)

    def _items(self, kind: str) -> list[Item]:
        """Each exercise of such blocks as it was last shown in one, by name."""
        latest: dict[str, Item] = {}
        for block in self._shown[kind]:
            for item in block.items:
                latest.setdefault(item.exercise, replace(item, at=None))
        return [latest[name] for name in sorted(latest)]

    def _parts(self, kind: str, items: Sequence[Item]) -> tuple[list[Item], list[Item], list[Item]]:
        """What comes first (something for the pulse), what is chosen, and what comes last (breathing)."""
        if kind == WARM_UP:
            pulse = [one for one in items if shown_form(self._forms, one).pattern == _PULSE]
            return pulse[:1], [one for one in items if one not in pulse], []
        calm = [one for one in items if not shown_form(self._forms, one).muscles.prime]
        return [], [one for one in items if one not in calm], calm[:1]

    # --- why -----------------------------------------------------------------------------------

    def _reason(self, kind: str, asked: Mapping[str, float], block: Block) -> str:
        met = sorted(self._met(kind, asked, block.items), key=lambda pair: (-pair[0], pair[1]))
        names = listed([name for _, name in met[:_MOST_NAMED]])
        if not names:
            return "as in the sessions before"
        return f"prepares {names} for the day" if kind == WARM_UP else f"for {names}, which worked"

    def _met(
        self, kind: str, asked: Mapping[str, float], items: Iterable[Item]
    ) -> Iterator[tuple[float, str]]:
        for key, much in asked.items():
            if self._value(kind, {key: 1.0}, items) >= 1:
                yield much, key
