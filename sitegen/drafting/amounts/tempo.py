"""Tempos as they are said: "tempo three one one zero", "three seconds down, one up".

They are read beside the grammar of amounts, not in it: the numbers of a tempo stay among the candidates
for a dose, as they were when the weights that choose a dose were learned.

    tempo  <- "tempo" link* digit link* digit link* digit (link* digit)?
    tempo  <- phase link* phase                one of them "down", the other "up"
    phase  <- digit timeword? ("down" / "up")
    half   <- digit timeword ("down" / "up" / "lowering" / "to" ("lower" / "lift"))
            / ("lower" / "lift") "for"? digit timeword                 one phase alone, asked
"""

from collections.abc import Iterator, Sequence

from sitegen.drafting.amounts import spoken
from sitegen.drafting.amounts.parts import AmountParts
from sitegen.drafting.amounts.spoken import SpokenAmount
from sitegen.drafting.transcript.words import Token
from sitegen.notation import NotationError, Tempo

_LINKS = frozenset({"of", "is", "its", "was", "at", "a", "the", "to", "and", "then"})
_TIME_WORDS = frozenset({"second", "seconds", "count", "counts", "beat", "beats"})
_MOST_S = 9
"""Seconds of one phase; larger numbers are repetitions or steps."""


_ONE_WAY = frozenset({"down", "up", "lowering", "lower", "lift"})
_MOST_LINKS = 6
"""Little words between two numbers of a tempo."""


def tempos_in(tokens: Sequence[Token]) -> Iterator[SpokenAmount]:
    """Every tempo of the talk, in order; none overlaps another."""
    parser = _Tempos(tokens)
    index = 0
    while index < len(tokens):
        found = parser.named(index) or parser.phases(index) or parser.half(index)
        if found is not None:
            yield found
        index = found.last + 1 if found is not None else index + 1


class _Tempos(AmountParts):
    """Tries what begins at a token; each rule gives its finding, or None."""

    def named(self, index: int) -> SpokenAmount | None:
        """The word "tempo" and three or four seconds; three have no pause at the end."""
        if self.word(index) != "tempo":
            return None
        digits: list[int] = []
        place = last = index
        while (place := self._behind_links(place + 1)) < len(self.tokens) and len(digits) < 4:
            # "Tempo 3110", written as one number.
            more = [int(digit) for digit in self.word(place)] if self.number(place) is not None else []
            if not more or (len(more) > 1 and (digits or len(more) < 3)):
                break
            digits, last = digits + more, place
        if not 3 <= len(digits) <= 4:
            return None
        lowering, bottom, lifting, top = (*digits, 0)[:4]
        return _tempo(index, last, Tempo(lowering, bottom, lifting, top), form="named")

    def phases(self, index: int) -> SpokenAmount | None:
        """Seconds down and seconds up, in either order; nothing is said of pauses."""
        first = self._phase(index)
        second = self._phase(self._behind_links(first[2])) if first is not None else None
        if first is None or second is None or first[1] == second[1]:
            return None
        told = {token.text for token in self.tokens[max(0, index - 4) : second[2]]}
        if not told & (_TIME_WORDS | {"tempo"}):
            return None
        seconds = {way: count for count, way, _ in (first, second)}
        tempo = Tempo(seconds["down"], 0, seconds["up"], 0)
        return _tempo(index, second[2] - 1, tempo, form="phases")

    def half(self, index: int) -> SpokenAmount | None:
        """One phase alone, "three seconds down", "lower for three seconds": its words stand for it."""
        led = self.word(index) in ("lower", "lift")
        place = index
        if led:
            place += 2 if self.word(index + 1) == "for" else 1
        value, last = self.number(place), place + 1
        if value is None or not 2 <= value <= _MOST_S or self.word(last) not in _TIME_WORDS:
            return None
        if not led:
            last += 2 if self.word(last + 1) == "to" else 1
            if self.word(last) not in _ONE_WAY:
                return None
        text = " ".join(self.words(index, last + 1 - index))
        return SpokenAmount(kind=spoken.TEMPO, first=index, last=last, text=text, form="half")

    def _phase(self, index: int) -> tuple[int, str, int] | None:
        """Seconds, "down" or "up", and the token behind."""
        value = self.number(index)
        if value is None or not 1 <= value <= _MOST_S:
            return None
        place = index + 2 if self.word(index + 1) in _TIME_WORDS else index + 1
        way = self.word(place)
        return (value, way, place + 1) if way in ("down", "up") else None

    def _behind_links(self, index: int) -> int:
        end = min(index + _MOST_LINKS, len(self.tokens))
        while index < end and self.word(index) in _LINKS:
            index += 1
        return index


def _tempo(first: int, last: int, tempo: Tempo, *, form: str) -> SpokenAmount | None:
    """The amount, unless an episode file would refuse it."""
    try:
        text = str(Tempo.parse(str(tempo)))
    except NotationError:
        return None
    return SpokenAmount(kind=spoken.TEMPO, first=first, last=last, text=text, form=form)
