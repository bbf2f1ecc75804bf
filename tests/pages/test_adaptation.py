"""Forms by need as data for scripts: what can be chosen, in the order in which it is."""

import itertools

import pytest

from sitegen.pages.adaptation import Adaptation
from sitegen.pages.site import Site
from sitegen.pages.theme import Theme
from sitegen.pages.views import Views
from sitegen.reading.reader import read_content
from tests.conftest import DEMO, ROOT


@pytest.fixture(scope="module")
def site() -> Site:
    content = read_content(DEMO)
    assert content.series is not None
    return Site(content.series, content.cues, Theme(ROOT / "themes/tidewater", "en"), "")


@pytest.fixture(scope="module")
def adaptation(site: Site) -> Adaptation:
    return Views(site).adaptation


def items(site: Site, adaptation: Adaptation):
    for episode in site.series.episodes:
        kit = adaptation.suitability.kit_at_hand(episode)
        for block in episode.blocks:
            for item in block.items:
                yield block, item, kit


def choose(data, needs, avoided):
    """What scripts/needs.js does."""
    own = {data["own"][need] for need in needs if need in data["own"]}
    fitting = [
        (index, form) for index, form in enumerate(data["forms"]) if avoided.isdisjoint(form["demands"])
    ]
    chosen = next((form for index, form in fitting if index in own), None)
    return chosen or (fitting[0][1] if fitting else None)


def test_the_first_form_is_the_one_filmed(site: Site, adaptation: Adaptation) -> None:
    for block, item, kit in items(site, adaptation):
        first = adaptation.item_data(block, item, kit)["forms"][0]
        assert first["name"] == site.form(item.exercise, item.variant).name
        assert "change" not in first


def test_every_choice_for_three_needs_at_once_is_that_of_the_study(
    site: Site, adaptation: Adaptation
) -> None:
    """Single needs and pairs are compared in the browser, with the script itself."""
    triples = list(itertools.combinations(site.details.needs, 3))
    for block, item, kit in items(site, adaptation):
        data = adaptation.item_data(block, item, kit)
        for needs in triples:
            version = adaptation.suitability.version(item, needs, kit)
            form = choose(data, needs, adaptation.suitability.avoided(needs))
            assert (form and form["name"]) == (version and version.form.name), (item.exercise, needs)


def test_forms_that_can_never_be_chosen_are_left_out(site: Site, adaptation: Adaptation) -> None:
    for block, item, kit in items(site, adaptation):
        data = adaptation.item_data(block, item, kit)
        own = set(data["own"].values())
        for nearer, (index, form) in itertools.combinations(enumerate(data["forms"]), 2):
            if index not in own:
                assert not set(nearer[1]["demands"]) <= set(form["demands"])


def test_timed_doses_and_sides_are_told(site: Site, adaptation: Adaptation) -> None:
    ballast = next(episode for episode in site.series.episodes if episode.slug == "ballast")
    block = next(block for block in ballast.blocks if block.name == "Press and prop")
    plank = block.items[1]
    filmed = adaptation.item_data(block, plank, frozenset())["forms"][0]

    assert (filmed["dose"], filmed["one_side"], filmed["seconds"]) == ("20 s each side", "20 s", 20)


def test_storage_keys_begin_with_the_sites_address(adaptation: Adaptation) -> None:
    assert adaptation.prefix == "movement.example/galley/"


def test_the_json_is_safe_in_a_page(site: Site, adaptation: Adaptation) -> None:
    for episode in site.series.episodes:
        for texts in adaptation.items_json(episode):
            assert not any("<" in text for text in texts)
