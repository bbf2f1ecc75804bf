"""Demands found in names, summaries and cues.

Words by which a name, a summary or a cue asks for a demand, by language. Only what leaves little doubt is
listed: a word too many is a false warning on every cue that has it, and keeps the form from people who could
do it. The lists are ours alone, tried on the demo and one other library (common practice, no source).
"""

import re
from collections.abc import Iterator, Mapping
from functools import lru_cache
from typing import NamedTuple

from sitegen.vocabulary import MOVING_LEGS, SHOWN_BY_POSES

_REACH = 5
"""How many words before a demand may deny it: ``do not let the feet jump``."""

_TEXTS = 16_384
"""Texts that are remembered: those of four hundred exercises with their variants, and room for edits."""

_DOWN = r"(?:down )?(?:on|to) the (?:floor|mat|ground)"  # where one gets down to
# How one lies; "lie down" alone is as often about a rest.
_LYING = r"(?:down|flat|face down|face up|on (?:your|the) (?:back|belly|stomach|front))"
# What is picked up: a hand that is lifted is no load.
_HELD = (
    r"(?:it|them|(?:your |the |both |an? |one |two )?(?:full |heavy |loaded |filled )?"
    r"(?:carriers?|tins?|backpack|bags?|weights?|load|buckets?|bottles?|box|crate|dumb-?bells?|kettle-?bells?))"
)
_LOAD = (
    r"(?:your |the |both |an? |one |two )?(?:(?:full|heavy|loaded|filled) )?"
    r"(?:carriers?|backpack|bags?|suitcase|weights?|load|buckets?|jugs?|crate|dumb-?bells?|kettle-?bells?)"
)
# "Stands fast" is about a chair, "how fast" and "too fast" are about keeping a pace.
_FAST = (
    r"(?<!stand )(?<!stands )(?<!hold )(?<!holds )(?<!how )(?<!however )(?<!too )"
    r"(?:fast(?! (?:food|asleep))|quick(?:ly)?(?! (?:check|look|rest|break|breather|pause|sip|warm|way)))"
)

DEMAND_WORDS: dict[str, dict[str, str]] = {
    "en": {
        "jumping": r"jump\w*|hop(?:s|ping|ped)?|leap\w*|skipping|burpees?|(?:run|running) on the spot",
        "arms overhead": r"overhead|(?:above|over) (?:your |the )?head|beside (?:your |the )?ears",
        "kneeling": r"kneel\w*|all fours|hands and knees",
        "getting to the floor": rf"(?:lie|lying|sit|sitting|get) {_DOWN}|all fours|hands and knees|"
        r"(?:on|off) (?:the|your) mat",
        "deep knee bend": r"deep squat|squat deep|below parallel|(?:seat|hips?) to (?:the |your )?heels|"
        r"thighs? (?:is |are )?(?:level|parallel)|knees? (?:at|to|bent to) (?:90|ninety)",
        "balance on one leg": r"(?:stand|balance|stay|hop)\w* on one (?:leg|foot)|one-legged|"
        rf"walk(?:s|ing)? (?:\w+ ){{0,4}}with {_LOAD}",
        "rounding the spine": r"round(?:s|ing)? (?:your |the )?(?:upper |lower )?(?:back|spine)",
        "sustained bending": r"stay (?:bent|folded)|bent[- ]over|bend(?:ing)? (?:over|forwards?)",
        "grip": r"grip\w*|grasp\w*|clench\w*",
        "weight on the wrists": r"weight on(?:to)? (?:your |the |both )?(?:hands|palms|wrists)",
        "lying flat": rf"(?:lie|lying) {_LYING}",
        "straining": r"strain\w*|hold(?:s|ing)? (?:your|the|a|one) (?:deep )?breath|"
        r"as hard as you can|all-out",
        "standing": r"stand(?:s|ing)? (?:up|tall|upright)|(?:while|when) standing",
        "speed": rf"as fast as you can|explosive\w*|explode|sprint\w*|{_FAST}",
        "stairs and steps": r"(?:up|down|climb\w*) (?:\w+ ){0,3}stairs?|onto (?:the|a) (?:step|stair|box)",
        "lifting from the floor": rf"(?:lift|pick|take)\w* {_HELD} (?:up )?(?:from|off) the (?:floor|ground)",
        "head low": r"(?:let|leave) (?:your |the )?head hang",
        "leaning on the arms": r"lean\w* on(?:to)? (?:your |the |both )?(?:hands|palms|fists|forearms|arms)",
    }
}
"""Regular expressions of whole words, by demand; demands that no plain word tells are left out."""


class TitleWords(NamedTuple):
    """Words that tell of a demand only in a name or summary, unless others stand there too."""

    words: str
    unless: str


_NO_WORDS = r"(?!)"
_SEATED = r"seated|sitting|wheelchair|lying|kneeling"
_ON_HANDS = r"dips?|(?:push|press)[- ]?ups?|burpees?|mountain climbers?|(?<!to a )(?<!from a )planks?"
_NOT_ON_HANDS = r"(?:hip|toe) dips?|punch\w*"
_RUNS = r"runs?|running|jogs?|jogging"
_NOT_FAST = r"slow\w*|walk\w*"
_CARRY = r"carry|carries|farmer['’]?s? walks?"

TITLE_WORDS: dict[str, dict[str, TitleWords]] = {
    "en": {
        # Above the level thigh a squat is none of the deep ones.
        "deep knee bend": TitleWords(
            r"(?<!for )(?<!for a )(?<!for the )squat(?:s|ting)?",
            r"(?<!and a )half|quarter|mini|partial|partly|high|higher|raised[- ]seat|shallow|small|"
            r"seated|sitting|wheelchair|(?:to|onto|from) \w+ cushions?",
        ),
        # Large muscles that hold hard for long raise the blood pressure (American College of Sports Medicine,
        # guidelines on exercise with hypertension, from memory), and most people hold their breath with them.
        "straining": TitleWords(
            r"(?:wall|ski)[- ]sits?|(?<!to a )(?<!from a )planks?|isometrics?|hollow (?:body )?holds?|"
            r"[lv][- ]sits?|(?:dead|bent[- ]arm) hangs?|(?:squat|lunge|bridge|push[- ]up|superman) holds?|"
            r"(?<!hip )(?<!toe )(?<!and )dips?",
            r"short|half|high|higher|easy|light|gentle|seated|sitting|wheelchair|counter|knees?|wall planks?|"
            r"(?<!sit )(?:at|on|against) (?:the|a) (?:wall|table|worktop|sofa)",
        ),
        # Whoever walks with a load balances it, and holds it by the fingers unless it lies on arms or back.
        "balance on one leg": TitleWords(
            _CARRY, rf"{_SEATED}|on the spot|standing still|holds?|counter|rail|holding"
        ),
        "grip": TitleWords(_CARRY, r"hug\w*|bear|forearms?|trays?|worn|shoulders?|backpack|rucksack"),
        "standing": TitleWords(_CARRY, _SEATED),
        # Bending the spine breaks thin bones (Sinaki and Mikkelsen 1984, Archives of Physical Medicine and
        # Rehabilitation 65, from memory).
        "rounding the spine": TitleWords(
            r"crunch\w*|curl[- ]?ups?|sit[- ]ups?|roll[- ](?:ups?|downs?)|curls? (?:the|your) shoulders",
            r"biceps?|hamstrings?",
        ),
        "lying flat": TitleWords(
            r"crunch\w*|curl[- ]ups?|sit[- ]ups?|bridges?|hip (?:raises?|thrusts?|lifts?)|floor press\w*|"
            r"dead bugs?|supine|prone",
            r"stand\w*|seated|sitting|upright|wall|wheelchair",
        ),
        "leaning on the arms": TitleWords(_ON_HANDS, _NOT_ON_HANDS),
        "shoulder load": TitleWords(_ON_HANDS, _NOT_ON_HANDS),
        "weight on the wrists": TitleWords(_ON_HANDS, rf"{_NOT_ON_HANDS}|forearms?|fists?|elbows?|planks?"),
        "twisting under load": TitleWords(
            r"windmills?|(?:wood)?chops?|twists?|twisting|swing\w* (?:\w+ ){0,3}side to side",
            r"stretch\w*|open\w*|empty",
        ),
        "jumping": TitleWords(_RUNS, _NOT_FAST),
        "speed": TitleWords(_RUNS, _NOT_FAST),
        MOVING_LEGS: TitleWords(
            r"(?:straighten|lift|raise|kick|bend|extend|slide|swing|lower|stretch)\w* (?:out )?"
            r"(?:one|a|each|your|the|both|either) (?:legs?|knees?|foot|feet|heels?|ankles?|toes)|"
            r"(?:leg|knee|heel|toe|calf|ankle) (?:lifts?|raises?|extensions?|curls?|slides?|taps?|press\w*)",
            _NO_WORDS,
        ),
    }
}
"""Regular expressions of whole words, by demand. Of those that poses decide, poses are asked instead."""

_NOBODY_STANDS = re.compile(rf"\b(?:{_SEATED})\b", re.I)

DENIALS = {
    "en": r"no|not|never|don['’]t|without|instead of|rather than|avoid|nothing|nor|than|before|"
    r"as if|like|imagine"
}
"""Words shortly before a demand that take it back."""


@lru_cache
def reader_for(language: str) -> "DemandReader":
    """Finds demands in texts of a language; none in one without a list of such words."""
    language = language.split("-")[0]
    return DemandReader(
        DEMAND_WORDS.get(language, {}), DENIALS.get(language, _NO_WORDS), TITLE_WORDS.get(language, {})
    )


class DemandReader:
    """Finds demands in the words of a text."""

    def __init__(self, words: dict[str, str], denials: str, title_words: dict[str, TitleWords]) -> None:
        self._words = _whole_words(words)
        self._title_words = _whole_words({demand: title.words for demand, title in title_words.items()})
        self._unless = _whole_words({demand: title.unless for demand, title in title_words.items()})
        every = [*words.values(), *(title.words for title in title_words.values()), _NO_WORDS]
        self._any = re.compile(rf"\b(?:{'|'.join(f'(?:{pattern})' for pattern in every)})\b", re.I)
        """A quick look: most texts tell of no demand."""
        self._denial = re.compile(rf"\b(?:{denials})\b", re.I)
        # The same few thousand texts are read again with every change of the library.
        self._told = lru_cache(_TEXTS)(self._look)

    def demands(self, text: str) -> tuple[tuple[str, str], ...]:
        """Demands that the text speaks of and does not deny, with its words for them."""
        return self._told(text, is_title=False)

    def in_title(self, text: str, *, posed: bool = False) -> tuple[tuple[str, str], ...]:
        """Demands that a name or a summary speaks of: a squat is a deep one, unless it says otherwise.

        ``posed``: there are poses, which show better than a name how deep a squat is.
        """
        told = self._told(text, is_title=True)
        if not posed:
            return told
        plain = self.demands(text)
        return tuple(one for one in told if one in plain or one[0] not in SHOWN_BY_POSES)

    def _look(self, text: str, *, is_title: bool) -> tuple[tuple[str, str], ...]:
        if not self._any.search(text):
            return ()
        told = tuple(self._said(self._words, text, denied=False))
        if is_title:
            of_title = self._said(self._title_words, text, denied=False)
            told += tuple(one for one in of_title if not self._unless[one[0]].search(text))
        return told

    def denied(self, text: str) -> Iterator[tuple[str, str]]:
        """Demands that the text speaks of and takes back, with its words for them."""
        return self._said(self._words, text, denied=True)

    def _said(
        self, words: Mapping[str, re.Pattern[str]], text: str, *, denied: bool
    ) -> Iterator[tuple[str, str]]:
        for demand, pattern in words.items():
            for match in pattern.finditer(text):
                # What another sentence or clause denies is not denied here.
                clause = re.split(r"[.;:!?]", text[: match.start()])[-1]
                if bool(self._denial.search(" ".join(clause.split()[-_REACH:]))) is denied:
                    yield demand, match[0]
                    break


def nobody_stands(text: str) -> bool:
    """Whether a name or summary says that it is done without standing."""
    return bool(_NOBODY_STANDS.search(text))


def _whole_words(words: Mapping[str, str]) -> dict[str, re.Pattern[str]]:
    return {demand: re.compile(rf"\b(?:{pattern})\b", re.I) for demand, pattern in words.items()}
