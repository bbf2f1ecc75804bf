"""What else is said about an exercise: easier and harder forms, faults, cautions, kit."""

import re

from sitegen.draft.found import Alternative, FoundItem
from sitegen.draft.heard import Heard

_EASIER = re.compile(
    r"\b(?:if|when|in case|should) (?:\w+ ){0,5}?(?:too (?:hard|much|many|heavy|difficult)|hard|cant|"
    r"can not|is a lot|struggle|not possible)\b"
    r"|\bto make (?:it|this|that) easier\b|\beasier (?:version|form|option|way)\b"
)
_HARDER = re.compile(
    r"\b(?:if|when) (?:\w+ ){0,5}?(?:too easy|easy|want more|strong|ready for more)\b"
    r"|\bto make (?:it|this|that) harder\b|\bharder (?:version|form|option)\b"
)
_SPARES = re.compile(
    r"\b(?:if|when|any|anybody|anyone|with|in case|those) (?:\w+ ){0,6}?(?:hurts?|hurting|pain|"
    r"painful|sore|bad|problems?|bothers?|bugs|"
    r"dodgy|cranky|complains?|grumbles?|unsteady|wobbly|wobble|balance is|tired|tires)\b"
)
_FAULT = re.compile(
    r"\b(?:common )?(?:fault|mistake|error)s?\b|\b(?:dont|do not|avoid|watch (?:that|out)|not let|"
    r"no (?:leaning|swinging|shrugging|plopping))\b"
    r"|\bwhat i (?:dont|do not|see)\b"
)
_CAUTION = re.compile(
    r"\b(?:careful|dizzy|faint|doctor|physio\w*|stop if|sharp pain|make sure the|check (?:that|the)|"
    r"slip|slippery|test (?:yours|the|your))\b"
)


def remark(heard: Heard, item: FoundItem, start: int, end: int) -> None:
    """Note on an item when such things are said between two tokens, and what is offered instead."""
    for pattern, kind in ((_EASIER, "easier"), (_HARDER, "harder"), (_SPARES, "spares")):
        for at in _places(heard, pattern, start, end):
            item.alternatives.append(_alternative(heard, item, at, kind))
    item.alternatives.sort(key=lambda alternative: alternative.at)
    item.faults_at = [heard.time(at) for at in _places(heard, _FAULT, start, end)]
    item.cautions_at = [heard.time(at) for at in _places(heard, _CAUTION, start, end)]


def _places(heard: Heard, pattern: re.Pattern[str], start: int, end: int) -> list[int]:
    """Tokens at which a pattern is said."""
    stream = heard.talk.stream
    if start >= len(stream.offsets):
        return []
    last = stream.offsets[end] if end < len(stream.offsets) else len(stream.text)
    return [heard.talk.token(m.start()) for m in pattern.finditer(stream.text, stream.offsets[start], last)]


def _alternative(heard: Heard, item: FoundItem, at: int, kind: str) -> Alternative:
    """What is offered, with the exercise or variant where one is named soon after."""
    for mention in heard.mentions:
        naming = mention.naming
        named = naming.exercise and (naming.exercise != item.exercise or naming.variant)
        if named and mention.conditional and at <= naming.first <= at + 25:
            return Alternative(at=heard.time(at), kind=kind, exercise=naming.exercise, variant=naming.variant)
    return Alternative(at=heard.time(at), kind=kind)


def kit_heard(heard: Heard) -> list[tuple[str, float]]:
    """Pieces of the series' kit that are named, with the time of the first naming."""
    first: dict[str, float] = {}
    for index, token in enumerate(heard.talk.tokens):
        piece = heard.lexicon.piece_of(token.text)
        if piece and piece not in first:
            first[piece] = heard.time(index)
    return sorted(first.items(), key=lambda pair: pair[1])
