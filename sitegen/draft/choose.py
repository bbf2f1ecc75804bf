"""Which of the amounts said about an exercise is its dose."""

import re
from collections.abc import Iterable
from dataclasses import replace

from sitegen.draft.amounts import Amount
from sitegen.draft.chapters import Chapter
from sitegen.draft.heard import Heard
from sitegen.draft.lexicon import STRONG, WEAK, stems_of
from sitegen.draft.stems import stem
from sitegen.notation import Dose

CONFIDENCE = {3: 0.9, 2: 0.75, 1: 0.6, 0: 0.4}
"""Confidence in a dose by how plainly it is said."""

_FEWEST_BARE, _MOST_BARE = 5, 50
"""A number among words is taken for a dose only between these, and only where nobody marks sentences."""

_WITH_UNIT, _SOON = 3, 25
"""How plain a dose with its unit is, and how many words behind a name it is said soon after it."""

_FADES = 15
"""So many words further on, a dose said plainly counts one less."""

_FEWEST_SECONDS = 10
_CORRECTION, _SHORT_CORRECTION, _SPLIT = 14, 6, 8
"""Words within which a dose is put right, by a bare number, and by its half for each side."""

_HELD = frozenset(stem(word) for word in ("stretch", "plank", "hold", "stand", "pose", "hang"))
_MOVEMENTS = frozenset(base[0] for base in (*STRONG, *WEAK) if len(base) == 1)

_IN_ALL = re.compile(r"(?:in all|in total|altogether)\b")
_OTHER_SIDE_NOW = re.compile(
    r"(?:and |now |then |so |ok |okay )*(?:on )?(?:to )?(?:the )?"
    r"(?:other (?:side|way|leg|arm|foot|hand)|(?:change|switch|swap)(?: (?:legs|sides|arms|feet|over))?)\b"
    r"(?! (?:hands|every|each))"
)
_BOTH_WAYS = re.compile(r"\b(?:forwards?|backwards?|other|change|switch|swap|both)\b")
_OTHER_SIDE = re.compile(r"\b(?:other (?:side|way|leg|arm|1|foot|hand)|change|switch|swap)\b")


def dose_of(heard: Heard, chapter: Chapter, start: int, end: int) -> Amount | None:
    """The dose of a chapter that goes from one token to another.

    It is said with the name, or plainly and soon after it, and put right by what follows. Where the
    plan expects a dose, an amount with the same numbers is taken for that one.
    """
    name = chapter.mention.naming.last
    inside = [a for a in heard.amounts.doses if start <= a.first < end]
    own = _own_words(heard, chapter)
    said = [_raised(heard, a, own) for a in inside if not a.aside and not a.for_all]
    said = [a for a in said if _likely(a, punctuated=heard.talk.stream.punctuated)]
    with_name = chapter.mention.dose
    if with_name and with_name.plain < _WITH_UNIT and with_name.first < chapter.mention.naming.first:
        # A bare number before a name may be its number: "seven, the tandem stand ... thirty seconds".
        with_name = next(
            (a for a in said if name < a.first <= name + _SOON and a.plain == _WITH_UNIT), with_name
        )
    chosen = with_name or max(said, key=lambda a: _fit(a, name), default=None)
    for amount in said:
        if chosen and amount.first > chosen.last and _corrects(chosen, amount):
            chosen = _merged(chosen, amount)
    if chosen and _both_sides(heard, chosen, inside, end):
        chosen = replace(chosen, dose=replace(chosen.dose, per_side=True))
    if chosen:
        chosen = replace(chosen, dose=_held(heard, chapter, chosen.dose))
    if chapter.expected is None:
        return chosen
    for_now = [a for a in inside if not a.aside]
    both_ways = bool(_BOTH_WAYS.search(heard.talk.words(start, end - 1)))
    return _as_planned(chapter.expected, chosen, for_now, both_ways=both_ways)


def dose_of_all(heard: Heard, start: int, end: int) -> Amount | None:
    """A dose said of every exercise of a block."""
    said = [a for a in heard.amounts.doses if start <= a.first < end and a.for_all and not a.aside]
    return said[-1] if said else None


def _own_words(heard: Heard, chapter: Chapter) -> frozenset[str]:
    exercise = heard.series.exercises.get(chapter.mention.naming.exercise)
    return frozenset(stems_of(exercise.name)) if exercise else frozenset()


def _raised(heard: Heard, amount: Amount, own: frozenset[str]) -> Amount:
    """A number before the exercise's own word is plainly a dose: "six swings"."""
    after = heard.talk.words(amount.last + 1, amount.last + 1).strip()
    counts = stem(after) in own or (after.endswith("s") and stem(after) in _MOVEMENTS)
    return replace(amount, plain=3) if amount.plain == 0 and counts else amount


def _likely(amount: Amount, *, punctuated: bool) -> bool:
    if amount.plain > 0 or punctuated:
        return amount.plain > 0
    return _FEWEST_BARE <= amount.dose.low <= _MOST_BARE


def _fit(amount: Amount, name: int) -> float:
    """How likely an amount is the dose: plainly said, and soon after the name at token ``name``."""
    return max(1, amount.plain) - abs(amount.first - name) / _FADES


def _corrects(before: Amount, amount: Amount) -> bool:
    """Whether an amount puts an earlier one right."""
    near = amount.first - before.last
    if amount.changed and near <= _CORRECTION and (amount.plain > 0 or near <= _SHORT_CORRECTION):
        return True
    half = 2 * amount.dose.low == before.dose.low
    if amount.dose.per_side and not before.dose.per_side and half and near <= _SPLIT:
        return True
    return before.plain <= 1 and amount.plain == 3 and amount.dose.kind == before.dose.kind and near <= 3


def _merged(before: Amount, amount: Amount) -> Amount:
    """A correction such as "make that twelve" keeps the side and unit of what it corrects."""
    if amount.plain == 3 or before.dose.kind == "max" or amount.dose.kind != "count":
        return amount
    dose = replace(before.dose, low=amount.dose.low, high=amount.dose.high, parts=())
    return replace(amount, dose=dose, plain=before.plain)


def _both_sides(heard: Heard, chosen: Amount, said: Iterable[Amount], end: int) -> bool:
    """Whether the other side is spoken of after a dose: by itself, or with the same number again."""
    talk = heard.talk
    if chosen.dose.per_side or chosen.dose.kind == "max" or _IN_ALL.match(talk.after(chosen.last, 3)):
        return False
    sentences = (i for i in range(chosen.last + 1, end) if talk.tokens[i].break_before == 2)
    if any(_OTHER_SIDE_NOW.match(talk.words(i, i + 5)) for i in sentences):
        return True
    return any(
        again.first > chosen.last
        and again.dose.low == chosen.dose.low
        and (again.dose.per_side or bool(_OTHER_SIDE.search(talk.words(chosen.last + 1, again.last + 4))))
        for again in said
    )


def _held(heard: Heard, chapter: Chapter, dose: Dose) -> Dose:
    """A bare number of ten or more for what is held, such as a stretch, counts seconds."""
    exercise = heard.series.exercises.get(chapter.mention.naming.exercise)
    bare = dose.kind == "count" and dose.unit == "reps" and dose.low >= _FEWEST_SECONDS
    if exercise is None or not bare:
        return dose
    name = stems_of(exercise.name)
    return replace(dose, kind="time", parts=()) if name[-1] in _HELD and "to" not in name else dose


def _as_planned(
    expected: Dose, chosen: Amount | None, said: Iterable[Amount], *, both_ways: bool
) -> Amount | None:
    """The planned dose, where the numbers of what was said agree with it.

    "Ten seconds backwards, and forwards for the rest of the twenty" agrees with twenty: with half of
    it where both ways are spoken of.
    """
    if chosen and _same_numbers(chosen.dose, expected):
        return replace(chosen, dose=expected)
    if chosen and both_ways and not expected.per_side and _same_numbers(_twice(chosen.dose), expected):
        return replace(chosen, dose=expected)
    agreeing = next((a for a in said if _same_numbers(a.dose, expected)), None)
    if agreeing and (chosen is None or not chosen.changed):
        return replace(agreeing, dose=expected)
    return chosen


def _twice(dose: Dose) -> Dose:
    return replace(dose, low=2 * dose.low, high=2 * dose.high, per_side=False, parts=())


def _same_numbers(said: Dose, planned: Dose) -> bool:
    if said.kind == "max" or planned.kind == "max":
        return said.kind == planned.kind
    return (said.low, said.high) == (planned.low, planned.high) and (
        said.kind == planned.kind or said.kind == "count"
    )
