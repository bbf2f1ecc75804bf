"""What the sheets' script needs to fit a session to somebody's needs before it is printed."""

from functools import cached_property

from markupsafe import Markup

from sitegen.model import Episode
from sitegen.pages.adaptation import Adaptation, Fields, Place, page_of
from sitegen.pages.cautions import short_caution
from sitegen.pages.scriptdata import script_json, to_json
from sitegen.pages.site import Site
from sitegen.reading.markdown import inline_html
from sitegen.study.adapted import is_by_the_clock
from sitegen.study.version import Version
from sitegen.system.reads import Shared


class PersonalData:
    """Makes the data of one site's sheets; items that are alike share theirs."""

    def __init__(self, site: Site, adaptation: Adaptation) -> None:
        self.site = site
        self._adaptation = adaptation
        self._json: Shared[str] = Shared()

    def session(self, episode: Episode) -> Markup:
        """``{"blocks": [[item, …], …], "clocked": [by the clock or not, …], "kit": {id: {…}}, "words": {…}}``
        for the block ``sheet-data``.

        Items stand in the order of the sheet; ``Needs.choose`` picks the forms of a block.
        """
        blocks = (
            f"[{','.join(map(self._item_json, places))}]" for places in self._adaptation.places(episode)
        )
        clocked = to_json([is_by_the_clock(block) for block in episode.blocks])
        return Markup(
            f'{{"blocks":[{",".join(blocks)}],"clocked":{clocked},"kit":{self._kit},"words":{self._words}}}'
        )

    @cached_property
    def _kit(self) -> Markup:
        pieces = self.site.details.kit.values()
        return script_json({piece.id: {"name": piece.name, "or": piece.stand_ins} for piece in pieces})

    @cached_property
    def _words(self) -> Markup:
        words = self.site.theme.strings.sheet
        names = (
            *("adapted", "gap", "instead_of", "adjusted", "avoid", "fix", "item_care"),
            *("left", "right", "or", "comma", "no_kit"),
        )
        chosen = {name: words[name] for name in names}
        strings = self.site.theme.strings
        return script_json(
            chosen
            | {
                "plan": strings.rotation.label,
                "changes": strings.version.changes,
                "again": strings.version.lost.again,
                "paced": strings.adapted.paced,
            }
        )

    def _item_json(self, place: Place) -> str:
        data = self._adaptation.item_data
        return self._json.get(place.key, lambda: to_json(data(place, self._shown, self._described)))

    def _shown(self, place: Place, version: Version) -> Fields:
        """What a limit may change: ``facts`` are tempo and effort."""
        words, strings = self._adaptation.words, self.site.theme.strings.sheet
        load, tempo = words.short_load(version), words.tempo(version)
        plan = self._adaptation.plan(place, version)
        facts = (strings.tempo.format(tempo=tempo) if tempo else "", words.effort(version))
        return {
            "dose": words.dose(place.block, version),
            "load": strings.holding.format(load=load) if load else "",
            "facts": list(filter(None, facts)),
            "plan": plan,
            "sides": version.dose.sides if version.dose else 1,
        }

    def _described(self, place: Place, version: Version) -> Fields:
        """The rest of what stands on the sheet."""
        form = version.form
        faults = version.faults(self.site.forms)
        fault = faults[0] if faults else None
        return {
            "name": form.name,
            "page": page_of(form.key),
            "cue": inline_html(form.cues[0]) if form.cues else "",
            "avoid": inline_html(fault.see) if fault else "",
            "fix": inline_html(fault.fix) if fault else "",
            "care": " ".join(map(short_caution, form.cautions)),
            "kit": form.kit,
            "said": self._adaptation.words.said(place.block, version),
        }
