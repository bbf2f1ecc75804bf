"""A sheet's texts as widths of words: measured once, then laid out at every step."""

from dataclasses import dataclass
from typing import Any

from markupsafe import Markup

from sitegen.pages.sheets.metrics import Ruler, WordWidths, joined
from sitegen.pages.sheets.views import SetBox, SheetBlock, SheetItem, SheetKit, SheetView


@dataclass(frozen=True, slots=True)
class MeasuredItem:
    """One exercise: its words, and the numbers that its boxes take room by."""

    name: WordWidths
    head: WordWidths
    """What follows the name in its line where dose and load have no columns."""
    tally_head: WordWidths
    """What follows the name in its line where only the load has none."""
    figures: int
    """Characters of the dose that are set large; 0 for none."""
    amount: WordWidths
    """What stands under them, or all of the dose."""
    held: WordWidths
    """What stands under the vessels."""
    vessels: int
    facts: WordWidths
    """Tempo and effort."""
    drawn: bool
    cue: WordWidths
    note: WordWidths
    fault: WordWidths
    fix: WordWidths
    care: WordWidths
    plan: WordWidths
    instead: WordWidths
    forms: WordWidths
    notes: tuple[WordWidths, ...]
    """What stands at the head of each box."""
    sides: int
    across: int
    ticks: int


@dataclass(frozen=True, slots=True)
class MeasuredBlock:
    """One block."""

    name: WordWidths
    how: WordWidths
    """Format, sets and rests."""
    when: WordWidths
    """Its times, in one line at the right."""
    columns: int
    written: bool
    loads: bool
    tally: bool
    items: tuple[MeasuredItem, ...]


@dataclass(frozen=True, slots=True)
class MeasuredSheet:
    """A whole sheet."""

    number: str
    title: WordWidths
    facts: tuple[WordWidths, ...]
    """The lines below the title."""
    others: WordWidths
    """Who must not train from it as filmed, across the sheet; nothing where nobody is named."""
    advice: tuple[WordWidths, ...]
    """Paragraphs below that."""
    kit: WordWidths
    """With every stand-in, one after the other."""
    short_kit: WordWidths
    """With the first stand-in of each piece."""
    pieces: tuple[tuple[WordWidths, WordWidths, int], ...]
    """Each piece by itself: with every stand-in, with the first one, and its vessels."""
    blocks: tuple[MeasuredBlock, ...]
    legend: WordWidths
    stop: tuple[WordWidths, ...]
    """The paragraphs in the red frame at the foot; none without reasons to stop."""
    care: tuple[WordWidths, ...]
    """Those below it."""


class Measurer:
    """Measures the sheets of one site; what all of them say is measured once."""

    def __init__(self, ruler: Ruler, strings: Any) -> None:
        self._ruler = ruler
        self._words = words = strings.sheet
        self._labels = {
            name: self._bold(words[name])
            for name in ("avoid", "fix", "easier", "harder", "care", "item_care", "instead_of")
        }
        # On its black ground it is half an em wider, which is less than this letter.
        self._labels["item_care"] = self._bold(f"m{words.item_care}")
        self._labels["plan"] = self._bold(strings.rotation.label)
        legend = self._plain(words.legend)
        self._legend = {False: legend, True: legend + self._plain(words.legend_open)}
        self._deference = self._plain(strings.footer.deference)

    def sheet(self, sheet: SheetView) -> MeasuredSheet:
        """The widths of everything on a sheet."""
        watch = self._plain(sheet.way_back) + self._bold(sheet.spoken)
        care = [self._deference]
        if sheet.cautions:
            care.append(joined([self._labels["care"], *map(self._plain, sheet.cautions)]))
        return MeasuredSheet(
            number=str(sheet.number),
            title=self._bold(sheet.title),
            facts=(self._plain(sheet.time), watch),
            others=self._bold(f"m{sheet.others_label} {sheet.others}") if sheet.others else (),
            advice=tuple(map(self._plain, sheet.advice)),
            kit=self._kit(sheet, None),
            short_kit=self._kit(sheet, 1),
            pieces=tuple(
                (self._piece(one, None), self._piece(one, 1), len(one.vessels)) for one in sheet.kit
            ),
            blocks=tuple(map(self._block, sheet.blocks)),
            legend=self._legend[sheet.leaves_open],
            stop=tuple(self._bold(label) + self._plain(signs) for label, signs in sheet.stop),
            care=tuple(care),
        )

    def _kit(self, sheet: SheetView, most: int | None) -> WordWidths:
        pieces = [self._piece(piece, most) for piece in sheet.kit] or [self._plain(self._words.no_kit)]
        return joined([self._bold(self._words.kit), *pieces])

    def _piece(self, piece: SheetKit, most: int | None) -> WordWidths:
        stand_ins = self._words.comma.join(piece.stand_ins[:most])
        # The box before a piece takes less room than these three letters.
        return self._bold(f"mmm\N{NO-BREAK SPACE}{piece.name}") + self._plain(
            f"{self._words['or']} {stand_ins}" if stand_ins else ""
        )

    def _block(self, block: SheetBlock) -> MeasuredBlock:
        return MeasuredBlock(
            name=self._bold(block.name),
            how=self._plain(block.how),
            when=self._plain(block.when),
            columns=block.columns,
            written=block.written,
            loads=block.loads,
            tally=block.tally > 0,
            items=tuple(map(self._item, block.items)),
        )

    def _item(self, item: SheetItem) -> MeasuredItem:
        facts = self._plain(" · ".join(item.facts))
        load = self._plain(f"· {item.load}" if item.load else "")
        dose = self._bold(f"· {item.dose}" if item.dose else "")
        figures, rest = item.amount
        fault = item.fault
        return MeasuredItem(
            name=self._bold(item.name),
            head=dose + load,
            tally_head=load,
            figures=len(figures),
            amount=self._plain(rest) if figures else self._bold(rest),
            held=self._bold(item.held),
            vessels=len(item.vessels),
            facts=facts,
            drawn=item.drawing is not None,
            cue=self._plain(item.cue),
            note=self._plain(item.note),
            fault=self._labelled("avoid", f"{fault.see}.") if fault else (),
            fix=self._labelled("fix", fault.fix) if fault else (),
            care=self._labelled("item_care", item.care),
            plan=self._labelled("plan", item.rotation),
            instead=self._labelled("instead_of", f"{item.instead}." if item.instead else ""),
            forms=self._labelled("easier", item.easier) + self._labelled("harder", item.harder),
            notes=tuple(self._note(item, box) for box in item.boxes),
            sides=item.sides,
            across=item.across,
            ticks=item.ticks,
        )

    def _note(self, item: SheetItem, box: SetBox) -> WordWidths:
        """What stands above the room to write in, but for the line that names the sides."""
        return (self._bold(str(box.number)) if item.sides == 1 else ()) + self._plain(box.dose)

    def _labelled(self, label: str, text: str) -> WordWidths:
        return self._labels[label] + self._plain(text) if text else ()

    def _bold(self, text: str) -> WordWidths:
        return self._ruler.words(text, True)

    def _plain(self, text: str) -> WordWidths:
        """The widths of a text; where it is marked up strongly, as if all of it were bold, which is wider."""
        if isinstance(text, Markup) and ("<" in text or "&" in text):
            return self._ruler.words(text.striptags(), "<strong>" in text)
        return self._ruler.words(str(text), False)
