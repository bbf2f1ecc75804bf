"""What the sheets' script needs to fit a session to somebody's needs before it is printed."""

from functools import cached_property
from itertools import chain

from markupsafe import Markup

from sitegen.model import Block, Episode
from sitegen.pages.cautions import short_caution
from sitegen.pages.exercises.drawing_files import drawing_address, pose_views
from sitegen.pages.form_data import Fields, page_of
from sitegen.pages.item_places import ItemPlace
from sitegen.pages.script_json import script_json, to_json
from sitegen.pages.sheets.views import in_figures
from sitegen.pages.site import Site
from sitegen.pages.views import Views
from sitegen.reading.markdown import inline_html
from sitegen.study.adapted import at_own_pace, is_by_the_clock
from sitegen.study.fetching import in_number
from sitegen.study.version import Version
from sitegen.system.noted_reads import Shared


class PersonalData:
    """Makes the data of one site's sheets; items that are alike share theirs."""

    def __init__(self, site: Site, views: Views) -> None:
        self.site = site
        self._views = views
        self._adaptation = views.adaptation
        self._json: Shared[str] = Shared()

    def session(self, episode: Episode) -> Markup:
        """``{"blocks": [[item, …], …], "paced": [course or null, …], "kit": {id: {…}}, "words": {…}}`` for
        the block ``sheet-data``.

        Items stand in the order of the sheet; ``Needs.choose`` picks the forms of a block. ``paced`` is the
        course of a block for somebody who does nothing against the clock: ``how`` takes the place of the line
        beside its name, ``rounds`` is their number. It is null where the clock drives nothing.
        """
        blocks = (
            f"[{','.join(map(self._item_json, places))}]" for places in self._adaptation.places(episode)
        )
        paced = to_json(list(map(self._paced, episode.blocks)))
        return Markup(
            f'{{"blocks":[{",".join(blocks)}],"paced":{paced},"kit":{self._kit(episode)},"words":{self._words}}}'
        )

    def _paced(self, block: Block) -> Fields | None:
        if not is_by_the_clock(block):
            return None
        course = at_own_pace(self.site.details, self.site.forms, block)
        return {"how": self._views.how(course), "rounds": course.sets.low}

    def drawings(self, episode: Episode) -> str:
        """The files with the drawings of all forms that may stand on the sheet, for who keeps it on a device:
        addresses below the site's root, separated by spaces."""
        places = chain.from_iterable(self._adaptation.places(episode))
        versions = chain.from_iterable(map(self._adaptation.choosable, places))
        addresses = (drawing_address(version.form).partition("#")[0] for version in versions)
        return " ".join(dict.fromkeys(filter(None, addresses)))

    def _kit(self, episode: Episode) -> Markup:
        """Every piece, with how many the session as filmed asks for; a version's load stands in its row."""
        filmed = {piece.id: number for piece, number in self._views.fetched(episode)}
        return script_json(
            {
                piece.id: {"name": in_number(filmed.get(piece.id, 1), piece.name), "or": piece.stand_ins}
                for piece in self.site.details.kit.values()
            }
        )

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
                "chosen": self._adaptation.forms.words.chosen,
                "again": strings.version.lost.again,
                "paced": strings.adapted.paced,
            }
        )

    def _item_json(self, place: ItemPlace) -> str:
        data = self._adaptation.item_data
        return self._json.get(place.key, lambda: to_json(data(place, self._shown, self._described)))

    def _shown(self, place: ItemPlace, version: Version) -> Fields:
        """What a limit may change."""
        words, strings = self._adaptation.forms.words, self.site.theme.strings.sheet
        dose = words.dose(place.block, version)
        load, tempo = words.short_load(version), words.tempo(version)
        plan = self._adaptation.forms.plan(place, version)
        return {
            "dose": dose,
            "amount": in_figures(self.site.phrases, dose, version.dose),
            "load": strings.holding.format(load=load) if load else "",
            "tempo": strings.tempo.format(tempo=tempo) if tempo else "",
            "effort": words.effort(version),
            "plan": plan,
            "sides": version.dose.sides if version.dose else 1,
        }

    def _described(self, place: ItemPlace, version: Version) -> Fields:
        """The rest of what stands on the sheet. ``poses`` names the views of its drawing, ``shows`` says what
        they show."""
        form = version.form
        drawing = self._views.drawings.of(form)
        faults = version.faults(self.site.forms)
        fault = faults[0] if faults else None
        return {
            "name": form.name,
            "page": page_of(form.key),
            "cue": inline_html(form.how[0]) if form.how else "",
            "note": inline_html(form.note),
            "avoid": f"{inline_html(fault.see)}." if fault else "",
            "fix": inline_html(fault.fix) if fault else "",
            "care": " ".join(map(short_caution, form.cautions)),
            "kit": form.kit,
            "poses": pose_views(drawing) if drawing is not None else (),
            "shows": drawing.words if drawing is not None else "",
            "said": self._adaptation.forms.words.said(place.block, version),
        }
