"""Which step a session's sheet takes, so that it fits one page: its height, worked out line by line.

Everything on the sheet has a fixed place (see ``styles/sheet.css``); only the number of lines that
texts take has to be found out, from the widths of the font's characters. The result is on the
safe side by :data:`SLACK` in width, and so holds in a browser without scripts.
"""

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from markupsafe import Markup

from sitegen.pages.sheets.metrics import Ruler, Words, count_lines, joined
from sitegen.pages.sheets.steps import MM_PER_POINT, Step
from sitegen.pages.sheets.views import SheetBlock, SheetItem, SheetView

WIDTH = 194.0
"""Of the sheet, in millimetres: A4 without margins of 8 mm."""

HEIGHTS = {"a4": 281.0, "letter": 263.4}
"""Between the margins, in millimetres (ISO 216: A4 is 297 mm high; US Letter is 11 in)."""

RESERVE = 2.5
"""Millimetres of the height that are left free."""

SLACK = 1.015
"""Texts count as this much wider than their characters, for kerning."""

COMFORTABLE = 4
"""Index of the step that sheets of several pages take."""

_LINE = 25.4 / 96
"""A line drawn on the sheet: one CSS pixel."""
_TITLE = (20 * MM_PER_POINT, 24 * MM_PER_POINT)
"""Size and lead of the title."""
_CODE, _CODE_GAP = 27.0, 4.0
_BLANKS = 9.0
"""Height of a line with blanks for name, date and so on."""
_HEAD_SIZE = 1.2
"""Of a block's name, against the rest of the sheet."""
_TICK = 4.6
_CARE = 2 * (2 * _LINE + 1.0)
"""Above and below the words in the frame at the foot."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """How a sheet is laid out."""

    one_page: bool
    letter: Step
    """The step on US Letter."""
    a4: Step


class Fitter:
    """Finds steps for the sheets of one site."""

    def __init__(self, ruler: Ruler, steps: Sequence[Step], strings: Any, stop_if: Sequence[str]) -> None:
        self.ruler = ruler
        self.steps = tuple(steps)
        self._words = strings.sheet
        self._rotation = strings.rotation
        self._safety = [self._plain(strings.footer.deference)]
        if stop_if:
            self._safety.append(joined([self._bold(strings.sheet.stop), self._plain(" · ".join(stop_if))]))

    def layout(self, sheet: SheetView) -> "Layout":
        """The roomiest steps with which a sheet fits one page; a comfortable one where none does."""
        letter = self._step(sheet, "letter")
        if letter is None:
            comfortable = self.steps[min(COMFORTABLE, len(self.steps) - 1)]
            return Layout(one_page=False, letter=comfortable, a4=comfortable)
        return Layout(one_page=True, letter=letter, a4=self._step(sheet, "a4") or letter)

    @property
    def for_script(self) -> dict[str, float]:
        """What the page's script has to know to do the same by measuring."""
        rooms = {paper: round(height - RESERVE, 1) for paper, height in HEIGHTS.items()}
        return {"count": len(self.steps), "comfortable": COMFORTABLE + 1} | rooms

    def _step(self, sheet: SheetView, paper: str) -> Step | None:
        room = HEIGHTS[paper] - RESERVE
        # Every step is tighter than the one before it, so half of the rest can be left out each time.
        index = bisect_left(self.steps, True, key=lambda step: self.height(sheet, step) <= room)
        return self.steps[index] if index < len(self.steps) else None

    def height(self, sheet: SheetView, step: Step) -> float:
        """Height of a sheet in millimetres, without the room for notes that fills up the page."""
        blocks = sum(self._block(block, step) for block in sheet.blocks)
        return self._top(sheet, step) + self._kit(sheet, step) + blocks + self._foot(sheet, step)

    # --- parts of the sheet ----------------------------------------------------------------

    def _top(self, sheet: SheetView, step: Step) -> float:
        width = WIDTH - _CODE - _CODE_GAP
        title = self._lines(self.ruler.words(sheet.title, True), width, _TITLE[0]) * _TITLE[1]
        facts = f"{sheet.time}. {self._words.watch} {sheet.spoken}"
        lines = 1 + self._lines(self.ruler.words(facts, True), width, step.type)
        return max(_CODE, title + _BLANKS + lines * step.lead)

    def _kit(self, sheet: SheetView, step: Step) -> float:
        texts = [self._words.kit]
        for piece in sheet.kit:
            stand_ins = piece.stand_ins if step.all_stand_ins else piece.stand_ins[:1]
            # The box before each piece takes less room than these two letters.
            texts.append(f"mm {piece.name} ({self._words['or']} {self._words.comma.join(stand_ins)})")
        lines = self._lines(joined([self.ruler.words(text, False) for text in texts]), WIDTH, step.type)
        legend = 1.0 + max(step.lead + 2 * _LINE, _TICK + 2 * _LINE)
        return lines * step.lead + legend

    def _block(self, block: SheetBlock, step: Step) -> float:
        large = tuple(word * _HEAD_SIZE for word in self._bold(block.name))
        rest = self.ruler.words(
            f"{block.how} · {self._words.starts.format(clock=block.clock)}, {block.turn}", False
        )
        lines = self._lines((*large, *rest), WIDTH, step.type)
        height = step.gap + lines * step.lead + 0.4 + 2 * _LINE
        if block.tally:
            height += 2 * step.pad + max(step.lead, _TICK) + _LINE
        items = [self._item(item, block, step) for item in block.items]
        rows = (items[start : start + block.columns] for start in range(0, len(items), block.columns))
        return height + sum(max(row) for row in rows)

    def _item(self, item: SheetItem, block: SheetBlock, step: Step) -> float:
        width = (WIDTH - 4.0 * (block.columns - 1)) / block.columns - 2.0
        ticks, tick_width = self._ticks(item, step)
        width -= tick_width + self._boxes_width(item, step)
        words = self._item_lines(item, width, step) * step.lead + 2 * step.pad
        return max(words, self._boxes_height(item, step), ticks) + _LINE

    def _ticks(self, item: SheetItem, step: Step) -> tuple[float, float]:
        """Height and width of the boxes to tick off."""
        if not item.ticks:
            return 0.0, 0.0
        across = min(item.ticks, 4)
        rows = -(-item.ticks // 4)
        return rows * (_TICK + 1.0) + 2 * step.pad, across * (_TICK + 1.0) + 1.0

    @staticmethod
    def _boxes_width(item: SheetItem, step: Step) -> float:
        return item.across * step.set * (0.88 if item.across == 4 else 1)

    @staticmethod
    def _boxes_height(item: SheetItem, step: Step) -> float:
        if not item.boxes:
            return 0.0
        rows = -(-len(item.boxes) // item.across)
        return rows * (2 * step.half if item.sides == 2 else step.cell)

    def _item_lines(self, item: SheetItem, width: float, step: Step) -> int:
        facts = "".join(f" · {fact}" for fact in (item.load, *item.facts) if fact)
        head = joined([self._bold(f"{item.name} · {item.dose}"), self._plain(facts)])
        parts = list(self._parts(item, step))
        if step.parts_start_lines:
            return sum(self._lines(words, width, step.type) for words in (head, *parts))
        if step.parts_below:
            return sum(self._lines(words, width, step.type) for words in (head, joined(parts)))
        return self._lines(joined([head, *parts]), width, step.type)

    def _parts(self, item: SheetItem, step: Step) -> Iterator[Words]:
        labels = self._words
        if item.cue:
            yield joined([self._bold(labels.do), self._plain(item.cue)])
        if item.fault:
            fix = [self._bold(labels.fix), self._plain(item.fault.fix)] if step.fix else []
            yield joined([self._bold(labels.avoid), self._plain(item.fault.see), *fix])
        if item.rotation:
            yield joined([self._bold(self._rotation.label), self._plain(item.rotation)])
        forms = [(labels.easier, item.easier), (labels.harder, item.harder)]
        named = [words for label, name in forms if name for words in (self._bold(label), self._plain(name))]
        if named and step.forms:
            yield joined(named)

    def _foot(self, sheet: SheetView, step: Step) -> float:
        width = WIDTH - 4.0 - 4 * _LINE
        texts = list(self._safety)
        if sheet.cautions:
            texts.append(joined([self._bold(self._words.care), *map(self._plain, sheet.cautions)]))
        lines = sum(self._lines(words, width, step.type) for words in texts)
        return step.gap + _BLANKS + 1.0 + _CARE + lines * step.lead

    # --- text ------------------------------------------------------------------------------

    def _lines(self, words: Words, width: float, size: float) -> int:
        return count_lines(words, self.ruler.space, width / size / SLACK)

    def _bold(self, text: str) -> Words:
        return self.ruler.words(text, True)

    def _plain(self, text: str) -> Words:
        """Words of a text; where it is marked up, as if all of it were bold, which is wider."""
        if isinstance(text, Markup) and ("<" in text or "&" in text):
            return self.ruler.words(text.striptags(), "<strong>" in text)
        return self.ruler.words(str(text), False)
