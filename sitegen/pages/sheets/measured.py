"""A sheet's texts as widths of words: measured once, then laid out at every step."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from markupsafe import Markup

from sitegen.pages.sheets.metrics import Ruler, Words, joined
from sitegen.pages.sheets.views import SheetBlock, SheetItem, SheetView


@dataclass(frozen=True, slots=True)
class MeasuredItem:
    """One exercise: its words, and the numbers that its boxes take room by."""

    head: Words
    """Name, dose, load, tempo and effort."""
    cue: Words
    fault: Words
    fix: Words
    care: Words
    plan: Words
    forms: Words
    boxes: int
    sides: int
    across: int
    ticks: int


@dataclass(frozen=True, slots=True)
class MeasuredBlock:
    """One block."""

    name: Words
    rest: Words
    """Format, sets, rests and times."""
    columns: int
    tally: bool
    items: tuple[MeasuredItem, ...]


@dataclass(frozen=True, slots=True)
class MeasuredSheet:
    """A whole sheet."""

    title: Words
    facts: Words
    kit: Words
    """With every stand-in."""
    short_kit: Words
    """With the first stand-in of each piece."""
    blocks: tuple[MeasuredBlock, ...]
    care: tuple[Words, ...]
    """The paragraphs in the frame at the foot."""


class Measurer:
    """Measures the sheets of one site; what all of them say is measured once."""

    def __init__(self, ruler: Ruler, strings: Any, stop_if: Sequence[str]) -> None:
        self._ruler = ruler
        self._words = words = strings.sheet
        self._labels = {
            name: self._bold(words[name])
            for name in ("do", "avoid", "fix", "easier", "harder", "care", "item_care")
        }
        self._labels["plan"] = self._bold(strings.rotation.label)
        self._safety = [self._plain(strings.footer.deference)]
        if stop_if:
            self._safety.append(joined([self._bold(words.stop), self._plain(" · ".join(stop_if))]))

    def sheet(self, sheet: SheetView) -> MeasuredSheet:
        """The widths of everything on a sheet."""
        facts = f"{sheet.time}. {self._words.watch} {sheet.spoken}"
        care = list(self._safety)
        if sheet.cautions:
            care.append(joined([self._labels["care"], *map(self._plain, sheet.cautions)]))
        return MeasuredSheet(
            title=self._bold(sheet.title),
            facts=self._bold(facts),
            kit=self._kit(sheet, None),
            short_kit=self._kit(sheet, 1),
            blocks=tuple(map(self._block, sheet.blocks)),
            care=tuple(care),
        )

    def _kit(self, sheet: SheetView, most: int | None) -> Words:
        texts = [self._words.kit, "" if sheet.kit else self._words.no_kit]
        for piece in sheet.kit:
            stand_ins = self._words.comma.join(piece.stand_ins[:most])
            # The box before each piece takes less room than these two letters.
            texts.append(f"mm\N{NO-BREAK SPACE}{piece.name} ({self._words['or']} {stand_ins})")
        return joined([self._bold(texts[0]), *map(self._plain, texts[1:])])

    def _block(self, block: SheetBlock) -> MeasuredBlock:
        rest = " · ".join(part for part in (block.how, block.when) if part)
        return MeasuredBlock(
            name=self._bold(block.name),
            rest=self._plain(rest),
            columns=block.columns,
            tally=block.tally > 0,
            items=tuple(map(self._item, block.items)),
        )

    def _item(self, item: SheetItem) -> MeasuredItem:
        facts = "".join(f" · {fact}" for fact in (item.load, *item.facts) if fact)
        fault = item.fault
        return MeasuredItem(
            head=self._bold(f"{item.name} · {item.dose}") + self._plain(facts),
            cue=self._labelled("do", item.cue),
            fault=self._labelled("avoid", fault.see) if fault else (),
            fix=self._labelled("fix", fault.fix) if fault else (),
            care=self._labelled("item_care", item.care),
            plan=self._labelled("plan", item.rotation),
            forms=self._labelled("easier", item.easier) + self._labelled("harder", item.harder),
            boxes=len(item.boxes),
            sides=item.sides,
            across=item.across,
            ticks=item.ticks,
        )

    def _labelled(self, label: str, text: str) -> Words:
        return self._labels[label] + self._plain(text) if text else ()

    def _bold(self, text: str) -> Words:
        return self._ruler.words(text, True)

    def _plain(self, text: str) -> Words:
        """Words of a text; where it is marked up strongly, as if all of it were bold, which is wider."""
        if isinstance(text, Markup) and ("<" in text or "&" in text):
            return self._ruler.words(text.striptags(), "<strong>" in text)
        return self._ruler.words(str(text), False)
