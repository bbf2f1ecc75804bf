"""The easier and the harder form that a sheet names beside an item: one step from the form shown."""

from dataclasses import replace

import pytest

from sitegen.model import Item, Series
from sitegen.notation import Dose
from sitegen.pages.sheets.views import SheetItem
from sitegen.pages.site import Site
from sitegen.pages.theme import Theme
from sitegen.pages.views import Views
from tests.conftest import ROOT
from tests.sheet_views import view_of
from tests.spaces import spaced


@pytest.fixture(scope="module")
def site(demo_series: Series) -> Site:
    return Site(demo_series, {}, Theme(ROOT / "themes/tidewater", "en"), "")


def shown(site: Site, item: Item) -> SheetItem:
    """How the sheet of the first session shows an item put in place of its first."""
    episode = site.series.episodes[0]
    first, *rest = episode.blocks
    changed = replace(episode, blocks=(replace(first, items=(item,)), *rest))
    return view_of(site, Views(site), changed, "").blocks[0].items[0]


NEXT_TO = {
    # what the case is about: (exercise, variant shown, easier, harder)
    "not the quick seated form": ("fast-feet", None, "March in place", "in and out"),
    "up from an easier form": ("side-plank", "bent-knee-side-plank", "", "Side plank"),
    "down from a harder form": (
        "counter-push-up",
        "chair-push-up",
        "Counter push-up",
        "Push-up with hands on the first stair",
    ),
    "nothing above the hardest": ("slow-breathing", "long-count-breathing", "Slow breathing", ""),
}


@pytest.mark.parametrize(("exercise", "variant", "easier", "harder"), NEXT_TO.values(), ids=NEXT_TO)
def test_the_next_form_on_either_side(
    site: Site, exercise: str, variant: str | None, easier: str, harder: str
) -> None:
    item = shown(site, Item(exercise=exercise, variant=variant))
    assert (item.easier, item.harder) == (easier, harder)


def test_ways_are_not_called_sides(site: Site) -> None:
    doses = [Dose.parse("12 s each side"), Dose.parse("12 s each way"), Dose.parse("12 s each side")]
    said = [spaced(site.phrases.dose(dose)) for dose in doses]
    assert said == ["12 s each side", "12 s each way", "12 s each side"]
