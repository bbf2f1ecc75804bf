"""Warnings about names, summaries and cues that ask for what the exercise does not declare."""

import re
from collections.abc import Iterator

from sitegen.checks.demand_words import DEMAND_WORDS, DENIALS
from sitegen.checks.material import Material
from sitegen.model import Exercise, Series, Variant
from sitegen.problems import Problem, found
from sitegen.study.forms import Form, FormKey
from sitegen.vocabulary import DEMANDS, UNTOLD

_REACH = 5
"""How many words before a demand may deny it: ``do not let the feet jump``."""


def reader_for(series: Series) -> "CueReader | None":
    """Finds demands in texts of the series; None for a language without a list of such words."""
    language = series.details.language.split("-")[0]
    words = DEMAND_WORDS.get(language)
    return CueReader(words, DENIALS[language]) if words is not None else None


def check_words(material: Material) -> Iterator[Problem]:
    """A name, summary or cue that says jump, kneel or overhead in a form that does not declare it.

    What declares nothing at all is told elsewhere (``untold_demands``).
    """
    reader = reader_for(material.series)
    if reader is None:
        return
    forms = material.forms
    for exercise in material.series.exercises.values():
        yield from _in_form(reader, forms[FormKey(exercise.id)], exercise)
        for variant in exercise.variants:
            if variant.exercise is None:
                yield from _in_form(reader, forms[FormKey(exercise.id, variant.id)], variant)


def _in_form(reader: "CueReader", form: Form, owner: Exercise | Variant) -> Iterator[Problem]:
    if UNTOLD in form.demands:
        return
    titles = {"name": owner.name, "summary": owner.summary if isinstance(owner, Exercise) else ""}
    told = {demand for cue in form.cues for demand, _ in reader.demands(cue)}
    for key, text in titles.items():
        for demand, word in reader.demands(text):
            if demand not in form.demands and demand not in told:
                told.add(demand)
                message = f"the {key} says {word!r}, but {form.name!r} does not ask for {demand}"
                advice = f"add {demand} to its demands ({DEMANDS[demand]}), or word the {key} in another way"
                yield found("warning", "undeclared-demand", owner.location.at(key), message, advice)
    for index, cue in enumerate(form.cues):
        for demand, word in reader.demands(cue):
            if demand not in form.demands:
                yield _problem(form, owner, index, demand, word)


def _problem(form: Form, owner: Exercise | Variant, index: int, demand: str, word: str) -> Problem:
    if owner.cues:
        location, message = (
            owner.location.at("cues", index),
            f"the cue says {word!r}, but {form.name!r} does not ask for {demand}",
        )
        advice = f"add {demand} to its demands ({DEMANDS[demand]}), or word the cue in another way"
    else:
        location = owner.location
        message = f"{form.name!r} takes over the cue {form.cues[index]!r}, but does not ask for {demand}"
        advice = "give this variant cues of its own, or correct its demands"
    return found("warning", "undeclared-demand", location, message, advice)


class CueReader:
    """Finds demands in the words of a cue."""

    def __init__(self, words: dict[str, str], denials: str) -> None:
        self._words = {demand: re.compile(rf"\b(?:{pattern})\b", re.I) for demand, pattern in words.items()}
        self._any = re.compile("|".join(f"(?:{pattern})" for pattern in words.values()), re.I)
        self._denial = re.compile(rf"\b(?:{denials})\b", re.I)

    def demands(self, cue: str) -> Iterator[tuple[str, str]]:
        """Demands that the cue speaks of and does not deny, with its words for them."""
        return self._said(cue, denied=False) if self._any.search(cue) else iter(())

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
