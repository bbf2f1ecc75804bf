"""The data of one form of an item, for the page of a session: what limits may change, and the rest."""

from dataclasses import replace
from functools import cached_property
from typing import Any, TypeAlias

from sitegen.model import Item
from sitegen.pages.cautions import short_caution
from sitegen.pages.item_places import ItemPlace
from sitegen.pages.load_words import heavy_sets, large_amounts
from sitegen.pages.rotation_words import RotationWords
from sitegen.pages.site import Site
from sitegen.pages.version_words import VersionWords, one_side, timed_seconds
from sitegen.reading.markdown import inline_html
from sitegen.study.adapted import as_item
from sitegen.study.forms import FormKey
from sitegen.study.load import difference
from sitegen.study.timing import set_seconds
from sitegen.study.version import Version

Fields: TypeAlias = dict[str, Any]


class FormData:
    """Data of forms in a reader's words."""

    def __init__(self, site: Site) -> None:
        self.site = site
        self.words = VersionWords(site)

    def shown(self, place: ItemPlace, version: Version) -> Fields:
        """``dose``, ``load``, ``effort`` and ``tempo`` are for reading; ``seconds`` is there for timed doses;
        ``one_side`` is the dose of one side where it is done on both; ``by_set`` has all three of each set
        where sets differ; ``ways`` where the dose is done one way and then the other; ``amounts`` are those
        of the load's parts, the heavier first, for large type, ``set_amounts`` those of each set where
        they differ; ``held`` has for each piece of kit what is in it; ``heavy`` is the plan for an uneven
        load, ``plan`` the same in words; ``secs`` is how long one set takes at most, where some need limits
        the session."""
        words, phrases, heavy = self.words, self.site.phrases, []
        sets = version.load.sets if version.load else ()
        if version.load is not None and difference(version.load):
            heavy = heavy_sets(self.site, place.block, _held(place, version), place.sets, place.first)
        return {
            "dose": words.dose(place.block, version),
            "seconds": timed_seconds(place.block, version.dose),
            "one_side": phrases.dose(one_side(version.dose)),
            "by_set": [
                [phrases.dose(one), phrases.dose(one_side(one)), timed_seconds(place.block, one)]
                for one in (version.dose.sets if version.dose else ())
            ],
            "ways": bool(version.dose and version.dose.ways),
            "load": words.load(version),
            "amounts": large_amounts(self.site, version.load) if version.load else [],
            "set_amounts": [large_amounts(self.site, one) for one in sets],
            "held": words.held(version),
            "heavy": heavy,
            "plan": self.plan(place, version),
            "effort": words.effort(version),
            "tempo": words.tempo(version),
            "secs": self._seconds(place, version) if self._limits_sessions else 0,
        }

    def plan(self, place: ItemPlace, version: Version) -> str:
        """Which hand has the heavier load in which set, in words; empty where the loads weigh the same."""
        if version.load is None or not difference(version.load):
            return ""
        return self._rotation.plan(place.block, _held(place, version), place.sets, place.first, version.dose)

    @cached_property
    def _rotation(self) -> RotationWords:
        return RotationWords(self.site.theme.strings, self.site.phrases)

    @cached_property
    def _limits_sessions(self) -> bool:
        return any(need.limits.session is not None for need in self.site.details.needs.values())

    def _seconds(self, place: ItemPlace, version: Version) -> float:
        item = as_item(place.item, version)
        return set_seconds(self.site.details, self.site.forms, place.block, item).high

    def described(self, place: ItemPlace, version: Version) -> Fields:
        """``pieces`` are ids of kit; ``cautions`` pairs of the full caution as HTML and a short one; the rest
        is for reading and left out of the form as filmed, which stands on the page already."""
        form = version.form
        data: Fields = {
            "name": form.name,
            "page": page_of(form.key),
            "pieces": form.kit,
            "cautions": [(inline_html(one.text), short_caution(one)) for one in form.cautions],
        }
        if not version.steps:
            return data
        return data | {
            "change": self.words.change(version),
            "note": inline_html(form.note),
            "cues": [inline_html(cue) for cue in form.how],
            "kit": [self.site.details.kit[piece].name for piece in version.kit_added],
            "said": self.words.said(place.block, version),
        }


def _held(place: ItemPlace, version: Version) -> Item:
    """The item with the dose and load of a version, as plans for uneven loads are made from."""
    return replace(place.item, dose=version.dose, load=version.load)


def page_of(key: FormKey) -> str:
    """Address of a form below the site's root."""
    anchor = f"#{key.variant}" if key.variant else ""
    return f"exercises/{key.exercise}/index.html{anchor}"
