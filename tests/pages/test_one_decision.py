"""An exercise's page and the plans of the needs say the same of every exercise and need of the demo."""

from pathlib import Path

from bs4 import BeautifulSoup, Tag

from sitegen.model import Series
from sitegen.study.forms import FormKey, forms_of, shown_form
from sitegen.study.suitability import Suitability


def forms_by_need(page: BeautifulSoup) -> dict[str, set[str]]:
    """By need, the forms that an exercise's page links to; ``as filmed`` where it says so."""
    section = page.find(id="by-need").find_parent("section")  # type: ignore[union-attr]
    assert section is not None
    found = {_need(link): {"as filmed"} for link in section.find_all("a") if link.find_parent("p")}
    for row in section.select("tbody tr"):
        told = {link["href"].split("/")[-1] for link in row.select("td a")}
        found[_need(row.select_one("th a"))] = {*told, *(["as filmed"] if "as filmed" in row.td.text else [])}
    return found


def _need(link: Tag | None) -> str:
    return link["href"].split("/")[-2]  # type: ignore[index, union-attr, return-value]


def test_the_table_of_an_exercise_names_what_the_sessions_do(demo_site: Path, demo_series: Series) -> None:
    forms = forms_of(demo_series.exercises)
    suitability = Suitability(demo_series.details, forms)
    expected: dict[tuple[str, str], set[str]] = {}
    for need in demo_series.details.needs:
        for episode in demo_series.episodes:
            for block, versions in zip(episode.blocks, suitability.session(episode, [need]), strict=True):
                for item, version in zip(block.items, versions, strict=True):
                    told = expected.setdefault((item.exercise, need), set())
                    if version is not None and version.as_filmed:
                        told.add("as filmed")
                    elif version is not None:
                        told.add(_address(version.form.key, item.exercise))
                    assert shown_form(forms, item).exercise == item.exercise  # or its line is on two pages

    wrong = []
    for exercise in {exercise for exercise, _ in expected}:
        page = BeautifulSoup((demo_site / "exercises" / exercise / "index.html").read_bytes(), "lxml")
        for need, told in forms_by_need(page).items():
            if told != expected[exercise, need]:
                wrong.append((exercise, need, told, expected[exercise, need]))

    assert wrong == []


def _address(key: FormKey, exercise: str) -> str:
    """The last part of the link from an exercise's page to a form."""
    if key.exercise == exercise:
        return f"#{key.variant or 'main'}"
    return f"index.html#{key.variant}" if key.variant else "index.html"
