"""What a client writes in the boxes of her log, as numbers where it can be read without guessing."""

import re

from sitegen.notation import Load, NotationError
from sitegen.study.load import load_mass

_SETS_OF = re.compile(r"(\d{1,2}) ?[x×*] ?(\d{1,3})")  # sets first: 3x8
# What people write beside numbers and that changes nothing: "8 reps each side" is 8.
_WORDS = re.compile(r"\b(?:reps?|repetitions?|each|per|side|leg|arm|way|sec(?:ond)?s?|s|steps?|times)\b\.?")
_NUMBERS = re.compile(r"\d{1,3}(?: ?[,;/+&\s-] ?\d{1,3})*")  # nothing but numbers, or nothing is read
_MOST_SETS = 20
"""As many as the doses of an exercise (``reading/schemas/set_by_set.py``): more are no sets but a list."""


def counts_of(text: str) -> tuple[int, ...]:
    """Repetitions (or steps, or seconds) set by set: ``8, 8, 7``, ``3x8``, ``8/8/7``, ``10 each side``.

    Empty where anything else stands there, such as ``8 or 9`` or a sentence.
    """
    plain = " ".join(_WORDS.sub(" ", text.lower()).replace(" and ", ", ").split())
    if match := _SETS_OF.fullmatch(plain):
        sets = int(match[1])
        return (int(match[2]),) * sets if 0 < sets <= _MOST_SETS else ()
    if not _NUMBERS.fullmatch(plain):
        return ()
    counts = tuple(map(int, re.findall(r"\d+", plain)))
    return counts if len(counts) <= _MOST_SETS else ()


def load_of(text: str, asked: Load | None) -> Load | None:
    """The load that she wrote; None where it cannot be read.

    Litres without a word for what is in them are of what the plan asked for, if that was one thing only. A
    number without a unit is no load: 5 may be kilograms, litres or pounds.
    """
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
