"""Putting the times of a recording into the trainer's own planned episode."""

from collections.abc import Sequence
from dataclasses import dataclass

from sitegen.drafting.findings import OpenQuestion
from sitegen.drafting.heard import hear
from sitegen.drafting.structure.plan_alignment import ShownBlock, shown_of
from sitegen.drafting.structure.planned_session import PlannedBlock, entries, plan_of_node
from sitegen.drafting.structure.session import session_of
from sitegen.drafting.writing.differences import differences_of
from sitegen.drafting.writing.edit import TextEdits
from sitegen.drafting.writing.whole_seconds import BlockTimes, settled
from sitegen.model import Series
from sitegen.notation import format_clock
from sitegen.reading.captions.cues import Captions
from sitegen.reading.source import Node, compose

# Of one number, for two questions: below it an exercise is marked as unsure (our choice).
_UNSURE = 0.6
_CLEAR = 0.6
"""Confidence of an exercise that shows that plan and recording belong together."""

_RELATED = 0.5
"""Least share of the planned exercises that are clearly heard in a recording of the plan."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FilledPlan:
    """A plan with the times of its recording."""

    text: str
    """The trainer's file with times; comments and order as they were."""
    differences: tuple[str, ...]
    """Where plan and recording differ, in words, in order of the plan."""
    questions: tuple[OpenQuestion, ...]
    """What was not found."""
    found: int
    """Planned exercises found in the recording."""
    planned: int
    related: bool
    """False where the plan has nothing to do with the recording; the text is as it was then."""


def fill_plan(plan_text: str, captions: Captions, series: Series) -> FilledPlan:
    """The plan with times filled in, and what differs.

    Raises BadFile (of sitegen.reading) where the plan is no YAML.
    """
    root = compose(plan_text.encode(), "plan")
    plan = plan_of_node(root, series)
    heard = hear(captions, series)
    shown = shown_of(heard, plan)
    planned = sum(len(block.items) for block in plan)
    found = sum(item is not None for block in shown for item in block.items)
    filler = _Filler(root, plan, shown, plan_text)
    reason = _unrelated(plan, shown)
    return FilledPlan(
        text=plan_text if reason else filler.text(),
        differences=(reason,) if reason else tuple(differences_of(plan, shown, session_of(heard))),
        questions=tuple(filler.questions),
        found=found,
        planned=planned,
        related=not reason,
    )


def _unrelated(plan: Sequence[PlannedBlock], shown: Sequence[ShownBlock]) -> str:
    """Why the plan cannot be that of the recording; empty where it can.

    Warm-ups and cool-downs that episodes share say nothing, so the session's own blocks are counted.
    """
    own = [s for block, s in zip(plan, shown, strict=True) if block.own_items and block.items] or list(shown)
    items = [item for s in own for item in s.items]
    if not items:
        return "the plan has no exercises; was the right file given?"
    clear = sum(item is not None and item.confidence >= _CLEAR for item in items)
    if clear >= _RELATED * len(items):
        return ""
    return (
        f"the plan has little to do with the recording: {clear} of its {len(items)} exercises are heard in it"
    )


class _Filler:
    """Writes times into the text of a plan."""

    def __init__(
        self, root: Node, plan: Sequence[PlannedBlock], shown: Sequence[ShownBlock], text: str
    ) -> None:
        self.plan, self.shown = plan, shown
        self.nodes = entries(root, "blocks")
        self.edits = TextEdits(text)
        self.questions: list[OpenQuestion] = []

    def text(self) -> str:
        """The text with the times set."""
        times = settled(list(map(_times, self.shown)))
        for node, block, shown, at in zip(self.nodes, self.plan, self.shown, times, strict=True):
            self._block(node, block, shown, at)
        return self.edits.done()

    def _block(self, node: Node, block: PlannedBlock, shown: ShownBlock, times: BlockTimes) -> None:
        if times.at is None:
            self._ask(node, 0.0, f"{block.name} was not found in the recording; when does it start?")
        else:
            anchor = ("format", "kind", "name", "routine")
            if times.your_turn is not None:
                self.edits.set(node, "your_turn", _clock(times.your_turn), anchor)
            self.edits.set(node, "at", _clock(times.at), anchor)
        if block.own_items:
            rows = zip(entries(node, "items"), block.items, shown.items, times.items, strict=True)
            for item_node, item, found, at in rows:
                if found is None or at is None:
                    if times.at is not None:
                        question = f"{item.exercise} was not found; when is it shown?"
                        self._ask(item_node, float(times.at), question)
                    continue
                sure = found.confidence >= _UNSURE
                comment = "" if sure else f"{found.confidence:.2f}, is it shown here?"
                self.edits.set(item_node, "at", _clock(at), ("exercise",), comment)

    def _ask(self, node: Node, at: float, text: str) -> None:
        self.questions.append(OpenQuestion(at=at, text=text))
        self.edits.remark(node, f"QUESTION: {text}")


def _times(shown: ShownBlock) -> tuple[float | None, list[float | None], float | None]:
    start, turn = (shown.block.start, shown.block.your_turn) if shown.block else (None, None)
    return start, [item.start if item else None for item in shown.items], turn


def _clock(seconds: int) -> str:
    return f'"{format_clock(seconds)}"'
