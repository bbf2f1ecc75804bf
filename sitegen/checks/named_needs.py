"""Warnings about a need that is named in so many words, by a caution or a note, and not heeded by the choice.

A need chooses by demands and limits. Where a text says whom a form is for, or who had better leave it, the
text and the choice must not say two things.
"""

import re
from collections.abc import Iterable, Iterator

from sitegen.checks.material import Material
from sitegen.model import Block, Caution, Item
from sitegen.problems import Problem, found
from sitegen.study.forms import Form, FormKey, shown_form
from sitegen.study.named_need import NamedNeed, beginning, without_forms
from sitegen.study.version import Version

_OTHERS = re.compile(r"(?:^|[.:;!?]\s+)others\b|\bevery(?:body|one)\s+else\b", re.I)
"""Speaks to everybody who is not named, in the words of English cautions."""


def check_named_needs(material: Material) -> Iterator[Problem]:
    """A caution that names a need which keeps the form, or sends it to another form than the choice does, and
    a note that names a need which gets another form."""
    needs = [NamedNeed(need) for need in material.series.details.needs.values()]
    seen: set[tuple[object, ...]] = set()
    survey = _Survey(material)
    for number, block, item, need, version in survey.choices(needs):
        for key, problem in survey.warnings(number, block, item, need, version):
            if key not in seen:
                seen.add(key)
                yield problem


def check_meant_forms(material: Material) -> Iterator[Problem]:
    """A form that is written for a need and asks for what the need avoids: it is never given."""
    forms, suitability = material.forms, material.suitability
    for exercise in material.series.exercises.values():
        for variant in exercise.variants:
            form = forms[FormKey(exercise.id, variant.id)]
            for index, need in enumerate(variant.meant_for):
                asked = [demand for demand in form.demands if demand in suitability.avoided([need])]
                if asked:
                    message = (
                        f"{form.name!r} is for {need!r}, but asks for {', '.join(asked)}, which it avoids"
                    )
                    advice = "correct its demands, or take the need out: the form is never given for it"
                    yield found("warning", "meant-unfit", variant.location.at("for", index), message, advice)


_Once = tuple[tuple[object, ...], Problem]
"""A warning, after what it is told once for."""


class _Survey:
    """What the sessions choose, against what the texts say."""

    def __init__(self, material: Material) -> None:
        self._material = material
        self._forms, self._suitability = material.forms, material.suitability

    def choices(self, needs: Iterable[NamedNeed]) -> Iterator[tuple[int, Block, Item, NamedNeed, Version]]:
        """Every item with its version for every need; gaps are told elsewhere."""
        for episode in self._material.series.episodes:
            kit = self._suitability.kit_at_hand(episode)
            for need in needs:
                for block in episode.blocks:
                    versions = self._suitability.block(block, (need.id,), kit)
                    for item, version in zip(block.items, versions, strict=True):
                        if version is not None:
                            yield episode.number, block, item, need, version

    def warnings(
        self, number: int, block: Block, item: Item, need: NamedNeed, version: Version
    ) -> Iterator[_Once]:
        """What is wrong with one choice, each with what it is told once for."""
        form = version.form
        for caution in form.cautions:
            if word := need.word_in(caution.text, caution.short):
                message = (
                    f"a caution of {form.name!r} speaks of {word!r}, and {need.name!r} is given this form "
                    f"(episode {number})"
                )
                advice = (
                    f"write a form with for: [{need.id}], let the need avoid what the caution is about, or "
                    "leave the word out where this form already heeds it"
                )
                yield self._told("named-in-caution", form, message, advice, need.id)
        yield from self._sent_elsewhere(number, item, need, version)
        if not version.meant and not version.own_choice and not need.word_in(form.note):
            for other in self._better(block, item, need, version):
                message = (
                    f"the note of {other.name!r} speaks of {need.word_in(other.note)!r}, but {need.name!r} "
                    f"is given {form.name!r} (episode {number})"
                )
                advice = f"write for: [{need.id}] in it, or word the note in another way"
                yield self._told("named-in-note", other, message, advice, need.id)

    def _sent_elsewhere(self, number: int, item: Item, need: NamedNeed, version: Version) -> Iterator[_Once]:
        """Cautions of the form filmed that name the need and another form than the one it is given."""
        filmed, given = shown_form(self._forms, item), version.form
        if given.key == filmed.key:
            return
        exercise = self._material.series.exercises[filmed.key.exercise]
        others = [self._forms[FormKey(exercise.id, variant.id)] for variant in exercise.variants]
        for caution in filmed.cautions:
            told = (caution.short or caution.text).lower()
            if _OTHERS.search(caution.text) or _OTHERS.search(caution.short):
                yield from self._among_the_others(number, filmed, need, caution)
            named = [one.name for one in others if beginning(one.name) in told]
            if named and need.word_in(without_forms(told, named)) and beginning(given.name) not in told:
                message = (
                    f"a caution of {filmed.name!r} sends {need.name!r} to {named[0]!r}, but the choice is "
                    f"{given.name!r} (episode {number})"
                )
                advice = (
                    f"name the form that is given, write for: [{need.id}] in the one that the caution means, "
                    f"or choose it in the episode with versions: {{{need.id}: …}}"
                )
                yield self._told("caution-other-form", filmed, message, advice, need.id)

    def _among_the_others(
        self, number: int, filmed: Form, need: NamedNeed, caution: Caution
    ) -> Iterator[_Once]:
        """A caution that speaks to everybody whom it does not name, read by a need that has another form."""
        if need.word_in(caution.text, caution.short):
            return
        message = (
            f"a caution of {filmed.name!r} tells the others what to do, and {need.name!r}, whom it does not "
            f"name, is given another form (episode {number})"
        )
        advice = "say it to nobody in particular: 'Stop before it pinches.'"
        # Once for the caution: whom it leaves out is most of the needs.
        yield self._told("caution-others", filmed, message, advice, caution.text)

    def _told(self, check: str, form: Form, message: str, advice: str, once: str) -> _Once:
        """A warning at a form; of one about the same need, or caution, the first is told."""
        location = self._material.location_of(form)
        return (check, form.key, once), found("warning", check, location, message, advice)

    def _better(self, block: Block, item: Item, need: NamedNeed, version: Version) -> Iterator[Form]:
        """Forms of the same exercise that name the need, would fit and were passed over."""
        for one in self._suitability.fitting(block, item, (need.id,), frozenset()):
            form = one.form
            if (
                form.key != version.form.key
                and form.key.exercise == item.exercise
                and need.word_in(form.note)
            ):
                yield form
