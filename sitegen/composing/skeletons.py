"""What a session is built of where nobody says so: number, kind, format and order of its blocks.

A series whose sessions all have the same build is dull, and one whose next session copies that of a week
before copies a light week for ever. So the build that was used longest ago comes next, made of the formats
that the trainer films: of strength every order of them that has as many places as her sessions have, of
conditioning each format in turn. Nothing is drawn by lot: the same series has the same builds.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import product
from statistics import median_low

from sitegen.composing.level import HEAVY, LIGHT, Level, has_sets, most_sets
from sitegen.composing.session_shape import BlockShape, Shape, emptied, is_composed, new_block, shared_around
from sitegen.model import Block, Series
from sitegen.notation import Count
from sitegen.vocabulary import CIRCUIT, GIANT_SET, INTERVALS, STRAIGHT, SUPERSET, TRI_SET

_PLACES = {STRAIGHT: 1, SUPERSET: 2, TRI_SET: 3, GIANT_SET: 4}
"""Exercises of strength blocks that are built anew; longer ones only where the trainer had them."""
_MOST_BLOCKS = 3
"""Blocks of strength in a build of our own (our choice); the trainer's may have more."""
_LOOKED_BACK = 9
"""Sessions that are looked back on: three weeks of three."""
_REMEMBERED = 60
"""Sessions whose builds are the trainer's own: what was filmed longer ago is no habit any more."""
TRIED = 12
"""Builds that are offered; the first ones suit best."""

_Outline = tuple[tuple[str, int], ...]
"""Format and places of each block."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Past:
    """What was built so far, the last session first."""

    strength: tuple[_Outline, ...]
    conditioning: tuple[BlockShape | None, ...]
    conditioning_first: bool
    """Whether most sessions with both begin with conditioning."""


def skeletons(series: Series, level: Level) -> tuple[Shape, ...]:
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
        found.append(Shape(opening=opening, blocks=blocks, closing=closing))
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


def _strength_cost(one: _Outline, past: _Past, level: Level) -> int:
    """The larger the less it suits: alike to what was just done, or not made for a session of that level."""
    recent = past.strength[:_LOOKED_BACK]
    cost = sum(_LOOKED_BACK - ago for ago, other in enumerate(recent) if other == one) * 3
    cost += sum((3 - ago) * 2 for ago, other in enumerate(recent[:3]) if sorted(other) == sorted(one))
    cost += sum((3 - ago) * 2 for ago, other in enumerate(recent[:3]) if other[0] == one[0])
    cost += sum(3 - ago for ago, other in enumerate(recent[:2]) if len(other) == len(one))
    cost += 3 * (one not in past.strength)
    usual = median_low(sum(places for _, places in other) for other in past.strength)
    wanted = usual if level in (HEAVY, LIGHT) else usual + 1
    cost += 5 * abs(sum(places for _, places in one) - wanted)
    formats = [format_ for format_, _ in one]
    if level is HEAVY:  # few exercises in a block leave time to rest between heavy sets
        cost += 8 * formats.count(GIANT_SET) + 2 * (_PLACES.get(formats[0], 4) > 2)
    if level is LIGHT:
        cost += 4 * (len(one) > 2)
    return cost


def _strength_shape(outline: tuple[str, int], level: Level, *, first: bool) -> BlockShape:
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
        elif one is None:
            yield None
    for format_, one in sorted(latest.items()):
        numbers = {o.places for o in past.conditioning if o is not None and o.block.format == format_}
        for places in sorted(
            numbers | ({2, 3} & {one.places, 3} if format_ in (CIRCUIT, INTERVALS) else set())
        ):
            yield replace(one, block=_rounds(one.block, one.places, places), places=places)


def _rounds(block: Block, before: int, places: int) -> Block:
    """As much work with another number of exercises, but two rounds at least."""
    if before == places or not has_sets(block.format):
        return block
    rounds = max(2, block.sets.high * before // places)
    return replace(block, sets=Count(rounds, rounds))


def _conditioning_cost(one: BlockShape | None, past: _Past) -> tuple[int, str]:
    def alike(other: BlockShape | None) -> int:
        if one is None or other is None:
            return 2 * (one is other)
        return (one.block.format == other.block.format) * (1 + (one.places == other.places))

    recent = past.conditioning[:_LOOKED_BACK]
    cost = sum((_LOOKED_BACK - ago) * alike(other) for ago, other in enumerate(recent))
    return cost, f"{one.block.format} {one.places}" if one else ""
