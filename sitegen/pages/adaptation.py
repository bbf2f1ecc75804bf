"""What the scripts need to fit a session to a viewer's needs: the same choice as ``study.suitability``.

For each item its forms are listed from the nearest to the furthest, with the demands that
somebody may have to avoid. The item's version is then the first of the trainer's own choices for
the chosen needs that makes no avoided demand, else the first such form of all, else a gap
(``themes/…/scripts/needs.js`` makes this choice).
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import cached_property
from typing import Any

from markupsafe import Markup

from sitegen.model import Block, Episode, Item
from sitegen.notation import Dose
from sitegen.pages.scriptdata import script_json, to_json
from sitegen.pages.site import Site
from sitegen.reading.markdown import inline_html
from sitegen.study.forms import FormKey, shown_form
from sitegen.study.suitability import Version


class Adaptation:
    """Makes the data of one site; what several episodes share is made once."""

    def __init__(self, site: Site) -> None:
        self.site = site
        self.suitability = site.suitability
        self._json: dict[tuple[Any, ...], str] = {}
        self._kit: dict[FormKey, frozenset[str]] = {}

    @cached_property
    def prefix(self) -> str:
        """Begins every key under which the site's scripts keep something in a browser.

        It is the site's own, for several sites may share one host, and changes only with the address.
        """
        return self.site.details.address.partition("://")[2]

    @cached_property
    def needs_json(self) -> Markup:
        """The series' needs, for the block with the id ``needs-data`` that needs.js reads.

        ``{"prefix": …, "needs": {id: {"name": …, "avoids": [demand, …]}}, "words": {demand: word}}``
        """
        needs = self.site.details.needs
        return script_json(
            {
                "prefix": self.prefix,
                "needs": {need.id: {"name": need.name, "avoids": need.avoids} for need in needs.values()},
                "words": {demand: self.site.phrases.words("demands", demand) for demand in self._avoidable},
            }
        )

    @cached_property
    def _avoidable(self) -> tuple[str, ...]:
        """Demands that some need of the series avoids; the others never decide anything."""
        demands = (demand for need in self.site.details.needs.values() for demand in need.avoids)
        return tuple(dict.fromkeys(demands))

    def items_json(self, episode: Episode) -> Iterator[tuple[str, ...]]:
        """For each block, the data of its items as text (see :meth:`item_data`)."""
        kit = self.suitability.kit_at_hand(episode)
        for block in episode.blocks:
            yield tuple(self._item_json(block, item, kit) for item in block.items)

    def _item_json(self, block: Block, item: Item, kit: frozenset[str]) -> str:
        # Two sessions share an item's data where they have the same of the kit that matters for it.
        at_hand = kit & self.kit_that_matters(item)
        key = (item.exercise, item.variant, item.dose, block.work, tuple(item.versions.items()), at_hand)
        known = self._json.get(key)
        if known is None:
            known = self._json[key] = to_json(self.item_data(block, item, kit))
        return known

    def kit_that_matters(self, item: Item) -> frozenset[str]:
        """Kit that some form within reach needs besides that of the form filmed."""
        key = FormKey(item.exercise, item.variant)
        known = self._kit.get(key)
        if known is None:
            everything = frozenset(self.site.details.kit)
            versions = self.suitability.ranked(item, everything)
            known = self._kit[key] = frozenset(piece for one in versions for piece in one.kit_added)
        return known

    def item_data(self, block: Block, item: Item, kit: frozenset[str]) -> dict[str, Any]:
        """``{"forms": [form, …], "own": {need: index of a form}}``; the first form is the one filmed.

        ``kit`` is the kit at hand. Forms that can never be chosen, because a nearer one asks for
        no more, are left out.
        """
        kept, own = self.choices(item, kit)
        filmed_kit = shown_form(self.site.forms, item).kit
        return {"forms": [self._form(block, version, filmed_kit) for version in kept], "own": own}

    def choices(self, item: Item, kit: frozenset[str]) -> tuple[list[Version], dict[str, int]]:
        """The versions that may be chosen, the nearest first, and the places of the trainer's own by need."""
        ranked = self.suitability.ranked(item, kit)
        chosen_by_need = {need: FormKey(item.exercise, variant) for need, variant in item.versions.items()}
        kept = list(self._choosable(ranked, frozenset(chosen_by_need.values())))
        places = {version.form.key: index for index, version in enumerate(kept)}
        return kept, {need: places[key] for need, key in chosen_by_need.items() if key in places}

    def _choosable(self, ranked: Sequence[Version], own: frozenset[FormKey]) -> Iterator[Version]:
        nearer: list[frozenset[str]] = []
        for version in ranked:
            demands = frozenset(version.form.demands).intersection(self._avoidable)
            if version.form.key in own or not any(asked <= demands for asked in nearer):
                yield version
                nearer.append(demands)

    def _form(self, block: Block, version: Version, filmed_kit: tuple[str, ...]) -> dict[str, Any]:
        """One form; what is empty is left out.

        ``dose`` is for reading; ``seconds`` is there for timed doses; ``one_side`` is the dose of one
        side where it is done on both; ``by_set`` has all three of each set where sets differ; and
        ``without_kit`` where kit of the filmed form, and with it what
        is held, is put away.
        """
        form, phrases = version.form, self.site.phrases
        dose = phrases.dose(version.dose) or (phrases.duration(block.work) if block.work else "")
        data: dict[str, Any] = {
            "name": form.name,
            "page": _page_of(form.key),
            "dose": dose,
            "demands": [demand for demand in form.demands if demand in self._avoidable],
        }
        further: dict[str, Any] = {
            "seconds": timed_seconds(block, version.dose),
            "one_side": phrases.dose(one_side(version.dose)),
            "by_set": [
                [phrases.dose(one), phrases.dose(one_side(one)), timed_seconds(block, one)]
                for one in (version.dose.sets if version.dose else ())
            ],
            "without_kit": bool(set(filmed_kit) - set(form.kit)),
        }
        if not version.as_filmed:
            further |= {
                "change": phrases.words("changes", form.change) if form.change else "",
                "note": inline_html(form.note),
                "cues": [inline_html(cue) for cue in form.cues],
                "kit": [self.site.details.kit[piece].name for piece in version.kit_added],
            }
        return data | {name: value for name, value in further.items() if value}


def one_side(dose: Dose | None) -> Dose | None:
    """The part of a dose that one side does; None where it is not done side by side."""
    if dose is None or not dose.per_side:
        return None
    return replace(dose, per_side=False, sets=tuple(replace(one, per_side=False) for one in dose.sets))


def timed_seconds(block: Block, dose: Dose | None) -> int:
    """How long one set (of one side) is worked by the clock, at most; 0 where it is counted."""
    if dose is not None and dose.kind == "time":
        return dose.high
    return block.work.high if dose is None and block.work else 0


def _page_of(key: FormKey) -> str:
    """Address of a form below the site's root."""
    place = f"#{key.variant}" if key.variant else ""
    return f"exercises/{key.exercise}/index.html{place}"
