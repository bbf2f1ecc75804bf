"""From the parts of a walk to blocks with starts, kinds, formats, sets, rests and doses."""

import re
from collections import Counter
from dataclasses import replace

from sitegen.draft.chapters import WHOLE, Chapter, Part
from sitegen.draft.amounts import Amount, Amounts, SetsSaid
from sitegen.draft.found import Alternative, FoundBlock, FoundItem
from sitegen.draft.lexicon import STRONG, WEAK, stems_of
from sitegen.draft.mentions import Mention
from sitegen.draft.signals import COUNTED, FORMAT, KIND, OPENER, RESUME, Signal
from sitegen.draft.starts import chapter_start, sentence_start
from sitegen.draft.stems import stem
from sitegen.draft.talk import Talk
from sitegen.notation import Dose
from sitegen.model import Series
from sitegen.vocabulary import CIRCUIT, GIANT_SET, INTERVALS, ITEMS_OF_FORMAT, STRAIGHT, SUPERSET, TRI_SET


_FEWEST_BARE, _MOST_BARE = 5, 50
"""A number among words is taken for a dose only between these."""


_IN_ALL = re.compile(r"(?:in all|in total|altogether)\b")
_OTHER_SIDE_NOW = re.compile(
    r"(?:and |now |then |so |ok |okay )*(?:on )?(?:to )?(?:the )?(?:other (?:side|way|leg|arm|foot|hand)|(?:change|switch|swap)(?: (?:legs|sides|arms|feet|hands|over))?)\b(?!(?: hands)? (?:every|each))"
)
_OTHER_SIDE = re.compile(r"\b(?:other (?:side|way|leg|arm|1|foot|hand)|change|switch|swap)\b")
_SURE = 0.6
"""Confidence from which on a dose is not given up for one said of all, or later."""

_MOVEMENTS = frozenset(base[0] for base in (*STRONG, *WEAK) if len(base) == 1)
_FEWEST_SECONDS = 10
_HELD = frozenset(stem(word) for word in ("stretch", "plank", "hold", "stand", "pose", "hang"))

_FRAME = ("warm-up", "cool-down")
_ONE_OPENING = 25
"""Phrases that open a block with fewer words between them belong together."""

_FADES = 15
"""So many words further on, a dose said plainly counts as much as a bare number."""


class Builder:
    """Makes the blocks of one recording."""

    def __init__(self, talk: Talk, signals: list[Signal], amounts: Amounts, series: Series) -> None:
        self.talk, self.stream = talk, talk.stream
        self.signals, self.amounts, self.series = signals, amounts, series

    def blocks(self, parts: list[Part]) -> list[FoundBlock]:
        """The blocks in order."""
        starts = [[chapter_start(self.stream, c.mention.naming.first) for c in part.chapters] for part in parts]
        begins = [self._begin(part, starts[index][0]) for index, part in enumerate(parts)]
        ends = [*begins[1:], len(self.stream.tokens)]
        usual = next((s.value for s in self.signals if s.kind == FORMAT and s.weight >= 2 and s.first < begins[0]), None) if begins else None
        blocks = []
        for index, part in enumerate(parts):
            block = self._block(part, begins[index], starts[index], ends[index])
            self._describe(block, part, begins[index], starts[index], ends[index])
            if not self._has_kind(block, begins[index], starts[index]):
                block.kind = self._kind_of_items(block, first=index == 0, last=index == len(parts) - 1)
            if block.format is None:
                block.format = usual if usual and block.kind == "strength" and _fits(usual, block) else _usual_format(block)
                block.format_said = False
            if block.format == INTERVALS and block.work:
                _leave_to_format(block)
            blocks.append(block)
        return blocks

    def _block(self, part: Part, begin: int, starts: list[int], end: int) -> FoundBlock:
        if part.turn:
            end = min(end, part.turn.last + 1)
        limits = [*starts[1:], self._recap_start(part, end)]
        items = [self._item(c, start, limit) for c, start, limit in zip(part.chapters, starts, limits, strict=True)]
        block = FoundBlock(name="", kind="strength", start=self.stream.tokens[begin].start, items=items)
        self._recap(block, part, end)
        self._dose_of_all(block, part.begin, end)
        if part.turn:
            block.your_turn = self.stream.tokens[part.turn.strongest.last].end
        return block

    def _begin(self, part: Part, first_start: int) -> int:
        """Token at which a block begins."""
        tokens = self.stream.tokens
        kinds = (OPENER, KIND, RESUME, FORMAT, COUNTED)
        signals = [s for s in self.signals if part.begin <= s.first <= first_start + 3 and s.kind in kinds]
        gap = next((i for i in range(part.begin, first_start + 1) if tokens[i].pause_before >= 2.0), None)
        if part.begin and gap is not None and any(s.kind == RESUME for s in signals):
            return gap
        kind = next((s for s in reversed(signals) if s.kind == KIND and s.value in _FRAME and s.weight >= 1.5), None)
        if kind:
            # What was said before of rounds and work times is about the session, not about its warm-up.
            return max(part.begin, min(first_start, sentence_start(self.stream, kind.first)))
        opening = [(s.first, s.last) for s in signals if s.weight >= 1.5]
        opening += [(s.first, s.last) for s in self.amounts.sets if max(part.begin, first_start - 25) <= s.first < first_start]
        if not opening:
            return first_start
        opening.sort()
        first = opening[-1][0]
        for start, last in reversed(opening):
            if first - last <= _ONE_OPENING:
                first = start
        return max(part.begin, min(first_start, sentence_start(self.stream, first)))

    def _recap_start(self, part: Part, end: int) -> int:
        """Where the last exercise's talk ends: when another one of the block is spoken of again."""
        last = part.chapters[-1].mention.naming.last
        again = [m.naming.first for c in part.chapters[:-1] for m in c.repeats if _named_again(self.talk, m, last)]
        return min([end, *again])

    def _item(self, chapter: Chapter, start: int, end: int) -> FoundItem:
        naming = chapter.mention.naming
        tokens = self.stream.tokens
        item = FoundItem(
            exercise=naming.exercise or None,
            variant=naming.variant,
            heard=self.talk.words(naming.first, naming.last).strip(),
            start=tokens[start].start,
            named_at=tokens[naming.first].start,
            confidence=_confidence(chapter.mention),
            others=sorted(other for other, score in naming.others.items() if score >= naming.score - 0.08),
        )
        amount = self._dose(chapter, start, end)
        if amount:
            self._give(item, amount)
        return item

    def _give(self, item: FoundItem, amount: Amount) -> None:
        item.dose = self._held(item.exercise, amount.dose)
        item.dose_at = self.stream.tokens[amount.first].start
        item.dose_confidence = {3: 0.9, 2: 0.75, 1: 0.6, 0: 0.4}[amount.plain]

    def _held(self, exercise: str | None, dose: Dose) -> Dose:
        """A bare number of ten or more for what is held, such as a stretch, counts seconds."""
        if exercise is None or dose.kind != "count" or dose.unit != "reps" or dose.low < _FEWEST_SECONDS:
            return dose
        name = stems_of(self.series.exercises[exercise].name)
        held = name[-1] in _HELD and "to" not in name
        return replace(dose, kind="time", parts=()) if held else dose

    def _dose(self, chapter: Chapter, start: int, end: int) -> Amount | None:
        """The dose of a chapter: said with the name or plainly and soon after it, and put right by what follows."""
        name = chapter.mention.naming.last
        own = self._own_words(chapter)
        every = [a for a in self.amounts.doses if start <= a.first < end]
        said = [self._raised(a, own) for a in self.amounts.doses if start <= a.first < end and not a.aside and not a.for_all]
        said = [a for a in said if self._likely(a)]
        chosen = chapter.mention.dose or max(said, key=lambda a: self._fit(a, name), default=None)
        for amount in said:
            if chosen and amount.first > chosen.last and _corrects(chosen, amount):
                chosen = _merged(chosen, amount)
        if chosen and self._both_sides(chosen, every, end):
            return replace(chosen, dose=replace(chosen.dose, per_side=True))
        return chosen

    def _both_sides(self, chosen: Amount, said: list[Amount], end: int) -> bool:
        """Whether the other side is spoken of after a dose: by itself, or with the same number again."""
        if chosen.dose.per_side or chosen.dose.kind == "max" or _IN_ALL.match(self.talk.after(chosen.last, 3)):
            return False
        starts = (i for i in range(chosen.last + 1, end) if self.stream.tokens[i].break_before == 2)
        if any(_OTHER_SIDE_NOW.match(self.talk.words(i, i + 5)) for i in starts):
            return True
        return any(
            again.first > chosen.last
            and again.dose.low == chosen.dose.low
            and (again.dose.per_side or _OTHER_SIDE.search(self.talk.words(chosen.last + 1, again.last + 4)))
            for again in said
        )

    def _own_words(self, chapter: Chapter) -> frozenset[str]:
        exercise = self.series.exercises.get(chapter.mention.naming.exercise)
        return frozenset(stems_of(exercise.name)) if exercise else frozenset()

    def _raised(self, amount: Amount, own: frozenset[str]) -> Amount:
        """A number before the exercise's own word is plainly a dose: "six swings"."""
        after = self.talk.words(amount.last + 1, amount.last + 1).strip()
        counts = stem(after) in own or (after.endswith("s") and stem(after) in _MOVEMENTS)
        return replace(amount, plain=3) if amount.plain == 0 and counts else amount

    def _likely(self, amount: Amount) -> bool:
        if amount.plain > 0 or self.stream.punctuated:
            return amount.plain > 0
        return _FEWEST_BARE <= amount.dose.low <= _MOST_BARE

    def _fit(self, amount: Amount, name: int) -> float:
        """How likely an amount is the dose: plainly said, and soon after the name."""
        return max(1, amount.plain) - abs(amount.first - name) / _FADES

    def _dose_of_all(self, block: FoundBlock, begin: int, end: int) -> None:
        """A dose said of every exercise goes to those that have none of their own."""
        said = [a for a in self.amounts.doses if begin <= a.first < end and a.for_all and not a.aside]
        for item in block.items if said else ():
            if item.dose is None:
                self._give(item, said[-1])

    def _describe(self, block: FoundBlock, part: Part, begin: int, starts: list[int], end: int) -> None:
        head = [s for s in self.signals if max(begin, starts[0] - _ONE_OPENING) <= s.first <= starts[0] + 2]
        inside = [s for s in self.signals if begin - 2 <= s.first < (part.turn.last if part.turn else starts[-1])]
        formats = [s for s in head if s.kind == FORMAT] or [s for s in inside if s.kind == FORMAT]
        if formats:
            block.format = max(formats, key=lambda s: (s.weight, s.first)).value
        kinds = [s for s in head if s.kind == KIND]
        if kinds:
            block.kind = kinds[-1].value
        self._sets(block, part, begin, starts, end)
        self._rests(block, begin, end)

    def _has_kind(self, block: FoundBlock, begin: int, starts: list[int]) -> bool:
        return any(s.kind == KIND and begin - 2 <= s.first <= starts[0] + 2 for s in self.signals)

    def _kind_of_items(self, block: FoundBlock, *, first: bool, last: bool) -> str:
        patterns = [self.series.exercises[i.exercise].pattern for i in block.items if i.exercise]
        if patterns and all(pattern in ("mobility", "locomotion") for pattern in patterns):
            return "warm-up" if first else "cool-down" if last else "mobility"
        return "strength"

    def _sets(self, block: FoundBlock, part: Part, begin: int, starts: list[int], end: int) -> None:
        after = part.turn.last + 12 if part.turn else end
        said = [s for s in self.amounts.sets if begin <= s.first < min(end, after) and self._for_block(s, starts)]
        if part.turn is None:
            said = [s for s in said if s.first < starts[0]] or said[:1]
        if not said:
            return
        counts = Counter(s.count for s in said)
        best, times = counts.most_common(1)[0]
        chosen = said[-1] if times == 1 else next(s for s in reversed(said) if s.count == best)
        block.sets, block.sets_word = chosen.count, chosen.word
        block.sets_at = self.stream.tokens[chosen.first].start
        block.confidence = 0.9 if times > 1 else 0.7

    def _for_block(self, said: SetsSaid, starts: list[int]) -> bool:
        """Whether a number of times counts sets rather than repetitions."""
        return bool(said.word) or said.count.high <= 5

    def _rests(self, block: FoundBlock, begin: int, limit: int) -> None:
        for said in self.amounts.times:
            if not begin <= said.first < limit:
                continue
            if said.kind == "rest_exercises":
                block.rest_exercises = said.length
            elif said.kind in ("rest_sets", "rest"):
                block.rest_sets = said.length
            elif said.kind == "work":
                block.work = said.length

    def _recap(self, block: FoundBlock, part: Part, end: int) -> None:
        """Doses said with names when the block is gone through again."""
        for chapter, item in zip(part.chapters, block.items, strict=True):
            doses = [m.dose for m in chapter.repeats if m.dose and m.naming.first < end]
            if doses and (item.dose is None or item.dose_confidence < _SURE):
                self._give(item, doses[0])


def _named_again(talk: Talk, mention: Mention, after: int) -> bool:
    """Whether a mention after a token names its exercise as a noun, whole or in the plural."""
    naming = mention.naming
    if naming.first <= after or naming.thin:
        return False
    return naming.score >= WHOLE or talk.tokens[naming.last].text.endswith("s")


def _corrects(before: Amount, amount: Amount) -> bool:
    """Whether an amount puts an earlier one right."""
    near = amount.first - before.last
    if amount.changed and near <= 14 and (amount.plain > 0 or near <= 6):
        return True
    if amount.dose.per_side and not before.dose.per_side and 2 * amount.dose.low == before.dose.low and near <= 8:
        return True
    return before.plain <= 1 and amount.plain == 3 and amount.dose.kind == before.dose.kind and near <= 3


def _merged(before: Amount, amount: Amount) -> Amount:
    """A correction such as "make that twelve" keeps the side and unit of what it corrects."""
    if amount.plain == 3 or before.dose.kind == "max" or amount.dose.kind != "count":
        return amount
    dose = replace(before.dose, low=amount.dose.low, high=amount.dose.high, parts=())
    return replace(amount, dose=dose, plain=before.plain)


def _confidence(mention: Mention) -> float:
    return round(min(0.97, 0.45 + 0.12 * mention.score) * min(1.0, 0.55 + 0.45 * mention.naming.score), 2)


def _leave_to_format(block: FoundBlock) -> None:
    """In intervals the work time is the dose."""
    for item in block.items:
        if item.dose and item.dose.kind == "time":
            item.dose, item.dose_at, item.dose_confidence = None, None, 0.0


def _fits(form: str, block: FoundBlock) -> bool:
    """Whether a format goes with the number of a block's exercises."""
    fewest, most = ITEMS_OF_FORMAT.get(form, (1, 99))
    return fewest <= len(block.items) <= most


def _usual_format(block: FoundBlock) -> str:
    """The format of a block for which none was said: by the number of its exercises, and whether rounds were spoken of."""
    many = len(block.items)
    if many == 1:
        return STRAIGHT
    if block.kind in ("warm-up", "cool-down", "mobility") or (block.sets_word == "rounds" and many > 2) or (block.sets_word == "" and many > 3):
        return CIRCUIT
    return {2: SUPERSET, 3: TRI_SET}.get(many, GIANT_SET)
