"""What the sheets' script needs to fit a session to somebody's needs before it is printed."""

from functools import cached_property
from typing import Any, TypeAlias

from markupsafe import Markup

from sitegen.model import Block, Episode, Fault, Item
from sitegen.pages.adaptation import Adaptation
from sitegen.pages.episode.kit import hands_of
from sitegen.pages.rotation import RotationWords
from sitegen.pages.scriptdata import script_json, to_json
from sitegen.pages.site import Site
from sitegen.reading.markdown import inline_html
from sitegen.study.forms import Form, shown_form
from sitegen.study.rotation import LEFT
from sitegen.study.span import Span
from sitegen.study.suitability import Version
from sitegen.study.timing import item_sets

_Turns: TypeAlias = tuple[Span, str]
"""Sets of an item, and the hand that begins with the heavier load."""


class PersonalData:
    """Makes the data of one site's sheets; items that are alike share theirs."""

    def __init__(self, site: Site, adaptation: Adaptation) -> None:
        self.site = site
        self._adaptation = adaptation
        self._rotation = RotationWords(site.theme.strings, site.phrases)
        self._json: dict[tuple[Any, ...], str] = {}

    def session(self, episode: Episode) -> Markup:
        """``{"items": [item, …], "kit": {id: {…}}, "words": {…}}`` for the block ``sheet-data``.

        Items stand in the order of the sheet; ``Needs.choose`` picks a form of one.
        """
        kit = self._adaptation.suitability.kit_at_hand(episode)
        hands = hands_of(self.site, episode)
        items = (
            self._item_json(block, item, (sets, hands.get((index, place), LEFT)), kit)
            for index, block in enumerate(episode.blocks)
            for place, (item, sets) in enumerate(
                zip(block.items, item_sets(self.site.details, self.site.forms, block), strict=True)
            )
        )
        return Markup(f'{{"items":[{",".join(items)}],"kit":{self._kit},"words":{self._words}}}')

    @cached_property
    def _kit(self) -> Markup:
        pieces = self.site.details.kit.values()
        return script_json({piece.id: {"name": piece.name, "or": piece.stand_ins} for piece in pieces})

    @cached_property
    def _words(self) -> Markup:
        words = self.site.theme.strings.sheet
        names = (
            "adapted",
            "gap",
            "instead_of",
            "do",
            "avoid",
            "fix",
            "left",
            "right",
            "or",
            "comma",
            "no_kit",
        )
        chosen = {name: words[name] for name in names}
        return script_json(chosen | {"plan": self.site.theme.strings.rotation.label})

    def _item_json(self, block: Block, item: Item, turns: _Turns, kit: frozenset[str]) -> str:
        # Two sessions share an item's data where they have the same of the kit that matters for it.
        at_hand = kit & self._adaptation.kit_that_matters(item)
        own = tuple(item.versions.items())
        key = (
            item.exercise,
            item.variant,
            item.dose,
            item.load,
            block.work,
            block.format,
            turns,
            own,
            at_hand,
        )
        known = self._json.get(key)
        if known is None:
            known = self._json[key] = self._make(block, item, turns, kit)
        return known

    def _make(self, block: Block, item: Item, turns: _Turns, kit: frozenset[str]) -> str:
        kept, own = self._adaptation.choices(item, kit)
        filmed, *others = kept
        forms = [{"demands": filmed.form.demands, "kit": filmed.form.kit}]
        forms += [self._form(block, item, turns, version) for version in others]
        return to_json({"forms": forms, "own": own})

    def _own_fault(self, form: Form) -> Fault | None:
        """A fault written for this very form: one taken over may speak of what is no longer done."""
        taken_over = () if form.link or form.made_from is None else self.site.forms[form.made_from].faults
        return next((fault for fault in form.faults if fault not in taken_over), None)

    def _form(self, block: Block, item: Item, turns: _Turns, version: Version) -> dict[str, Any]:
        """What stands on the sheet instead; what is empty is left out."""
        form, phrases = version.form, self.site.phrases
        put_away = set(shown_form(self.site.forms, item).kit) - set(form.kit)
        plan = "" if put_away else self._rotation.plan(block, item, *turns, version.dose)
        fault = self._own_fault(form)
        data = {
            "name": form.name,
            "dose": phrases.dose(version.dose) or (phrases.duration(block.work) if block.work else ""),
            "demands": form.demands,
            "cue": inline_html(form.cues[0]) if form.cues else "",
            "avoid": inline_html(fault.see) if fault else "",
            "fix": inline_html(fault.fix) if fault else "",
            "kit": form.kit,
            "plan": plan,
            "sides": version.dose.sides if version.dose else 1,
            "bare": bool(put_away),
        }
        return {name: value for name, value in data.items() if value or name == "demands"}
