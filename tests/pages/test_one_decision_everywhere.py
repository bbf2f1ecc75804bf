"""Every session, every need, every place where somebody reads what to do: all say what the study decides.

The study (`sitegen.study`) makes one decision for an item and a need: a form, within the need's limits. It
is shown on the episode's page and in the panel of your turn (the block ``episode-data``), on the usual, the
large and the four weeks' sheet (the block ``sheet-data``), on the need's page, and on the page and the sheets
of a client. Scripts only look up what the build has written for each limit; that look-up is done here as
``scripts/needs.js`` does it (which is compared with the study in `tests/browser/test_needs_choice.py`).
"""

import json
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from pathlib import Path
from typing import Any

import pytest
from bs4 import BeautifulSoup

from sitegen.clients.client import Client
from sitegen.model import Block, Episode, Item, Series
from sitegen.pages.adaptation import TOGETHER
from sitegen.pages.cautions import short_caution
from sitegen.pages.client.client_plan import client_plan
from sitegen.pages.client.her_sessions import HerViews
from sitegen.pages.client.sheets import client_sheet
from sitegen.pages.form_data import page_of
from sitegen.pages.sheets.views import in_figures
from sitegen.pages.site import Site
from sitegen.pages.theme import Theme
from sitegen.pages.version_words import VersionWords
from sitegen.pages.views import Views
from sitegen.study.adapted import at_own_pace, is_by_the_clock
from sitegen.study.version import Version
from tests.conftest import ROOT

Data = dict[str, Any]


@pytest.fixture(scope="module")
def site(demo_series: Series) -> Site:
    return Site(demo_series, {}, Theme(ROOT / "themes/tidewater", "en"), "")


@dataclass(frozen=True, kw_only=True)
class Decided:
    """What the study decides for one item, in the words of the site."""

    filmed: str
    name: str
    dose: str
    amount: tuple[str, str]
    """The dose as the sheet sets it."""
    load: str
    short_load: str
    tempo: str
    effort: str
    care: str
    as_filmed: bool


def decided(site: Site, block: Block, item: Item, version: Version) -> Decided:
    words = VersionWords(site)
    return Decided(
        filmed=site.form(item.exercise, item.variant).name,
        name=version.form.name,
        dose=words.dose(block, version),
        amount=in_figures(site.phrases, words.dose(block, version), version.dose),
        load=words.load(version),
        short_load=words.short_load(version),
        tempo=words.tempo(version),
        effort=words.effort(version),
        care=" ".join(map(short_caution, version.form.cautions)),
        as_filmed=version.as_filmed,
    )


def decisions(site: Site, episode: Episode, need: str) -> Iterator[tuple[Block, Item, Version | None]]:
    for block, versions in zip(episode.blocks, site.suitability.session(episode, [need]), strict=True):
        for item, version in zip(block.items, versions, strict=True):
            yield block, item, version


@lru_cache
def block_of_data(page: Path, block_id: str) -> Data:
    found = BeautifulSoup(page.read_bytes(), "lxml").find(id=block_id)
    assert found is not None
    assert found.string is not None
    data: Data = json.loads(found.string)
    return data


def looked_up(forms: list[Data], version: Version, levels: dict[str, str]) -> Data:
    """The form of a version as the page's script leaves it within some limits."""
    form = next(one for one in forms if one["page"] == page_of(version.form.key))
    left = dict(form)
    limits = dict(form.get("limits", {}))
    together = limits.pop(TOGETHER, {})
    for kind, results in limits.items():
        change = results.get(levels[kind], {})
        assert change is not None, "a form in which a limit cannot be kept"
        left |= change
    held = {f"{kind}:{level}" for kind, level in levels.items()}
    for names, change in together.items():
        if held.issuperset(names.split(" ")):
            left |= change
    return left


def levels_of(site: Site, need: str) -> dict[str, str]:
    views = Views(site)
    numbers = views.adaptation.needs.levels.of(site.details.needs[need])
    return {
        kind: "/".join(str(numbers.get(name, "")) for name in names)
        for kind, names in {
            "effort": ("effort", "max_sets"),
            "load": ("load", "load_share"),
            "speed": ("speed",),
            "hold": ("hold",),
        }.items()
    }


def test_the_page_and_the_panel_and_every_sheet(demo_site: Path, demo_series: Series, site: Site) -> None:
    strings = site.theme.strings
    seen = limited = 0
    for episode in demo_series.episodes:
        folder = demo_site / "episodes" / episode.slug
        shown = block_of_data(folder / "index.html", "episode-data")
        panel = [shown["items"][one] for block in shown["blocks"].values() for one in block["items"]]
        on_paper = block_of_data(folder / "sheet" / "index.html", "sheet-data")
        for other in ("large", "weeks"):
            assert block_of_data(folder / "sheet" / other / "index.html", "sheet-data") == on_paper
        paper = [item for block in on_paper["blocks"] for item in block]
        for need in demo_series.details.needs:
            levels, items = levels_of(site, need), list(decisions(site, episode, need))
            for (block, item, version), of_panel, of_paper in zip(items, panel, paper, strict=True):
                if version is None:
                    continue
                told, where = decided(site, block, item, version), (episode.number, need, item.exercise)
                on_page = looked_up(of_panel["forms"], version, levels)
                cautions = " ".join(short for _, short in on_page.get("cautions", []))
                assert (
                    on_page["name"],
                    on_page.get("dose", ""),
                    on_page.get("load", ""),
                    on_page.get("tempo", ""),
                    on_page.get("effort", ""),
                    cautions,
                ) == (told.name, told.dose, told.load, told.tempo, told.effort, told.care), where
                on_sheet = looked_up(of_paper["forms"], version, levels)
                assert (
                    on_sheet["name"],
                    on_sheet.get("dose", ""),
                    tuple(on_sheet.get("amount", ("", ""))),
                    on_sheet.get("load", ""),
                    on_sheet.get("tempo", ""),
                    on_sheet.get("effort", ""),
                    on_sheet.get("care", ""),
                ) == (
                    told.name,
                    told.dose,
                    told.amount,
                    strings.sheet.holding.format(load=told.short_load) if told.short_load else "",
                    strings.sheet.tempo.format(tempo=told.tempo) if told.tempo else "",
                    told.effort,
                    told.care,
                ), where
                seen, limited = seen + 1, limited + bool(version.limited)
    assert seen > 2000
    assert limited > 100


def test_rounds_without_the_clock(demo_site: Path, demo_series: Series, site: Site) -> None:
    """The sheet and the page print the same course for a need that does nothing against the clock."""
    views, seen = Views(site), 0
    for episode in demo_series.episodes:
        folder = demo_site / "episodes" / episode.slug
        shown = block_of_data(folder / "index.html", "episode-data")["blocks"].values()
        paper = block_of_data(folder / "sheet" / "index.html", "sheet-data")["paced"]
        for block, on_page, on_sheet in zip(episode.blocks, shown, paper, strict=True):
            if not is_by_the_clock(block):
                assert (on_page.get("paced"), on_sheet) == (None, None)
                continue
            course = at_own_pace(site.details, site.forms, block)
            assert on_sheet == {"how": views.how(course), "rounds": course.sets.low}
            assert (on_page["paced"]["how"], on_page["paced"]["sets"][0]) == tuple(on_sheet.values())
            seen += 1
    assert seen > 3


def test_the_pages_of_the_needs(demo_site: Path, demo_series: Series, site: Site) -> None:
    words, seen = site.theme.strings.episode, 0
    for need in demo_series.details.needs:
        page = BeautifulSoup((demo_site / "needs" / need / "index.html").read_bytes(), "lxml")
        for episode in demo_series.episodes:
            told = [
                decided(site, block, item, version)
                for block, item, version in decisions(site, episode, need)
                if version is not None
            ]
            changed = [one for one in told if not one.as_filmed]
            rows = page.select(f"#{episode.slug} .changes li")
            rows = [row for row in rows if "leave it out" not in row.find("p").get_text()]
            for one, row in zip(changed, rows, strict=True):
                line = row.find("p").get_text()
                how = (
                    one.dose,
                    words.holding.format(load=one.load) if one.load else "",
                    words.tempo.format(tempo=one.tempo) if one.tempo else "",
                    one.effort,
                )
                assert line.endswith(" · ".join(filter(None, (one.name, *how)))), (need, episode.number, line)
                care = row.select_one(".caution")
                assert (care.get_text() if care else "").endswith(one.care), (need, episode.number)
                seen += 1
    assert seen > 800


@pytest.mark.parametrize("need", ["thin-bones", "no-straining", "wheelchair"])
def test_a_clients_page_and_sheets(demo_series: Series, site: Site, need: str) -> None:
    """Needs with limits of effort and speed, with a longest hold as well, and without limits."""
    client = Client(id="somebody", name="Somebody", needs=(need,), location=demo_series.details.location)
    plan = client_plan(site, demo_series, client, "code")
    strings, seen = site.theme.strings, 0
    for session, on_page in zip(plan.sessions, HerViews(plan, date(2027, 1, 1)).sessions(), strict=True):
        for (filmed, items), block, on_paper, hers in zip(
            session.blocks,
            session.episode.blocks,
            client_sheet(plan, session).blocks,
            on_page.blocks,
            strict=True,
        ):
            assert on_paper.how == hers.how == plan.views.how(block)
            for one, cell, row in zip(items, on_paper.items, hers.items, strict=True):
                if one.version is None:
                    continue
                told = decided(site, filmed, one.filmed, one.version)
                where = (session.episode.number, told)
                assert (row.name, row.dose, row.load, row.tempo, row.effort) == (
                    told.name,
                    told.dose,
                    told.load,
                    told.tempo,
                    told.effort,
                ), where
                facts = (strings.sheet.tempo.format(tempo=told.tempo) if told.tempo else "", told.effort)
                assert (cell.name, cell.dose, cell.amount, cell.care) == (
                    told.name,
                    told.dose,
                    told.amount,
                    told.care,
                ), where
                assert [fact.replace("\N{NO-BREAK SPACE}", " ") for fact in cell.facts] == [
                    *filter(None, facts)
                ], where
                seen += 1
    assert seen > 150
