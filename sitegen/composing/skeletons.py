"""What a session is built of where nobody says so: number, kind, format and order of its blocks.

A series whose sessions all have the same build is dull, and one whose next session copies that of a week
before copies a light week for ever. So the build that was used longest ago comes next, made of the formats
that the trainer films: of strength every order of them that has as many places as her sessions have, of
conditioning each format in turn. Nothing is drawn by lot: the same series has the same builds.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import product
from statistics import median_low

from sitegen.composing.level import HEAVY, LIGHT, SessionLevel, has_sets, most_sets
from sitegen.composing.session_shape import (
    BlockShape,
    SessionShape,
    emptied,
    is_composed,
    new_block,
    shared_around,
)
from sitegen.model import Block, Series
from sitegen.notation import Count
from sitegen.vocabulary import CIRCUIT, GIANT_SET, INTERVALS, STRAIGHT, SUPERSET, TRI_SET

_PLACES = {STRAIGHT: 1, SUPERSET: 2, TRI_SET: 3, GIANT_SET: 4}
"""Exercises of strength blocks in a build of our own; longer ones only where the trainer had them."""
_MOST_BLOCKS = 3
"""Blocks of strength in a build of our own (our choice); the trainer's may have more."""
_LOOKED_BACK = 9
"""Sessions that are looked back on: three weeks of three."""
_REMEMBERED = 60
"""Sessions whose builds are the trainer's own, twenty weeks of three: what was filmed longer ago is no habit
any more (our choice)."""
TRIED = 12
"""Builds that are offered, the best first: the composer tries three, and several proposals want several."""
_USUAL_CIRCUIT = 3
"""Exercises that a circuit or intervals may have besides the numbers that the trainer had: while one works,
two have rested (our choice)."""
_FEWEST_ROUNDS = 2
"""Of a block of conditioning: what is done once is no circuit."""

# What a build of strength blocks costs. All of it is our own choice, in one scale: the session before costs
# most of each sort, and what is further back less by one step for each session.
_SAME_BUILD = 3
"""For each step that the very same build is near: looked for over all of :data:`_LOOKED_BACK`, since a build
that comes again is what coaches told proposals by."""
_NEARLY_SAME = 2
"""For each step that a build of the same blocks in another order, or one that begins alike, is near."""
_LATELY = 3
"""Sessions, a week of three, in which such a likeness is noticed."""
_SAME_NUMBER_LATELY = 2
"""Sessions in which the same number of blocks is noticed."""
_NOT_HERS = 3
"""For a build that the trainer never filmed: one of hers from three sessions ago goes before it."""
_PLACE_TOO_MANY = 5
"""For each exercise more or fewer than the level asks for: its length is what a day of the week is felt
by."""
_LONG_BLOCK_WHEN_HEAVY = 8
"""For each giant set in a heavy session: few exercises in a block leave time to rest between heavy sets."""
_LONG_FIRST_WHEN_HEAVY = 2
"""For more than two exercises in the first block of a heavy session, for the same reason."""
_MANY_BLOCKS_WHEN_LIGHT = 4
"""For more than two blocks in a light session, which is to be short."""

_Outline = tuple[tuple[str, int], ...]
"""Format and places of each block."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Past:
    """What was built so far, the last session first."""

    strength: tuple[_Outline, ...]
    conditioning: tuple[BlockShape | None, ...]
    conditioning_first: bool
    """Whether most sessions with both begin with conditioning."""


def skeletons(series: Series, level: SessionLevel) -> tuple[SessionShape, ...]:
    """Builds for the next session, the best first; none for a series without blocks of its own."""
    past = _past(series)
    if not past.strength:
        return ()
    opening, closing = shared_around(series)
    strength = sorted(_outlines(past), key=lambda one: (_strength_cost(one, past, level), one))[:TRIED]
    conditioning = sorted(_conditioning(past), key=lambda one: _conditioning_cost(one, past)) or [None]
    found = []
    for number, outline in enumerate(strength):
        blocks = tuple(_strength_shape(one, level, first=not n) for n, one in enumerate(outline))
        other = conditioning[number % len(conditioning)]
        around = (other,) if other else ()
        blocks = (*around, *blocks) if past.conditioning_first else (*blocks, *around)
        found.append(SessionShape(opening=opening, blocks=blocks, closing=closing))
    return tuple(found)


def _past(series: Series) -> _Past:
    strength: list[_Outline] = []
    conditioning: list[BlockShape | None] = []
    first = 0
    for episode in reversed(series.sessions[-_REMEMBERED:]):
        own = [block for block in episode.blocks if is_composed(block)]
        outline = tuple((b.format, len(b.items)) for b in own if b.kind == "strength")
        if not outline:
            continue
        strength.append(outline)
        heart = [b for b in own if b.kind == "conditioning"]
        conditioning.append(
            BlockShape(block=emptied(heart[0], episode.location), places=len(heart[0].items))
            if heart
            else None
        )
        first += (1 if own[0].kind == "conditioning" else -1) if heart else 0
    return _Past(strength=tuple(strength), conditioning=tuple(conditioning), conditioning_first=first >= 0)


# --- strength ------------------------------------------------------------------------------------


def _outlines(past: _Past) -> set[_Outline]:
    """The trainer's own, and every other of her formats that is no longer and no shorter."""
    own = set(past.strength)
    sums = [sum(places for _, places in one) for one in own]
    formats = sorted({format_ for one in own for format_, _ in one} & set(_PLACES))
    most = min(_MOST_BLOCKS, max(map(len, own)))
    built = {
        tuple((format_, _PLACES[format_]) for format_ in chosen)
        for number in range(1, most + 1)
        for chosen in product(formats, repeat=number)
        if _is_sound(chosen)
    }
    return own | {one for one in built if min(sums) <= sum(places for _, places in one) <= max(sums)}


def _is_sound(formats: Sequence[str]) -> bool:
    """Long blocks once, and an exercise by itself at the beginning or at the end (common practice)."""
    return (
        formats.count(GIANT_SET) <= 1
        and formats.count(GIANT_SET) + formats.count(TRI_SET) <= 2
        and formats.count(STRAIGHT) <= 1
        and STRAIGHT not in formats[1:-1]
    )


def _strength_cost(one: _Outline, past: _Past, level: SessionLevel) -> int:
    """The larger the less it suits: alike to what was just done, or not made for a session of that level."""
    formats, places = [format_ for format_, _ in one], sum(number for _, number in one)
    usual = median_low(sum(number for _, number in other) for other in past.strength)
    wanted = usual if level in (HEAVY, LIGHT) else usual + 1
    cost = _likeness(one, past) + _PLACE_TOO_MANY * abs(places - wanted)
    cost += _NOT_HERS * (one not in past.strength)
    if level is HEAVY:
        cost += _LONG_BLOCK_WHEN_HEAVY * formats.count(GIANT_SET)
        cost += _LONG_FIRST_WHEN_HEAVY * (_PLACES.get(formats[0], 4) > 2)  # others are as long as a giant set
    if level is LIGHT:
        cost += _MANY_BLOCKS_WHEN_LIGHT * (len(one) > 2)
    return cost


def _likeness(one: _Outline, past: _Past) -> int:
    """What a build costs for being like those of the sessions before."""
    lately = past.strength[:_LATELY]
    same_blocks = (sorted(other) == sorted(one) for other in lately)
    same_first = (other[0] == one[0] for other in lately)
    same_number = (len(other) == len(one) for other in lately[:_SAME_NUMBER_LATELY])
    return (
        _SAME_BUILD * _nearness((other == one for other in past.strength[:_LOOKED_BACK]), _LOOKED_BACK)
        + _NEARLY_SAME * (_nearness(same_blocks, _LATELY) + _nearness(same_first, _LATELY))
        + _nearness(same_number, _LATELY)
    )


def _nearness(alike: Iterable[bool], steps: int) -> int:
    """Of sessions from the last one back, the steps that those that are alike are near: so many the last."""
    return sum(steps - ago for ago, is_alike in enumerate(alike) if is_alike)


def _strength_shape(outline: tuple[str, int], level: SessionLevel, *, first: bool) -> BlockShape:
    """The sets are those that are most likely: the first block has the large lifts."""
    format_, places = outline
    sets = 1
    if has_sets(format_):
        sets = most_sets(format_, level) if first else level.small_sets
    return BlockShape(block=new_block("strength", format_, Count(sets, sets)), places=places)


# --- conditioning --------------------------------------------------------------------------------


def _conditioning(past: _Past) -> Iterator[BlockShape | None]:
    """Each format with what was last written for it, in the numbers of places it was done with."""
    latest: dict[str, BlockShape] = {}
    for one in past.conditioning:
        if one is not None:
            latest.setdefault(one.block.format, one)
        else:
            yield None
    for format_, one in sorted(latest.items()):
        numbers = {o.places for o in past.conditioning if o is not None and o.block.format == format_}
        if format_ in (CIRCUIT, INTERVALS):
            numbers.add(_USUAL_CIRCUIT)
        for places in sorted(numbers):
            yield replace(one, block=_rounds(one.block, one.places, places), places=places)


def _rounds(block: Block, before: int, places: int) -> Block:
    """As much work with another number of exercises, as far as rounds are whole."""
    if before == places or not has_sets(block.format):
        return block
    rounds = max(_FEWEST_ROUNDS, block.sets.high * before // places)
    return replace(block, sets=Count(rounds, rounds))


def _conditioning_cost(one: BlockShape | None, past: _Past) -> tuple[int, str]:
    def alike(other: BlockShape | None) -> int:
        if one is None or other is None:
            return 2 * (one is other)
        return (one.block.format == other.block.format) * (1 + (one.places == other.places))

    recent = past.conditioning[:_LOOKED_BACK]
    cost = sum((_LOOKED_BACK - ago) * alike(other) for ago, other in enumerate(recent))
    return cost, f"{one.block.format} {one.places}" if one else ""
