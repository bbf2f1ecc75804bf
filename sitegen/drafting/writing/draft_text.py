"""A draft episode as YAML with comments: how sure each finding is, and when the words are said it rests
on.
"""

import json
from collections import Counter
from collections.abc import Iterator, Sequence

from slugify import slugify

from sitegen.drafting.amounts.spoken import EFFORT, LOAD, TEMPO
from sitegen.drafting.findings import ExerciseStub, FoundBlock, FoundItem, OpenQuestion, Unplaced
from sitegen.drafting.structure.blocks import fits_format
from sitegen.drafting.structure.doubts import doubt_about
from sitegen.drafting.structure.session import (
    DOSE_BOUND,
    FORMAT_BOUND,
    ITEM_BOUND,
    KIND_BOUND,
    SETS_BOUND,
    turn_is_told,
)
from sitegen.drafting.writing.whole_seconds import BlockTimes, settled
from sitegen.model import Series
from sitegen.notation import Count, format_clock
from sitegen.vocabulary import AMRAP, AROUND_THE_WORK, CIRCUIT, EMOM, INTERVALS, ITEMS_OF_FORMAT, STRAIGHT

_HEAD = (
    "# A draft from what is said in the recording. Behind each finding: how sure it is (0.90 is right nine",
    "# times in ten) and the time of the words it rests on. Answer the questions, then delete the comments.",
)
_LIKELY, _GUESS = 0.5, 0.25
"""A dose less likely than the first is named in a question only; one less likely than the second not even
there.
"""

_ORDINALS = ("First", "Second", "Third", "Fourth", "Fifth", "Sixth", "Seventh", "Eighth", "Ninth", "Tenth")


def stubs_of(blocks: Sequence[FoundBlock]) -> tuple[ExerciseStub, ...]:
    """The exercises that the library lacks, each name once."""
    stubs: dict[str, ExerciseStub] = {}
    for item in (item for block in blocks for item in block.items if item.exercise is None):
        stub = ExerciseStub(id=slugify(item.heard) or "unnamed", name=item.heard, at=item.named_at)
        stubs.setdefault(stub.id, stub)
    return tuple(stubs.values())


class DraftWriter:
    """Writes one draft and collects its questions."""

    def __init__(
        self, series: Series, blocks: Sequence[FoundBlock], unplaced: Sequence[Unplaced] = ()
    ) -> None:
        self.series = series
        self.blocks = blocks
        self.unplaced = unplaced
        self.questions: list[OpenQuestion] = []
        name_blocks(blocks)

    def text(self, *, title: str, number: int, head: Sequence[str]) -> str:
        """The whole file; ``head`` are lines that stand above the blocks."""
        shown = [(b.start, [i.start for i in b.items], b.your_turn) for b in self.blocks]
        times = settled(shown)
        lines = [
            *_HEAD,
            f"title: {json.dumps(title, ensure_ascii=False)}",
            f"number: {number}",
            *head,
            "blocks:",
        ]
        for block, block_times in zip(self.blocks, times, strict=True):
            lines += self._block(block, block_times)
        if stubs := stubs_of(self.blocks):
            lines.append("# Exercises that the library lacks, with the name as heard:")
            lines += [f"#   {one.name} ({format_clock(one.at)}): exercises/{one.id}.yaml" for one in stubs]
        if self.unplaced:
            lines.append("# Heard but not placed:")
            lines += [f"#   {format_clock(one.at)}  {one.text}" for one in self.unplaced]
        return "\n".join(lines) + "\n"

    def _ask(self, at: float, text: str) -> str:
        """A question as a comment."""
        self.questions.append(OpenQuestion(at=at, text=text))
        return f"# QUESTION ({format_clock(at)}): {text}"

    def _block(self, block: FoundBlock, times: BlockTimes) -> Iterator[str]:
        known = [item for item in block.items if item.exercise]
        lead = "  " if known else "  # "
        if not known:
            question = "no exercise of this block is in the library; add them, then take the # away"
            yield f"  {self._ask(block.start, question)}"
        clock = [f'  at: "{format_clock(times.at or 0)}"']
        if times.your_turn is not None:
            turn = f'your_turn: "{format_clock(times.your_turn)}"'
            if turn_is_told(block):
                clock.append(f"  {turn}    # {block.turn_confidence:.2f}")
            else:
                clock.append(f"  {self._ask(times.your_turn, f'does she hand over here? Then: {turn}')}")
        if block.routine:
            yield f"  - routine: {block.routine}    # its exercises are shown in its order"
            yield from (f"  {line}" for line in clock)
            return
        kind = f"  kind: {block.kind}"
        if block.kind_confidence < KIND_BOUND:
            kind += f"    {self._ask(block.start, f'is this {block.kind}?')}"
        body = [f"- name: {block.name}", kind, *self._format(block, len(known)), *clock]
        body += [*self._sets(block), *self._rest(block), "  items:"]
        for item, at in zip(block.items, times.items, strict=True):
            body += [f"    {line}" for line in self._item(block, item, at or 0)]
        yield from (f"{lead}{line}" for line in body)

    def _format(self, block: FoundBlock, known: int) -> Iterator[str]:
        form, question = _form(block, known)
        if question:
            yield f"  {self._ask(block.start, question)}"
            yield f"  format: {form}"
        else:
            yield f"  format: {form}    # {block.format_confidence:.2f}"
        if form == INTERVALS:
            yield f"  work: {block.work}"
        if form in (AMRAP, EMOM):
            yield f"  time: {_minutes(block)}"

    def _sets(self, block: FoundBlock) -> Iterator[str]:
        if block.sets and block.sets_confidence >= SETS_BOUND:
            if block.sets != Count(1, 1):
                said = f"{block.sets_confidence:.2f}, said at {format_clock(block.sets_at or block.start)}"
                yield f"  sets: {block.sets}    # {said}"
        elif block.kind in ("strength", "conditioning") and block.format not in (AMRAP, EMOM):
            heard = f" {block.sets} at {format_clock(block.sets_at or 0)}?" if block.sets else ""
            yield f"  {self._ask(block.start, 'how many sets or rounds?' + heard)}"

    def _rest(self, block: FoundBlock) -> Iterator[str]:
        rests = {"between_exercises": block.rest_exercises, "between_sets": block.rest_sets}
        if parts := [f"{key}: {rest}" for key, rest in rests.items() if rest]:
            yield f"  rest: {{{', '.join(parts)}}}"

    def _item(self, block: FoundBlock, item: FoundItem, at: int) -> Iterator[str]:
        if item.exercise is None:
            name = slugify(item.heard) or "unnamed"
            lacks = f"{item.heard!r} is not in the library; write exercises/{name}.yaml, then take the # away"
            if item.confidence < ITEM_BOUND:
                yield self._ask(item.start, f"is an exercise shown here? ({item.confidence:.2f}) {lacks}")
            else:
                yield f"# {lacks}"
            yield f"# - exercise: {name}"
            yield f'#   at: "{format_clock(at)}"'
            yield from (f"# {line}" for line in (*self._dose(block, item), *self._remarks(item)))
            return
        named = f"named at {format_clock(item.named_at)}" if item.heard else "described, not named"
        yield f"- exercise: {item.exercise}    # {item.confidence:.2f}, {named}"
        if item.variant:
            yield f"  variant: {item.variant}"
        yield f'  at: "{format_clock(at)}"'
        yield from self._dose(block, item)
        doubt = doubt_about(self.series, self.blocks, block, item)
        if doubt or item.confidence < ITEM_BOUND:
            why = f" {doubt[0].upper()}{doubt[1:]}" if doubt else ""
            yield f"  {self._ask(item.start, f'is {item.exercise} shown here?{why}')}"
        yield from self._remarks(item)

    def _dose(self, block: FoundBlock, item: FoundItem) -> Iterator[str]:
        form, _ = _form(block, sum(one.exercise is not None for one in block.items))
        if item.dose is not None and item.dose_at is not None and item.dose_confidence >= _GUESS:
            if form == INTERVALS and item.dose.kind == "time":
                return
            text, at = json.dumps(str(item.dose)), item.dose_at
            if item.dose_confidence >= DOSE_BOUND:
                yield f"  dose: {text}    # {item.dose_confidence:.2f}, said at {format_clock(at)}"
            elif item.dose_confidence < _LIKELY:
                question = f"is the dose {item.dose}? ({item.dose_confidence:.2f}) 1 only keeps the place"
                yield f'  dose: "1"    {self._ask(at, question)}'
            else:
                question = f"is this the dose? ({item.dose_confidence:.2f})"
                yield f"  dose: {text}    {self._ask(at, question)}"
        elif form != INTERVALS:
            yield f'  dose: "1"    {self._ask(item.named_at, "no dose was heard; 1 only keeps the place")}'

    def _remarks(self, item: FoundItem) -> Iterator[str]:
        """Load, tempo and effort: a value where it is plainly said, else a question that quotes the words."""
        for kind in (LOAD, TEMPO, EFFORT):
            said = [remark for remark in item.said if remark.kind == kind]
            if len(said) == 1 and said[0].plain:
                yield f"  {kind}: {said[0].text}    # said at {format_clock(said[0].at)}"
            elif said:
                quotes = ", ".join(f"“… {remark.heard} …”" for remark in said)
                yield f"  {self._ask(said[0].at, f'does this give the {kind}? {quotes}')}"


def _minutes(block: FoundBlock) -> str | None:
    return f"{block.time_said[1] // 60} min" if block.time_said else None


def _form(block: FoundBlock, known: int) -> tuple[str, str]:
    """The format that is written for a block of so many known exercises, and what is to be asked about it."""
    form = block.format or CIRCUIT
    plain = STRAIGHT if known == 1 else CIRCUIT
    needs = {INTERVALS: block.work, AMRAP: _minutes(block), EMOM: _minutes(block)}
    if block.format_confidence < FORMAT_BOUND:
        return plain, f"in which format? {form}, perhaps ({block.format_confidence:.2f})"
    if form in needs and needs[form] is None:
        return CIRCUIT, f"{form} it seems, but for how long? Circuit stands here for now"
    if not fits_format(form, known):
        return plain, f"{form} it seems, but {known} exercises were found; is one missing?"
    return form, ""


def name_blocks(blocks: Sequence[FoundBlock]) -> None:
    """Warm-up, First tri-set, Second tri-set, Cool-down: names from kind and format, none invented."""
    counts: Counter[str] = Counter()
    for block in blocks:
        if block.kind in AROUND_THE_WORK:
            word = block.kind.capitalize()
            counts[word] += 1
            block.name = word if counts[word] == 1 else f"{word} {counts[word]}"
            continue
        told = block.format_confidence >= ITEM_BOUND and block.format in (*ITEMS_OF_FORMAT, CIRCUIT)
        form = block.format if told else "block"
        counts[form] += 1
        number = counts[form]
        block.name = f"{_ORDINALS[number - 1] if number <= len(_ORDINALS) else f'{number}th'} {form}"
