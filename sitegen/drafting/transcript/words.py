"""Captions as a stream of timed words: spelling made even, number words as numbers, breaks marked."""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from sitegen.drafting.learned_tables import words_in
from sitegen.reading.captions.cues import Cue

# With an apostrophe inside, "let's" is one word; so is "2.5", which counts nothing but may weigh something.
_WORD = re.compile(r"\d+\.\d+|[a-z0-9]+(?:['’][a-z]+)*", re.IGNORECASE)
_INNER_END = re.compile(r"\w[.!?…]")  # behind a word: three dots alone end nothing
_WRITTEN = (
    (re.compile(r"\b(\d{1,3}),(?=\d{3}\b)"), r"\1"),
    (re.compile(r"(\d)\s*[-–—]\s*(?=\d)"), r"\1 to "),
    (re.compile(r"\b(\d+)\s*[x×]\s*(?=\d)"), r"\1 by "),
    (re.compile(r"\b(\d{1,2}):([0-5]\d)\b"), lambda m: f"{int(m[1]) * 60 + int(m[2])} seconds"),
    (re.compile(r"\b(\d+)[.,]5\s*(min|m\b)"), r"\1 and a half \2"),
    (re.compile(r"(?<=\d)(?:\s*½|\s+1/2\b)"), " and a half "),
)
"""Amounts written in figures, as they would be said: ``8-12``, ``3x10``, ``1:30``."""
_SENTENCE_END, _COMMA = re.compile(r"[.!?…]"), re.compile(r"[,;:–—-]")  # marks between words
# "30s", "12kg", "2nd": written as one word.
_DIGITS_AND_UNIT = re.compile(r"(\d+)(s|sec|secs|min|mins|x|kg|lb|lbs|l|ml|cm|st|nd|rd|th)")


_SMALL = (
    "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen "
    "seventeen eighteen nineteen"
)
_LARGE = "twenty thirty forty fifty sixty seventy eighty ninety"
_UNITS = {word: number for number, word in enumerate(_SMALL.split())}
_LARGEST = {"dozen": 12, "hundred": 100, "thousand": 1000}
_TENS = {word: 10 * number for number, word in enumerate(_LARGE.split(), 2)} | {"fourty": 40}

PAUSE_S = 1.0
"""A silence of so many seconds ends a sentence as a full stop does."""

_LONG_PAUSE_S = 5.0
"""Seconds of silence that end a sentence whatever its last word is (our choice)."""
_DANGLING = words_in("a an the of on in with for to and at from your our my each is")
"""Words that end no sentence: only a long silence after them is more than taking breath."""


@dataclass(slots=True)
class Token:
    """One spoken word, or one number made of several."""

    text: str
    """Lower case, without apostrophes; a number as figures."""
    start: float
    """Seconds from the start of the video."""
    end: float
    break_before: int
    """What parts it from the word before: 0 nothing, 1 a comma or the like, 2 a sentence end or a pause."""
    pause_before: float
    """Silence before it, in seconds."""
    value: int | None = None
    """For numbers."""


@dataclass(frozen=True, slots=True)
class TokenStream:
    """The words of a recording."""

    tokens: list[Token]
    punctuated: bool
    """Whether sentence ends are marked."""


def stream_of(cues: Iterable[Cue]) -> TokenStream:
    """The words of the cues, each placed inside its cue by the length of the words before it."""
    cues = list(cues)
    words = sum(len(cue.text.split()) for cue in cues)
    # Whoever writes marks ends a sentence inside a cue at least every forty words (our choice).
    punctuated = sum(len(_INNER_END.findall(cue.text)) for cue in cues) * 40 > words
    words_said = list(_timed(cues, capitals_tell=not punctuated))
    return TokenStream(list(_without_spelling(list(_numbers(words_said)))), punctuated)


def plain_words(text: str) -> list[str]:
    """The words of a written text, as they are written in :class:`Token`: numbers in figures."""
    raw, carried = [], 2
    for match in _WORD.finditer(text):
        raw.append(Token(_plain(match[0]), 0.0, 0.0, carried, 0.0))
        carried = _break_in(text, match.end())
    return [token.text for token in _numbers(raw)]


def _timed(cues: Iterable[Cue], *, capitals_tell: bool) -> Iterator[Token]:
    """Words with times; where no marks end sentences, a capital inside a cue begins one."""
    last_end, carried, before = 0.0, 2, ""
    for cue in cues:
        text = cue.text
        for pattern, said in _WRITTEN:
            text = pattern.sub(said, text)
        matches = list(_WORD.finditer(text))
        # A word takes time by its letters, and each as much as five letters more (our choice).
        weights = [5 + len(match[0]) + _tail_weight(text, match.end()) for match in matches]
        start, length = cue.start_ms / 1000, (cue.end_ms - cue.start_ms) / 1000
        scale = length / sum(weights) if weights else 0.0
        place = 0
        for index, (match, weight) in enumerate(zip(matches, weights, strict=True)):
            begin = start + place * scale
            place += weight
            pause = max(0.0, begin - last_end)
            least = _LONG_PAUSE_S if before in _DANGLING else PAUSE_S
            capital = match[0][0].isupper() and not match[0].isupper()  # no initials, nor "I'm"
            capital = capital and not match[0].startswith(("I'", "I’"))
            opens = pause >= least or (capitals_tell and index > 0 and capital)
            last_end = start + place * scale
            yield Token(_plain(match[0]), begin, last_end, max(carried, 2 if opens else 0), pause)
            carried, before = _break_in(text, match.end()), match[0].lower()


def _plain(word: str) -> str:
    return word.lower().replace("'", "").replace("’", "")


def _tail_weight(text: str, end: int) -> int:
    """Talk rests at punctuation; in letters, so that it can be added to a word's length."""
    mark = text[end : end + 1]
    return 8 if _SENTENCE_END.match(mark) else 3 if mark in (",", ";", ":") else 0


def _break_in(text: str, end: int) -> int:
    """The break between a word that ends at ``end`` and the next one of the cue (or its end)."""
    following = _WORD.search(text, end)
    between = text[end : following.start() if following else len(text)]
    if between == "-":
        return 0
    return 2 if _SENTENCE_END.search(between) else 1 if _COMMA.search(between) else 0


def _numbers(raw: list[Token]) -> Iterator[Token]:
    index = 0
    while index < len(raw):
        token = raw[index]
        if match := _DIGITS_AND_UNIT.fullmatch(token.text):
            yield from _figure_and_unit(token, match)
            index += 1
            continue
        value, used = _number_at(raw, index)
        if value is None:
            yield token
        else:
            last = raw[index + used - 1]
            yield Token(str(value), token.start, last.end, token.break_before, token.pause_before, value)
        index += used


def _without_spelling(tokens: list[Token]) -> Iterator[Token]:
    """Fifteen, "one five": digits by which a number is said once more are no numbers of their own."""
    index = 0
    while index < len(tokens):
        token = tokens[index]
        yield token
        digits = tokens[index + 1 : index + 1 + len(token.text)]
        spelt = (token.value or 0) > 9 and "".join(one.text for one in digits) == token.text
        index += 1 + (len(digits) if spelt else 0)


_SPELT = dict.fromkeys(("s", "sec", "secs"), "seconds") | {"min": "minutes", "mins": "minutes", "x": "times"}


def _figure_and_unit(token: Token, match: re.Match[str]) -> Iterator[Token]:
    middle = (token.start + token.end) / 2
    if match[2] in ("st", "nd", "rd", "th"):
        yield token
        return
    yield Token(match[1], token.start, middle, token.break_before, token.pause_before, int(match[1]))
    yield Token(_SPELT.get(match[2], match[2]), middle, token.end, 0, 0.0)


def _number_at(raw: list[Token], index: int) -> tuple[int | None, int]:
    """Value and number of words of the number that begins here; (None, 1) where there is none."""
    word = raw[index].text
    if word == "half":  # "half a dozen", "half dozen"
        ahead = _joined_words(raw, index + 1, 2)
        return (6, ahead.index("dozen") + 2) if "dozen" in ahead else (None, 1)
    value, used = (1, 1) if word == "a" else _below_hundred(raw, index)
    large = next(iter(_joined_words(raw, index + used, 1)), "")
    if value is not None and large in _LARGEST:
        # "Two hundred and fifty", "one thousand two hundred": one number, never its last part alone.
        value, used = value * _LARGEST[large], used + 1
        ahead = _joined_words(raw, index + used, 2)
        skip = 1 if ahead[:1] == ["and"] and large != "dozen" else 0
        if ahead[skip:]:
            more, used_more = _number_at(raw, index + used + skip)
            if more is not None and 0 < more < _LARGEST[large] and large != "dozen":
                return value + more, used + skip + used_more
        return value, used
    if word == "dozen":
        return 12, 1
    return (None, 1) if word == "a" else (value, used)


def _below_hundred(raw: list[Token], index: int) -> tuple[int | None, int]:
    """A number in figures, or one of at most two words."""
    word = raw[index].text
    if word.isdecimal():
        # Five digits and more are no count of anything in a session.
        return (int(word), 1) if len(word) < 5 else (None, 1)
    if tens := _TENS.get(word):
        unit = _UNITS.get(next(iter(_joined_words(raw, index + 1, 1)), ""), 0)
        # "Twenty, one, two": a "one" before "two" begins to count aloud.
        counts = unit == 1 and [token.text for token in raw[index + 2 : index + 3]] in (["two"], ["2"])
        return (tens + unit, 2) if 1 <= unit <= 9 and not counts else (tens, 1)
    return _UNITS.get(word), 1


def _joined_words(raw: list[Token], index: int, most: int) -> list[str]:
    """As many words as ``most`` from a place on, up to the first mark or pause."""
    words = []
    for token in raw[index : index + most]:
        if token.break_before:
            break
        words.append(token.text)
    return words
