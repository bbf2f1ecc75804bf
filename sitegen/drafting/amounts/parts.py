"""The parts of spoken amounts, which the rules of the grammar put together: numbers and ranges, units,
lengths of time, sides, repetitions in reserve.
"""

from collections.abc import Collection, Sequence

from sitegen.drafting.learned_tables import word_list, word_map, words_in
from sitegen.drafting.transcript.stems import likeness, stem
from sitegen.drafting.transcript.words import Token

TIME_UNITS = {"seconds": 1, "minutes": 60}  # in seconds
_FRACTIONS = {"half": 0.5, "quarter": 0.25, "quarters": 0.25}

_MISHEARD = ("seconds", "minutes", "reps", "breaths", "rounds", "steps")
"""Units that are recognised by their sound."""

_ALIKE = 0.6
"""Likeness from which on a word behind a number is such a unit misheard: the least that ``likeness`` gives
to words that sound alike.
"""

MOST_IN_A_ROW = 12
"""Numbers or little words of one amount. What goes on for longer is none: gone over from each of its words,
it would take time that grows with the square of its length."""

_BOTH_SIDES = words_in("arms hands legs shoulders sides")
"""Words of no side by themselves: "ten with your arms"."""

_TO_A_SIDE = words_in("on to the that this with for your")
_ONE_SIDE = words_in("left right other one 1 side forward forwards back backwards")
_TO_EACH_SIDE = words_in("on for with of to them in")
_KEEPING = words_in("with leave leaving keep keeping and have")
"""Little words before one side, one side, and what stands before "each side" and before a reserve."""

_STRETCHED = words_in("more full good whole long slow")
"""Words between a number and its unit of time: "thirty long seconds"."""

SHORTEST_HOLD = 10
"""Seconds; "hold for five" may as well be counts or breaths."""

_BARE_SECONDS = (5, 120)
"""A number alone may be a rest or a work time of so many seconds (common practice, no source)."""

_MOST_RESERVE = 5
"""Repetitions in reserve: the scale of effort that rests on them ends there."""

Range = tuple[int, int, int]
"""Lowest, highest, and the token behind."""


class AmountParts:
    """Looks at tokens; each method gives what begins at a token and the token behind it, or None."""

    def __init__(self, tokens: Sequence[Token]) -> None:
        self.tokens = tokens
        self.units = word_map("units")
        self.known = (
            word_list("common") | word_list("movements") | word_list("sides") | word_list("rest_words")
        )
        self.sides, self.each = word_list("sides"), word_list("sides_each")

    def word(self, index: int) -> str:
        """The word at a place; empty before the first and behind the last."""
        return self.tokens[index].text if 0 <= index < len(self.tokens) else ""

    def words(self, index: int, most: int) -> list[str]:
        """As many words as ``most`` from a token on; empty ones behind the last."""
        return [self.word(i) for i in range(index, index + most)]

    def joined(self, index: int) -> bool:
        """Whether no sentence ends before a token."""
        return index < len(self.tokens) and self.tokens[index].break_before < 2

    def number(self, index: int) -> int | None:
        """The number that a word is; None for other words and behind the last."""
        return self.tokens[index].value if index < len(self.tokens) else None

    def past(self, index: int, little: Collection[str]) -> int:
        """The token behind some little words."""
        place = index
        while place - index < MOST_IN_A_ROW and self.word(place) in little and self.joined(place):
            place += 1
        return place

    def unit(self, index: int) -> str:
        """The unit that a token is; what stands behind a number and is no known word may be one misheard."""
        if not self.joined(index):
            return ""
        word = self.word(index)
        known = word in self.known or stem(word) in self.known
        if word not in self.units and self.number(index - 1) is not None and not known:
            return next((self.units[unit] for unit in _MISHEARD if likeness(word, unit) >= _ALIKE), "")
        return self.units.get(word, "")

    def counted(self, index: int) -> Range | None:
        """A number or a range."""
        if self.word(index) == "between":
            low, high = self.number(index + 1), self.number(index + 3)
            if low is not None and high is not None and self.word(index + 2) in ("and", "to"):
                return low, high, index + 4
            return None
        low = self.number(index)
        if low is None:
            return None
        place = index + 1
        if self.words(place, 2) == ["up", "to"]:
            place += 1
        if self.word(place) in ("to", "or") and self.joined(place) and self.joined(place + 1):
            high = self.number(place + 1)
            if high is not None and low < high:
                return low, high, place + 2
        return low, low, index + 1

    # -- lengths of time, in seconds

    def bare_seconds(self, index: int) -> Range | None:
        """A number without a unit where seconds are meant, if it is one that seconds may be."""
        number, (fewest, most) = self.number(index), _BARE_SECONDS
        return (number, number, index + 1) if number is not None and fewest <= number <= most else None

    def time(self, index: int) -> Range | None:
        """A length of time: "forty seconds", "a minute and a half", "half a minute"."""
        fraction = self._fraction(index)
        if fraction:
            return fraction
        if self.word(index) in ("a", "another") and self.unit(index + 1) == "minutes":
            return self._and_more(60, index + 2)
        counted = self.counted(index)
        if counted is None:
            return None
        low, high, after = counted
        half = self.words(after, 3) == ["and", "a", "half"]
        unit_at = after + 3 if half else after
        if self.word(unit_at) in _STRETCHED:
            unit_at += 1
        unit = self.unit(unit_at)
        if unit not in TIME_UNITS:
            return None
        seconds = TIME_UNITS[unit]
        extra = 30 if half and unit == "minutes" else 0
        low, high = low * seconds + extra, high * seconds + extra
        if unit == "minutes" and low == high:
            return self._and_more(low, unit_at + 1)
        return low, high, unit_at + 1

    def _fraction(self, index: int) -> Range | None:
        """ "Half a minute", "three quarters of a minute", "a quarter of a minute"."""
        place, times = index, 1
        if self.word(place) == "a":
            place += 1
        elif (number := self.number(place)) is not None and self.word(place + 1) == "quarters":
            place, times = place + 1, number
        if self.word(place) not in _FRACTIONS:
            return None
        seconds = round(_FRACTIONS[self.word(place)] * times * 60)
        after = self.past(place + 1, ("of", "a", "the"))
        return (seconds, seconds, after + 1) if self.unit(after) == "minutes" else None

    def _and_more(self, seconds: int, after: int) -> Range:
        """ "One minute thirty", "a minute and a half", "one minute and twenty seconds"."""
        place = after + 1 if self.word(after) == "and" else after
        if self.words(place, 2) == ["a", "half"] and place > after:
            return seconds + 30, seconds + 30, place + 2
        number = self.number(place)
        # Fewer than five is another number (our choice): "one minute, two rounds".
        if number is None or not 5 <= number < 60 or not self.joined(place):
            return seconds, seconds, after
        if self.unit(place + 1) == "seconds":
            return seconds + number, seconds + number, place + 2
        if place == after and number % 5 == 0 and self.tokens[place].break_before == 0:
            return seconds + number, seconds + number, place + 1
        return seconds, seconds, after

    def measures(self, after: int, value: int) -> bool:
        """Whether what stands behind a time or a length tells that it is none to be done: "two metres apart",
        "ten seconds ago", "three seconds down".
        """
        if not self.joined(after):
            return False
        word = self.word(after)
        return word in ("apart", "ago", "later", "old", "away") or (
            value < SHORTEST_HOLD and word in ("down", "up", "lowering")
        )

    # -- sides and reserve

    def one_side(self, index: int) -> int | None:
        """Behind "left", "on the left", "this side", "one way", "the other"; None where none is said."""
        place = self.past(index, _TO_A_SIDE)
        if place > index and self.word(place) in self.sides and self.word(place) not in _BOTH_SIDES:
            return place + 1
        if self.word(place) not in _ONE_SIDE:
            return None
        return place + 2 if self.word(place + 1) in self.sides else place + 1

    def side(self, index: int) -> int | None:
        """Behind "each side", "on each leg", "a side", "both ways", "per arm"."""
        place = self.past(index, _TO_EACH_SIDE)
        if not (self.word(place) in self.each and self.joined(place)):
            return None
        # "Ten of each one" are ten of each exercise.
        each_one = self.words(place, 2) == ["each", "1"] and self.word(place - 1) != "of"
        return place + 2 if each_one or self.word(place + 1) in self.sides else None

    def reserve(self, index: int) -> tuple[tuple[int, int], int] | None:
        """ "Two in reserve", "with two left in the tank": how many, and the token of the last word."""
        place = self.past(index, _KEEPING)
        number = self.number(place)
        behind = self.words(place + 1, 4)
        if number is None or number > _MOST_RESERVE:
            return None
        if behind[:2] == ["in", "reserve"]:
            return (number, number), place + 2
        if "tank" in behind:
            return (number, number), place + 1 + behind.index("tank")
        return None
