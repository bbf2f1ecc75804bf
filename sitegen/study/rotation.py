"""Two unequal loads: which hand holds the heavier one when, so that both sides do equal work.

How a plan comes about:

- whole sets go to one hand and then the other; where a set is left over, it is shared: half with each hand;
- a range, and ``max``, leave open how much is done: the second set of a pair is as long as the first, and a
  set that is shared has two equal halves, so the plan holds wherever in the range one stops;
- ``max`` cannot be halved beforehand: such a set changes hands every few repetitions;
- a split such as ``8 + 7`` changes hands at its pauses only;
- sides that are done one after the other change hands with the side;
- where rounds are not counted beforehand (as many as possible) every round is shared in itself.

What cannot be shared out (the odd repetition) falls to the left in one exercise and to the right in the
next, so that it does not add up over a session.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from sitegen.model import Block, Details, Episode, Item
from sitegen.notation import Dose, Load
from sitegen.study.doses import dose_in
from sitegen.study.forms import Forms
from sitegen.study.load import difference
from sitegen.study.span import Span
from sitegen.study.timing import item_sets
from sitegen.vocabulary import AMRAP

LEFT, RIGHT = "left", "right"
OTHER = {LEFT: RIGHT, RIGHT: LEFT}

EVERY = 3
"""A set of unknown length changes hands after so many repetitions (or steps, breaths): often enough that
little is left over, seldom enough to be done (common practice, no source)."""

DIVISIBLE = ("seconds", "m", "ft", "yd")
"""Measures that can be cut in half exactly."""


@dataclass(frozen=True, slots=True)
class Stretch:
    """Work with the heavier load in one hand."""

    hand: str
    amount: Span | None
    """In the plan's measure; None for ``max``."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RotatedSet:
    """One set."""

    number: int
    """From 1."""
    stretches: tuple[Stretch, ...]
    """One, or two where the load changes hands within the set."""
    equal: bool = False
    """True where the last stretch is as long as the one before it, in this set or in the set before."""
    every: int = 0
    """Change hands after so many, again and again; 0 where the stretches say it."""

    @property
    def begins(self) -> str:
        """The hand that holds the heavier load at the set's start."""
        return self.stretches[0].hand


@dataclass(frozen=True, slots=True, kw_only=True)
class Rotation:
    """The plan for all sets of one item."""

    sets: tuple[RotatedSet, ...]
    measure: str
    """What amounts count: ``reps``, ``steps``, ``breaths``, ``seconds``, ``m``, ``ft`` or ``yd``."""
    difference_kg: float
    """Between the two loads."""
    over: float = 0
    """How much more is done with the heavier load on the left (negative: on the right), in the measure."""
    at_most: bool = False
    """True where ``over`` is only the most that there may be, on either side."""
    repeats: bool = False
    """True where the number of rounds is open: the sets are those of odd and of even rounds."""

    @property
    def residual(self) -> float:
        """What the left side does more than the right, in kilograms times the measure."""
        return self.over * self.difference_kg


def rotation(
    doses: Sequence[Dose], load: Load, first: str = LEFT, *, open_end: bool = False
) -> Rotation | None:
    """The plan for the sets with these doses, one for each; None where the loads count as equal.

    ``first`` is the hand to which an odd repetition falls, and which begins. ``open_end`` says that the sets
    are rounds without a number: the plan is then for each round of the first dose.
    """
    apart = difference(load)
    if apart == 0 or not doses:
        return None
    if open_end:
        doses = doses[:1]
    sets, over, at_most = _planned(doses)
    if open_end:
        sets = [sets[0], _mirrored_set(replace(sets[0], number=2))]
    plan = Rotation(
        sets=tuple(sets),
        measure=doses[0].measure,
        difference_kg=apart,
        over=over,
        at_most=at_most,
        repeats=open_end,
    )
    if first == LEFT:
        return plan
    return replace(plan, sets=tuple(map(_mirrored_set, plan.sets)), over=-plan.over)


def _planned(doses: Sequence[Dose]) -> tuple[list[RotatedSet], float, bool]:
    """Sets, what is left over, and whether that is only the most there may be; beginning on the left."""
    if any(dose.per_side for dose in doses):
        return [_side_by_side(n, dose) for n, dose in enumerate(doses, 1)], 0, False
    if len(set(doses)) > 1 and any(dose.kind == "max" or dose.low < dose.high for dose in doses):
        return _each_by_itself(doses)
    if any(dose.kind == "max" for dose in doses):
        return _pairs(doses)
    if any(dose.parts for dose in doses):
        sets, over = _at_pauses([dose.parts or (dose.high,) for dose in doses])
        return sets, over, False
    if any(dose.low < dose.high for dose in doses):
        return _pairs(doses)
    sets, over = _exact([float(dose.high) for dose in doses], doses[0].measure in DIVISIBLE)
    return sets, over, False


def _hand(index: int) -> str:
    """The hand whose turn it is: left, right, left and so on."""
    return RIGHT if index % 2 else LEFT


def _amount(dose: Dose) -> Span | None:
    return None if dose.kind == "max" else Span(dose.low, dose.high)


def _side_by_side(number: int, dose: Dose) -> RotatedSet:
    """The load changes hands with the side; even sets begin on the right."""
    hand, amount = _hand(number - 1), _amount(dose)
    equal = amount is None or amount.low < amount.high
    return RotatedSet(
        number=number, stretches=(Stretch(hand, amount), Stretch(OTHER[hand], amount)), equal=equal
    )


def _pairs(doses: Sequence[Dose]) -> tuple[list[RotatedSet], float, bool]:
    """Pairs of sets of the same length, whatever it is; a last one without a partner is two equal halves, or,
    where nobody knows its length, changes hands every few."""
    sets = [
        RotatedSet(number=n, stretches=(Stretch(_hand(n - 1), _amount(dose)),), equal=n % 2 == 0)
        for n, dose in enumerate(doses, 1)
    ]
    if len(doses) % 2 == 0:
        return sets, 0, False
    last = doses[-1]
    if last.kind == "max":
        sets[-1] = replace(sets[-1], every=EVERY)
        return sets, EVERY, True
    # Twice any whole number between these is in the range: there is always one.
    half = Span(-(-last.low // 2), last.high // 2)
    sets[-1] = replace(sets[-1], stretches=(Stretch(LEFT, half), Stretch(RIGHT, half)), equal=True)
    return sets, 0, False


def _each_by_itself(doses: Sequence[Dose]) -> tuple[list[RotatedSet], float, bool]:
    """Sets of different doses that are not known exactly: no set is as long as another, so each is shared."""
    sets = []
    for number, dose in enumerate(doses, 1):
        if dose.kind == "max":
            shared = RotatedSet(number=number, stretches=(Stretch(_hand(number - 1), None),), every=EVERY)
        else:
            half = Span(-(-dose.low // 2), max(1, dose.high // 2))
            hands = (_hand(number - 1), OTHER[_hand(number - 1)])
            stretches = tuple(Stretch(hand, half) for hand in hands)
            shared = RotatedSet(number=number, stretches=stretches, equal=True)
        sets.append(shared)
    unknown = sum(dose.kind == "max" for dose in doses)
    return sets, EVERY * unknown, unknown > 0


def _exact(amounts: Sequence[float], divisible: bool) -> tuple[list[RotatedSet], float]:
    """One set is shared so that both hands come to the same; the latest with which that is possible."""
    for cut in reversed(range(len(amounts))):
        hands, over = _alternating(amounts, cut)
        if abs(over) <= amounts[cut]:
            break
    share = (amounts[cut] - over) / 2
    left = share if divisible else float(-(-share // 1))
    right = amounts[cut] - left
    # Of two unequal shares the hand that begins takes the first.
    left_begins = (hands[cut] == LEFT and left > 0) or right == 0
    order = (LEFT, RIGHT) if left_begins else (RIGHT, LEFT)
    shares = {LEFT: left, RIGHT: right}
    sets = []
    for index, amount in enumerate(amounts):
        own = [(hands[index], amount)] if index != cut else [(hand, shares[hand]) for hand in order]
        stretches = tuple(Stretch(hand, Span(done, done)) for hand, done in own if done)
        sets.append(RotatedSet(number=index + 1, stretches=stretches))
    return sets, over + left - right


def _alternating(amounts: Sequence[float], cut: int) -> tuple[list[str], float]:
    """Every set but one to the hand that has less so far; how much more is then on the left."""
    hands: list[str] = []
    over = 0.0
    for index, amount in enumerate(amounts):
        hands.append(LEFT if over <= 0 else RIGHT)
        if index != cut:
            over += amount if hands[-1] == LEFT else -amount
    return hands, over


def _at_pauses(sets: Sequence[Sequence[int]]) -> tuple[list[RotatedSet], float]:
    """The hands of all parts with the least left over, then with the fewest changes within sets, then with
    hands that alternate from set to set. All ways are gone through, those to the same sum as one."""
    ways: dict[int, tuple[int, int, tuple[str, ...]]] = {0: (0, 0, ())}
    for parts in sets:
        for place, part in enumerate(parts):
            ways = _further(ways, part, first=place == 0)
    over = min(ways, key=lambda total: (abs(total), *ways[total][:2], total < 0))
    hands = iter(ways[over][2])
    done = [
        RotatedSet(number=n, stretches=_stretches(parts, [next(hands) for _ in parts]))
        for n, parts in enumerate(sets, 1)
    ]
    return done, over


def _further(
    ways: Mapping[int, tuple[int, int, tuple[str, ...]]], part: int, *, first: bool
) -> dict[int, tuple[int, int, tuple[str, ...]]]:
    """One part more on every way: changes within sets, sets that begin as the one before, and the hands."""
    found: dict[int, tuple[int, int, tuple[str, ...]]] = {}
    for over, (changes, alike, hands) in ways.items():
        for hand in (LEFT, RIGHT):
            before = hands[-1] if hands else RIGHT
            way = (
                changes + (not first and hand != before),
                alike + (first and hand == before),
                (*hands, hand),
            )
            total = over + (part if hand == LEFT else -part)
            if total not in found or way < found[total]:
                found[total] = way
    return found


def _stretches(parts: Sequence[int], hands: Sequence[str]) -> tuple[Stretch, ...]:
    """Parts in a row with the same hand are one stretch."""
    found = [Stretch(hands[0], Span(parts[0], parts[0]))]
    for part, (before, hand) in zip(parts[1:], pairwise(hands), strict=True):
        if hand == before and found[-1].amount is not None:
            found[-1] = Stretch(hand, found[-1].amount + Span(part, part))
        else:
            found.append(Stretch(hand, Span(part, part)))
    return tuple(found)


def _mirrored_set(one: RotatedSet) -> RotatedSet:
    return replace(one, stretches=tuple(Stretch(OTHER[s.hand], s.amount) for s in one.stretches))


def rotations(
    block: Block, item: Item, sets: Span, first: str = LEFT, dose: Dose | None = None
) -> tuple[Rotation, ...]:
    """A plan for each number of sets in the range, one where rounds are not counted beforehand; empty where
    none is needed. ``dose`` is that of another form of the item."""
    if item.load is None or not difference(item.load):
        return ()
    asked = dose or dose_in(block, item)
    if block.format == AMRAP:
        plans = [rotation([asked], item.load, first, open_end=True)]
    else:
        counts = range(max(1, int(sets.low)), int(sets.high) + 1)
        plans = [
            rotation([asked.of_set(n) for n in range(1, count + 1)], item.load, first) for count in counts
        ]
    return tuple(plan for plan in plans if plan is not None)


def first_hands(details: Details, forms: Forms, episode: Episode) -> dict[tuple[int, int], str]:
    """By place of block and item, the hand with which each uneven load begins: what an exercise leaves over
    falls to the side that has done less so far in the session."""
    hands: dict[tuple[int, int], str] = {}
    over: dict[str, float] = {}
    for place, block, item, sets in _uneven_items(details, forms, episode):
        plans = rotations(block, item, sets)
        if not plans:  # its turn never comes
            continue
        plan = plans[-1]
        done = over.get(plan.measure, 0.0)
        hands[place] = RIGHT if done * plan.residual > 0 else LEFT
        if not plan.at_most:
            over[plan.measure] = done + (plan.residual if hands[place] == LEFT else -plan.residual)
    return hands


def _uneven_items(
    details: Details, forms: Forms, episode: Episode
) -> Iterator[tuple[tuple[int, int], Block, Item, Span]]:
    for index, block in enumerate(episode.blocks):
        if any(item.load is not None and difference(item.load) for item in block.items):
            sets = item_sets(details, forms, block)
            for place, (item, span) in enumerate(zip(block.items, sets, strict=True)):
                if item.load is not None and difference(item.load):
                    yield (index, place), block, item, span
