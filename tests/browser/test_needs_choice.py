"""The choice in the browser is that of the study: forms, doses, efforts, loads, repeats and gaps."""

import itertools
import json
import os
from typing import Any

import pytest
from playwright.sync_api import Page

from sitegen.model import Episode, Series
from sitegen.pages.adaptation import Adaptation
from sitegen.pages.form_data import page_of
from sitegen.pages.site import Site
from sitegen.pages.theme import Theme
from sitegen.pages.views import Views
from sitegen.study.suitability import Versions
from sitegen.vocabulary import CIRCUIT, STRAIGHT
from tests.conftest import ROOT
from tests.study import test_suitability_search as generated
from tests.study.series_parts import block, details, episode

SERIES = int(os.environ.get("CHOICES", "40"))
THEME = Theme(ROOT / "themes/tidewater", "en")
CHOOSE = """cases => cases.map(([items, every]) => every.map((needs) => {
  Needs.set(needs);
  return Needs.choose(items).map(({ form, filmed, own, again }) => form && [
    form.page, form.dose || "", form.effort || "", form.tempo || "", form.load || "", filmed, own, again,
    (form.less || []).length,
  ]);
}))"""


def adaptation_of(series: Series) -> Adaptation:
    return Views(Site(series, {}, THEME, "")).adaptation


def open_needs(page: Page, adaptation: Adaptation) -> None:
    """An empty page with the script alone and the needs of a series."""
    page.set_content(f'<script type="application/json" id="needs-data">{adaptation.needs.json}</script>')
    page.add_script_tag(path=ROOT / "themes/tidewater/scripts/needs.js")


def expected(adaptation: Adaptation, shown: Any, versions: Versions) -> list[Any]:
    words = adaptation.forms.words
    return [
        one
        and [
            page_of(one.form.key),
            words.dose(shown, one),
            words.effort(one),
            words.tempo(one),
            words.load(one),
            one.as_filmed,
            one.own_choice and bool(one.steps),
            any(loss.what == "again" for loss in one.lost),
            len(one.limited),
        ]
        for one in versions
    ]


def cases_of(
    adaptation: Adaptation, one: Episode, needs: list[list[str]]
) -> tuple[list[Any], list[list[list[Any]]]]:
    """What to ask the browser for the blocks of a session, with each of the needs; what the study says."""
    kit = adaptation.suitability.kit_at_hand(one)
    cases, wanted = [], []
    for shown, items in zip(one.blocks, adaptation.items_json(one), strict=True):
        cases.append([[json.loads(text) for text in items], needs])
        wanted.append(
            [expected(adaptation, shown, adaptation.suitability.block(shown, ids, kit)) for ids in needs]
        )
    return cases, wanted


def test_for_every_need_and_pair_of_the_demo(page: Page, demo_series: Series) -> None:
    adaptation = adaptation_of(demo_series)
    needs = [list(ids) for size in (1, 2) for ids in itertools.combinations(demo_series.details.needs, size)]
    open_needs(page, adaptation)

    # One session: the study looks at all of them (tests/study/test_suitability_demo.py).
    cases, wanted = cases_of(adaptation, demo_series.episodes[4], needs)
    assert page.evaluate(CHOOSE, cases) == wanted


@pytest.mark.parametrize(
    "count",
    [
        pytest.param(min(SERIES, 10), id="some"),
        pytest.param(SERIES, id="more", marks=pytest.mark.thorough),
    ],
)
def test_for_random_series(page: Page, count: int) -> None:
    """The first of those that the study is tried with; ``python -m tests.bench choice`` takes all of them."""
    cases, wanted = [], []
    about = details(needs=generated.NEEDS, kit=generated.KIT)
    for number in range(count):
        sessions = generated.sessions()[number * generated.SESSIONS :][: generated.SESSIONS]
        library = sessions[0].library
        shown = [episode(1, block(CIRCUIT if number % 2 else STRAIGHT, *one.items)) for one in sessions]
        series = Series(details=about, episodes=tuple(shown), exercises=library.exercises)
        adaptation = adaptation_of(series)
        if number == 0:
            open_needs(page, adaptation)
        for one, session in zip(shown, sessions, strict=True):
            asked, said = cases_of(adaptation, one, [session.needs])
            cases += asked
            wanted += said
    assert len(wanted) == count * generated.SESSIONS
    assert page.evaluate(CHOOSE, cases) == wanted
