"""Who can do what: the coverage table and each session's plan for a need, in parts."""

from dataclasses import replace
from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from sitegen.model import Series
from sitegen.pages.needs import episode_plans
from sitegen.pages.needs.series_parts import SeriesParts, SessionsTogether
from sitegen.pages.site import Site
from sitegen.pages.theme import Theme
from sitegen.pages.views import markup
from sitegen.study.forms import forms_of
from sitegen.study.suitability import Suitability
from tests.conftest import ROOT
from tests.pages.library_site import LibrarySite, rows, words


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> LibrarySite:
    site = LibrarySite(tmp_path_factory.mktemp("needs"))
    site.build()
    return site


def section(page: BeautifulSoup, episode: str):
    found = page.find(id=episode)
    assert found is not None
    return found


def test_the_table_of_sessions_and_needs(site: LibrarySite) -> None:
    # No session uses the chair that the seated row needs: it has to be fetched.
    page = site.page("needs/index.html")

    assert [words(cell) for cell in page.select(".coverage thead th")] == ["Session", "No jumping", "Seated"]
    assert rows(page.select_one(".coverage")) == [
        ["1. First steps", "1 change", "4 changes"],
        ["2. Session 2", "nothing to change", "3 changes"],
        ["3. Session 3", "nothing to change", "3 changes"],
        ["4. Session 4", "nothing to change", "3 changes"],
    ]
    assert [words(cell) for cell in page.select(".coverage tfoot td")] == [
        "3 without a change 1 changed",
        "4 changed",
    ]


def test_a_cell_leads_to_the_plan_of_the_session(site: LibrarySite) -> None:
    links = [a["href"] for a in site.page("needs/index.html").select(".coverage tbody tr:first-child td a")]

    assert links == ["../needs/no-jumping/index.html#first-steps", "../needs/seated/index.html#first-steps"]


def test_a_plan_says_what_changes_and_why_and_names_what_stays(site: LibrarySite) -> None:
    plan = section(site.page("needs/no-jumping/index.html"), "first-steps")

    assert words(plan.h3) == "1. First steps"
    assert [words(name) for name in plan.select("h4")] == ["Get warm"]
    assert [words(line) for line in plan.select(".changes p")] == [
        "Jumping jack becomes Side step with arm swing · 30 s · effort 6 of 10",
        "The filmed version involves jumping",
        "One foot always stays on the floor",
    ]
    assert (
        words(plan.select_one(".kept"))
        == "As filmed: Chair squat with hands on the seat, Chair squat, Backpack row"
    )


def test_a_gap_is_left_out(tmp_path: Path) -> None:
    site = LibrarySite(tmp_path)
    site.edit("exercises/door-row.yaml", "kit: [towel, sturdy-chair]\n    demands: [grip]", "kit: [towel]")
    site.build()
    plan = section(site.page("needs/seated/index.html"), "session-2")

    assert words(plan.select_one(".sign")) == "3 gaps"
    assert [words(line) for line in plan.select("li:first-child p")][:2] == [
        "Door row : no version fits: leave it out and rest",
        "The filmed version involves standing",
    ]


def test_a_session_that_stays_as_it_is_is_told_so(site: LibrarySite) -> None:
    plan = section(site.page("needs/no-jumping/index.html"), "session-2")

    assert [words(line) for line in plan.find_all("p")] == [
        "nothing to change",
        "We found nothing to change; read the cautions.",
    ]


def test_dose_kit_and_the_trainers_choice_are_named(tmp_path: Path) -> None:
    site = LibrarySite(tmp_path)
    site.edit("episodes/02-session-2.yaml", "dose: 5}", "dose: 5}\n      - {exercise: chair-squat, dose: 5}")
    site.edit("episodes/02-session-2.yaml", 'dose: "8"}', 'dose: "8", versions: {no-jumping: squeeze}}')
    site.build()
    seated = section(site.page("needs/seated/index.html"), "session-2")
    chosen = section(site.page("needs/no-jumping/index.html"), "session-2")

    assert "The filmed version involves standing · Fetch: Sturdy chair" in words(seated)
    assert "The dose is smaller than usual." in words(seated)
    assert "Door row becomes Blade squeeze · 8 reps" in words(chosen)
    assert "Your name's choice for this need · Not needed: Bath towel" in words(chosen)


def test_pages_defer_to_those_who_know_the_person(site: LibrarySite) -> None:
    for address in ("needs/index.html", "needs/seated/index.html", "exercises/by/need/seated/index.html"):
        main = words(site.page(address).main)
        assert "not medical advice" in main
        assert "doctor or physiotherapist" in main


def test_a_plan_opens_its_session_with_the_need_chosen(site: LibrarySite) -> None:
    link = section(site.page("needs/seated/index.html"), "session-2").find("a")

    assert link["href"] == "../../episodes/session-2/index.html?needs=seated"


def test_the_demos_table_agrees_with_the_study(demo_site: Path, demo_series: Series) -> None:
    suitability = Suitability(demo_series.details, forms_of(demo_series.exercises))
    page = BeautifulSoup((demo_site / "needs/index.html").read_bytes(), "html5lib")

    def cell(episode, need: str) -> str:
        coverage = suitability.coverage(episode, [need])
        changes = f"{coverage.changes} change{'s' * (coverage.changes != 1)}"
        return "nothing to change" if coverage.fully else changes

    wanted = [
        [f"{episode.number}. {episode.title}", *(cell(episode, need) for need in demo_series.details.needs)]
        for episode in demo_series.episodes
    ]
    assert rows(page.select_one(".coverage")) == wanted


# --- parts ----------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def long_site(tmp_path_factory: pytest.TempPathFactory) -> LibrarySite:
    """120 sessions."""
    site = LibrarySite(tmp_path_factory.mktemp("long"))
    for number in range(2, 121):
        site.session(number, 8)
    site.build()
    return site


@pytest.mark.parametrize(
    ("address", "first", "last", "sessions"),
    [
        ("needs/seated/index.html", 1, 50, 50),
        ("needs/seated/part_2/index.html", 51, 100, 50),
        ("needs/seated/part_3/index.html", 101, 120, 20),
    ],
)
def test_a_long_series_comes_in_parts(
    long_site: LibrarySite, address: str, first: int, last: int, sessions: int
) -> None:
    page = long_site.page(address)
    table = long_site.page(address.replace("/seated", ""))

    assert len(page.select(".plan")) == len(table.select(".coverage tbody tr")) == sessions
    assert words(page.select_one(".parts [aria-current]")) == f"Sessions {first} to {last}"
    assert [a["href"] for a in page.select(".parts a")] == [
        f"{'../' * (address.count('/'))}needs/seated/{part}index.html" for part in ("", "part_2/", "part_3/")
    ]


def test_an_edited_session_rewrites_few_pages(long_site: LibrarySite) -> None:
    low, squeeze = "variant: low, at: 1:30, dose: 6, load: 2 kg", "variant: squeeze, at: 1:30, dose: 6"
    long_site.edit("episodes/70-session-70.yaml", low, squeeze)
    made = [a for a in long_site.build().made if a.startswith(("exercises/", "needs/"))]

    # What names the form: its exercise, the search (which knows in what parts each form is shown), and the
    # plan for the need that changes it.
    assert made == [
        "exercises/door-row/index.html",
        "exercises/find.js",
        "needs/seated/part_2/index.html",
    ]


def test_a_series_without_sessions_has_one_empty_part() -> None:
    parts = SeriesParts(())

    assert parts.sessions == [()]
    assert parts.links == [SessionsTogether(number=1, first=0, last=0)]


def test_a_series_without_needs_has_no_such_pages(tmp_path: Path) -> None:
    site = LibrarySite(tmp_path)
    text = (site.root / "series.yaml").read_text()
    site.write("series.yaml", text[: text.index("needs:")] + text[text.index("schedule:") :])
    site.build()

    assert not (site.out / "needs").exists()
    assert "needs" not in words(site.page("exercises/door-row/index.html").nav)


def test_the_summary_stands_where_a_form_has_no_cue(demo_series: Series) -> None:
    bare = {one.id: replace(one, cues=()) for one in demo_series.exercises.values()}
    site = Site(replace(demo_series, exercises=bare), {}, Theme(ROOT / "themes/tidewater", "en"), "")
    episode = site.series.episodes[0]
    chosen = site.suitability.for_each_need(episode)
    forms = {
        version.form.name: version.form
        for session in chosen.values()
        for versions in session
        for version in versions
        if version is not None and not version.as_filmed and version.form.how and not version.form.cues
    }

    plans = episode_plans(site, episode, chosen)

    told = {item.name: item.note for plan in plans for block in plan.blocks for item in block.items}
    assert forms
    assert all(str(markup(form.summary)) in told[name] for name, form in forms.items())
