"""What a recording shows of a planned session."""

from collections.abc import Sequence
from dataclasses import dataclass

from sitegen.draft.align import Planned, aligned
from sitegen.draft.blocks import blocks_of
from sitegen.draft.chapters import Chapter, Part, Turn, turns_of
from sitegen.draft.found import FoundBlock, FoundItem
from sitegen.draft.guess import guessed
from sitegen.draft.heard import Heard
from sitegen.draft.mentions import SHOWN, Mention
from sitegen.draft.plan import PlannedBlock

_MOSTLY = 0.6
"""Share of the planned exercises that must be understood before the others are looked for."""

_CLEARLY = SHOWN + 1.0
"""Score of a mention that leaves no doubt."""

_AFTER_NAME, _BEFORE_NAME = 2, 8
"""So many words from the names of its neighbours another exercise may begin."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """What the recording shows of one planned block."""

    block: FoundBlock | None
    """None where nothing of it was found."""
    items: tuple[FoundItem | None, ...]
    """For each planned item."""


def shown_of(heard: Heard, plan: Sequence[PlannedBlock]) -> list[Shown]:
    """For each block of a plan what the recording shows of it."""
    planned = [
        Planned(block=b, item=i, exercise=item.exercise)
        for b, block in enumerate(plan)
        for i, item in enumerate(block.items)
    ]
    chosen = _with_guesses(heard, plan, planned, aligned(planned, heard.mentions))
    parts = _parts(heard, plan, dict(zip(((p.block, p.item) for p in planned), chosen, strict=True)))
    blocks = iter(blocks_of(heard, [part for part in parts if part.chapters]))
    return [
        _shown(block, part, next(blocks) if part.chapters else None)
        for block, part in zip(plan, parts, strict=True)
    ]


def _with_guesses(
    heard: Heard, plan: Sequence[PlannedBlock], planned: Sequence[Planned], chosen: list[Mention | None]
) -> list[Mention | None]:
    """Missing items between found ones get the place where they are likeliest shown."""
    clear = sum(mention is not None and mention.score > 0 for mention in chosen)
    if clear < _MOSTLY * len(chosen):
        return chosen
    turns = turns_of(heard.talk.stream, heard.signals)
    filled = list(chosen)
    for index, item in enumerate(planned):
        if filled[index] is None and clearly_shown(heard, item.exercise) is None:
            first, last = _between(heard, planned, filled, index, turns)
            filled[index] = guessed(heard, plan[item.block].items[item.item], first, last)
    return filled


def clearly_shown(heard: Heard, exercise: str) -> Mention | None:
    """The first mention that clearly shows an exercise, wherever it is."""
    shown = (m for m in heard.mentions if m.naming.exercise == exercise and m.score >= _CLEARLY)
    return next(shown, None)


def _between(
    heard: Heard, planned: Sequence[Planned], found: list[Mention | None], index: int, turns: list[Turn]
) -> tuple[int, int]:
    """The tokens between an item's neighbours, and not beyond a turn from a neighbour in the same block."""
    block = planned[index].block
    first, last = 0, len(heard.talk.tokens)
    before = next((i for i in range(index - 1, -1, -1) if found[i]), None)
    after = next((i for i in range(index + 1, len(found)) if found[i]), None)
    if before is not None and (mention := found[before]):
        first = mention.naming.last + _AFTER_NAME
        if planned[before].block == block:
            last = min([last, *(t.first for t in turns if t.first > mention.naming.last)])
    if after is not None and (mention := found[after]):
        last = min(last, mention.naming.first - _BEFORE_NAME)
        if planned[after].block == block:
            first = max([first, *(t.last + 1 for t in turns if t.last < mention.naming.first)])
    return first, last


def _parts(
    heard: Heard, plan: Sequence[PlannedBlock], chosen: dict[tuple[int, int], Mention | None]
) -> list[Part]:
    """The parts of the session as planned, with the exercises that were found."""
    parts: list[Part] = []
    waiting = turns_of(heard.talk.stream, heard.signals)
    begin = 0
    for b, block in enumerate(plan):
        part = Part(begin=begin)
        for i, item in enumerate(block.items):
            mention = chosen[b, i]
            if mention is not None:
                part.chapters.append(Chapter(mention, expected=item.dose))
        following = _first_after(chosen, b)
        if part.chapters:
            part.turn = _turn(waiting, part.chapters[-1].mention.naming.last, following)
            _repeats(heard, part, following)
            begin = (part.turn.last if part.turn else part.last_token) + 1
        parts.append(part)
    return parts


def _first_after(chosen: dict[tuple[int, int], Mention | None], block: int) -> int | None:
    """Token of the first exercise found behind a block."""
    return next((m.naming.first for (b, _), m in chosen.items() if b > block and m is not None), None)


def _turn(turns: list[Turn], after: int, before: int | None) -> Turn | None:
    return next((t for t in turns if t.first > after and (before is None or t.last < before)), None)


def _repeats(heard: Heard, part: Part, before: int | None) -> None:
    """Later mentions of the part's exercises, up to its end."""
    end = part.turn.first if part.turn else before
    chosen = {id(chapter.mention) for chapter in part.chapters}
    for mention in heard.mentions:
        if id(mention) in chosen or (end is not None and mention.naming.first >= end):
            continue
        same = (
            c for c in part.chapters if mention.naming.exercise and _is(mention, c.mention.naming.exercise)
        )
        chapter = next(same, None)
        if chapter and mention.naming.first > chapter.mention.naming.first:
            chapter.repeats.append(mention)


def _shown(block: PlannedBlock, part: Part, found: FoundBlock | None) -> Shown:
    """The found items put beside the planned ones; both are in the same order."""
    if found is None:
        return Shown(block=None, items=(None,) * len(block.items))
    left = list(zip(part.chapters, found.items, strict=True))
    items: list[FoundItem | None] = []
    for planned in block.items:
        if left and _is(left[0][0].mention, planned.exercise):
            items.append(left.pop(0)[1])
        else:
            items.append(None)
    return Shown(block=found, items=tuple(items))


def _is(mention: Mention, exercise: str) -> bool:
    naming = mention.naming
    return (
        naming.exercise == exercise or exercise in naming.others or (naming.announced and not naming.exercise)
    )
