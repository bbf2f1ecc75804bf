"""Demands found in names, summaries and cues.

Words by which a name, a summary or a cue asks for a demand, by language. Only what leaves little doubt is
listed: a word too many is a false warning on every cue that has it, and keeps the form from people who could
do it. The lists are ours alone, tried on the demo and one other library (common practice, no source).
"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import replace
from functools import lru_cache

from sitegen.model import Exercise
from sitegen.study.forms import Form, FormKey
from sitegen.vocabulary import UNTOLD

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
        "getting to the floor": rf"(?:lie|lying|sit|sitting|get) {_DOWN}|all fours|hands and knees",
        "deep knee bend": r"deep squat|squat deep|below parallel|(?:seat|hips?) to (?:the |your )?heels",
        "balance on one leg": r"(?:stand|balance|stay|hop)\w* on one (?:leg|foot)|one-legged|"
        rf"walk(?:s|ing)? (?:\w+ )?with {_LOAD}",
        "rounding the spine": r"round(?:s|ing)? (?:your |the )?(?:upper |lower )?(?:back|spine)",
        "sustained bending": r"stay (?:bent|folded)",
        "grip": r"grip\w*|grasp\w*|clench\w*",
        "weight on the wrists": r"weight on(?:to)? (?:your |the |both )?(?:hands|palms|wrists)",
        "lying flat": rf"(?:lie|lying) {_LYING}",
        "straining": r"strain\w*|hold(?:s|ing)? (?:your|the|a|one) (?:deep )?breath|"
        r"as hard as you can|all-out",
        "standing": r"stand(?:s|ing)? (?:up|tall|upright)|(?:while|when) standing",
        "speed": rf"as fast as you can|explosive\w*|explode|sprint\w*|{_FAST}",
        "stairs and steps": r"(?:up|down|climb\w*) (?:the |each |every )?stairs?|onto the (?:step|stair)",
        "lifting from the floor": rf"(?:lift|pick|take)\w* {_HELD} (?:up )?(?:from|off) the (?:floor|ground)",
        "head low": r"(?:let|leave) (?:your |the )?head hang",
        "leaning on the arms": r"lean\w* on(?:to)? (?:your |the |both )?(?:hands|palms|fists|forearms|arms)",
    }
}
"""Regular expressions of whole words, by demand; demands that no plain word tells are left out."""

TITLE_WORDS: dict[str, dict[str, str]] = {
    "en": {"deep knee bend": r"(?<!for )(?<!for a )(?<!for the )squat(?:s|ting)?"}
}
"""Words that name an exercise, and tell of a demand only in its name or summary."""

_NOT_DEEP = re.compile(
    r"\b(?:(?<!and a )half|quarter|mini|partial|partly|high|higher|raised[- ]seat|shallow|small|"
    r"seated|sitting|wheelchair|(?:to|onto|from) \w+ cushions?)\b",
    re.I,
)
"""Words of a name or summary by which a squat stays above the level thigh."""

_SEATED = re.compile(r"\b(?:seated|sitting|wheelchair|lying|kneeling)\b", re.I)
"""Words of a name or summary that tell that nobody stands in it."""

DENIALS = {
    "en": r"no|not|never|don['’]t|without|instead of|rather than|avoid|nothing|nor|than|before|"
    r"as if|like|imagine"
}
"""Words shortly before a demand that take it back."""


@lru_cache
def reader_for(language: str) -> "DemandReader | None":
    """Finds demands in texts of a language; None for one without a list of such words."""
    language = language.split("-")[0]
    words = DEMAND_WORDS.get(language)
    return DemandReader(words, DENIALS[language], TITLE_WORDS[language]) if words is not None else None


class DemandReader:
    """Finds demands in the words of a text."""

    def __init__(self, words: dict[str, str], denials: str, title_words: dict[str, str]) -> None:
        self._words = _whole_words(words)
        self._title_words = _whole_words(title_words)
        together = "|".join(f"(?:{pattern})" for pattern in (*words.values(), *title_words.values()))
        self._any = re.compile(rf"\b(?:{together})\b", re.I)
        """A quick look: most texts tell of no demand."""
        self._denial = re.compile(rf"\b(?:{denials})\b", re.I)
        # The same few thousand texts are read again with every change of the library.
        self._told = lru_cache(_TEXTS)(self._look)

    def demands(self, text: str) -> tuple[tuple[str, str], ...]:
        """Demands that the text speaks of and does not deny, with its words for them."""
        return self._told(text, is_title=False)

    def in_title(self, text: str) -> tuple[tuple[str, str], ...]:
        """Demands that a name or a summary speaks of: a squat is a deep one, unless it says otherwise."""
        return self._told(text, is_title=True)

    def _look(self, text: str, *, is_title: bool) -> tuple[tuple[str, str], ...]:
        if not self._any.search(text):
            return ()
        told = tuple(self._said(self._words, text, denied=False))
        if not is_title or _NOT_DEEP.search(text):
            return told
        return (*told, *self._said(self._title_words, text, denied=False))

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


def _whole_words(words: Mapping[str, str]) -> dict[str, re.Pattern[str]]:
    return {demand: re.compile(rf"\b(?:{pattern})\b", re.I) for demand, pattern in words.items()}


def with_said_demands(exercise: Exercise, forms: Mapping[FormKey, Form], reader: DemandReader) -> Exercise:
    """An exercise with the demands that its words tell and it does not list, in all of its forms."""
    main = _only_said(reader, forms[FormKey(exercise.id)], exercise.summary)
    variants = []
    for variant in exercise.variants:
        form = forms[FormKey(exercise.id, variant.id)]
        said = () if variant.exercise is not None else _only_said(reader, form)
        new = tuple(demand for demand in said if variant.demands is not None or demand not in main)
        variants.append(replace(variant, demands=(*form.demands, *said), said=new) if new else variant)
    if not main and not any(variant.said for variant in variants):
        return exercise
    return replace(exercise, demands=(*exercise.demands, *main), said=main, variants=tuple(variants))


def may_tell_more(exercise: Exercise, reader: DemandReader) -> bool:
    """Whether the words of an exercise may tell more than it declares.

    A quick look that works out no forms, which would cost more than all of the rest of linking a library. In
    doubt it says yes.
    """
    if _tells_more(reader, exercise.demands, exercise.name, exercise.summary, *exercise.cues):
        return True
    for variant in exercise.variants:
        if variant.exercise is None:
            ancestry = tuple(exercise.ancestry(variant.id))
            if any(one.exercise is not None for one in ancestry):
                return True
            demands = next((one.demands for one in ancestry if one.demands is not None), exercise.demands)
            cues = next((one.cues for one in ancestry if one.cues), exercise.cues)
            if _tells_more(reader, demands, variant.name, *cues):
                return True
    return False


def _tells_more(reader: DemandReader, demands: tuple[str, ...], *texts: str) -> bool:
    told = {demand for text in texts for demand, _ in reader.in_title(text)}
    return not told.issubset(demands) or ("jumping" in demands and "standing" not in demands)


def _only_said(reader: DemandReader, form: Form, summary: str = "") -> tuple[str, ...]:
    if UNTOLD in form.demands:  # nobody with a need is given it anyway
        return ()
    # Poses show how deep a squat is, better than its name does.
    of_title = reader.in_title if form.poses is None else reader.demands
    found = [*of_title(form.name), *of_title(summary)]
    found += [one for cue in form.cues for one in reader.demands(cue)]
    told = dict.fromkeys(demand for demand, _ in found)
    # Who jumps stands, unless poses or words show a seat.
    if (
        "jumping" in (*form.demands, *told)
        and form.poses is None
        and not _SEATED.search(f"{form.name} {summary}")
    ):
        told["standing"] = None
    return tuple(demand for demand in told if demand not in form.demands)
