"""A grammar of amounts as they are said: doses, sets, rests, work times, loads, efforts.

Talk is no sentence of a language: amounts stand like islands between other words. So the parser tries
at every word whether an amount begins there and takes the longest one (a parsing expression grammar by
recursive descent). In the notation of such grammars, with terminals in quotes:

    amount   <- by / sets / onoff / rest / work / quantity / effort
    by       <- number ("by" / "times" / "sets" "of" / "lots" "of") number        three by ten
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

from sitegen.drafting.amounts import spoken
from sitegen.drafting.amounts.spoken import Amount
from sitegen.drafting.tables import word_list, word_map
from sitegen.drafting.transcript.stems import likeness, stem
from sitegen.drafting.transcript.words import Token
from sitegen.notation import Count, Dose, Duration, Effort

_MOST = {"reps": 200, "steps": 400, "breaths": 60, "seconds": 900, "minutes": 60}
"""Larger amounts are no dose of one set: a year, a house number, a length of time."""

_MOST_SETS = 12
_COUNT_UNITS = ("reps", "steps", "breaths")
_TIME_UNITS = {"seconds": 1, "minutes": 60}
_THROUGH = ("through", "round", "around", "over", "thru")
_FRACTIONS = {"half": 0.5, "quarter": 0.25, "quarters": 0.25}
_SHORTEST_HOLD = 10
"""Seconds; "hold for five" may as well be counts or breaths."""

_MISHEARD = ("seconds", "minutes", "reps", "breaths", "rounds", "steps")
"""Units that are recognised by their sound."""

_MOST_IN_A_ROW = 12
"""Numbers or little words of one amount. What goes on for longer is none: gone over from each of its words,
it would take time that grows with the square of its length."""

_BOTH_SIDES = ("arms", "hands", "legs", "shoulders", "sides")
"""Words of no side by themselves: "ten with your arms"."""

_ALIKE = 0.6
_ONCE = {"once": 1, "twice": 2, "thrice": 3}


def amounts_in(tokens: Sequence[Token]) -> list[Amount]:
    """Every amount of the talk, in order; none overlaps another."""
    parser = _Parser(tokens)
    counting = counted_aloud(tokens)
    found: list[Amount] = []
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


_NEXT_COUNT_S = 12.0
"""Numbers of counting aloud follow each other within so many seconds."""


def counted_aloud(tokens: Sequence[Token]) -> set[int]:
    """The numbers that are counted up or down aloud: "three, four, five", "three two one"."""
    numbers = [i for i, token in enumerate(tokens) if token.value is not None]
    out: set[int] = set()
    for before, after in pairwise(numbers):
        first, second = tokens[before], tokens[after]
        step = (second.value or 0) - (first.value or 0)
        apart = second.start - first.end
        if abs(step) != 1 or apart > _NEXT_COUNT_S:
            continue
        # "Eight or nine", "two to three" are ranges; "one two" side by side is counting.
        between = [token.text for token in tokens[before + 1 : after]]
        if any(word in ("to", "or", "by", "of") for word in between) or len(between) > 8:
            continue
        if after == before + 1 or (_alone(tokens, before) and _alone(tokens, after)):
            out.update((before, after))
    return out


def _alone(tokens: Sequence[Token], index: int) -> bool:
    """Whether a number is no part of a phrase that goes on: a break or nothing countable follows."""
    if index + 1 >= len(tokens) or tokens[index + 1].break_before > 0:
        return True
    return tokens[index].break_before > 0 and tokens[index + 1].text not in word_map("units")


class _Parser:
    """Tries what begins at a token; each method gives its finding and the token behind it, or None."""

    def __init__(self, tokens: Sequence[Token]) -> None:
        self.tokens = tokens
        self.units = word_map("units")
        self.known = (
            word_list("common") | word_list("movements") | word_list("sides") | word_list("rest_words")
        )
        self.sides, self.each = word_list("sides"), word_list("sides_each")

    # -- looking at tokens

    def word(self, index: int) -> str:
        return self.tokens[index].text if 0 <= index < len(self.tokens) else ""

    def joined(self, index: int) -> bool:
        """Whether no sentence ends before a token."""
        return index < len(self.tokens) and self.tokens[index].break_before < 2

    def number(self, index: int) -> int | None:
        return self.tokens[index].value if index < len(self.tokens) else None

    def unit(self, index: int) -> str:
        """The unit that a token is; what stands behind a number and is no known word may be one misheard."""
        if not self.joined(index):
            return ""
        word = self.word(index)
        known = word in self.known or stem(word) in self.known
        if word not in self.units and self.number(index - 1) is not None and not known:
            return next((self.units[unit] for unit in _MISHEARD if likeness(word, unit) >= _ALIKE), "")
        return self.units.get(word, "")

    # -- the rules

    def amount(self, index: int) -> Amount | None:
        """The longest amount that begins at a token."""
        for rule in (
            self._by,
            self._sets,
            self._on_off,
            self._rest,
            self._work,
            self._quantity,
            self._effort,
        ):
            found = rule(index)
            if found is not None:
                return found
        return None

    def _by(self, index: int) -> Amount | None:
        """ "Three by ten", "four lots of eight", "three sets of twelve": sets, and the dose behind."""
        sets = self.number(index)
        if sets is None or not 1 <= sets <= _MOST_SETS:
            return None
        after = index + 1
        if (
            self.word(after) in ("by", "times")
            and self.number(after + 1) is not None
            and self.joined(after + 1)
        ):
            dose_at = after + 1
        elif self.unit(after) == "sets" and self.word(after + 1) == "of":
            dose_at = after + 2
        else:
            return None
        dose = self._quantity(dose_at)
        if dose is None or dose.kind != spoken.DOSE:
            return None
        return replace(dose, first=index, count=Count(sets, sets), form="by", word="sets")

    def _sets(self, index: int) -> Amount | None:
        """ "Three rounds", "two to three sets", "twice through", "three times round"."""
        if self.word(index) in _ONCE:
            after = index + 1
            through = next((i for i in range(after, after + 3) if self.word(i) in _THROUGH), None)
            times = _ONCE[self.word(index)]
            return self._set_amount(index, through or index, times, times, "times")
        counted = self._counted(index)
        if counted is None:
            return None
        low, high, after = counted
        if not 1 <= low <= high <= _MOST_SETS:
            return None
        skip = after + 1 if self.word(after) in ("more", "full", "whole", "total", "good", "big") else after
        if self.unit(skip) == "sets" and self.word(skip + 1) != "of":
            called = self.word(skip)
            return self._set_amount(
                index, skip, low, high, "rounds" if called in ("round", "rounds") else "sets"
            )
        if self.word(after) == "times" and self.word(after + 1) in _THROUGH and self.joined(after + 1):
            return self._set_amount(index, after + 1, low, high, "times")
        return None

    def _set_amount(self, first: int, last: int, low: int, high: int, word: str) -> Amount:
        return Amount(
            kind=spoken.SETS, first=first, last=last, count=Count(low, high), form="unit", word=word
        )

    def _on_off(self, index: int) -> Amount | None:
        """ "Forty on, twenty off": the work time; the rest behind it is an amount of its own."""
        time = self._time(index) or self._bare_seconds(index)
        if time is None or self.word(time[2]) != "on":
            return None
        after = time[2] + 1
        if self.word(after) in ("and", "then"):
            after += 1
        off = self._time(after) or self._bare_seconds(after)
        if off is None or self.word(off[2]) not in ("off", "rest"):
            return None
        return Amount(
            kind=spoken.WORK, first=index, last=time[2], length=Duration(time[0], time[1]), form="unit"
        )

    def _bare_seconds(self, index: int) -> tuple[int, int, int] | None:
        number = self.number(index)
        return (number, number, index + 1) if number is not None and 5 <= number <= 120 else None

    def _rest(self, index: int) -> Amount | None:
        """ "Ninety seconds between sets", "rest a minute", "fifteen to change", "thirty off"."""
        rests = word_list("rest_words")
        led = self.word(index) in ("rest", "rests", "break", "pause")
        begin = index + 1 if led else index
        if led and self.word(begin) in ("for", "is", "about", "of", "them", "it", "just"):
            begin += 1
        time = self._time(begin)
        if time is None and not led:
            bare = self._bare_seconds(begin)
            follows = bare is not None and self.word(bare[2]) in ("rest", "off", "between")
            change = (
                bare is not None
                and self.word(bare[2]) == "to"
                and self.word(bare[2] + 1) in ("change", "move")
            )
            time = bare if follows or change else None
        if time is None:
            return None
        after = time[2]
        near = [self.word(i) for i in range(after, after + 3) if i < len(self.tokens) and self.joined(i)]
        kept = near[:2] if near[:1] in (["of"], ["to"], ["in"], ["for"], ["a"], ["you"]) else near[:1]
        if not led and not rests.intersection(kept):
            return None
        if not led and kept[0] == "on":
            return None
        last = after if not led else after - 1
        return Amount(
            kind=spoken.REST,
            first=index,
            last=min(last, len(self.tokens) - 1),
            length=Duration(time[0], time[1]),
            form="unit",
        )

    def _work(self, index: int) -> Amount | None:
        """ "Forty seconds of work", "each works thirty-five seconds": the work time of intervals."""
        time = self._time(index)
        if time is None:
            return None
        place = time[2] + 1 if self.word(time[2]) in ("you", "of", "to") else time[2]
        behind = self.joined(place) and self.word(place) in ("work", "working")
        before = index - 2 if self.word(index - 1) in ("for", "is") else index - 1
        led = self.joined(index) and self.word(before) in ("work", "works", "working")
        if not (behind or led):
            return None
        last = place if behind else time[2] - 1
        return Amount(
            kind=spoken.WORK, first=index, last=last, length=Duration(time[0], time[1]), form="unit"
        )

    def _effort(self, index: int) -> Amount | None:
        """ "Seven out of ten", "six to seven out of ten", "RPE eight"."""
        named = self.word(index) == "rpe"
        counted = self._counted(index + 1 if named else index)
        if counted is None:
            return None
        low, high, after = counted
        scale = [self.word(after), self.word(after + 1)] == ["out", "of"] and self.number(after + 2) == 10
        if not (named or scale) or high > 10:
            return None
        text, last = str(Effort("rpe", low, high)), after + 2 if scale else after - 1
        return Amount(kind=spoken.EFFORT, first=index, last=last, text=text, form="unit")

    def _quantity(self, index: int) -> Amount | None:
        if self._effort(index):
            return None
        for rule in (self._most, self._timed, self._ladder, self._split, self._pair, self._plain):
            found = rule(index)
            if found is not None:
                return self._with_tail(found)
        return None

    def _most(self, index: int) -> Amount | None:
        """ "As many as you can", "to failure"."""
        said = [self.word(i) for i in range(index, index + 5)]
        can = ("can", "like", "could", "manage", "cant")
        if said[:3] == ["as", "many", "as"] and said[4] in can:
            return self._dose(index, index + 4, Dose(kind="max"), "max")
        if said[:2] == ["to", "failure"]:
            return self._dose(index, index + 1, Dose(kind="max"), "max")
        # "Stop with two in reserve": as many as leave these.
        reserve = self._reserve(index) if self.number(index) is not None else None
        if reserve:
            return self._dose(index, reserve[1], Dose(kind="max", reserve=reserve[0]), "max")
        return None

    def _timed(self, index: int) -> Amount | None:
        time = self._time(index)
        if time is None:
            return None
        low, high, after = time
        if high > _MOST["seconds"]:
            return None
        if low > high or low == 0:
            return None
        if self._measures(after, high):
            return Amount(kind=spoken.OTHER, first=index, last=after, form="unit")
        return self._dose(index, after - 1, Dose(kind="time", low=low, high=high), "unit")

    def _ladder(self, index: int) -> Amount | None:
        """ "Ten, eight, six": three or more numbers in even steps of two or more."""
        values: list[int] = []
        place = index
        while (value := self.number(place)) is not None and (place == index or self.joined(place)):
            if len(values) == _MOST_IN_A_ROW:
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

    def _split(self, index: int) -> Amount | None:
        """ "Eight plus seven"."""
        parts, place = [self.number(index)], index + 1
        while parts[-1] is not None and self.word(place) == "plus" and self.number(place + 1) is not None:
            if len(parts) == _MOST_IN_A_ROW:
                return None
            parts.append(self.number(place + 1))
            place += 2
        values = tuple(part for part in parts if part)
        if len(values) < 2:
            return None
        total = sum(values)
        return self._dose(index, place - 1, Dose(kind="count", low=total, high=total, parts=values), "unit")

    def _pair(self, index: int) -> Amount | None:
        """ "Eight left, eight right", "ten and ten", "ten on this side and ten on the other": one for each
        side.
        """
        value = self.number(index)
        if value is None or value < 2:
            return None
        place, unit = index + 1, "reps"
        named = self._one_side(place)
        place = named or place
        if self.word(place) in ("and", "then") and self.joined(place):
            place += 1
        elif named is None:
            return None
        if self.number(place) != value or not self.joined(place):
            return None
        after = self._one_side(place + 1)
        if named is None and after is None and self.word(index + 1) != "and":
            return None
        last = (after or place + 1) - 1
        # "Ten and ten" may be two exercises as well as two sides.
        sided = named is not None or after is not None
        dose = Dose(kind="count", low=value, high=value, unit=unit, per_side=sided)
        return self._dose(index, last, dose, "pair", sided=sided)

    def _one_side(self, index: int) -> int | None:
        """Behind "left", "on the left", "this side", "one way", "the other"; None where none is said."""
        place = index
        while (
            place - index < _MOST_IN_A_ROW
            and self.joined(place)
            and self.word(place)
            in (
                "on",
                "to",
                "the",
                "that",
                "this",
                "with",
                "for",
                "your",
            )
        ):
            place += 1
        if place > index and self.word(place) in self.sides and self.word(place) not in _BOTH_SIDES:
            return place + 1
        if self.word(place) in (
            "left",
            "right",
            "other",
            "one",
            "1",
            "side",
            "forward",
            "forwards",
            "back",
            "backwards",
        ):
            place += 1
            if self.word(place) in self.sides:
                place += 1
            return place
        return None

    def _plain(self, index: int) -> Amount | None:
        """A number or range with or without a unit."""
        counted = self._counted(index)
        if counted is None:
            return None
        low, high, after = counted
        if self.joined(after) and self.word(after) in word_list("measures"):
            return Amount(kind=spoken.OTHER, first=index, last=after, form="unit")
        skip = after
        if self.word(after) in (
            "good",
            "slow",
            "big",
            "deep",
            "nice",
            "full",
            "clean",
            "more",
            "long",
            "proper",
            "easy",
        ):
            skip = after + 1
        unit = self.unit(skip) or ("reps" if self.word(after) == "times" and self.joined(after) else "")
        if unit in ("kg", "lb", "l"):
            return Amount(kind=spoken.LOAD, first=index, last=skip, text=f"{low} {unit}", form="unit")
        if unit in ("m", "yd", "calories"):
            if self._measures(skip + 1, low):
                return Amount(kind=spoken.OTHER, first=index, last=skip + 1, form="unit")
            length = Dose(kind="distance", low=low, high=high, unit=unit) if unit != "calories" else None
            text = f"{low} {unit}"
            return Amount(kind=spoken.DISTANCE, first=index, last=skip, dose=length, text=text, form="unit")
        if unit in ("sets", *_TIME_UNITS) or low < 1 or low > high:
            return None
        named = unit if unit in _COUNT_UNITS else "reps"
        if high > _MOST[named]:
            return None
        last = skip if unit else after - 1
        dose = Dose(kind="count", low=low, high=high, unit=named)
        if not unit and self._held(index) and low >= _SHORTEST_HOLD:
            return self._dose(index, last, Dose(kind="time", low=low, high=high), "bare")
        return self._dose(index, last, dose, "unit" if unit else "bare")

    def _measures(self, after: int, value: int) -> bool:
        """Whether what stands behind a time or a length tells that it is none to be done: "two metres apart",
        "ten seconds ago", "three seconds down".
        """
        if not self.joined(after):
            return False
        word = self.word(after)
        return word in ("apart", "ago", "later", "old", "away") or (
            value < _SHORTEST_HOLD and word in ("down", "up", "lowering")
        )

    def _held(self, index: int) -> bool:
        """Whether "hold it for" or the like stands before: the number is one of seconds."""
        before = [self.word(i) for i in range(max(0, index - 4), index)]
        return "for" in before[-2:] and bool({"hold", "stay", "holding"}.intersection(before))

    def _dose(self, first: int, last: int, dose: Dose, form: str, *, sided: bool = False) -> Amount:
        return Amount(kind=spoken.DOSE, first=first, last=last, dose=dose, form=form, sided=sided)

    # -- parts of amounts

    def _counted(self, index: int) -> tuple[int, int, int] | None:
        """A number or a range: lowest, highest, and the token behind."""
        if self.word(index) == "between":
            low, high = self.number(index + 1), self.number(index + 3)
            if low is not None and high is not None and self.word(index + 2) in ("and", "to"):
                return low, high, index + 4
            return None
        low = self.number(index)
        if low is None:
            return None
        place = index + 1
        if self.word(place) == "up" and self.word(place + 1) == "to":
            place += 1
        if self.word(place) in ("to", "or") and self.joined(place) and self.joined(place + 1):
            high = self.number(place + 1)
            if high is not None and low < high:
                return low, high, place + 2
        return low, low, index + 1

    def _time(self, index: int) -> tuple[int, int, int] | None:
        """A length of time in seconds: lowest, highest, and the token behind."""
        fraction = self._fraction(index)
        if fraction:
            return fraction
        if self.word(index) in ("a", "another") and self.unit(index + 1) == "minutes":
            return self._and_more(60, index + 2)
        counted = self._counted(index)
        if counted is None:
            return None
        low, high, after = counted
        half = [self.word(i) for i in range(after, after + 3)] == ["and", "a", "half"]
        unit_at = after + 3 if half else after
        if self.word(unit_at) in ("more", "full", "good", "whole", "long", "slow"):
            unit_at += 1
        unit = self.unit(unit_at)
        if unit not in _TIME_UNITS:
            return None
        seconds = _TIME_UNITS[unit]
        extra = 30 if half and unit == "minutes" else 0
        low, high = low * seconds + extra, high * seconds + extra
        if unit == "minutes" and low == high:
            return self._and_more(low, unit_at + 1)
        return low, high, unit_at + 1

    def _fraction(self, index: int) -> tuple[int, int, int] | None:
        """ "Half a minute", "three quarters of a minute", "a quarter of a minute"."""
        place, times = index, 1
        if self.word(place) == "a":
            place += 1
        elif (number := self.number(place)) is not None and self.word(place + 1) == "quarters":
            place, times = place + 1, number
        if self.word(place) not in _FRACTIONS:
            return None
        part = _FRACTIONS[self.word(place)] * times
        after = place + 1
        while after - place < _MOST_IN_A_ROW and self.word(after) in ("of", "a", "the"):
            after += 1
        if self.unit(after) != "minutes":
            return None
        seconds = round(part * 60)
        return seconds, seconds, after + 1

    def _and_more(self, seconds: int, after: int) -> tuple[int, int, int]:
        """ "One minute thirty", "a minute and a half", "one minute and twenty seconds"."""
        place = after + 1 if self.word(after) == "and" else after
        if [self.word(place), self.word(place + 1)] == ["a", "half"] and place > after:
            return seconds + 30, seconds + 30, place + 2
        number = self.number(place)
        if number is None or not 5 <= number < 60 or not self.joined(place):
            return seconds, seconds, after
        if self.unit(place + 1) == "seconds":
            return seconds + number, seconds + number, place + 2
        if place == after and number % 5 == 0 and self.tokens[place].break_before == 0:
            return seconds + number, seconds + number, place + 1
        return seconds, seconds, after

    def _with_tail(self, found: Amount) -> Amount:
        """The amount with the side and the reserve said behind it."""
        if found.dose is None:
            return found
        dose, last, sided = found.dose, found.last, found.sided
        # "Ten circles each way", "eight slow drags a side"
        place = next((behind for i in range(last + 1, last + 4) if (behind := self._side(i))), None)
        between = range(last + 1, (place or 0) - 2)
        if any(self.number(i) is not None or not self.joined(i) for i in between):
            place = None
        if place and not sided:
            dose, last, sided = replace(dose, per_side=True), place - 1, True
        reserve = self._reserve(last + 1)
        if reserve:
            dose, last = replace(dose, reserve=reserve[0]), reserve[1]
        return replace(found, dose=dose, last=last, sided=sided)

    def _side(self, index: int) -> int | None:
        """Behind "each side", "on each leg", "a side", "both ways", "per arm"."""
        place = index
        little = ("on", "for", "with", "of", "to", "them", "in")
        while place - index < _MOST_IN_A_ROW and self.word(place) in little and self.joined(place):
            place += 1
        if not (self.word(place) in self.each and self.joined(place)):
            return None
        # "Ten of each one" are ten of each exercise.
        each_one = self.word(place) == "each" and self.word(place + 1) == "1" and self.word(place - 1) != "of"
        return place + 2 if each_one or self.word(place + 1) in self.sides else None

    def _reserve(self, index: int) -> tuple[tuple[int, int], int] | None:
        """ "Two in reserve", "with two left in the tank"."""
        place = index
        while (
            place - index < _MOST_IN_A_ROW
            and self.word(place)
            in (
                "with",
                "leave",
                "leaving",
                "keep",
                "keeping",
                "and",
                "have",
            )
            and self.joined(place)
        ):
            place += 1
        number = self.number(place)
        behind = [self.word(i) for i in range(place + 1, place + 5)]
        if number is None or number > 5:
            return None
        if behind[:2] == ["in", "reserve"]:
            return (number, number), place + 2
        if "tank" in behind:
            return (number, number), place + 1 + behind.index("tank")
        return None
