"""Which step a session's sheet takes, so that it fits one page: its height, worked out line by line.

Everything on the sheet has a fixed place (see ``styles/sheet.css``); only the number of lines that
texts take has to be found out, from the widths of the font's characters. The result is on the
safe side by :data:`SLACK` in width, and so holds in a browser without scripts.
"""

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass

from sitegen.pages.sheets.measured import MeasuredBlock, MeasuredItem, MeasuredSheet, Measurer
from sitegen.pages.sheets.metrics import Words, count_lines, joined
from sitegen.pages.sheets.steps import MM_PER_POINT, Step
from sitegen.pages.sheets.views import SheetView

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

    def __init__(self, measurer: Measurer, steps: Sequence[Step], space: float) -> None:
        """``space`` is the width of a space in ems."""
        self.steps = tuple(steps)
        self._measurer = measurer
        self._space = space

    def layout(self, sheet: SheetView) -> Layout:
        """The roomiest steps with which a sheet fits one page; a comfortable one where none does."""
        measured = self._measurer.sheet(sheet)
        count = len(self.steps)
        letter = self._roomiest(measured, "letter", count)
        if letter == count:
            comfortable = self.steps[min(COMFORTABLE, count - 1)]
            return Layout(one_page=False, letter=comfortable, a4=comfortable)
        # A4 is higher: what fits Letter fits it too, and often the next roomier step or two.
        a4 = self._roomiest(measured, "a4", letter)
        return Layout(one_page=True, letter=self.steps[letter], a4=self.steps[a4])

    def _roomiest(self, sheet: MeasuredSheet, paper: str, tightest: int) -> int:
        """Index of the first step that fits; ``tightest`` where none before it does."""
        room = HEIGHTS[paper] - RESERVE
        # Every step is tighter than the one before it, so half of the rest can be left out each time.
        return bisect_left(
            self.steps, True, hi=tightest, key=lambda step: self.measured_height(sheet, step) <= room
        )

    @property
    def for_script(self) -> dict[str, float]:
        """What the page's script has to know to do the same by measuring."""
        rooms = {paper: round(height - RESERVE, 1) for paper, height in HEIGHTS.items()}
        return {"count": len(self.steps), "comfortable": COMFORTABLE + 1} | rooms

    def height(self, sheet: SheetView, step: Step) -> float:
        """Height of a sheet in millimetres, without the room for notes that fills up the page."""
        return self.measured_height(self._measurer.sheet(sheet), step)

    def measured_height(self, sheet: MeasuredSheet, step: Step) -> float:
        """The same for a sheet whose words are measured."""
        blocks = sum(self._block(block, step) for block in sheet.blocks)
        return self._top(sheet, step) + self._kit(sheet, step) + blocks + self._foot(sheet, step)

    # --- parts of the sheet ----------------------------------------------------------------

    def _top(self, sheet: MeasuredSheet, step: Step) -> float:
        width = WIDTH - _CODE - _CODE_GAP
        title = self._lines(sheet.title, width, _TITLE[0]) * _TITLE[1]
        lines = 1 + self._lines(sheet.facts, width, step.type)
        return max(_CODE, title + _BLANKS + lines * step.lead)

    def _kit(self, sheet: MeasuredSheet, step: Step) -> float:
        kit = sheet.kit if step.all_stand_ins else sheet.short_kit
        legend = 1.0 + 2 * _LINE + max(step.lead, _TICK)
        return self._lines(kit, WIDTH, step.type) * step.lead + legend

    def _block(self, block: MeasuredBlock, step: Step) -> float:
        large = tuple(word * _HEAD_SIZE for word in block.name)
        lines = self._lines(large + block.rest, WIDTH, step.type)
        height = step.gap + lines * step.lead + 0.4 + 2 * _LINE
        if block.tally:
            height += 2 * step.pad + max(step.lead, _TICK) + _LINE
        items = [self._item(item, block.columns, step) for item in block.items]
        return height + sum(max(items[at : at + block.columns]) for at in range(0, len(items), block.columns))

    def _item(self, item: MeasuredItem, columns: int, step: Step) -> float:
        width = (WIDTH - 4.0 * (columns - 1)) / columns - 2.0
        boxes = ticks = 0.0
        if item.boxes:
            width -= item.across * step.set * (0.88 if item.across == 4 else 1)
            rows = -(-item.boxes // item.across)
            boxes = rows * (2 * step.half if item.sides == 2 else step.cell)
        if item.ticks:
            width -= min(item.ticks, 4) * (_TICK + 1.0) + 1.0
            ticks = -(-item.ticks // 4) * (_TICK + 1.0) + 2 * step.pad
        words = self._item_lines(item, width, step) * step.lead + 2 * step.pad
        return max(words, boxes, ticks) + _LINE

    def _item_lines(self, item: MeasuredItem, width: float, step: Step) -> int:
        parts = (
            item.cue,
            item.fault + (item.fix if step.fix else ()) if step.faults else (),
            item.care,
            item.plan,
            item.forms if step.forms else (),
        )
        if step.parts_start_lines:
            return sum(self._lines(words, width, step.type) for words in (item.head, *parts))
        if step.parts_below:
            return sum(self._lines(words, width, step.type) for words in (item.head, joined(parts)))
        return self._lines(joined((item.head, *parts)), width, step.type)

    def _foot(self, sheet: MeasuredSheet, step: Step) -> float:
        width = WIDTH - 4.0 - 4 * _LINE
        lines = sum(self._lines(words, width, step.type) for words in sheet.care)
        return step.gap + _BLANKS + 1.0 + _CARE + lines * step.lead

    def _lines(self, words: Words, width: float, size: float) -> int:
        return count_lines(words, self._space, width / size / SLACK)
