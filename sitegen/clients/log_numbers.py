"""What a client writes in the boxes of her log, as numbers where it can be read without guessing."""

import re

from sitegen.notation import Load, NotationError
from sitegen.study.load import load_mass

_COUNT = r"(?:0|[1-9][0-9]{0,2})"  # no leading zero: 1,000 is not one and none
_SETS_OF = re.compile(r"([1-9][0-9]?) ?(?:[x×*]|times) ?([1-9][0-9]{0,2})")  # sets first: 3x8
_AROUND = re.compile(r"\b(?:each|per|side|leg|arm|way)\b\.?|(?<=[0-9]) times$")
_MEASURES = {
    "reps": re.compile(r"\b(?:reps?|repetitions?)\b\.?"),
    "seconds": re.compile(r"(?:\b|(?<=[0-9]))(?:sec(?:ond)?s?|s)\b\.?"),
    "steps": re.compile(r"\bsteps?\b\.?"),
}
"""Words for what is counted, by the measure of a dose."""
# Nothing but numbers, or nothing is read. A dash makes a range as well as a list; a plus adds the parts of
# one set; 12,5 may be twelve and a half, but 8,8,7 can be nothing but three numbers.
_NUMBERS = re.compile(rf"{_COUNT}(?:(?:, | ?[;/&] ?| ){_COUNT})*|{_COUNT}(?:,{_COUNT}){{2,}}")
_THOUSANDS = re.compile(r"[1-9][0-9]{0,2}(?:,[0-9]{3}(?![0-9])|\.[0-9]{3} ?(?:g|ml)\b)")
"""``1,000 g``: a thousand here, one elsewhere. No kitchen scale weighs a thousandth of a gram."""
_MOST_SETS = 20
"""As many as the doses of an exercise (``reading/schemas/set_by_set.py``): more are no sets but a list."""


def counts_of(text: str, measure: str | None = None) -> tuple[int, ...]:
    """Repetitions (or steps, or seconds) set by set: ``8, 8, 7``, ``3x8``, ``8/8/7``, ``10 each side``.

    Empty where anything else stands there, such as ``8-12``, ``8 or 9`` or a sentence, or where she counted
    something else than ``measure``, that of the dose: 30 s are no 30 repetitions.
    """
    plain = text.lower()
    said = {name for name, words in _MEASURES.items() if words.search(plain)}
    if len(said) > 1 or (measure is not None and said - {measure}):
        return ()
    for words in (*_MEASURES.values(), _AROUND):
        plain = words.sub(" ", plain)
    plain = " ".join(plain.replace(" and ", ", ").split()).replace(" ,", ",")
    if match := _SETS_OF.fullmatch(plain):
        sets, count = int(match[1]), int(match[2])
        # 20 x 3 is three sets of 20 to some: whoever has more sets than repetitions may have meant that.
        return (count,) * sets if sets <= min(count, _MOST_SETS) else ()
    if not _NUMBERS.fullmatch(plain):
        return ()
    counts = tuple(map(int, re.findall(r"[0-9]+", plain)))
    return counts if len(counts) <= _MOST_SETS else ()


def load_of(text: str, asked: Load | None) -> Load | None:
    """The load that she wrote; None where it cannot be read.

    Litres without a word for what is in them are of what the plan asked for, if that was one thing only. A
    number without a unit is no load: 5 may be kilograms, litres or pounds. Nor is ``1,000 g``.
    """
    if _THOUSANDS.search(text):
        return None
    written = text.replace(",", ".").strip()
    fills = {part.fill for part in asked.parts} if asked else set()
    for attempt in (
        written,
        f"{written} {next(iter(fills))}" if len(fills) == 1 and None not in fills else "",
    ):
        try:
            return Load.parse(attempt) if attempt else None
        except NotationError:
            continue
    return None


def kilograms(load: Load | None) -> float | None:
    """What is held in all, at the middle of its range; None for nothing known."""
    return load_mass(load).mid if load else None
