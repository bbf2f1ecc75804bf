"""What somebody may mean who types a complaint, a wish or a word of the trade instead of an exercise's name.

"Sore knees" means a need, "no equipment" what is at home, "tummy" a muscle, "warm up" a part of a session.
Each answer sets one filter of the index, and most have a page with more. The everyday words are the theme's
strings; the script ``search-answers.js`` matches them.
"""

from collections.abc import Iterable, Iterator

from sitegen.model import Need
from sitegen.pages.exercises.facets import NO_KIT, Facets, FacetValue
from sitegen.pages.exercises.lists import facet_address
from sitegen.pages.site import Site
from sitegen.vocabulary import BLOCK_KINDS

Row = list[str]
"""``[filter, value, name, page, words of the name, what people say, everyday words around it]``; the page is
an address below the site's root, or empty."""


def answers(site: Site, facets: Facets) -> Iterator[Row]:
    """Every answer, what somebody has to avoid first."""
    words = site.theme.strings.answers
    for value in facets.values["need"]:
        yield _need(site, site.details.needs[value.id])
    if site.details.kit:
        nothing = site.theme.strings.exercises.nothing_at_home
        page = next((facet_address(v) for v in facets.values["kit"] if v.word == NO_KIT), "")
        yield ["home", NO_KIT, nothing, page, words.nothing_at_home, "", ""]
    for kind in BLOCK_KINDS:
        label = site.phrases.words("kinds", kind)
        called = _joined((kind, label, words.part_words.get(kind, "")))
        yield ["part", kind, label, "", called, "", ""]
    extra = site.theme.strings.exercise.search_words
    for facet in ("muscle", "pattern"):
        for value in facets.values[facet]:
            yield _facet(value, called=extra.get(value.word, ""))
    for value in facets.values["kit"]:
        if value.word != NO_KIT:
            yield _facet(value, instead=_joined(site.details.kit[value.id].stand_ins))


def _need(site: Site, need: Need) -> Row:
    everyday = site.theme.strings.answers.demand_words
    around = _joined(everyday.get(demand, demand) for demand in need.avoids)
    return ["need", need.id, need.name, f"needs/{need.id}/index.html", need.name, need.says or "", around]


def _facet(value: FacetValue, called: str = "", instead: str = "") -> Row:
    names = _joined((value.word, value.label, called))
    return [value.kind, value.id, value.label, facet_address(value), names, instead, ""]


def _joined(texts: Iterable[str]) -> str:
    return " ".join(texts)
