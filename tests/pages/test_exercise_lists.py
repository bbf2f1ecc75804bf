"""Lists of exercises that work without scripts, and the data for those that have them."""

import json
from pathlib import Path
from typing import Any

import pytest
from bs4 import BeautifulSoup

from sitegen.model import Series
from tests.pages.library_site import LibrarySite, words


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> LibrarySite:
    site = LibrarySite(tmp_path_factory.mktemp("lists"))
    site.build()
    return site


def groups(page: BeautifulSoup) -> dict[str, list[str]]:
    """Names of a list's exercises by heading, with the versions named after a colon."""
    found = {}
    for part in page.select("section[aria-labelledby^=group]"):
        entries = part.select(".index > li")
        found[words(part.h2)] = [": ".join(words(a) for a in entry.select("a")) for entry in entries]
    return found


@pytest.mark.parametrize(
    ("address", "wanted"),
    [
        ("pattern/pull-horizontal", {"Exercises 3": ["Backpack row", "Door row", "Pack row"]}),
        (
            "muscle/upper-back",
            {"It does most of the work 3": ["Backpack row", "Door row", "Pack row"]},
        ),
        ("muscle/biceps", {"It helps 2": ["Backpack row", "Door row"]}),
        ("kit/towel", {"In the exercise itself 1": ["Door row"]}),
        (
            "kit/sturdy-chair",
            {
                "In the exercise itself 2": ["Backpack row", "Chair squat"],
                "In a version only 2": ["Door row: Seated row", "Jumping jack: Seated jack"],
            },
        ),
        (
            "kit/_none",
            {
                "In the exercise itself 1": ["Jumping jack"],
                "In a version only 1": ["Door row: Blade squeeze"],
            },
        ),
        (
            "need/seated",
            {
                "In another version 4": [
                    "Backpack row: Seated backpack row",
                    "Chair squat: Seated knee press",
                    "Door row: Seated row",
                    "Jumping jack: Seated jack",
                ],
                "No version fits 1": ["Pack row"],
            },
        ),
        (
            "need/no-jumping",
            {
                "As they are 4": ["Backpack row", "Chair squat", "Door row", "Pack row"],
                "In another version 1": ["Jumping jack: Side step with arm swing"],
            },
        ),
    ],
)
def test_lists_by_what_exercises_are(site: LibrarySite, address: str, wanted: dict[str, list[str]]) -> None:
    assert groups(site.page(f"exercises/by/{address}/index.html")) == wanted


def test_the_index_leads_to_every_list_with_its_number(site: LibrarySite) -> None:
    page = site.page("exercises/index.html")
    links = {words(li): li.a["href"] for li in page.select("#lists li")}

    assert links["horizontal pull 3"] == "../exercises/by/pattern/pull-horizontal/index.html"
    assert links["Bath towel 1"] == "../exercises/by/kit/towel/index.html"
    assert links["Seated"] == "../exercises/by/need/seated/index.html"
    assert all((site.out / "exercises" / link).is_file() for link in links.values())


@pytest.mark.parametrize("kind", ["pattern", "muscle", "kit", "need"])
def test_the_lists_of_each_kind_hold_every_exercise_together(
    demo_site: Path, demo_series: Series, kind: str
) -> None:
    index = BeautifulSoup((demo_site / "exercises/index.html").read_bytes(), "html.parser")
    lists = [str(a["href"]) for a in index.select("#lists a") if f"/by/{kind}/" in f"/{a['href']}"]
    listed = set()
    for address in lists:
        page = BeautifulSoup((demo_site / "exercises" / address).read_bytes(), "html.parser")
        listed |= {str(a["href"]).split("/")[-2] for a in page.select(".index > li a")}

    assert len(lists) > 5
    assert listed == set(demo_series.exercises)


def test_the_index_names_other_names_and_versions(site: LibrarySite) -> None:
    [entry] = [e for e in site.page("exercises/index.html").select(".index > li") if words(e.a) == "Door row"]

    assert words(entry) == (
        "Door row Also called towel row Pull the chest to the door. "
        "Versions: Upright row, Seated row, Blade squeeze, Low row, Pack row"
    )


def data_of(site: LibrarySite) -> Any:
    text = (site.out / "exercises/find.js").read_text(encoding="utf-8")
    assert text.startswith("window.exerciseData = {")
    assert "<" not in text
    return json.loads(text.removeprefix("window.exerciseData = ").removesuffix(";\n"))


def test_the_data_for_the_search(site: LibrarySite) -> None:
    data = data_of(site)
    row = next(one for one in data["exercises"] if one[0] == "door-row")
    kit = [piece[0] for piece in data["kit"]]

    assert row[:3] == ["door-row", "Door row", ["towel row"]]
    assert [form[:3] for form in row[3]] == [
        ["", "", 0],
        ["upright", "Upright row", 1],
        ["seated", "Seated row", 1],
        ["squeeze", "Blade squeeze", 3],
        ["low", "Low row", 2],
        ["to-pack", "Pack row", 3],
    ]
    assert [[kit[piece] for piece in form[6]] for form in row[3]][2] == ["towel", "sturdy-chair"]
    assert [form[8] for form in row[3]] == [0, 0, 0, 0, 0, 1]
    # Episodes by their place in the series: 2. Session 2 is the second.
    assert row[4] == [1, 10, 1, 65, 1, 90, 2, 10, 2, 65, 2, 90, 3, 10, 3, 65, 3, 90]


def test_weeks_are_those_of_the_calendar(site: LibrarySite) -> None:
    # Mondays and Thursdays: two sessions a week.
    assert [episode[:2] + episode[3:] for episode in data_of(site)["episodes"]] == [
        ["first-steps", 1, 1],
        ["session-2", 2, 1],
        ["session-3", 3, 2],
        ["session-4", 4, 2],
    ]


def test_the_licence_of_the_search_library_is_in_the_site(site: LibrarySite) -> None:
    [licence] = (site.out / "assets").rglob("minisearch-LICENSE.*.txt")

    assert "Permission is hereby granted, free of charge" in licence.read_text()


def test_a_cue_changes_no_list(tmp_path: Path) -> None:
    site = LibrarySite(tmp_path)
    site.build()
    site.edit("exercises/door-row.yaml", "name: Door row", "name: Gate row")
    renamed = site.build().made
    site.edit("exercises/door-row.yaml", "Long arms at the end", "Arms long")
    reworded = site.build().made

    assert {"exercises/index.html", "exercises/find.js", "exercises/by/kit/towel/index.html"} <= set(renamed)
    assert [address for address in reworded if "/by/" in address or "find.js" in address] == []
