"""What is said of a block as a whole: kind, format, sets, rests, times, and what to call it."""

from collections import Counter

from sitegen.draft.chapters import Part
from sitegen.draft.found import FoundBlock
from sitegen.draft.heard import Heard
from sitegen.draft.openings import FRAME, ONE_OPENING, talk_again
from sitegen.draft.signals import FORMAT, KIND
from sitegen.vocabulary import (
    AMRAP,
    CIRCUIT,
    EMOM,
    GIANT_SET,
    INTERVALS,
    ITEMS_OF_FORMAT,
    STRAIGHT,
    SUPERSET,
    TRI_SET,
)

_MOST_SETS_UNNAMED = 5
"""Up to here "three times" counts sets where neither sets nor rounds are named."""

_SETS_AHEAD = 40
"""Words before the first exercise in which the number of its sets may be said."""

_AFTER_TURN = 12
"""Words after handing over in which the number of rounds may still be said."""

_ORDINALS = ("First", "Second", "Third", "Fourth", "Fifth", "Sixth", "Seventh", "Eighth", "Ninth", "Tenth")


def describe(heard: Heard, block: FoundBlock, part: Part, starts: list[int], span: tuple[int, int]) -> None:
    """Fill in what is said of the block between two tokens; ``starts`` are those of its exercises."""
    begin, end = span
    head = [s for s in heard.signals if max(begin, starts[0] - ONE_OPENING) <= s.first <= starts[0] + 2]
    last = part.turn.last if part.turn else starts[-1]
    inside = [s for s in heard.signals if begin - 2 <= s.first < last]
    formats = [s for s in head if s.kind == FORMAT] or [s for s in inside if s.kind == FORMAT]
    if formats:
        block.format = max(formats, key=lambda s: (s.weight, s.first)).value
        block.format_said = True
    kinds = [s.value for s in head if s.kind == KIND]
    block.kind = kinds[-1] if kinds else ""
    _sets(heard, block, part, starts, span)
    _times(heard, block, begin, end)


def complete(heard: Heard, blocks: list[FoundBlock], opening: int) -> None:
    """Fill in what the blocks leave open, by what was said of the session before token ``opening``, or by
    custom.
    """
    before = [s for s in heard.signals if s.kind == FORMAT and s.weight >= 2 and s.first < opening]
    usual = before[0].value if before else None
    for index, block in enumerate(blocks):
        if not block.kind:
            block.kind = _kind_of_items(heard, block, first=index == 0, last=index == len(blocks) - 1)
        _take_session(heard, block, opening)
        if block.format is None:
            fits = usual is not None and block.kind == "strength" and fits_format(usual, len(block.items))
            block.format = usual if fits else _usual_format(block)
        if block.format == INTERVALS and block.work:
            _leave_to_format(block)
    _name(blocks)


def fits_format(form: str, items: int) -> bool:
    """Whether a format goes with a number of exercises."""
    fewest, most = ITEMS_OF_FORMAT.get(form, (1, 99))
    return fewest <= items <= most


def _kind_of_items(heard: Heard, block: FoundBlock, *, first: bool, last: bool) -> str:
    patterns = [heard.series.exercises[i.exercise].pattern for i in block.items if i.exercise]
    if patterns and all(pattern in ("mobility", "locomotion") for pattern in patterns):
        return "warm-up" if first else "cool-down" if last else "mobility"
    return "strength"


def _sets(heard: Heard, block: FoundBlock, part: Part, starts: list[int], span: tuple[int, int]) -> None:
    """The number of sets: the one said most often; of several said once, the last before the viewer's
    turn.
    """
    begin, end = min(span[0], max(talk_again(heard, part), starts[0] - _SETS_AHEAD)), span[1]
    last = min(end, part.turn.last + _AFTER_TURN) if part.turn else end
    said = [
        s
        for s in heard.amounts.sets
        if begin <= s.first < last and (s.word or s.count.high <= _MOST_SETS_UNNAMED)
    ]
    if part.turn is None:
        # Done along: later numbers tell how far one has come.
        said = [s for s in said if s.first < starts[0]] or said[:1]
    if not said:
        return
    best, times = Counter(s.count for s in said).most_common(1)[0]
    chosen = said[-1] if times == 1 else next(s for s in reversed(said) if s.count == best)
    block.sets, block.sets_word = chosen.count, chosen.word
    block.sets_at = heard.time(chosen.first)
    block.confidence = 0.9 if times > 1 else 0.7


def _times(heard: Heard, block: FoundBlock, begin: int, end: int) -> None:
    """Rests, work time and length of the block."""
    for said in heard.amounts.times:
        if not begin <= said.first < end:
            continue
        if said.kind == "rest_exercises":
            block.rest_exercises = said.length
        elif said.kind in ("rest_sets", "rest"):
            block.rest_sets = said.length
        elif said.kind == "work":
            block.work = said.length
        else:
            block.time = block.time or said.length


def _take_session(heard: Heard, block: FoundBlock, opening: int) -> None:
    if block.kind in (*FRAME, "mobility"):
        return
    sets = [s for s in heard.amounts.sets if s.first < opening]
    if block.sets is None and sets and len(block.items) > 1 and block.format not in (AMRAP, EMOM):
        block.sets, block.sets_word = sets[-1].count, sets[-1].word
        block.sets_at = heard.time(sets[-1].first)
        block.confidence = 0.5
    if block.format == INTERVALS and block.work is None:
        _times(heard, block, 0, opening)


def _usual_format(block: FoundBlock) -> str:
    """By the number of exercises, and by whether rounds were spoken of (common practice, no source)."""
    many = len(block.items)
    if many == 1:
        return STRAIGHT
    rounds = (block.sets_word == "rounds" and many > 2) or (block.sets_word == "" and many > 3)
    if rounds or block.kind in (*FRAME, "mobility"):
        return CIRCUIT
    return {2: SUPERSET, 3: TRI_SET}.get(many, GIANT_SET)


def _leave_to_format(block: FoundBlock) -> None:
    """In intervals the work time is the dose."""
    for item in block.items:
        if item.dose and item.dose.kind == "time":
            item.dose, item.dose_at, item.dose_confidence = None, None, 0.0


def _name(blocks: list[FoundBlock]) -> None:
    """Warm-up, First tri-set, Second tri-set, Cool-down: names from kind and format, none invented."""
    counts: Counter[str] = Counter()
    for block in blocks:
        word = block.kind.capitalize() if block.kind in (*FRAME, "mobility") else ""
        if not word:
            form = (
                block.format if block.format_said and block.format in (*ITEMS_OF_FORMAT, CIRCUIT) else "block"
            )
            counts[form] += 1
            word = f"{_ordinal(counts[form])} {form}"
        else:
            counts[word] += 1
            word = word if counts[word] == 1 else f"{word} {counts[word]}"
        block.name = word


def _ordinal(number: int) -> str:
    return _ORDINALS[number - 1] if number <= len(_ORDINALS) else f"{number}th"
