"""The page of an exercise: how it is done, its ladder, whom it suits, where it is shown and how it grows."""

import json
from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from sitegen.vocabulary import UNTOLD
from tests.pages.library_site import LibrarySite, rows, words


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> LibrarySite:
    site = LibrarySite(tmp_path_factory.mktemp("library"))
    site.build()
    return site


@pytest.fixture(scope="module")
def row(site: LibrarySite) -> BeautifulSoup:
    return site.page("exercises/door-row/index.html")


def section(page: BeautifulSoup, heading: str):
    found = page.select_one(f"section[aria-labelledby={heading}]")
    assert found is not None
    return found


def test_what_it_is_and_what_it_trains(row: BeautifulSoup) -> None:
    assert words(row.h1) == "Door row"
    assert {words(fact.dt): words(fact.dd) for fact in row.select(".facts > div")} == {
        "Movement": "horizontal pull",
        "Trains": "upper back, lats helped by biceps",
        "Needs": "Bath towel",
        "Involves": "standing, grip",
        "Also called": "towel row",
    }


def test_how_and_what_goes_wrong_side_by_side(row: BeautifulSoup) -> None:
    assert [words(cue) for cue in section(row, "how").select(".cues li")] == [
        "Elbows past the ribs",
        "Long arms at the end",
    ]
    assert rows(section(row, "faults").table) == [
        ["Shoulders creep up", "Slide them down"],
        ["Hips come first", "Lean less"],
    ]


def test_what_moves_is_said_where_nothing_is_drawn(row: BeautifulSoup) -> None:
    """And a variant that writes nothing of its own repeats nothing."""
    assert words(section(row, "how").p) == "Draw both elbows back past the ribs."
    assert words(row.select_one("#squeeze > p")) == "Draw both blades together."
    assert row.select("#low > p") == []


def test_a_caution_names_its_source(row: BeautifulSoup) -> None:
    assert words(section(row, "care").li) == "Lock the door. Source: House rules, 2026"


def test_the_ladder_from_easiest_to_hardest(row: BeautifulSoup) -> None:
    rungs = section(row, "ladder").select(".rung")

    assert [(rung["id"], words(rung.find_parent(class_="level").h3)) for rung in rungs] == [
        ("seated", "2 steps easier"),
        ("upright", "1 step easier"),
        ("main", "This exercise"),
        ("low", "1 step harder"),
        ("squeeze", "Another movement instead"),
        ("to-pack", "Another movement instead"),
    ]


@pytest.mark.parametrize(
    ("rung", "facts"),
    [
        ("seated", ["Without: standing", "How much: half as much", "With: Bath towel, Sturdy chair"]),
        ("upright", ["With: Bath towel"]),
        ("squeeze", ["Without: grip"]),
        ("to-pack", ["Without: grip", "Also involves: sustained bending", "With: Backpack with books"]),
        ("low", ["How much: 2 reps fewer", "With: Bath towel"]),
    ],
)
def test_what_each_form_spares_adds_and_changes(row: BeautifulSoup, rung: str, facts: list[str]) -> None:
    assert [words(fact) for fact in row.select(f"#{rung} .rung-facts li")] == facts


def test_a_form_shows_its_own_cues_and_faults_and_repeats_no_others(row: BeautifulSoup) -> None:
    assert [words(cue) for cue in row.select("#squeeze .cues li")] == ["Squeeze for three"]
    assert rows(row.select_one("#low table")) == [["The head drops", "Look up"]]
    assert row.select("#upright .cues, #upright table, #main .cues") == []


def test_a_variant_that_is_another_exercise_leads_to_its_page(row: BeautifulSoup) -> None:
    assert row.select_one("#to-pack h4 a")["href"] == "../../exercises/pack-row/index.html"


def test_forms_by_what_is_at_hand(row: BeautifulSoup) -> None:
    assert rows(section(row, "by-kit").table) == [
        ["Bath towel or a sheet", "Door row Upright row Low row"],
        ["no kit", "Blade squeeze"],
        ["Backpack with books or a shopping bag with tins", "Pack row"],
        ["Sturdy chair or a low table against a wall + Bath towel", "Seated row"],
    ]


def test_forms_by_need(row: BeautifulSoup) -> None:
    by_need = section(row, "by-need")

    assert words(by_need.p) == "As filmed in every session, if you need: No jumping"
    assert rows(by_need.table) == [["Seated", "Seated row"]]
    assert "doctor or physiotherapist" in words(by_need)


def test_every_showing_with_its_dose_so_that_progress_can_be_seen(row: BeautifulSoup) -> None:
    # 3 x 8 = 24 repetitions, then 3 x 10 = 30: a quarter more; the warm-up does not count.
    assert rows(section(row, "shown").table) == [
        ["2. Session 2", "0:10", "Warm up", "", "1", "5 reps", "", ""],
        ["2. Session 2", "1:05", "Pull", "", "3", "8 reps", "", "24 reps"],
        ["2. Session 2", "1:30", "Pull", "Low row", "3", "6 reps", "2 kg", "18 reps"],
        ["3. Session 3", "0:10", "Warm up", "", "1", "5 reps", "", ""],
        ["3. Session 3", "1:05", "Pull", "", "3", "10 reps", "", "30 reps 25 % more"],
        ["3. Session 3", "1:30", "Pull", "Low row", "3", "6 reps", "2 kg", "18 reps as before"],
        ["4. Session 4", "0:10", "Warm up", "", "1", "5 reps", "", ""],
        ["4. Session 4", "1:05", "Pull", "", "3", "10 reps", "", "30 reps as before"],
        ["4. Session 4", "1:30", "Pull", "Low row", "3", "6 reps", "2 kg", "18 reps as before"],
    ]
    assert [bar["width"] for bar in row.select(".bar rect")] == ["80", "100", "100", "100", "100", "100"]


def test_an_assumed_amount_is_said_to_be_one_and_is_not_compared(tmp_path: Path) -> None:
    site = LibrarySite(tmp_path)
    site.session(3, "max, 2 in reserve")
    site.build()
    amounts = [line[-1] for line in rows(section(site.page("exercises/door-row/index.html"), "shown").table)]

    # As many as one can: 6 to 15 repetitions are assumed, three times.
    assert [amounts[place] for place in (1, 4, 7)] == ["24 reps", "about 18–45 reps", "30 reps"]


def test_a_showing_leads_to_its_time_and_its_place(row: BeautifulSoup, site: LibrarySite) -> None:
    links = [a["href"] for a in section(row, "shown").select("tr:nth-of-type(2) a")]
    episode = site.page("episodes/session-2/index.html")

    assert links == [
        "../../episodes/session-2/index.html",
        "../../episodes/session-2/index.html#t=65",
        "../../episodes/session-2/index.html#door-row-2",
    ]
    assert words(episode.find(id="door-row-2")).startswith("Door row 8 reps")


def test_related_exercises_have_the_same_movement_and_other_demands(
    row: BeautifulSoup, site: LibrarySite
) -> None:
    others = section(row, "related").select(".related > li")
    assert [words(one.a) for one in others] == ["Pack row"]  # the backpack row asks for the same
    assert [words(fact) for fact in others[0].select("li")] == [
        "Trains as well: upper back",
        "Without: grip",
        "Also involves: sustained bending",
    ]


def test_an_exercise_in_no_episode_says_so(site: LibrarySite) -> None:
    page = site.page("exercises/pack-row/index.html")

    assert words(section(page, "shown").p) == "It is not in a session yet."
    assert page.find(id="ladder") is None


def test_a_variant_shown_in_an_episode_counts_for_the_exercise_that_it_is(tmp_path: Path) -> None:
    site = LibrarySite(tmp_path)
    site.edit("episodes/03-session-3.yaml", "variant: low", "variant: to-pack")
    site.build()

    assert rows(section(site.page("exercises/pack-row/index.html"), "shown").table)[0][:4] == [
        "3. Session 3",
        "1:30",
        "Pull",
        "Pack row",
    ]


def test_only_pages_that_show_it_change_with_a_cue(tmp_path: Path) -> None:
    site = LibrarySite(tmp_path)
    site.build()
    site.edit("exercises/door-row.yaml", "Long arms at the end", "Arms long")
    made = [address for address in site.build().made if address.startswith(("exercises/", "needs/"))]

    assert made == ["exercises/door-row/index.html"]


def test_a_new_dose_changes_the_page_of_its_exercise_and_of_needs_that_take_it_over(tmp_path: Path) -> None:
    site = LibrarySite(tmp_path)
    site.build()
    site.session(3, 12)
    made = [address for address in site.build().made if address.startswith(("exercises/", "needs/"))]

    assert made == ["exercises/door-row/index.html", "needs/seated/index.html"]


@pytest.mark.parametrize(
    "block",
    [
        "{format: as many rounds as possible, time: 4 min, items: [{exercise: pack-row, dose: 100}]}",
        "{format: every minute on the minute, time: 1 min, items: "
        "[{exercise: door-row, dose: 5}, {exercise: pack-row, dose: 5}]}",
    ],
    ids=["a round longer than its time", "a turn that never comes"],
)
def test_an_exercise_whose_turn_never_comes_has_nothing_to_compare(tmp_path: Path, block: str) -> None:
    """Two sessions in which an exercise counts no round at all still make a whole site."""
    site = LibrarySite(tmp_path)
    for number in (2, 3, 4):
        episode = f"title: Session {number}\nnumber: {number}\nblocks:\n"
        text = f'  - {{name: Work, kind: strength, at: "1:00", {block[1:]}\n'
        site.write(f"episodes/{number:02}-session-{number}.yaml", episode + text)
    site.build()
    shown = rows(section(site.page("exercises/pack-row/index.html"), "shown").table)

    assert [line[0] for line in shown] == ["2. Session 2", "3. Session 3", "4. Session 4"]
    assert {len(line) for line in shown} == {5}  # columns of forms, loads and amounts are left out


def test_of_an_exercise_that_nothing_is_told_of_the_pages_say_so(tmp_path: Path) -> None:
    """On its own page, on those of the needs, in the search and in the sheet's data: it is for no need."""
    site = LibrarySite(tmp_path)
    site.write(
        "exercises/swing.yaml",
        "name: Swing\npattern: hinge\nmuscles: {prime: [glutes]}\ncautions:\n"
        "  - {text: Mind your back., about: [sustained bending]}\n",
    )
    site.write(
        "episodes/05-session-5.yaml",
        "title: Session 5\nnumber: 5\nblocks:\n  - name: Swings\n    kind: strength\n"
        "    format: straight sets\n    at: 0:10\n    items: [{exercise: swing, dose: 8}]\n",
    )
    site.build()

    page = site.page("exercises/swing/index.html")
    facts = {words(fact.dt): words(fact.dd) for fact in page.select(".facts > div")}
    assert facts["Involves"] == UNTOLD
    assert "Mind your back." in page.get_text(), "the caution may well be about it"
    assert "nothing that somebody" not in page.get_text()
    for need in ("seated", "no-jumping"):
        shown = words(site.page(f"needs/{need}/index.html").main)
        assert UNTOLD in shown
        assert "As filmed: Swing" not in shown
    found = json.loads((site.out / "exercises/find.js").read_text().split("=", 1)[1].rstrip(";\n"))
    [swing] = [one for one in found["exercises"] if one[0] == "swing"]
    [[*_, demands, _link, _parts, _drawn]] = swing[3]
    assert demands
    assert all(set(avoided) >= set(demands) for _, avoided in found["needs"])
