"""Where blocks begin and where they are handed over to the viewer; their kinds and formats.

Between any two exercises shown a learned table tells whether a new block begins: by the words that open
one, by handing over to the viewer, by silences, by how many exercises the block has already.
"""

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

from sitegen.drafting.heard import WHOLE, Heard
from sitegen.drafting.learned_tables import Feature, phrases_said, probability, word_features
from sitegen.drafting.structure.acts import BLOCK, INSIDE, TURN, TalkActs
from sitegen.drafting.structure.outline import OutlineBlock, OutlineItem, close_items
from sitegen.vocabulary import AMRAP, BLOCK_KINDS, CIRCUIT, EMOM, FORMATS, ITEMS_OF_FORMAT, STRAIGHT

SPLIT, HANDOVER, KIND, FORMAT = "split", "handover", "kind", "format"
"""The tables."""

_BEFORE_BLOCK_S = 60.0
"""What opens a block is said at most so long before its first exercise."""

_OPENS = 8
"""Words around the start of an exercise that may open a block with it."""

_EASY = ("mobility", "locomotion")
"""Patterns of warm-ups and cool-downs."""


def blocks_of(heard: Heard, acts: TalkActs, items: Sequence[OutlineItem]) -> list[OutlineBlock]:
    """The items put into blocks; each block with its turn."""
    blocks: list[OutlineBlock] = []
    for item in items:
        before = blocks[-1].items[-1] if blocks else None
        if before is not None:
            features = split_features(heard, acts, before, item, len(blocks[-1].items))
            if heard.model[SPLIT].score(features) <= 0:
                blocks[-1].items.append(item)
                continue
        blocks.append(OutlineBlock(first=item.first, end=len(heard.tokens), items=[item]))
    place_blocks(heard, acts, blocks)
    return blocks


def place_blocks(heard: Heard, acts: TalkActs, blocks: Sequence[OutlineBlock]) -> None:
    """Tell of blocks with their items where they are opened, handed over, and end."""
    earliest = 0
    for index, block in enumerate(blocks):
        following = blocks[index + 1].items[0].first if index + 1 < len(blocks) else len(heard.tokens)
        block.turn, block.turn_likely = turn_between(heard, acts, block.items[-1].first, following)
        block.first = opening(heard, acts, earliest, block.items[0].first)
        earliest = block.turn if block.turn is not None else block.items[-1].told
        if index:
            blocks[index - 1].end = block.first
    for block in blocks:
        block.items[-1].end = block.told
        close_items(block)


def split_features(
    heard: Heard, acts: TalkActs, before: OutlineItem, item: OutlineItem, items: int
) -> list[Feature]:
    """What speaks for a new block between two items, of which ``items`` are in the block so far."""
    between = [p for p, passage in enumerate(heard.passages) if before.first < passage.first <= item.first]
    opens = [acts.passages[BLOCK][p] for p in between]
    turns = [probability(acts.passages[TURN][p]) for p in between[:-1]]
    # A block is opened in the last four passages before its first exercise; -4 stands for none (our choice).
    silence = max((heard.passages[p].pause_before for p in between[-4:]), default=0.0)
    known = [heard.series.exercises.get(one.exercise or "") for one in (before, item)]
    easy = [exercise.pattern in _EASY if exercise else None for exercise in known]
    out: list[Feature] = [
        ("bias", 1.0),
        ("opening", max(opens[-4:], default=-4.0)),
        ("opening here", opens[-1] if opens else -4.0),
        ("turn", max(turns, default=0.0)),
        ("silence", math.log1p(silence)),
        (f"items {min(items, 5)}", 1.0),
    ]
    if None not in easy and easy[0] != easy[1]:
        out.append(("gets easy" if easy[1] else "gets hard", 1.0))
    out += _told_between(heard, before, item)
    out.append(("most turn", max([-4.0, *(acts.passages[TURN][p] for p in between[:-1])])))
    return out


def _told_between(heard: Heard, before: OutlineItem, item: OutlineItem) -> Iterator[Feature]:
    """What ends a block or opens one: numbers of sets, a recap of names and doses, the name of a format."""
    spoken_of = [a for a in heard.amounts if before.first <= a.first < item.first + _OPENS]
    yield "sets said", float(any(a.count is not None for a in spoken_of))
    yield "doses said", math.log1p(sum(a.dose is not None and not a.counted for a in spoken_of))
    shown = {before.exercise, item.exercise}
    named = {
        m.exercise
        for m in heard.mentions
        if before.first <= m.first < item.first and m.best and m.cover >= WHOLE and m.exercise not in shown
    }
    yield "others named", math.log1p(len(named))
    yield "format said", float(bool(_formats_said(heard, before.first, item.first + _OPENS)))
    words = heard.shapes[max(before.first, item.first - _OPENS) : item.first + _OPENS]
    yield from word_features("around ", words)


_SAME_TURN_S = 10.0
"""Passages that end within so many seconds of each other hand over at the same place: "off you go" is said
twice, or thanks follow.
"""


def turn_between(heard: Heard, acts: TalkActs, first: int, end: int) -> tuple[int | None, float]:
    """The token behind the likeliest handing over between two tokens, and its probability; no token where
    that there is none is likelier.
    """
    candidates = list(turn_candidates(heard, acts, first, end))
    # Bounded as in ``likeliest``, so that the sum stays finite.
    odds = [math.exp(min(30.0, heard.model[HANDOVER].score(features))) for _, features in candidates]
    over = [heard.tokens[heard.passages[place].last].end for place, _ in candidates]
    near = [
        sum(value for value, other in zip(odds, over, strict=True) if abs(other - at) <= _SAME_TURN_S)
        for at in over
    ]
    best = max(range(len(odds)), key=lambda n: (near[n] * odds[n], n), default=None)
    if best is None or near[best] <= 1:
        return None, 0.0
    return heard.passages[candidates[best][0]].last + 1, near[best] / (1 + sum(odds))


def turn_candidates(
    heard: Heard, acts: TalkActs, first: int, end: int
) -> Iterator[tuple[int, list[Feature]]]:
    """The passages between two tokens that may hand over to the viewer, with what is seen of them.

    Words of her own, which nobody has heard yet, hand over all the same behind what is told of the last
    exercise and before the next block is opened: so it counts how much is told before and behind them.
    """
    passages, scores = heard.passages, acts.passages[TURN]
    places = [p for p, passage in enumerate(passages) if first <= passage.first < end]
    likeliest = max((scores[p] for p in places), default=0.0)
    for place in places:
        passage, following = passages[place], place + 1 < len(passages)
        features = [
            ("bias", 1.0),
            ("turn", scores[place]),
            ("likely", probability(scores[place])),
            ("likeliest", float(scores[place] == likeliest)),
            ("silence", math.log1p(passage.pause_after)),
            ("told", math.log1p(passage.last - first)),
            ("ahead", math.log1p(end - passage.last)),
            ("then opens", acts.passages[BLOCK][place + 1] if following else 0.0),
            ("then shows", acts.passages[INSIDE][place + 1] if following else 0.0),
            ("at the end", float(end >= len(heard.tokens))),
        ]
        yield place, features


def opening(heard: Heard, acts: TalkActs, earliest: int, first: int) -> int:
    """The token at which a block is opened, not before ``earliest``, whose first item begins at ``first``."""
    begin = heard.tokens[first].start - _BEFORE_BLOCK_S
    places = [
        p
        for p, passage in enumerate(heard.passages)
        if earliest <= passage.first <= first and passage.start >= begin
    ]
    if not places:
        return first
    return heard.passages[max(places, key=lambda p: (acts.passages[BLOCK][p], p))].first


# -- kinds and formats


def kind_of(heard: Heard, blocks: Sequence[OutlineBlock], block: OutlineBlock) -> tuple[str, float]:
    """The likeliest kind of a block, and its probability."""
    likely = _likely(heard, KIND, BLOCK_KINDS, kind_features(heard, blocks, block))
    best = max(BLOCK_KINDS, key=lambda kind: likely[kind])
    return best, likely[best]


_PLAIN, _PLAIN_SAID = 0.9, 0.6
"""Probability from which on a format that tells how many exercises there are is named, and not the circuit;
less is enough where she uses its words ("these two", "a pair").
"""

_OF_TIME = (AMRAP, EMOM)
_UNHEARD = 0.5
"""What a format counts where the words of another one are said that rests on time."""


def format_of(
    heard: Heard, blocks: Sequence[OutlineBlock], block: OutlineBlock, *, work: bool
) -> tuple[str, float]:
    """The format of a block, and how likely it may be called so.

    What goes round several exercises is a circuit whatever their number is, and may be called one. A name
    that tells their number (superset, tri-set) is chosen only where it is likely by itself: one exercise may
    have been missed, or be too many.
    """
    likely = _likely(heard, FORMAT, FORMATS, format_features(heard, blocks, block, work=work))
    said = _formats_told(heard, block)
    for form in FORMATS:
        if any(timed in said and form != timed for timed in _OF_TIME):
            likely[form] *= _UNHEARD
    numbered = max(ITEMS_OF_FORMAT, key=lambda form: likely[form])
    several = len(block.items) > 1
    free = [form for form in FORMATS if form not in ITEMS_OF_FORMAT and (several or form != CIRCUIT)]
    others = max(free, key=lambda form: likely[form])
    plain = likely[numbered] >= (_PLAIN_SAID if numbered in said else _PLAIN)
    fits = plain and fits_format(numbered, len(block.items)) and others in (CIRCUIT, STRAIGHT)
    best = numbered if fits else others
    return best, likely[best]


_BEFORE_OPENING, _BEHIND_TURN = 12, 6
"""Words around a block that may name its format: "and that is your tri-set" (our choice)."""


def _formats_said(heard: Heard, first: int, end: int) -> dict[str, int]:
    """The formats of which words are said between two tokens, with how many."""
    return phrases_said("format_words", (token.text for token in heard.tokens[max(0, first) : end]))


def _formats_told(heard: Heard, block: OutlineBlock) -> dict[str, int]:
    """The formats whose words are said from just before a block's opening to just behind its turn."""
    return _formats_said(heard, block.first - _BEFORE_OPENING, block.told + _BEHIND_TURN)


def fits_format(form: str, items: int) -> bool:
    """Whether a format goes with a number of exercises."""
    fewest, most = ITEMS_OF_FORMAT.get(form, (1, 99))
    return fewest <= items <= most


def _likely(heard: Heard, table: str, names: Sequence[str], features: Sequence[Feature]) -> dict[str, float]:
    """For each name how likely it may be used: several may."""
    return {
        c: probability(heard.model[table].score((f"{c}: {name}", value) for name, value in features))
        for c in names
    }


def _head(heard: Heard, block: OutlineBlock, more: int) -> list[str]:
    end = block.items[0].first + more if block.items else block.first + more
    return heard.shapes[block.first : end]


def kind_features(heard: Heard, blocks: Sequence[OutlineBlock], block: OutlineBlock) -> list[Feature]:
    """Words around its beginning, its place in the session, the patterns of its exercises.

    How many words are looked at, here and for formats, is our choice; what each weighs is learned.
    """
    out: list[Feature] = [("bias", 1.0)]
    out += word_features("head ", _head(heard, block, 12))
    out += word_features("before ", heard.shapes[max(0, block.first - 10) : block.first])
    if block is blocks[0]:
        out.append(("first", 1.0))
    if block is blocks[-1]:
        out.append(("last", 1.0))
    out.append(("turn", float(block.turn is not None)))
    patterns = [heard.series.exercises[i.exercise].pattern for i in block.items if i.exercise]
    for pattern in dict.fromkeys(patterns):
        out.append((f"pattern {pattern}", 2 * patterns.count(pattern) / len(patterns)))
    easy = sum(pattern in _EASY for pattern in patterns)
    out.append(("easy", 2 * easy / len(patterns) if patterns else 0.0))
    return out


def format_features(
    heard: Heard, blocks: Sequence[OutlineBlock], block: OutlineBlock, *, work: bool
) -> list[Feature]:
    """The words with which it is opened and handed over, the number of its exercises, times of work."""
    out: list[Feature] = [
        ("bias", 1.0),
        (f"items {min(len(block.items), 5)}", 1.5),
        ("work", 2 * float(work)),
    ]
    head, tail = _head(heard, block, 15), heard.shapes[block.items[-1].told : block.told + 4]
    out += word_features("says ", [*head, *tail])
    pairs = [f"{a} {b}" for part in (head, tail) for a, b in pairwise(part)]
    out += word_features("says ", pairs)
    out.append(("turn", float(block.turn is not None)))
    out += [
        (f"words of {form}", 1.0 + math.log(count)) for form, count in _formats_told(heard, block).items()
    ]
    out += [
        (f"first words of {form}", 1.5)
        for form in _formats_said(heard, block.first, block.items[0].first + 20)
    ]
    if blocks and blocks[0].items:
        out += word_features("session ", heard.shapes[: blocks[0].items[0].first])
    return out
