"""Names said in passing: of exercises that are ruled out today, and of harder or easier forms."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import cache

from sitegen.drafting.learned_tables import phrases_of
from sitegen.drafting.names.mentions import Mention
from sitegen.drafting.transcript.passages import SENTENCE
from sitegen.drafting.transcript.words import Token

RULED_OUT, OTHER_FORM = "ruled_out", "other_form"
"""Why a name says nothing of what is shown: the lists of phrases that tell it."""

PERHAPS_NOT = "perhaps_not"
"""Phrases beside which an exercise is hardly ever shown: it is asked where no plain name stands."""

_BEFORE, _BEHIND = 14, 12
"""Words around a name that are looked at; what is said farther off is about something else (our choice)."""


def with_asides(tokens: Sequence[Token], mentions: Sequence[Mention]) -> Iterator[Mention]:
    """The mentions, each told whether it is made in passing."""
    for mention in mentions:
        talk = talk_around(tokens, mention.first, mention.last)
        yield replace(mention, aside=next((why for why in (RULED_OUT, OTHER_FORM) if is_said(why, talk)), ""))


def talk_around(tokens: Sequence[Token], first: int, last: int) -> str:
    """The words around some tokens, for which ``@`` stands; ``|`` stands where a sentence begins."""
    words = [" @"]
    for n in range(max(0, first - _BEFORE), min(len(tokens), last + 1 + _BEHIND)):
        mark = "| " if tokens[n].break_before >= SENTENCE else ""
        if n < first:
            words.insert(-1, f" {mark}{tokens[n].text}")
        elif n > last:
            words.append(f" {mark}{tokens[n].text}")
        elif n == first:
            words[-1] = f" {mark}@"
    return "".join(words) + " "


def is_said(phrases: str, talk: str) -> bool:
    """Whether one of the phrases of a list is said about ``@``."""
    return bool(_pattern(phrases).search(talk))


@cache
def _pattern(phrases: str) -> re.Pattern[str]:
    """The phrases of a list as one pattern: ``<3>`` stands for up to three words of the same sentence, but
    not for "today" or "now", behind which something else is spoken of.
    """
    some = r"(?:(?!today |now )\\w+ ){0,\1}"
    lines = [re.sub(r"<(\d+)> ", some, phrase) for phrase in phrases_of(phrases)]
    return re.compile(rf" (?:{'|'.join(lines)}) ")
