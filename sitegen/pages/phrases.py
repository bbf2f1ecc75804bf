"""The trade's short forms as a reader sees them, in the theme's words."""

from collections.abc import Mapping, Sequence
from datetime import date
from functools import lru_cache
from typing import Any

from sitegen.model import Block, Kit
from sitegen.notation import Count, Dose, DoseChange, Duration, Effort, Load, LoadPart, Tempo
from sitegen.pages.theme import plural
from sitegen.study.need_limits import MOST_RPE, rpe_of
from sitegen.study.span import Span
from sitegen.study.vessels import in_two_pieces

ABOUT_FROM, ABOUT_STEP = 600, 300
"""Seconds: estimates of so long or longer are told in such steps (our choice)."""


def rise_words(words: Any, rise: float | None) -> str:
    """A change as ``more``, ``less`` or ``same`` of some words of the theme; empty where none is known."""
    if rise is None:
        return ""
    percent = round(100 * rise)
    if percent == 0:
        return str(words.same)
    return str((words.more if percent > 0 else words.less).format(percent=abs(percent)))


class Phrases:
    """Turns notation into words of the theme's strings. Results are cached: doses repeat."""

    def __init__(self, strings: Any, kit: Mapping[str, Kit] | None = None) -> None:
        self._words: Any = strings.notation
        self._calendar = strings.calendar
        self._kit = kit or {}
        # Thousands of doses of a large series are some hundreds of different ones: nothing is ever dropped,
        # and what a site with endless new ones needs stays bounded. So are the other sizes of this kind.
        for name in ("_dose", "duration", "effort", "load", "tempo"):
            setattr(self, name, lru_cache(maxsize=8192)(getattr(self, name)))

    def number(self, low: float, high: float) -> str:
        """``8`` or ``8–12``, with an en dash."""
        return f"{low:g}" if low == high else f"{low:g}–{high:g}"

    def count(self, count: Count) -> str:
        """A number of sets without the word."""
        return self.number(count.low, count.high)

    def counted(self, measure: str, amount: float) -> str:
        """The words for an amount of a measure other than seconds, with ``#`` for the number."""
        return str(plural(self._words.counted[measure], amount))

    def amount(self, measure: str, low: float, high: float) -> str:
        """``30 reps`` or ``60–90 s``, in whole numbers."""
        low, high = round(low), round(high)
        if measure == "seconds":
            return self.duration(Duration(low, high))
        return self.counted(measure, high).replace("#", self.number(low, high))

    def dose_or_work(self, dose: Dose | None, block: Block) -> str:
        """What one set asks for: the dose, or the work time where the format sets it; empty for neither."""
        return self.dose(dose) or (self.duration(block.work) if block.work else "")

    def dose(self, dose: Dose | None) -> str:
        """``8–12 reps each side``; empty for None."""
        return "" if dose is None else self._dose(dose, dose.ways)

    def _dose(self, dose: Dose, ways: bool) -> str:
        # Doses that differ only in whether sides are called ways are equal: the word is part of the memory.
        if dose.sets:
            return self._set_by_set(dose, ways)
        if dose.kind == "max":
            text = self._words.max
        elif dose.kind == "time":
            text = self.duration(Duration(dose.low, dose.high))
        else:
            amount = " + ".join(map(str, dose.parts)) if dose.parts else self.number(dose.low, dose.high)
            text = plural(self._words.counted[dose.unit], dose.high).replace("#", amount)
        if dose.per_side:
            each = self._words.each_way if ways else self._words.each_side
            text = each.format(amount=text)
        if dose.reserve:
            text = f"{text}, {self.effort(Effort('reserve', *dose.reserve))}"
        return text

    def bare_dose(self, dose: Dose) -> str:
        """``8 each side`` for 8 reps each side: beside large figures reps need not be named."""
        plain = dose.kind == "count" and dose.unit == "reps" and not (dose.sets or dose.parts or dose.reserve)
        if not plain or not dose.per_side:
            return self.dose(dose)
        each = self._words.each_way if dose.ways else self._words.each_side
        return str(each.format(amount=self.number(dose.low, dose.high)))

    def below_figures(self, words: str) -> str:
        """What stands under large figures, where the letter s alone is overlooked: ``seconds each side``."""
        unit = self._words.seconds.format(amount="").strip()
        first, _, rest = words.strip().partition(" ")
        return f"{self._words.seconds_below} {rest}".strip() if first == unit else words.strip()

    def _set_by_set(self, dose: Dose, ways: bool) -> str:
        """``12, then 10, then 8 reps each side``; the unit once where every set is a plain count."""
        then = self._words.then
        if any(one.kind in ("max", "time") or one.parts or one.reserve for one in dose.sets):
            return str(then.join(map(self.dose, dose.sets)))
        amounts = then.join(self.number(one.low, one.high) for one in dose.sets)
        text = self.counted(dose.measure, dose.sets[-1].high).replace("#", amounts)
        each = self._words.each_way if ways else self._words.each_side
        return str(each.format(amount=text)) if dose.per_side else text

    def change(self, change: DoseChange | None) -> str:
        """How a variant changes the dose; empty where it does not."""
        if change is None:
            return ""
        if change.dose is not None:
            return self.dose(change.dose)
        if change.kind in ("times", "both", "each"):
            return self._words.factors.get(str(change), "")
        amount = abs(int(change.amount))
        if change.unit == "seconds":
            return (self._words.longer if change.amount > 0 else self._words.shorter).format(
                amount=self._words.seconds.format(amount=amount)
            )
        what = plural(self._words.counted[change.unit or "reps"], amount).replace("#", str(amount))
        return (self._words.more if change.amount > 0 else self._words.fewer).format(amount=what)

    def duration(self, length: Duration) -> str:
        """``60–90 s`` or ``2 min``."""
        if length.high == 0:
            return self._words.none
        if length.in_minutes:
            return self._words.minutes.format(amount=self.number(length.low // 60, length.high // 60))
        return self._words.seconds.format(amount=self.number(length.low, length.high))

    def minutes(self, span: Span | Duration) -> str:
        """A span of seconds in whole minutes, at least one."""
        low, high = (max(1, round(end / 60)) for end in (span.low, span.high))
        return self._words.minutes.format(amount=self.number(low, high))

    def about(self, span: Span) -> str:
        """``about 40 min``, ``about 30–35 min``: a span of seconds no more exactly than it can be known.

        From ten minutes on in steps of five, below in single ones.
        """
        step = ABOUT_STEP if span.high >= ABOUT_FROM else 60
        low, high = (max(step, round(end / step) * step) // 60 for end in (span.low, span.high))
        return self._words.about.format(amount=self.number(low, high))

    def tempo(self, tempo: Tempo | None) -> str:
        """``3-1-1-0``; empty for None."""
        return str(tempo) if tempo else ""

    def effort(self, effort: Effort | None) -> str:
        """``effort 8 of 10``, for ``RPE 8`` and ``2 in reserve`` alike; empty for None.

        A page tells effort on one scale, that of perceived exertion: a hold has no repetitions to leave.
        """
        if effort is None:
            return ""
        least = effort.low if effort.scale == "rpe" else max(0, MOST_RPE - effort.high)
        return self._words.effort.format(amount=self.number(least, max(least, rpe_of(effort))))

    def load(self, load: Load | None) -> str:
        """What is held, as written, with the words of the theme; empty for None.

        Two loads in different pieces of kit are told with their pieces.
        """
        if load is None:
            return ""
        if load.sets:
            return str(self._words.then.join(map(self.load, load.sets)))
        if in_two_pieces(load):
            placed = self._words.placed
            return self.in_two_hands(
                [placed.format(load=self.part(part), piece=self.piece(part)) for part in load.parts]
            )
        parts = [self.part(part) for part in load.parts]
        if len(parts) == 2 and parts[0] == parts[1]:
            return self._words.pair.format(load=parts[0])
        return self.in_two_hands(parts) if len(parts) == 2 else parts[0]

    def in_two_hands(self, loads: Sequence[str]) -> str:
        """``5 litres of water in one hand, 3 litres of water in the other``: the plan tells which."""
        one, other = loads
        return str(self._words.uneven.format(one=one, other=other))

    def piece(self, part: LoadPart) -> str:
        """Name of the kit that a load is in; empty where that is not settled."""
        piece = self._kit.get(part.piece or "")
        return piece.name if piece else ""

    def part(self, part: LoadPart) -> str:
        """What one hand holds: ``5 litres of water``."""
        amount = str(part.quantity)
        if part.quantity.unit == "l":
            number = f"{part.quantity.amount:.10g}"
            amount = str(plural(self._words.litres, part.quantity.amount)).replace("#", number)
        return (
            self._words.filled.format(amount=amount, fill=self._words.fills[part.fill])
            if part.fill
            else amount
        )

    def day(self, day: date) -> str:
        """A day with its year: ``14 September 2026``."""
        return self._calendar.day.format(
            day=day.day, month=self._calendar.months[day.month - 1], year=day.year
        )

    def words(self, table: str, key: str) -> str:
        """A word of the content's vocabulary as shown; the word itself where the theme has no other."""
        known: Mapping[str, str] = getattr(self._words, table)
        return known.get(key, key)
