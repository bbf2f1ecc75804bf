"""The balance: what its page says of a series, worked by hand, and which page an edit rewrites."""

from pathlib import Path

import pytest
from bs4 import BeautifulSoup, Tag

from sitegen.building.build import Builder
from sitegen.model import Series
from sitegen.pages.balance.facts import points_fact, training_fact
from sitegen.pages.balance.weeks_together import WEEKS_ON_A_PAGE
from sitegen.pages.facts import opened, packed
from sitegen.pages.page import CopyOf, Page
from sitegen.pages.site import Site
from sitegen.resources import themes_folder
from sitegen.study.forms import forms_of
from sitegen.study.progression import points_of
from sitegen.study.timing import session_time
from sitegen.study.training import training_of
from tests.four_weeks import four_weeks
from tests.sessions import STARTER_SCHEDULE, SessionFolder
from tests.spaces import spaced

PRESS = (
    "name: Press\npattern: push horizontal\nmuscles: {prime: [chest], assist: [triceps]}\nkit: [backpack]\n"
)
BOUNDS = "bounds: {sets_per_week: 4-12, muscles: {chest: 2-8}, push_per_pull: 1.5}\n"


@pytest.fixture
def series(tmp_path: Path) -> SessionFolder:
    """Mondays and Thursdays from 4 January 2027."""
    folder = SessionFolder(tmp_path, schedule=BOUNDS + STARTER_SCHEDULE)
    folder.write("exercises/press.yaml", PRESS)
    folder.session(1, "backpack-row, dose: 8 each side", "press, dose: 10")
    folder.session(2, "press, dose: 12, load: 4 kg", sets="2-3")
    folder.session(3, "backpack-row, dose: 10 each side", "jumping-jack, dose: 30 s")
    folder.session(4, "jumping-jack, dose: 60 s", sets="4", kind="conditioning")
    return folder


def pages_of(series: SessionFolder) -> dict[str, Page]:
    builder = Builder(series.root, series.root.parent / "build", jobs=1)
    return {page.address: page for page in builder.plan(builder.read())}


def made(page: Page) -> bytes:
    assert not isinstance(page.make, Path)
    return page.make()


def soup_of(series: SessionFolder, address: str = "balance/index.html") -> BeautifulSoup:
    return BeautifulSoup(made(pages_of(series)[address]), "html.parser")


def table(soup: BeautifulSoup, section: str, index: int = 0) -> list[list[str]]:
    """Cells of a table in the section with that heading, as text."""
    heading = soup.find(id=section)
    assert isinstance(heading, Tag)
    assert isinstance(heading.parent, Tag)
    tables = heading.parent.find_all("table")
    return [
        [" ".join(cell.get_text(" ", strip=True).split()) for cell in row.find_all(["th", "td"])]
        for row in tables[index].find_all("tr")
    ]


def test_sets_of_each_muscle_by_week(series: SessionFolder) -> None:
    rows = table(soup_of(series), "muscles")

    assert rows[0] == ["Muscle", "Week 1 4–10 January", "Week 2 11–17 January", "Limits"]
    assert rows[1:] == [
        ["chest", "5–6", "–", "2–8"],
        ["side shoulder", "–", "1.5 + 2", "4–12"],
        ["upper back", "3", "3", "4–12"],
        ["lats", "3", "3", "4–12"],
        ["biceps", "1.5", "1.5", "4–12"],
        ["triceps", "2.5–3", "–", "4–12"],
    ]


def test_every_row_has_its_chart(series: SessionFolder) -> None:
    soup = soup_of(series)
    charts = [name.get_text() for name in soup.select(".chart-name strong")]
    rows = [row[0] for index in range(2) for row in table(soup, "muscles", index)[1:]]

    assert charts == rows


def test_a_chart_is_readable_without_colour(series: SessionFolder) -> None:
    """Solid, hatched, dashed and a thin line: no two of them differ by colour alone."""
    chart = soup_of(series).select(".chart svg")[0]

    assert len(chart.select("rect.solid")) == 1  # nothing in week 2
    assert len(chart.select("line.reach")) == 1  # 5 to 6 sets
    assert len(chart.select("line.limit")) == 2
    assert [tick.get_text() for tick in chart.select("text.tick")] == [
        "0",
        "2",
        "4",
        "6",
        "8",
    ]  # calves: 3 + 4
    styles = (themes_folder() / "tidewater" / "styles" / "balance.css").read_text()
    assert "fill: url(#hatch)" in styles
    assert "stroke-dasharray" in styles


def test_pairs(series: SessionFolder) -> None:
    soup = soup_of(series)

    assert table(soup, "pairs") == [
        ["Week", "Push : Pull", "Knee : Hip", "Upper body : Lower body"],
        ["Week 1 4–10 January", "5–6 : 3", "0 : 0", "8–9 : 0"],
        ["Week 2 11–17 January", "0 : 3", "0 : 0", "3 : 3"],
    ]
    # 5 to 6 push for 6 pull
    assert soup.select_one(".pair-ratio").get_text() == "Push : Pull = 0.8–1"  # type: ignore[union-attr]
    assert "The trainer's limit is 1.5 push for each pull in a week." in soup.get_text()


def test_minutes_against_the_guideline(series: SessionFolder) -> None:
    """Rows at 3.5 MET: 3 x 2 x 8 x 3 s = 2.4 min; presses at 3.8: 1.5 min and 1.2 to 1.8; jumping jacks in a
    strength block 3 x 30 s at 3.5, in conditioning 4 x 60 s at 8.0: 4 vigorous minutes that count as 8."""
    rows = table(soup_of(series), "intensity")

    assert rows[0][:6] == [
        "Week",
        "Light",
        "Moderate",
        "Vigorous",
        "Aerobic, counts as",
        "Sessions with strength",
    ]
    # minutes of strength are not aerobic ones
    assert rows[1][1:6] == ["0", "5–6", "0", "0", "2"]
    assert rows[2][1:6] == ["0", "4", "4", "8", "1"]


def test_the_guideline_and_its_source_are_on_the_page(series: SessionFolder) -> None:
    """WHO guidelines on physical activity and sedentary behaviour, 2020."""
    text = soup_of(series).get_text()

    assert (
        "150–300 minutes of aerobic activity a week at moderate intensity or 75–150 minutes at vigorous"
        in text
    )
    assert "all major muscle groups on 2 or more days" in text
    assert "WHO guidelines on physical activity and sedentary behaviour, 2020" in text


def test_energy_is_a_range_with_a_caution(series: SessionFolder) -> None:
    soup = soup_of(series)

    low, high = table(soup, "intensity")[1][6].split("–")
    assert int(low) < int(high)
    assert "for people of 50 kg to 100 kg" in soup.get_text()
    assert "The tables hold for ages 19 to 59." in soup.get_text()
    assert "no basis for deciding what to eat" in soup.get_text()


def test_energy_is_told_in_the_series_own_unit_and_for_its_ages(series: SessionFolder) -> None:
    series.edit("series.yaml", "units: metric ", "ages: 17-79\nunits: us ")
    text = soup_of(series).get_text()

    assert "for people of 110 lb to 220 lb" in text
    assert "for 60 and over the low end is worked out with the smaller oxygen use at rest" in text


def test_progress_of_what_comes_again(series: SessionFolder) -> None:
    soup = soup_of(series)
    lines = soup.select(".line")

    assert [line.h3.get_text() for line in lines if line.h3] == ["Backpack row", "Jumping jack", "Press"]
    rows = [
        [spaced(c.get_text(" ", strip=True)) for c in row.find_all(["th", "td"])]
        for row in lines[0].select("tr")
    ]
    assert rows == [
        ["Session", "Sets", "In all", "Change"],
        ["1", "3", "48 reps", ""],
        ["3", "3", "60 reps", "+25 %"],
    ]
    loaded = [
        [spaced(c.get_text(" ", strip=True)) for c in row.find_all(["th", "td"])]
        for row in lines[2].select("tr")
    ]
    assert loaded[2] == ["2", "2–3", "24–36 reps", "4 kg", "the same"]


def test_a_session_done_twice_counts_twice(series: SessionFolder) -> None:
    series.edit("series.yaml", "days: [monday, thursday]", "days: [monday, thursday]\n  repeats: 2")

    assert table(soup_of(series), "muscles")[1][:2] == ["chest", "6"]


def test_without_days_all_sessions_stand_together(series: SessionFolder) -> None:
    series.edit("series.yaml", STARTER_SCHEDULE, "")
    rows = table(soup_of(series), "muscles")

    assert rows[0] == ["Muscle", "All sessions", "Limits"]
    assert rows[1] == ["chest", "5–6", "2–8"]


def test_a_series_without_episodes_has_a_page(tmp_path: Path) -> None:
    soup = soup_of(SessionFolder(tmp_path))

    assert "There is nothing to count yet." in soup.get_text()


def test_a_long_series_has_a_page_for_each_half_year(tmp_path: Path) -> None:
    series = SessionFolder(tmp_path)
    for number in range(1, 2 * (WEEKS_ON_A_PAGE + 1) + 1):
        series.session(number, "backpack-row, dose: 8")
    pages = [address for address in pages_of(series) if address.startswith("balance/")]

    assert pages == ["balance/weeks-1-26/index.html", "balance/index.html"]
    earlier = soup_of(series, "balance/weeks-1-26/index.html")
    assert len(table(earlier, "muscles")[0]) == 1 + WEEKS_ON_A_PAGE
    assert [link["href"] for link in earlier.select(".parts a")] == [
        "../../balance/weeks-1-26/index.html",
        "../../balance/index.html",
    ]
    assert [link.get_text() for link in earlier.select(".parts a")] == ["Weeks 1 to 26", "Week 27"]
    assert table(soup_of(series), "muscles")[0] == ["Muscle", "Week 27 5–11 July"]


class TestWhatChanges:
    WATCHED = ("balance/index.html", "schedule/index.html", "schedule.ics", "feed.xml")

    def changed(self, series: SessionFolder, file: str, old: str, new: str) -> set[str]:
        before = self.made(series)
        series.edit(file, old, new)
        after = self.made(series)
        return {address for address in after if before.get(address) != after[address]}

    def made(self, series: SessionFolder) -> dict[str, bytes]:
        planned = pages_of(series)
        pages = {address: planned[address].make for address in self.WATCHED if address in planned}
        return {address: make() for address, make in pages.items() if not isinstance(make, CopyOf)}

    def test_a_dose_is_counted(self, series: SessionFolder) -> None:
        changed = self.changed(series, "episodes/01-session-1.yaml", "dose: 10", "dose: 11")

        assert {"balance/index.html", "schedule/index.html"} <= changed
        assert "schedule.ics" not in changed

    def test_a_cue_is_not(self, series: SessionFolder) -> None:
        changed = self.changed(
            series, "exercises/press.yaml", "name: Press\n", "name: Press\ncues: [Press on]\n"
        )

        assert changed.isdisjoint({"balance/index.html", "schedule/index.html", "schedule.ics", "feed.xml"})

    def test_a_name_is_shown(self, series: SessionFolder) -> None:
        changed = self.changed(series, "exercises/press.yaml", "name: Press\n", "name: Press up\n")

        assert {"balance/index.html", "schedule/index.html"} <= changed

    def test_a_summary_is_in_the_feed_only(self, series: SessionFolder) -> None:
        series.edit(
            "episodes/01-session-1.yaml", "number: 1\n", "number: 1\nreleased: 2027-01-04\nsummary: One.\n"
        )
        changed = self.changed(series, "episodes/01-session-1.yaml", "summary: One.", "summary: Two.")

        assert "feed.xml" in changed
        assert changed.isdisjoint({"balance/index.html", "schedule/index.html", "schedule.ics"})


def test_facts_are_read_back_as_they_were(demo_series: Series, demo_site_parts: Site) -> None:
    details, forms = demo_series.details, forms_of(demo_series.exercises)
    for episode in demo_series.episodes:
        time = session_time(details, forms, episode)
        training = training_of(details, forms, episode, time)
        assert opened(packed(training_fact(demo_site_parts, episode))) == training
        read = opened(packed(points_fact(demo_site_parts, episode)))
        assert [(one.exercise, one.point) for one in read] == points_of(details, forms, episode)


@pytest.fixture(scope="module")
def demo_site_parts(tmp_path_factory: pytest.TempPathFactory) -> Site:
    """The demo with its theme, before any page is planned."""
    builder = Builder(four_weeks(), tmp_path_factory.mktemp("demo") / "build", jobs=1)
    return builder.site(builder.read())
