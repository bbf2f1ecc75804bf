"""Demands found in names, summaries and cues.

Words by which a name, a summary or a cue asks for a demand, by language. Only what leaves little doubt is
listed: a word too many is a false warning on every cue that has it."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import replace

from sitegen.model import Exercise
from sitegen.study.forms import Form, FormKey
from sitegen.vocabulary import UNTOLD

_REACH = 5
"""How many words before a demand may deny it: ``do not let the feet jump``."""

_DOWN = r"(?:down )?(?:on|to) the (?:floor|mat|ground)"  # where one gets down to
# How one lies; "lie down" alone is as often about a rest.
_LYING = r"(?:down|flat|face down|face up|on (?:your|the) (?:back|belly|stomach|front))"
# What is picked up: a hand that is lifted is no load.
_HELD = (
    r"(?:it|them|(?:your |the |both |an? |one |two )?(?:full |heavy |loaded |filled )?"
    r"(?:carriers?|tins?|backpack|bags?|weights?|load|buckets?|bottles?|box|crate|dumb-?bells?|kettle-?bells?))"
)

DEMAND_WORDS: dict[str, dict[str, str]] = {
    "en": {
        "jumping": r"jump\w*|hop(?:s|ping|ped)?|leap\w*|skipping|burpees?|(?:run|running) on the spot",
        "arms overhead": r"overhead|(?:above|over) (?:your |the )?head|beside (?:your |the )?ears",
        "kneeling": r"kneel\w*|all fours|hands and knees",
        "getting to the floor": rf"(?:lie|lying|sit|sitting|get) {_DOWN}|all fours|hands and knees",
        "deep knee bend": r"deep squat|squat deep|below parallel|(?:seat|hips?) to (?:the |your )?heels",
        "balance on one leg": r"(?:stand|balance|stay|hop)\w* on one (?:leg|foot)|one-legged",
        "rounding the spine": r"round(?:s|ing)? (?:your |the )?(?:upper |lower )?(?:back|spine)",
        "sustained bending": r"stay (?:bent|folded)",
        "grip": r"grip\w*|grasp\w*|clench\w*",
        "weight on the wrists": r"weight on(?:to)? (?:your |the |both )?(?:hands|palms|wrists)",
        "lying flat": rf"(?:lie|lying) {_LYING}",
        "straining": r"strain\w*|hold(?:s|ing)? (?:your|the) breath|as hard as you can|all-out",
        "standing": r"stand(?:s|ing)? (?:up|tall|upright)|(?:while|when) standing",
        "speed": r"as fast as you can|explosive\w*|explode|sprint\w*",
        "stairs and steps": r"(?:up|down|climb\w*) (?:the |each |every )?stairs?|onto the (?:step|stair)",
        "lifting from the floor": rf"(?:lift|pick|take)\w* {_HELD} (?:up )?(?:from|off) the (?:floor|ground)",
        "head low": r"(?:let|leave) (?:your |the )?head hang",
        "leaning on the arms": r"lean\w* on(?:to)? (?:your |the |both )?(?:hands|palms|fists|forearms|arms)",
    }
}
"""Regular expressions of whole words, by demand; demands that no plain word tells are left out."""

DENIALS = {
    "en": r"no|not|never|don['’]t|without|instead of|rather than|avoid|nothing|nor|than|before|"
    r"as if|like|imagine"
}
"""Words shortly before a demand that take it back."""


def reader_for(language: str) -> "DemandReader | None":
    """Finds demands in texts of a language; None for one without a list of such words."""
    language = language.split("-")[0]
    words = DEMAND_WORDS.get(language)
    return DemandReader(words, DENIALS[language]) if words is not None else None


class DemandReader:
    """Finds demands in the words of a text."""

    def __init__(self, words: dict[str, str], denials: str) -> None:
        self._words = {demand: re.compile(rf"\b(?:{pattern})\b", re.I) for demand, pattern in words.items()}
        self._any = re.compile("|".join(f"(?:{pattern})" for pattern in words.values()), re.I)
        self._denial = re.compile(rf"\b(?:{denials})\b", re.I)

    def demands(self, text: str) -> Iterator[tuple[str, str]]:
        """Demands that the text speaks of and does not deny, with its words for them."""
        return self._said(text, denied=False) if self._any.search(text) else iter(())

    def denied(self, text: str) -> Iterator[tuple[str, str]]:
        """Demands that the text speaks of and takes back, with its words for them."""
        return self._said(text, denied=True)

    def _said(self, text: str, *, denied: bool) -> Iterator[tuple[str, str]]:
        for demand, pattern in self._words.items():
            for match in pattern.finditer(text):
                # What another sentence or clause denies is not denied here.
                clause = re.split(r"[.;:!?]", text[: match.start()])[-1]
                if bool(self._denial.search(" ".join(clause.split()[-_REACH:]))) is denied:
                    yield demand, match[0]
                    break


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


def _only_said(reader: DemandReader, form: Form, summary: str = "") -> tuple[str, ...]:
    if UNTOLD in form.demands:  # nobody with a need is given it anyway
        return ()
    texts = (form.name, summary, *form.cues)
    told = dict.fromkeys(demand for text in texts for demand, _ in reader.demands(text))
    return tuple(demand for demand in told if demand not in form.demands)
