"""Forms by need as data for scripts: what can be chosen, in the order in which it is."""

import itertools
import json
import operator
from collections.abc import Iterator
from typing import Any

import pytest

from sitegen.model import Caution, Limits
from sitegen.pages.adaptation import TOGETHER, Adaptation
from sitegen.pages.cautions import short_caution
from sitegen.pages.form_data import page_of
from sitegen.pages.item_places import ItemPlace
from sitegen.pages.site import Site
from sitegen.pages.theme import Theme
from sitegen.pages.views import Views
from sitegen.reading.reader import read_content
from sitegen.study.need_limits import merge
from sitegen.study.version import Version
from tests.conftest import DEMO, ROOT
from tests.spaces import spaced


@pytest.fixture(scope="module")
def site() -> Site:
    content = read_content(DEMO)
    assert content.series is not None
    return Site(content.series, content.cues, Theme(ROOT / "themes/tidewater", "en"), "")


@pytest.fixture(scope="module")
def adaptation(site: Site) -> Adaptation:
    return Views(site).adaptation


def places(site: Site, adaptation: Adaptation) -> Iterator[list[ItemPlace]]:
    for episode in site.series.episodes:
        yield from adaptation.places(episode)


def data_of(adaptation: Adaptation, place: ItemPlace) -> dict[str, Any]:
    return json.loads(adaptation._item_json(place))


def test_the_first_form_is_the_one_filmed(site: Site, adaptation: Adaptation) -> None:
    for place in itertools.chain(*places(site, adaptation)):
        first = data_of(adaptation, place)["forms"][0]
        assert first["name"] == site.form(place.item.exercise, place.item.variant).name
        assert "change" not in first


def test_forms_that_can_never_be_chosen_are_left_out(site: Site, adaptation: Adaptation) -> None:
    for place in itertools.chain(*places(site, adaptation)):
        data = data_of(adaptation, place)
        own = set(data["own"].values())
        asks = [
            (
                set(form["demands"]),
                form.get("limits", {}),
                # What is filmed comes first among equals, whatever it asks of the joints.
                form.get("joints", [0, 0, 0]) if number else [0, 0, 0],
                form.get("is") or form["page"],
            )
            for number, form in enumerate(data["forms"])
        ]
        for index, (demands, limits, joints, _) in enumerate(asks):
            nearer = {
                name
                for one, kept, less, name in asks[:index]
                if one <= demands and kept == limits and all(map(operator.le, less, joints))
            }
            meant = bool(data["forms"][index].get("for"))  # taken before nearer ones by some need
            assert index in own or meant or len(nearer) <= place.others


def test_every_level_of_a_limit_is_what_the_study_makes_of_it(site: Site, adaptation: Adaptation) -> None:
    """Limits of several kinds at once are put together from the levels of each.

    Also where several of them change one field: ``pace`` has tempo and effort in one text.
    """

    def shown(place: ItemPlace, version: Version) -> dict[str, Any]:
        fields = adaptation.forms.shown(place, version)
        return fields | {"pace": f"{fields['tempo']} {fields['effort']}"}

    kinds: dict[str, list[tuple[str, Limits]]] = {}
    for kind, level, limits in adaptation.needs.levels.all:
        kinds.setdefault(kind, []).append((level, limits))
    mixes = list(itertools.product(*([(kind, *one) for one in ones] for kind, ones in kinds.items())))
    assert len(mixes) > 1
    for place in list(itertools.chain(*places(site, adaptation)))[::7]:
        for version in adaptation.suitability.ranked(place.item, place.kit)[::3]:
            for mix in mixes:
                both = merge(limits for _, _, limits in mix)
                left = adaptation.suitability.within(place.block, place.item, version, both)
                results = adaptation._results(place, version, shown)
                parts = [results.get(kind, {}).get(level, {}) for kind, level, _ in mix]
                if left is None:
                    assert None in parts
                    continue
                fields = shown(place, version)
                for part in parts:
                    fields |= part
                said = fields.pop("less", [])
                levels = {f"{kind}:{level}" for kind, level, _ in mix}
                for names, part in results.get(TOGETHER, {}).items():
                    fields |= part if levels.issuperset(names.split(" ")) else {}
                assert fields == shown(place, left)
                assert bool(said) == bool(left.limited)


def test_timed_doses_and_sides_are_told(site: Site, adaptation: Adaptation) -> None:
    ballast = next(episode for episode in site.series.episodes if episode.slug == "ballast")
    block = next(places for places in adaptation.places(ballast) if places[0].block.name == "Press and prop")
    filmed = data_of(adaptation, block[1])["forms"][0]

    assert (spaced(filmed["dose"]), spaced(filmed["one_side"])) == ("20 s each side", "20 s")
    assert filmed["seconds"] == 20


def test_cautions_go_with_every_form(site: Site, adaptation: Adaptation) -> None:
    told = 0
    for place in itertools.chain(*places(site, adaptation)):
        forms = {form["page"]: form for form in data_of(adaptation, place)["forms"]}
        for version in adaptation.suitability.ranked(place.item, place.kit):
            form = forms.get(page_of(version.form.key))
            if form is not None:
                short = [short for _, short in form.get("cautions", [])]
                assert short == [short_caution(one) for one in version.form.cautions]
                told += len(short)
    assert told


@pytest.mark.parametrize(
    ("caution", "short"),
    [
        (Caution(text="Lock the door. A door that opens may hit you."), "Lock the door."),
        (Caution(text="Lock the *door* first", short=""), "Lock the door first"),
        (Caution(text="A long story about doors. And more.", short="Lock the door"), "Lock the door"),
        (Caution(text="Use 2.5 kg at most. Then more."), "Use 2.5 kg at most."),
        (Caution(text="Sore? Both knees? Come up earlier. Or sit."), "Sore? Both knees? Come up earlier."),
        (Caution(text="Is it sore?"), "Is it sore?"),
    ],
    ids=[
        "the first sentence",
        "without its signs",
        "as written",
        "a number is no end",
        "questions with their answer",
        "a question alone",
    ],
)
def test_a_caution_for_a_small_place(caution: Caution, short: str) -> None:
    assert short_caution(caution) == short


def test_storage_keys_begin_with_the_sites_address(adaptation: Adaptation) -> None:
    assert json.loads(adaptation.needs.json)["prefix"] == "movement.example/galley/"


def test_the_json_is_safe_in_a_page(site: Site, adaptation: Adaptation) -> None:
    for episode in site.series.episodes:
        for texts in adaptation.items_json(episode):
            assert not any("<" in text for text in texts)
