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
from sitegen.drafting.amounts.spoken import SpokenAmount
from sitegen.drafting.transcript.words import Token
from sitegen.notation import NotationError, Tempo

_LINKS = frozenset({"of", "is", "its", "was", "at", "a", "the", "to", "and", "then"})
_TIME_WORDS = frozenset({"second", "seconds", "count", "counts", "beat", "beats"})
_MOST_S = 9
"""Seconds of one phase; larger numbers are repetitions or steps."""


def tempos_in(tokens: Sequence[Token]) -> Iterator[SpokenAmount]:
    """Every tempo of the talk, in order; none overlaps another."""
    index = 0
    while index < len(tokens):
        found = _named(tokens, index) or _phases(tokens, index) or _half(tokens, index)
        if found is not None:
            yield found
        index = found.last + 1 if found is not None else index + 1


def _named(tokens: Sequence[Token], index: int) -> SpokenAmount | None:
    """The word "tempo" and three or four seconds; three have no pause at the end."""
    if tokens[index].text != "tempo":
        return None
    digits: list[int] = []
    place = last = index
    while (place := _behind_links(tokens, place + 1)) < len(tokens) and len(digits) < 4:
        token = tokens[place]
        # "Tempo 3110", written as one number.
        more = [int(digit) for digit in token.text] if token.value is not None else []
        if not more or (len(more) > 1 and (digits or len(more) < 3)):
            break
        digits, last = digits + more, place
    if not 3 <= len(digits) <= 4:
        return None
    lowering, bottom, lifting, top = (*digits, 0)[:4]
    return _tempo(index, last, Tempo(lowering, bottom, lifting, top), form="named")


def _phases(tokens: Sequence[Token], index: int) -> SpokenAmount | None:
    """Seconds down and seconds up, in either order; nothing is said of pauses."""
    first = _phase(tokens, index)
    if first is None:
        return None
    second = _phase(tokens, _behind_links(tokens, first[2]))
    if second is None or first[1] == second[1]:
        return None
    told = {token.text for token in tokens[max(0, index - 4) : second[2]]}
    if not told & (_TIME_WORDS | {"tempo"}):
        return None
    seconds = {way: count for count, way, _ in (first, second)}
    tempo = Tempo(seconds["down"], 0, seconds["up"], 0)
    return _tempo(index, second[2] - 1, tempo, form="phases")


_ONE_WAY = frozenset({"down", "up", "lowering", "lower", "lift"})


def _half(tokens: Sequence[Token], index: int) -> SpokenAmount | None:
    """One phase alone, "three seconds down", "lower for three seconds": its words stand for it."""
    led = tokens[index].text in ("lower", "lift")
    place = index
    if led:
        place += 2 if [token.text for token in tokens[index + 1 : index + 2]] == ["for"] else 1
    said = [token.text for token in tokens[place : place + 4]]
    value = tokens[place].value if place < len(tokens) else None
    if value is None or not 2 <= value <= _MOST_S or said[1:2] == [] or said[1] not in _TIME_WORDS:
        return None
    behind = 3 if said[2:3] == ["to"] else 2
    if not led and (said[behind : behind + 1] == [] or said[behind] not in _ONE_WAY):
        return None
    last = place + 1 if led else place + behind
    text = " ".join(token.text for token in tokens[index : last + 1])
    return SpokenAmount(kind=spoken.TEMPO, first=index, last=last, text=text, form="half")


def _phase(tokens: Sequence[Token], index: int) -> tuple[int, str, int] | None:
    """Seconds, "down" or "up", and the token behind."""
    value = tokens[index].value if index < len(tokens) else None
    if value is None or not 1 <= value <= _MOST_S:
        return None
    said = [token.text for token in tokens[index : index + 3]]
    place = 2 if said[1:2] and said[1] in _TIME_WORDS else 1
    if said[place : place + 1] not in (["down"], ["up"]):
        return None
    return value, said[place], index + place + 1


_MOST_LINKS = 6
"""Little words between two numbers of a tempo."""


def _behind_links(tokens: Sequence[Token], index: int) -> int:
    end = min(index + _MOST_LINKS, len(tokens))
    while index < end and tokens[index].text in _LINKS:
        index += 1
    return index


def _tempo(first: int, last: int, tempo: Tempo, *, form: str) -> SpokenAmount | None:
    """The amount, unless an episode file would refuse it."""
    try:
        text = str(Tempo.parse(str(tempo)))
    except NotationError:
        return None
    return SpokenAmount(kind=spoken.TEMPO, first=first, last=last, text=text, form=form)
