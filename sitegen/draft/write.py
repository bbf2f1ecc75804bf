"""A draft episode as YAML with comments: how sure each finding is, and when the words are said it rests
on.
"""

import json
import re
from collections.abc import Iterator, Sequence

from sitegen.draft.describe import fits_format
from sitegen.draft.found import Alternative, FoundBlock, FoundItem, Question, Stub
from sitegen.draft.settle import BlockTimes, settled
from sitegen.model import Series
from sitegen.notation import Count, format_clock
from sitegen.vocabulary import AMRAP, CIRCUIT, EMOM, INTERVALS, STRAIGHT

_HEAD = (
    "# A draft from what is said in the recording. Behind each finding: how sure it is, from 0 to 1, and",
    "# the time of the words it rests on. Answer the questions, then delete the comments.",
)
_UNSURE = 0.6
_FORMS = {"easier": "easier form", "harder": "harder form", "spares": "form for a complaint"}


def stubs_of(blocks: Sequence[FoundBlock]) -> tuple[Stub, ...]:
    """The exercises that the library lacks, each name once."""
    stubs: dict[str, Stub] = {}
    for item in (item for block in blocks for item in block.items if item.exercise is None):
        stub = Stub(id=_id_of(item.heard), name=item.heard, at=item.named_at)
        stubs.setdefault(stub.id, stub)
    return tuple(stubs.values())


def _id_of(name: str) -> str:
    return re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-") or "unnamed"


class Writer:
    """Writes one draft and collects its questions."""

    def __init__(self, series: Series, blocks: Sequence[FoundBlock]) -> None:
        self.series = series
        self.blocks = blocks
        self.questions: list[Question] = []

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
        lines += self._unknown()
        return "\n".join(lines) + "\n"

    def _ask(self, at: float, text: str) -> str:
        """A question as a comment."""
        self.questions.append(Question(at=at, text=text))
        return f"# QUESTION ({format_clock(at)}): {text}"

    def _block(self, block: FoundBlock, times: BlockTimes) -> Iterator[str]:
        known = [item for item in block.items if item.exercise]
        lead = "  " if known else "  # "
        if not known:
            question = "no exercise of this block is in the library; add them, then take the # away"
            yield f"  {self._ask(block.start, question)}"
        body = [f"- name: {block.name}", f"  kind: {block.kind}", *self._format(block, len(known))]
        body.append(f'  at: "{format_clock(times.at or 0)}"')
        if times.your_turn is not None:
            body.append(f'  your_turn: "{format_clock(times.your_turn)}"')
        body += [*self._sets(block), *self._rest(block), "  items:"]
        for item, at in zip(block.items, times.items, strict=True):
            body += [f"    {line}" for line in self._item(block, item, at or 0)]
        yield from (f"{lead}{line}" for line in body)

    def _format(self, block: FoundBlock, known: int) -> Iterator[str]:
        form = block.format or CIRCUIT
        needs = {INTERVALS: block.work, AMRAP: block.time, EMOM: block.time}
        if form in needs and needs[form] is None:
            question = f"{form} was said, but not how long; circuit stands here for now"
            yield f"  {self._ask(block.start, question)}"
            form = CIRCUIT
        elif not fits_format(form, known):
            question = f"{form} was said, but {known} exercises were found; is one missing?"
            yield f"  {self._ask(block.start, question)}"
            form = STRAIGHT if known == 1 else CIRCUIT
        yield f"  format: {form}" + ("" if block.format_said else "    # not said; the usual one")
        if form == INTERVALS:
            yield f"  work: {block.work}"
        if form in (AMRAP, EMOM):
            yield f"  time: {block.time}"

    def _sets(self, block: FoundBlock) -> Iterator[str]:
        if block.sets and block.sets != Count(1, 1):
            said = f"said at {format_clock(block.sets_at)}" if block.sets_at is not None else "said"
            yield f"  sets: {block.sets}    # {block.confidence:.2f}, {said}"
        elif block.kind in ("strength", "conditioning") and block.format not in (AMRAP, EMOM):
            yield f"  {self._ask(block.start, 'how many sets or rounds?')}"

    def _rest(self, block: FoundBlock) -> Iterator[str]:
        parts = []
        if block.rest_exercises:
            parts.append(f"between_exercises: {block.rest_exercises}")
        if block.rest_sets:
            parts.append(f"between_sets: {block.rest_sets}")
        if parts:
            yield f"  rest: {{{', '.join(parts)}}}"

    def _item(self, block: FoundBlock, item: FoundItem, at: int) -> Iterator[str]:
        if item.exercise is None:
            name = _id_of(item.heard)
            yield f"# {item.heard!r} is not in the library; write exercises/{name}.yaml, then take the # away"
            yield f"# - exercise: {name}"
            yield f'#   at: "{format_clock(at)}"'
            yield from (f"# {line}" for line in self._dose(block, item))
            return
        named = f"{item.confidence:.2f}, named at {format_clock(item.named_at)}"
        yield f"- exercise: {item.exercise}    # {named}"
        if item.variant:
            yield f"  variant: {item.variant}"
        yield f'  at: "{format_clock(at)}"'
        yield from self._dose(block, item)
        if item.others:
            names = " or ".join([item.exercise, *item.others[:3]])
            yield f"  {self._ask(item.named_at, f'which one is it: {names}?')}"
        elif item.confidence < _UNSURE:
            yield f"  {self._ask(item.named_at, f'is {item.exercise} shown here?')}"
        yield from (f"  # {line}" for line in self._remarks(item))

    def _dose(self, block: FoundBlock, item: FoundItem) -> Iterator[str]:
        if item.dose is not None and item.dose_at is not None:
            said = f"{item.dose_confidence:.2f}, said at {format_clock(item.dose_at)}"
            yield f"  dose: {json.dumps(str(item.dose))}    # {said}"
            if item.dose_confidence < _UNSURE:
                yield f"  {self._ask(item.dose_at, 'is this the dose?')}"
        elif block.format != INTERVALS or block.work is None:
            yield f'  dose: "1"    {self._ask(item.named_at, "no dose was heard; 1 only keeps the place")}'

    def _remarks(self, item: FoundItem) -> Iterator[str]:
        yield from (self._offer(alternative) for alternative in item.alternatives)
        for word, times in (("fault", item.faults_at), ("caution", item.cautions_at)):
            if times:
                yield f"{word} spoken of at {', '.join(format_clock(at) for at in times)}"

    def _offer(self, alternative: Alternative) -> str:
        form = alternative.variant or alternative.exercise
        text = f"{_FORMS[alternative.kind]} at {format_clock(alternative.at)}"
        return f"{text}: {form}" if form else text

    def _unknown(self) -> Iterator[str]:
        stubs = stubs_of(self.blocks)
        if stubs:
            yield "# Exercises that the library lacks, with the name as heard:"
            yield from (
                f"#   {stub.name} ({format_clock(stub.at)}): exercises/{stub.id}.yaml" for stub in stubs
            )
