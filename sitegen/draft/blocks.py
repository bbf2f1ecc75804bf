"""From the parts of a session to blocks with items, starts and doses."""

from sitegen.draft.amounts import Amount
from sitegen.draft.chapters import WHOLE, Chapter, Part
from sitegen.draft.choose import CONFIDENCE, dose_of, dose_of_all
from sitegen.draft.describe import complete, describe
from sitegen.draft.found import FoundBlock, FoundItem
from sitegen.draft.heard import Heard
from sitegen.draft.mentions import Mention
from sitegen.draft.openings import block_start
from sitegen.draft.remarks import remark
from sitegen.draft.starts import chapter_start

_SURE = 0.6
"""Confidence from which on a dose is not given up for one said later."""

_AMBIGUOUS = 0.08
"""Names whose scores are no further apart may mean either exercise."""


def blocks_of(heard: Heard, parts: list[Part]) -> list[FoundBlock]:
    """The blocks of the parts, in order."""
    stream = heard.talk.stream
    starts = [[chapter_start(stream, c.mention.naming.first) for c in part.chapters] for part in parts]
    begins = [block_start(heard, part, starts[index][0]) for index, part in enumerate(parts)]
    blocks = []
    for index, part in enumerate(parts):
        end = begins[index + 1] if index + 1 < len(parts) else len(stream.tokens)
        block = _block(heard, part, begins[index], starts[index], end)
        describe(heard, block, part, starts[index], (begins[index], end))
        blocks.append(block)
    if blocks:
        complete(heard, blocks, begins[0])
    return blocks


def _block(heard: Heard, part: Part, begin: int, starts: list[int], end: int) -> FoundBlock:
    if part.turn:
        end = min(end, part.turn.last + 1)
    limits = [*starts[1:], _recap_start(heard, part, end)]
    items = [
        _item(heard, chapter, start, limit)
        for chapter, start, limit in zip(part.chapters, starts, limits, strict=True)
    ]
    _recap(heard, part, items, end)
    of_all = dose_of_all(heard, part.begin, end)
    for item in items:
        if item.dose is None and of_all:
            _give(heard, item, of_all)
    turn = heard.talk.tokens[part.turn.strongest.last].end if part.turn else None
    return FoundBlock(name="", kind="", start=heard.time(begin), your_turn=turn, items=items)


def _recap_start(heard: Heard, part: Part, end: int) -> int:
    """Where the last exercise's talk ends: when another one of the block is spoken of again."""
    last = part.chapters[-1].mention.naming.last
    again = (m for chapter in part.chapters[:-1] for m in chapter.repeats if _named_again(heard, m, last))
    return min((m.naming.first for m in again), default=end)


def _named_again(heard: Heard, mention: Mention, after: int) -> bool:
    """Whether a mention after a token names its exercise as a noun, whole or in the plural."""
    naming = mention.naming
    if naming.first <= after or naming.thin:
        return False
    return naming.score >= WHOLE or heard.talk.tokens[naming.last].text.endswith("s")


def _item(heard: Heard, chapter: Chapter, start: int, end: int) -> FoundItem:
    naming = chapter.mention.naming
    likely = (other for other, score in naming.others.items() if score >= naming.score - _AMBIGUOUS)
    item = FoundItem(
        exercise=naming.exercise or None,
        variant=naming.variant,
        heard=heard.talk.words(naming.first, naming.last).strip(),
        start=heard.time(start),
        named_at=heard.time(naming.first),
        confidence=_confidence(chapter.mention),
        others=sorted(likely),
    )
    amount = dose_of(heard, chapter, start, end)
    if amount:
        _give(heard, item, amount)
    remark(heard, item, start, end)
    return item


def _give(heard: Heard, item: FoundItem, amount: Amount) -> None:
    item.dose = amount.dose
    item.dose_at = heard.time(amount.first)
    item.dose_confidence = CONFIDENCE[amount.plain]


def _recap(heard: Heard, part: Part, items: list[FoundItem], end: int) -> None:
    """Doses said with names when the block is gone through again."""
    for chapter, item in zip(part.chapters, items, strict=True):
        doses = [m.dose for m in chapter.repeats if m.dose and m.naming.first < end]
        if doses and (item.dose is None or item.dose_confidence < _SURE):
            _give(heard, item, doses[0])


def _confidence(mention: Mention) -> float:
    """From the score of a mention and the fullness of its name, 0 to 0.97; no more than an order of trust."""
    clear = min(0.97, 0.45 + 0.12 * mention.score)
    return round(max(0.05, clear * min(1.0, 0.55 + 0.45 * mention.naming.score)), 2)
