"""A grammar of amounts as they are said: doses, sets, rests, work times, loads, efforts.

Talk is no sentence of a language: amounts stand like islands between other words. So the parser tries
at every word whether an amount begins there and takes the longest one (a parsing expression grammar by
recursive descent). In the notation of such grammars, with terminals in quotes:

    amount   <- torn / by / sets / onoff / rest / work / quantity / effort
    by       <- number ("by" / "times" / "sets" "of" / "lots" "of") number        three by ten
    torn     <- (1 / 2) number of two figures                                 one twenty
    sets     <- counted setword / ("once" / "twice" / "thrice") through           three times round
    onoff    <- time "on" time "off"                                              forty on, twenty off
    work     <- "works" "for"? time / time ("you" / "of")? "work"               forty seconds of work
    effort   <- "rpe" counted / counted "out" "of" "ten"                          seven out of ten
    quantity <- (max / split / ladder / pair / counted unit?) side? reserve?      ten to twelve each leg
    counted  <- "between" number "and" number / number (("to" / "or" / "up to") number)?
    time     <- number "and a half" unit / fraction "of a" unit / number unit ("and"? number unit?)?
    pair     <- number side? "and"? number side?                                  eight left, eight right
"""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Any

from sitegen.drafting.amounts import spoken
from sitegen.drafting.amounts.counting import counted_aloud
from sitegen.drafting.amounts.parts import MOST_IN_A_ROW, SHORTEST_HOLD, TIME_UNITS, AmountParts, Range
from sitegen.drafting.amounts.spoken import SpokenAmount
from sitegen.drafting.learned_tables import word_list, words_in
from sitegen.drafting.transcript.words import Token
from sitegen.notation import Count, Dose, Duration, Effort

_MOST = {"reps": 200, "steps": 400, "breaths": 60, "seconds": 900, "minutes": 60}
"""Larger amounts are no dose of one set: a year, a house number, a length of time."""

_MOST_SETS = 12
"""More are no sets of one exercise (common practice, no source)."""

_COUNT_UNITS = ("reps", "steps", "breaths")
_THROUGH = words_in("through round around over thru")
_ONCE = {"once": 1, "twice": 2, "thrice": 3}


def amounts_in(tokens: Sequence[Token]) -> list[SpokenAmount]:
    """Every amount of the talk, in order; none overlaps another."""
    parser = _Parser(tokens)
    counting = counted_aloud(tokens)
    found: list[SpokenAmount] = []
    index = 0
    while index < len(tokens):
        amount = parser.amount(index)
        if amount is None:
            index += 1
            continue
        numbers = [i for i in range(amount.first, amount.last + 1) if tokens[i].value is not None]
        if numbers and counting.issuperset(numbers):
            amount = replace(amount, counted=True)
        found.append(amount)
        index = amount.last + 1
    return found


_OF_SETS = words_in("more full whole total good big")
_OF_REPS = words_in("good slow big deep nice full clean more long proper easy")
"""Words between a number and its unit: "three full rounds", "ten slow ones"."""


_WEIGHED = ("kg", "lb", "l")
_NUMBERED = words_in("set round number part exercise block session episode level")
"""Behind these a number is a name: "round one twenty seconds"."""

_LEADS_REST = words_in("rest rests break pause")
_BEFORE_REST = words_in("for is about of them it just")
_BEHIND_TIME = words_in("of to in for a you")
"""What leads a rest, little words between it and its time, and those between a time and "rest"."""


def _united(kind: str, first: int, last: int, **what: Any) -> SpokenAmount:
    """An amount said with its unit."""
    return SpokenAmount(kind=kind, first=first, last=last, form="unit", **what)


def _length(kind: str, first: int, last: int, time: Range) -> SpokenAmount:
    """A rest or a work time."""
    return _united(kind, first, last, length=Duration(time[0], time[1]))


class _Parser(AmountParts):
    """Tries what begins at a token; each rule gives its finding, or None."""

    def amount(self, index: int) -> SpokenAmount | None:
        """The longest amount that begins at a token."""
        rules = (
            self._torn, self._by, self._sets, self._on_off, self._rest, self._work, self._quantity,
            self._effort,
        )  # fmt: skip
        return next((found for rule in rules if (found := rule(index)) is not None), None)

    def _torn(self, index: int) -> SpokenAmount | None:
        """ "One twenty seconds": a hundred and twenty, or one of twenty; nobody can tell."""
        hundreds, rest = self.number(index), self.number(index + 1)
        if hundreds not in (1, 2) or rest is None or not 10 <= rest < 100:
            return None
        if self.tokens[index + 1].break_before or self.word(index - 1) in _NUMBERED:
            return None
        return _united(spoken.OTHER, index, index + 1)

    def _by(self, index: int) -> SpokenAmount | None:
        """ "Three by ten", "four lots of eight", "three sets of twelve": sets, and the dose behind."""
        sets = self.number(index)
        if sets is None or not 1 <= sets <= _MOST_SETS:
            return None
        after = index + 1
        numbers = self.number(after + 1) is not None and self.joined(after + 1)
        if self.word(after) in ("by", "times") and numbers:
            dose_at = after + 1
        elif self.unit(after) == "sets" and self.word(after + 1) == "of":
            dose_at = after + 2
        else:
            return None
        dose = self._quantity(dose_at)
        if dose is None or dose.kind != spoken.DOSE:
            return None
        return replace(dose, first=index, count=Count(sets, sets), form="by", word="sets")

    def _sets(self, index: int) -> SpokenAmount | None:
        """ "Three rounds", "two to three sets", "twice through", "three times round"."""
        if self.word(index) in _ONCE:
            after = index + 1
            through = next((i for i in range(after, after + 3) if self.word(i) in _THROUGH), None)
            times = _ONCE[self.word(index)]
            return _united(spoken.SETS, index, through or index, count=Count(times, times), word="times")
        counted = self.counted(index)
        if counted is None:
            return None
        low, high, after = counted
        if not 1 <= low <= high <= _MOST_SETS:
            return None
        skip = after + 1 if self.word(after) in _OF_SETS else after
        if self.unit(skip) == "sets" and self.word(skip + 1) != "of":
            called = "rounds" if self.word(skip) in ("round", "rounds") else "sets"
            return _united(spoken.SETS, index, skip, count=Count(low, high), word=called)
        if self.word(after) == "times" and self.word(after + 1) in _THROUGH and self.joined(after + 1):
            return _united(spoken.SETS, index, after + 1, count=Count(low, high), word="times")
        return None

    def _on_off(self, index: int) -> SpokenAmount | None:
        """ "Forty on, twenty off": the work time; the rest behind it is an amount of its own."""
        time = self.time(index) or self.bare_seconds(index)
        if time is None or self.word(time[2]) != "on":
            return None
        after = time[2] + 1
        if self.word(after) in ("and", "then"):
            after += 1
        off = self.time(after) or self.bare_seconds(after)
        if off is None or self.word(off[2]) not in ("off", "rest"):
            return None
        return _length(spoken.WORK, index, time[2], time)

    def _rest(self, index: int) -> SpokenAmount | None:
        """ "Ninety seconds between sets", "rest a minute", "fifteen to change", "thirty off"."""
        led = self.word(index) in _LEADS_REST
        begin = self.past(index + 1, _BEFORE_REST) if led else index
        time = self.time(begin)
        if time is None and led and self.word(index) != "break":
            time = self.bare_seconds(begin)
        elif time is None:
            bare = self.bare_seconds(begin)
            behind = self.words(bare[2], 2) if bare is not None else [""]
            change = behind in (["to", "change"], ["to", "move"])
            time = bare if behind[0] in ("rest", "off", "between") or change else None
        if time is None:
            return None
        after = time[2]
        if led:
            return _length(spoken.REST, index, after - 1, time)
        named = after + 1 if self.word(after) in _BEHIND_TIME else after
        if not self.joined(named) or self.word(named) not in word_list("rest_words"):
            return None
        if self._leads_a_time(named):
            return None
        return _length(spoken.REST, index, min(after, len(self.tokens) - 1), time)

    def _leads_a_time(self, rest: int) -> bool:
        """Whether "rest" belongs to the time behind it, "thirty seconds, rest a minute", and not to the one
        before, "thirty seconds rest, thirty seconds work".
        """
        if self.word(rest) not in _LEADS_REST:
            return False
        begin = self.past(rest + 1, _BEFORE_REST)
        time = self.time(begin) or self.bare_seconds(begin)
        if time is None or not self.joined(begin):
            return False
        apart = self.tokens[rest + 1].break_before > self.tokens[rest].break_before
        return not apart and self.word(time[2]) not in ("work", "works", "of", "on")

    def _work(self, index: int) -> SpokenAmount | None:
        """ "Forty seconds of work", "each works thirty-five seconds": the work time of intervals."""
        time = self.time(index)
        if time is None:
            return None
        place = time[2] + 1 if self.word(time[2]) in ("you", "of", "to") else time[2]
        behind = self.joined(place) and self.word(place) in ("work", "working")
        before = index - 2 if self.word(index - 1) in ("for", "is") else index - 1
        led = self.joined(index) and self.word(before) in ("work", "works", "working")
        if not (behind or led):
            return None
        return _length(spoken.WORK, index, place if behind else time[2] - 1, time)

    def _effort(self, index: int) -> SpokenAmount | None:
        """ "Seven out of ten", "six to seven out of ten", "RPE eight"."""
        named = self.word(index) == "rpe"
        counted = self.counted(index + 1 if named else index)
        if counted is None:
            return None
        low, high, after = counted
        scale = self.words(after, 2) == ["out", "of"] and self.number(after + 2) == 10
        if not (named or scale) or high > 10:
            return None
        text, last = str(Effort("rpe", low, high)), after + 2 if scale else after - 1
        return _united(spoken.EFFORT, index, last, text=text)

    def _quantity(self, index: int) -> SpokenAmount | None:
        if self._effort(index):
            return None
        rules = (self._most, self._timed, self._ladder, self._split, self._pair, self._plain)
        found = next((found for rule in rules if (found := rule(index)) is not None), None)
        return None if found is None else self._with_tail(found)

    def _most(self, index: int) -> SpokenAmount | None:
        """ "As many as you can", "to failure"."""
        said = self.words(index, 5)
        if said[:3] == ["as", "many", "as"] and said[4] in ("can", "like", "could", "manage", "cant"):
            return self._dose(index, index + 4, Dose(kind="max"), "max")
        if said[:2] == ["to", "failure"]:
            return self._dose(index, index + 1, Dose(kind="max"), "max")
        # "Stop with two in reserve": as many as leave these.
        reserve = self.reserve(index) if self.number(index) is not None else None
        if reserve:
            return self._dose(index, reserve[1], Dose(kind="max", reserve=reserve[0]), "max")
        return None

    def _timed(self, index: int) -> SpokenAmount | None:
        time = self.time(index)
        if time is None:
            return None
        low, high, after = time
        if high > _MOST["seconds"] or low > high or low == 0:
            return None
        if self.measures(after, high):
            return _united(spoken.OTHER, index, after)
        return self._dose(index, after - 1, Dose(kind="time", low=low, high=high), "unit")

    def _ladder(self, index: int) -> SpokenAmount | None:
        """ "Ten, eight, six": three or more numbers in even steps of two or more."""
        values: list[int] = []
        place = index
        while (value := self.number(place)) is not None and (place == index or self.joined(place)):
            if len(values) == MOST_IN_A_ROW:
                return None
            values.append(value)
            place += 1
            if self.word(place) in ("then", "and") and self.number(place + 1) is not None:
                place += 1
        steps = {b - a for a, b in pairwise(values)}
        if len(values) < 3 or len(steps) != 1 or abs(min(steps)) < 2:
            return None
        dose = Dose(kind="count", low=min(values), high=max(values))
        return self._dose(index, place - 1, dose, "ladder")

    def _split(self, index: int) -> SpokenAmount | None:
        """ "Eight plus seven"."""
        parts, place = [self.number(index)], index + 1
        while parts[-1] is not None and self.word(place) == "plus" and self.number(place + 1) is not None:
            if len(parts) == MOST_IN_A_ROW:
                return None
            parts.append(self.number(place + 1))
            place += 2
        values = tuple(part for part in parts if part)
        if len(values) < 2:
            return None
        total = sum(values)
        return self._dose(index, place - 1, Dose(kind="count", low=total, high=total, parts=values), "unit")

    def _pair(self, index: int) -> SpokenAmount | None:
        """ "Eight left, eight right", "ten and ten", "ten on this side and ten on the other": one for each
        side.
        """
        value = self.number(index)
        if value is None or value < 2:
            return None
        place, unit = index + 1, "reps"
        named = self.one_side(place)
        place = named or place
        if self.word(place) in ("and", "then") and self.joined(place):
            place += 1
        elif named is None:
            return None
        if self.number(place) != value or not self.joined(place):
            return None
        after = self.one_side(place + 1)
        if named is None and after is None and self.word(index + 1) != "and":
            return None
        last = (after or place + 1) - 1
        # "Ten and ten" may be two exercises as well as two sides.
        sided = named is not None or after is not None
        dose = Dose(kind="count", low=value, high=value, unit=unit, per_side=sided)
        return self._dose(index, last, dose, "pair", sided=sided)

    def _plain(self, index: int) -> SpokenAmount | None:
        """A number or range with or without a unit."""
        broken = self._broken(index)
        if broken:
            return broken
        counted = self.counted(index)
        if counted is None:
            return None
        low, high, after = counted
        if self.joined(after) and self.word(after) in word_list("measures"):
            return _united(spoken.OTHER, index, after)
        skip = after + 1 if self.word(after) in _OF_REPS else after
        unit = self.unit(skip) or ("reps" if self.word(after) == "times" and self.joined(after) else "")
        if unit in _WEIGHED:
            return _united(spoken.LOAD, index, skip, text=f"{low} {unit}")
        if unit in ("m", "yd", "calories"):
            if self.measures(skip + 1, low):
                return _united(spoken.OTHER, index, skip + 1)
            length = Dose(kind="distance", low=low, high=high, unit=unit) if unit != "calories" else None
            return _united(spoken.DISTANCE, index, skip, dose=length, text=f"{low} {unit}")
        if unit in ("sets", *TIME_UNITS) or low < 1 or low > high:
            return None
        named = unit if unit in _COUNT_UNITS else "reps"
        if high > _MOST[named]:
            return None
        last = skip if unit else after - 1
        dose = Dose(kind="count", low=low, high=high, unit=named)
        if not unit and self._held(index) and low >= SHORTEST_HOLD:
            return self._dose(index, last, Dose(kind="time", low=low, high=high), "bare")
        return self._dose(index, last, dose, "unit" if unit else "bare")

    def _broken(self, index: int) -> SpokenAmount | None:
        """ "Two and a half kilos", "2.5 kg": a load. Of anything else it is no amount."""
        text, after = self.word(index), index + 1
        if self.number(index) is not None and self.words(after, 3) == ["and", "a", "half"]:
            text, after = f"{text}.5", index + 4
        if "." not in text:
            return None
        if self.unit(after) in _WEIGHED:
            return _united(spoken.LOAD, index, after, text=f"{text} {self.unit(after)}")
        return _united(spoken.OTHER, index, after - 1)

    def _held(self, index: int) -> bool:
        """Whether "hold it for" or the like stands before: the number is one of seconds."""
        before = [self.word(i) for i in range(max(0, index - 4), index)]
        return "for" in before[-2:] and bool({"hold", "stay", "holding"}.intersection(before))

    def _dose(self, first: int, last: int, dose: Dose, form: str, *, sided: bool = False) -> SpokenAmount:
        return SpokenAmount(kind=spoken.DOSE, first=first, last=last, dose=dose, form=form, sided=sided)

    def _with_tail(self, found: SpokenAmount) -> SpokenAmount:
        """The amount with the side and the reserve said behind it."""
        if found.dose is None:
            return found
        dose, last, sided = found.dose, found.last, found.sided
        # "Ten circles each way", "eight slow drags a side"
        place = next((behind for i in range(last + 1, last + 4) if (behind := self.side(i))), None)
        between = range(last + 1, (place or 0) - 2)
        if any(self.number(i) is not None or not self.joined(i) for i in between):
            place = None
        if place and not sided:
            dose, last, sided = replace(dose, per_side=True), place - 1, True
        reserve = self.reserve(last + 1)
        if reserve:
            dose, last = replace(dose, reserve=reserve[0]), reserve[1]
        return replace(found, dose=dose, last=last, sided=sided)
