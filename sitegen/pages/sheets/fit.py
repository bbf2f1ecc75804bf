"""Which step a session's sheet takes, so that it fits one page: its height, worked out line by line.

Everything on the sheet has a fixed place (see ``styles/sheet.css``); only the number of lines that
texts take has to be found out, from the widths of the font's characters. The result is on the
safe side by :data:`SLACK` in width, and so holds in a browser without scripts.
"""

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass

from sitegen.pages.sheets.measured import MeasuredBlock, MeasuredItem, MeasuredSheet, Measurer
from sitegen.pages.sheets.metrics import WordWidths, count_lines, joined
from sitegen.pages.sheets.steps import MM_PER_POINT, TypeStep
from sitegen.pages.sheets.views import SheetView

WIDTH = 194.0
"""Of the sheet, in millimetres: A4 without margins of 8 mm."""

HEIGHTS = {"a4": 281.0, "letter": 263.4}
"""Between the margins, in millimetres (ISO 216: A4 is 297 mm high; US Letter is 11 in)."""

RESERVE = 2.5
"""Millimetres of the height that are left free."""

SLACK = 1.015
"""Texts count as this much wider than their characters, for kerning."""

COMFORTABLE = 3
"""Index of the step that sheets of several pages take."""

_LINE = 25.4 / 96
"""A line drawn on the sheet: one CSS pixel."""
_FIGURE, _FIGURE_TALL = 84 * MM_PER_POINT, 21.0
"""Size of the session's number, and the room it takes: the height of its figures and a little more."""
_DIGIT = 0.56
"""Width of one of its figures in ems, drawn closer together than the font has them."""
SHORT_TITLE = (34 * MM_PER_POINT, 33 * MM_PER_POINT)
"""Size and lead of a title that goes into one line at this size."""
LONG_TITLE = (20 * MM_PER_POINT, 21 * MM_PER_POINT)
"""The same of one that takes more lines."""
_SERIES, _FACTS = 12 * MM_PER_POINT, 9.5 * MM_PER_POINT
"""Height of the line above the title, and size of the type of those below it."""
_CODE, _WHO, _TOP_GAP = 24.0, 46.0, 3.0
"""Widths of the code and of the blanks for name and date, and the gap between the parts of the head."""
_TOP_RULE = 1.2 + 1.5
"""The rule under the head and the room above it."""
_BLANKS = 8.0
"""Height of a line with blanks."""
_HEAD_SIZE, _HEAD_LEAD = 1.3, 1.15
"""Of a block's name, and from line to line there, against the rest of the sheet."""
_HEAD_EDGES = 0.9 + 0.5 + 0.6 + _LINE
"""The rules above and below a block's head with the room within them."""
_COLUMN_GAP = 4.0
"""Between two columns, in millimetres, as in the sheet's styles."""
_FETCH, _FETCH_COLUMNS = 16.0, 4
"""Width of the words that head the kit, and the most pieces side by side."""
_VESSEL = (6.0, 10.0)
"""Width and height of a vessel in the list of kit, with its gap."""
_TICK, _TICK_GAP = 4.6, 1.0
"""Side of a box to tick, and the room beside it: large enough for a pencil."""
_BIG, _MIDDLE = 27 * MM_PER_POINT, 15 * MM_PER_POINT
"""Sizes of a dose's figures: of up to three characters, of more."""
BIG_FIGURES = 3
"""Characters up to which a dose is set in the larger size: 8, 12, 8–9."""
_BIG_LEAD = 0.84
"""From line to line of a dose against its size: figures have nothing below the line."""
_SMALL, _SMALL_LEAD = 9 * MM_PER_POINT, 10.4 * MM_PER_POINT
"""Type in the narrow columns and at the head of a box."""
_WRITING = 6.0
"""Least height that is left to write in below the head of a box."""
_HELD_VESSEL = 8.0
"""Height of the vessels in a row."""
_FOUR = 0.76
"""Width of a box where there are four in a row, against others."""
_TALLY = {True: 9.0, False: 7.0}
"""Height of the boxes to count rounds in, where there is room and where there is little."""
_STOP_LEAD = 1.16
"""From line to line of the reasons to stop, against their size."""
_STOP = 32.0
"""Width of the band that says what the red frame is about."""
_FRAME = 2 * (0.6 + 1.0)
"""Above and below the words in the red frame at the foot."""
_CARE = 0.6
"""Above the words below it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetLayout:
    """How a sheet is laid out."""

    one_page: bool
    letter: TypeStep
    """The step on US Letter."""
    a4: TypeStep
    short_title: bool
    """True where the title goes into one line in the large size."""


class Fitter:
    """Finds steps for the sheets of one site."""

    def __init__(self, measurer: Measurer, steps: Sequence[TypeStep], space: float) -> None:
        """``space`` is the width of a space in ems."""
        self.steps = tuple(steps)
        self._measurer = measurer
        self._space = space

    def layout(self, sheet: SheetView) -> SheetLayout:
        """The roomiest steps with which a sheet fits one page; a comfortable one where none does."""
        measured = self._measurer.sheet(sheet)
        count = len(self.steps)
        letter = self._roomiest(measured, "letter", count)
        if letter == count:
            comfortable = self.steps[min(COMFORTABLE, count - 1)]
            return self._layout(measured, comfortable, comfortable, one_page=False)
        # A4 is higher: what fits Letter fits it too, and often the next roomier step or two.
        a4 = self._roomiest(measured, "a4", letter)
        return self._layout(measured, self.steps[letter], self.steps[a4], one_page=True)

    def _layout(self, sheet: MeasuredSheet, letter: TypeStep, a4: TypeStep, *, one_page: bool) -> SheetLayout:
        short = self._is_short(sheet)
        return SheetLayout(one_page=one_page, letter=letter, a4=a4, short_title=short)

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

    def height(self, sheet: SheetView, step: TypeStep) -> float:
        """Height of a sheet in millimetres, without the room for notes that fills up the page."""
        return self.measured_height(self._measurer.sheet(sheet), step)

    def measured_height(self, sheet: MeasuredSheet, step: TypeStep) -> float:
        """What :meth:`height` gives, for a sheet whose words are measured."""
        blocks = sum(self._block(block, step) for block in sheet.blocks)
        return self._top(sheet, step) + self._kit(sheet, step) + blocks + self._foot(sheet, step)

    # --- parts of the sheet ----------------------------------------------------------------

    def _top(self, sheet: MeasuredSheet, step: TypeStep) -> float:
        width = self._title_width(sheet)
        size, lead = SHORT_TITLE if self._is_short(sheet) else LONG_TITLE
        facts = sum(self._lines(words, width, _FACTS) for words in sheet.facts)
        words = (1 + facts) * _SERIES + self._lines(sheet.title, width, size) * lead
        others = sum(self._lines(one, WIDTH, _SMALL) for one in (sheet.others, *sheet.advice)) * _SMALL_LEAD
        return max(_CODE, _FIGURE_TALL, words) + _TOP_RULE + others

    def _is_short(self, sheet: MeasuredSheet) -> bool:
        return self._lines(sheet.title, self._title_width(sheet), SHORT_TITLE[0]) == 1

    def _title_width(self, sheet: MeasuredSheet) -> float:
        return WIDTH - len(sheet.number) * _DIGIT * _FIGURE - _CODE - _WHO - 3 * _TOP_GAP

    def _kit(self, sheet: MeasuredSheet, step: TypeStep) -> float:
        edges = 2 * step.pad + _LINE
        if not step.columns_of_kit or not sheet.pieces:
            kit = sheet.kit if step.all_stand_ins else sheet.short_kit
            return self._lines(kit, WIDTH, step.type) * step.lead + edges
        columns = min(_FETCH_COLUMNS, len(sheet.pieces))
        width = (WIDTH - _FETCH - _COLUMN_GAP * columns) / columns
        heights = []
        for full, short, vessels in sheet.pieces:
            words = full if step.all_stand_ins else short
            lines = self._lines(words, width - vessels * _VESSEL[0], step.type)
            heights.append(max(lines * step.lead, _VESSEL[1] if vessels else 0.0))
        rows = [heights[at : at + columns] for at in range(0, len(heights), columns)]
        return sum(map(max, rows)) + (len(rows) - 1) * step.pad + edges

    def _block(self, block: MeasuredBlock, step: TypeStep) -> float:
        height = step.gap + self._head(block, step)
        if block.tally:
            height += 2 * step.pad + _TALLY[step.dose > 0] + _LINE
        measure = self._tallied if block.tally else self._written if block.written else self._light
        items = [measure(item, block, step) for item in block.items]
        return height + sum(max(items[at : at + block.columns]) for at in range(0, len(items), block.columns))

    def _head(self, block: MeasuredBlock, step: TypeStep) -> float:
        when = (sum(block.when) + self._space * len(block.when)) * step.type * SLACK
        large = tuple(word * _HEAD_SIZE for word in block.name)
        lines = self._lines(large + block.how, WIDTH - when - _COLUMN_GAP, step.type)
        return lines * step.lead * _HEAD_LEAD + _HEAD_EDGES

    def _written(self, item: MeasuredItem, block: MeasuredBlock, step: TypeStep) -> float:
        """An exercise whose sets are written down."""
        box = step.set * (_FOUR if item.across == 4 else 1)
        load = step.load if block.loads else 0.0
        width = WIDTH - step.pics - step.dose - load - 2.0 - item.across * box
        width -= self._ticks_width(item)
        # A box has 1 mm of padding on both sides and a line (sheet.css).
        notes = max((self._lines(note, box - 2.3, _SMALL) for note in item.notes), default=0)
        side = 1 if item.sides == 2 else 0
        cell = max(step.cell, (notes + side) * _SMALL_LEAD + _WRITING)
        boxes = -(-len(item.notes) // item.across) * cell if item.notes else 0.0
        heights = (
            self._words(item, item.name if step.dose else item.name + item.head, width, step),
            self._dose(item, step),
            self._held(item, step),
            step.pic + 2 * _LINE if item.drawn and step.pics else 0.0,
            boxes,
            self._ticks(item, step),
        )
        return max(heights) + _LINE

    def _tallied(self, item: MeasuredItem, block: MeasuredBlock, step: TypeStep) -> float:
        """An exercise of as many rounds as possible: its rounds are counted, not its sets."""
        width = _column(block) - step.pics - step.dose - 2.0
        pic = step.pic + 2 * _LINE if item.drawn and step.pics else 0.0
        words = self._words(item, item.name + (item.tally_head if step.dose else item.head), width, step)
        return max(words, self._dose(item, step), pic) + _LINE

    def _light(self, item: MeasuredItem, block: MeasuredBlock, step: TypeStep) -> float:
        """An exercise that is only ticked off."""
        width = _column(block) - 2.0 - self._ticks_width(item)
        pic = step.lite if item.drawn else 0.0
        width -= pic + 1.0 if pic else 0.0
        words = self._words(item, item.name + item.head, width, step, light=True)
        return max(words, pic + 2 * _LINE if pic else 0.0, self._ticks(item, step)) + _LINE

    def _ticks_width(self, item: MeasuredItem) -> float:
        return tick_columns(item.ticks) * (_TICK + _TICK_GAP) + 1.0 if item.ticks else 0.0

    def _ticks(self, item: MeasuredItem, step: TypeStep) -> float:
        if not item.ticks:
            return 0.0
        return -(-item.ticks // tick_columns(item.ticks)) * (_TICK + _TICK_GAP) + 2 * step.pad

    def _dose(self, item: MeasuredItem, step: TypeStep) -> float:
        if not step.dose:
            return 0.0
        figures = 0.0
        if item.figures:
            figures = (_BIG if item.figures <= BIG_FIGURES else _MIDDLE) * _BIG_LEAD
        # 1 mm of padding before the words and 0.5 behind them.
        words = self._lines(item.amount, step.dose - 1.5, _SMALL) * _SMALL_LEAD
        return figures + words + 2 * step.pad

    def _held(self, item: MeasuredItem, step: TypeStep) -> float:
        if not step.load or not item.vessels:
            return 0.0
        words = self._lines(item.held, step.load - 2.0, _SMALL) if step.dose else 0
        return _HELD_VESSEL + words * _SMALL_LEAD + 2 * step.pad + 0.6  # padding below the drawing

    def _words(
        self, item: MeasuredItem, first: WordWidths, width: float, step: TypeStep, *, light: bool = False
    ) -> float:
        """Height of an exercise's words; ``first`` is the line with its name. What is only ticked off has a
        small name, and in the tight steps a caution alone."""
        brief = light and not step.warm
        parts = (
            () if brief else item.facts,
            () if brief else item.cue,
            item.note,
            item.fault + (item.fix if step.fix else ()) if step.faults and not brief else (),
            item.care,
            item.plan,
            item.instead,
            item.forms if step.forms and not brief else (),
        )
        size = 1.0 if light else step.name_size
        large = tuple(word * size for word in first)
        if not step.parts_below:
            return self._lines(joined((first, *parts)), width, step.type) * step.lead + 2 * step.pad
        names = self._lines(large, width, step.type) * step.lead * size
        texts = parts if step.parts_start_lines else (joined(parts),)
        lines = sum(self._lines(words, width, step.type) for words in texts)
        return names + lines * step.lead + 2 * step.pad

    def _foot(self, sheet: MeasuredSheet, step: TypeStep) -> float:
        width = WIDTH - _STOP - 5.5  # padding of 2 mm and frame of 0.6 on both sides, and 0.3 to spare
        lines = sum(self._lines(words, width, step.stop) for words in sheet.stop)
        stop = _FRAME + max(lines * step.stop * _STOP_LEAD, 2 * 14 * MM_PER_POINT) if lines else 0.0
        care = sum(self._lines(words, WIDTH, _SMALL) for words in sheet.care) * _SMALL_LEAD + _CARE
        legend = self._lines(sheet.legend, WIDTH, _SMALL) * _SMALL_LEAD + 0.9  # the rule above the foot
        return step.gap + legend + _BLANKS + 1.0 + stop + care  # 1 mm is left for notes at least

    def _lines(self, words: WordWidths, width: float, size: float) -> int:
        return count_lines(words, self._space, width / size / SLACK)


def _column(block: MeasuredBlock) -> float:
    """Width of one of the columns in which a block's exercises stand."""
    return (WIDTH - _COLUMN_GAP * (block.columns - 1)) / block.columns


def tick_columns(ticks: int) -> int:
    """Boxes to tick side by side: two below one another, and four at most in a row."""
    return min(4, -(-ticks // 2))
