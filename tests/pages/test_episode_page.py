"""The episode's page as a file: what a reader without scripts gets, what the scripts are given."""

import json
from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from sitegen.pages.episode.titles import anchors_of
from sitegen.pages.script_json import to_json
from sitegen.pages.site import Site
from sitegen.pages.theme import Theme
from sitegen.pages.views import Views
from sitegen.reading.reader import read_series
from tests.conftest import DEMO, ROOT
from tests.pages.episode_folder import EPISODE, EpisodeFolder, data_of


@pytest.fixture
def series(tmp_path: Path) -> EpisodeFolder:
    return EpisodeFolder(tmp_path)


@pytest.fixture
def ballast(demo_site: Path) -> BeautifulSoup:
    """The demo's page about uneven loads."""
    return BeautifulSoup((demo_site / "episodes/ballast/index.html").read_bytes(), "html.parser")


def texts(page: BeautifulSoup, selector: str) -> list[str]:
    return [" ".join(element.get_text(" ").split()) for element in page.select(selector)]


# --- kit first ---------------------------------------------------------------------------------


def test_kit_comes_before_the_video(ballast: BeautifulSoup) -> None:
    headings = texts(ballast, "main h2")

    assert headings.index("Have ready") < headings.index("Watch")


def test_kit_names_stand_ins_and_what_loads_weigh(ballast: BeautifulSoup) -> None:
    carrier = next(line for line in texts(ballast, ".kit li") if line.startswith("2 × 5-litre water carrier"))

    instead = texts(ballast, ".kit-instead div")
    assert any(
        one.startswith("2 × 5-litre water carrier or a 5-litre bottle with a handle") for one in instead
    )
    assert "5 litres of water (5 kg) in one hand, 3 litres of water (3 kg) in the other" in carrier
    assert "2 × 3 litres of water (3 kg each)" in carrier


def test_uneven_loads_have_their_plan_before_the_video_and_at_the_exercise(ballast: BeautifulSoup) -> None:
    plan = "set 1 left · set 2 right · set 3 left 4, then right 4"

    assert f"Heavier load for Carrier deadlift: {plan}" in texts(ballast, ".kit .heavier")
    assert f"Heavier load: {plan}" in texts(ballast, "#carrier-deadlift .heavier")


@pytest.mark.parametrize(
    ("units", "load", "shown"),
    [
        ("metric", "5 l water", "5 litres of water (5 kg)"),
        ("us", "5 l water", "5 litres of water (11 lb)"),
        ("imperial", "1 imperial gal water", "1 imperial gal of water (10 lb)"),
        ("us", "1 US gal water", "1 US gal of water (8.3 lb)"),
        ("metric", "5 l sand", "5 litres of sand (6.4–8 kg)"),
        ("metric", "2 x 400 g", "2 × 400 g"),
        ("us", "2 x 400 g", "2 × 400 g (0.88 lb each)"),
        ("metric", "12 kg", "12 kg"),
        ("us", "12 kg", "12 kg (26.5 lb)"),
        ("us", "25 lb", "25 lb"),
        ("metric", "500 ml water", "500 ml of water (0.5 kg)"),
    ],
)
def test_a_load_is_shown_with_its_weight(series: EpisodeFolder, units: str, load: str, shown: str) -> None:
    series.edit("series.yaml", "units: metric ", f"units: {units} ")
    series.edit("series.yaml", "{name: Sturdy chair, load: no,", "{name: Keg, holds: 20 l,")
    series.edit(EPISODE, "dose: 8-12,", f"dose: 8-12, load: {load},")

    assert f"Hold {shown}" in texts(series.page(), "#first-pair .item-facts span")


VESSELS = """{name: Can, holds: 8 l}
  bucket: {name: Bucket, holds: 10 l}
  sack: {name: Sack, holds: 20 kg}
"""


@pytest.mark.parametrize(
    ("load", "fetched", "held"),
    [
        pytest.param(None, [], None, id="a container without a load is not filled"),
        pytest.param(
            "{bucket: 10 l sand, can: 4 l water}",
            [("Can", "4 litres of water (4 kg)"), ("Bucket", "10 litres of sand (12.8–16 kg)")],
            "Hold 10 litres of sand (Bucket, 12.8–16 kg) in one hand, "
            "4 litres of water (Can, 4 kg) in the other",
            id="each vessel its own",
        ),
        pytest.param(
            "{sack: 8 kg, can: 5 l water}",
            [("Can", "5 litres of water (5 kg)"), ("Sack", "8 kg")],
            "Hold 8 kg (Sack) in one hand, 5 litres of water (Can, 5 kg) in the other",
            id="loads of mixed kinds",
        ),
        pytest.param(
            "{can: 2 x 3 l water}",
            [("2\N{NO-BREAK SPACE}×\N{NO-BREAK SPACE}Can", "2 × 3 litres of water (3 kg each)")],
            "Hold 2 × 3 litres of water (3 kg each)",
            id="two of the same piece",
        ),
        pytest.param("8 kg", [("Sack", "8 kg")], "Hold 8 kg", id="the only piece made for a mass"),
    ],
)
def test_what_is_fetched_is_what_is_held(
    series: EpisodeFolder, load: str | None, fetched: list[tuple[str, str]], held: str | None
) -> None:
    series.edit(
        "series.yaml", "  backpack: {name: Backpack with books, holds: 15 kg,", "  backpack: {name: Pack,"
    )
    series.edit("series.yaml", "kit:\n", f"kit:\n  can: {VESSELS}")
    series.edit("exercises/chair-squat.yaml", "kit: [sturdy-chair]\n", "kit: [can, bucket, sack]\n")
    if load:
        series.edit(EPISODE, "dose: 8-12,", f"dose: 8-12, load: {load},")
    page = series.page()

    pieces = [(one.strong.get_text(), texts(one, ".kit-load")) for one in page.select(".kit li")]
    assert [(name, load) for name, loads in pieces for load in loads] == fetched
    assert [fact for fact in texts(page, "#first-pair .item-facts span") if fact.startswith("Hold")] == (
        [held] if held else []
    )


@pytest.mark.parametrize(
    ("load", "planned"),
    [
        ("5 l water + 5 kg", False),  # 9 g
        ("5 kg + 4.9 kg", False),  # 2 %
        ("5 kg + 4.89 kg", True),
    ],
)
def test_two_loads_within_two_per_cent_need_no_plan(series: EpisodeFolder, load: str, planned: bool) -> None:
    series.edit("series.yaml", "{name: Sturdy chair, load: no,", "{name: Keg, holds: 20 l,")
    series.edit(EPISODE, "dose: 8-12,", f"dose: 8-12, load: {load},")

    assert bool(texts(series.page(), ".heavier")) is planned


# --- chapters, transcript ----------------------------------------------------------------------


def test_chapters_are_links_into_the_video_file(demo_site: Path) -> None:
    page = BeautifulSoup((demo_site / "episodes/steady-pull/index.html").read_bytes(), "html.parser")
    links = page.select(".chapters a")

    assert [link["href"].partition("#")[2] for link in links] == [
        "t=0",
        "t=22",
        "t=144",
        "t=202",
        "t=300",
        "t=368",
    ]
    assert texts(page, ".chapters a")[:2] == ["0:00 Welcome", "0:22 Harbour warm-up"]
    assert page.select_one("video track[kind=captions]")["src"] == "captions.vtt"
    assert page.select_one("video track[kind=chapters]")["src"] == "chapters.vtt"


def test_the_transcript_has_the_blocks_as_headings_and_every_word(demo_site: Path) -> None:
    page = BeautifulSoup((demo_site / "episodes/steady-pull/index.html").read_bytes(), "html.parser")

    assert texts(page, ".transcript-text h3") == texts(page, ".chapters a span:last-child")
    said = " ".join(texts(page, ".transcript-text p span"))
    assert said.startswith("Ahoy, kitchen. Robin again, with the third session: Steady pull.")
    links = [int(link["data-start"]) for link in page.select(".transcript-text a")]
    assert links == sorted(links)


def test_captions_in_srt_and_with_markup_become_a_transcript(series: EpisodeFolder) -> None:
    series.write(
        "captions/01.srt",
        "1\n00:00:01,000 --> 00:00:03,000\n<i>Welcome</i> &amp; sit\n\n"
        "2\n00:00:21,000 --> 00:00:23,000\nMarch\n",
    )
    series.edit(EPISODE, "# captions: captions/01.vtt", "captions: captions/01.srt")

    page = series.page()

    assert texts(page, ".transcript-text p span") == ["Welcome & sit", "March"]
    assert texts(page, ".transcript-text h3") == ["Welcome", "Warm-up"]


def test_an_episode_without_video_shows_its_session_and_lets_every_block_be_done(
    series: EpisodeFolder,
) -> None:
    series.write(EPISODE, "\n".join(line for line in series.episode.splitlines() if "video:" not in line))
    page = series.page()

    assert "The video of this session is not here yet." in page.get_text()
    assert page.find("video") is None
    assert len(page.select("button[data-turn]")) == 3
    addresses = [page.address for page in series.planned()]
    assert "episodes/first-steps/index.html" in addresses
    assert "episodes/first-steps/chapters.vtt" not in addresses


# --- hosted videos -----------------------------------------------------------------------------


def test_a_hosted_video_is_a_link_until_it_is_wanted(series: EpisodeFolder) -> None:
    page = series.page()

    assert page.find("iframe") is None
    button = page.select_one("#hosted a")
    assert button["href"] == "https://video.example/films/a%2Fb%20c#from-0"
    assert button.get_text() == "Load the video from Harbour Video"
    assert (
        page.select_one(".chapters li:nth-child(2) a")["href"]
        == "https://video.example/films/a%2Fb%20c#from-20"
    )


def test_the_policy_allows_a_frame_of_exactly_that_host(series: EpisodeFolder, demo_site: Path) -> None:
    def frames(page: BeautifulSoup) -> list[str]:
        policy = page.find("meta", attrs={"http-equiv": "Content-Security-Policy"})["content"]
        return [part.strip() for part in policy.split(";") if "frame" in part]

    own = BeautifulSoup((demo_site / "episodes/steady-pull/index.html").read_bytes(), "html.parser")

    assert frames(series.page()) == ["frame-src https://play.video.example:8443"]
    assert frames(own) == []


def test_an_odd_host_gets_no_say_in_the_policy(series: EpisodeFolder) -> None:
    series.edit("series.yaml", "https://play.video.example:8443/", "https://a;script-src.b/")
    policy = series.page().find("meta", attrs={"http-equiv": "Content-Security-Policy"})["content"]

    assert "frame-src" not in policy
    assert policy.count(";") == 4


# --- anchors, data -----------------------------------------------------------------------------


def test_a_block_may_be_called_like_a_part_of_the_page(series: EpisodeFolder) -> None:
    series.edit(EPISODE, "name: Get warm", "name: Watch")
    page = series.page()

    ids = [element["id"] for element in page.find_all(id=True)]
    assert len(ids) == len(set(ids))
    assert page.select_one("section.block#watch-2 h3").get_text() == "Watch"


def test_chapters_know_the_anchors_of_the_page() -> None:
    series = read_series(DEMO)
    views = Views(Site(series, {}, Theme(ROOT / "themes/tidewater", "en"), ""))
    for episode in series.episodes:
        nobody = [[""] * len(block.items) for block in episode.blocks]
        blocks = views.blocks(episode, nobody)
        shown = [(one.anchor, tuple(item.anchor for item in one.items)) for one in blocks]
        assert [(one.block, one.items) for one in anchors_of(episode)] == shown


def test_scripts_are_given_the_turns(ballast: BeautifulSoup) -> None:
    data = data_of(ballast, "episode-data")

    assert data["blocks"]["uneven-cargo"] == {
        "name": "Uneven cargo",
        "at": 204,
        "stop": 280,
        "kind": "strength",
        "format": "superset",
        "items": ["carrier-deadlift", "bent-over-row"],
        "sets": [3, 3],
        "exchange": [20, 20],
        "break": [75, 90],
        "side": [10, 10],
        "after": 120,
        "time": 0,
    }
    assert data["blocks"]["mooring-lines"]["stop"] is None
    deadlift = data["items"]["carrier-deadlift"]["forms"][0]
    assert deadlift["load"] == "5 litres of water (5 kg) in one hand, 3 litres of water (3 kg) in the other"
    assert deadlift["amounts"] == [["5", "litres", "water, 5 kg"], ["3", "litres", "water, 3 kg"]]
    assert deadlift["heavy"] == [["left", 0, ""], ["right", 0, ""], ["left", 0, "after 4\xa0reps"]]
    assert data["chapters"][0] == [0, 20, ""]


def test_rests_that_are_not_written_are_those_of_the_study(series: EpisodeFolder) -> None:
    series.edit(EPISODE, "    rest: {between_exercises: 20 s, between_sets: 60-90 s}\n", "")
    block = data_of(series.page(), "episode-data")["blocks"]["first-pair"]

    assert (block["exchange"], block["break"]) == ([10, 10], [60, 60])


def test_names_stay_what_they_are(series: EpisodeFolder) -> None:
    series.edit(EPISODE, "name: Get warm", 'name: "Warm & \\"ready\\" < 5"')
    page = series.page()

    names = [block["name"] for block in data_of(page, "episode-data")["blocks"].values()]
    assert 'Warm & "ready" < 5' in names
    assert 'Warm & "ready" < 5' in texts(page, ".chapters a span:last-child")


@pytest.mark.parametrize("text", ["</script><script>alert(1)</script>", "<!--", "]]>", "\u2028"])
def test_data_cannot_end_its_element(text: str) -> None:
    written = to_json({"name": text})

    assert "<" not in written
    assert json.loads(written) == {"name": text}


def test_drawings_of_exercises_have_a_text_alternative(demo_site: Path) -> None:
    page = BeautifulSoup((demo_site / "episodes/ballast/index.html").read_bytes(), "html.parser")

    drawings = page.select(".item-drawing")
    assert drawings
    assert all(len(drawing["aria-label"]) > 10 for drawing in drawings)


def test_an_edited_cue_leaves_other_episodes_alone(series: EpisodeFolder) -> None:
    from sitegen.building.build import Builder

    builder = Builder(series.root, series.out, jobs=1)
    series.write(
        "episodes/02-more.yaml",
        series.episode.replace("number: 1", "number: 2").replace("jumping-jack", "backpack-row"),
    )
    builder.build()
    series.edit("exercises/jumping-jack.yaml", "Land softly, knees a little bent", "Land like a cat")

    made = builder.build().written.made

    assert "episodes/first-steps/index.html" in made
    assert not [address for address in made if address.startswith("episodes/more/")]


def test_a_dose_each_way_and_the_same_each_side_keep_their_own_words() -> None:
    from sitegen.notation import Dose
    from sitegen.pages.phrases import Phrases
    from sitegen.pages.theme import Theme
    from sitegen.resources import themes_folder

    phrases = Phrases(Theme(themes_folder() / "tidewater", "en").strings)

    # No line ends between a number and its unit, nor before "side".
    assert phrases.dose(Dose.parse("12 s each side")) == "12\xa0s each\xa0side"
    assert phrases.dose(Dose.parse("12 s each way")) == "12\xa0s each\xa0way"


@pytest.mark.parametrize("drawn", [False, True], ids=["nothing drawn", "one drawing"])
def test_the_sheet_is_promised_as_it_is(drawn: bool, tmp_path: Path) -> None:
    series = EpisodeFolder(tmp_path)
    if drawn:
        poses = "pattern: squat\nposes: {start: {}, finish: {knees: 90, lean: 40}}"
        series.edit("exercises/chair-squat.yaml", "pattern: squat", poses)
    words = series.page().select_one(".sheet-what")
    assert words is not None
    assert ("drawings" in words.get_text()) is drawn
