"""Every page of the demo: valid HTML, links that lead somewhere, nothing from other sites."""

import itertools
import re
import xml.etree.ElementTree as ElementTree
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from urllib.parse import unquote, urldefrag, urlsplit

import html5lib
import pytest
from bs4 import BeautifulSoup

from sitegen.model import Series

Soups = dict[Path, BeautifulSoup]


def html_pages(site: Path) -> list[Path]:
    return sorted(site.rglob("*.html"))


def of_each_kind(site: Path, most: int = 1) -> Iterator[Path]:
    """So many pages of every kind: addresses that differ only in a name are one kind."""
    seen: Counter[str] = Counter()
    for path in html_pages(site):
        kind = re.sub(r"(episodes|exercises|needs)/[^/]+/", r"\1/*/", str(path.relative_to(site)))
        seen[kind] += 1
        if seen[kind] <= most:
            yield path


@pytest.fixture(
    scope="module",
    params=[
        pytest.param(3, id="three of each kind"),
        pytest.param(1_000_000, id="all", marks=pytest.mark.thorough),
    ],
)
def soups(request: pytest.FixtureRequest, demo_site: Path) -> Soups:
    """Pages, taken apart once."""
    return {path: soup_of(path) for path in of_each_kind(demo_site, request.param)}


def soup_of(path: Path) -> BeautifulSoup:
    return BeautifulSoup(path.read_bytes(), "lxml")


def test_pages_are_valid_html(demo_site: Path) -> None:
    """html5lib's strict parser: every parse error of the HTML standard is an error here."""
    for path in of_each_kind(demo_site):
        parser = html5lib.HTMLParser(strict=True)
        try:
            parser.parse(path.read_text(encoding="utf-8"))
        except html5lib.html5parser.ParseError as error:
            pytest.fail(f"{path.relative_to(demo_site)}: {error} at {parser.errors[-1][0]}")


def test_ids_are_unique_and_every_reference_to_one_holds(soups: Soups) -> None:
    for path, soup in soups.items():
        ids = [element["id"] for element in soup.find_all(id=True)]
        assert len(ids) == len(set(ids)), path
        for attribute in ("aria-labelledby", "aria-describedby", "aria-controls", "for"):
            for element in soup.find_all(attrs={attribute: True}):
                value = element[attribute]
                wanted = value.split() if isinstance(value, str) else value
                assert set(wanted) <= set(ids), (path, attribute, wanted)


def test_every_link_leads_to_a_file_and_its_anchor(demo_site: Path, soups: Soups) -> None:
    anchors: dict[Path, set[str]] = {}
    broken = []
    for path, soup in soups.items():
        for element in soup.find_all(["a", "link", "img", "script", "video", "source", "track"]):
            for attribute in ("href", "src", "poster"):
                target = element.get(attribute)
                if not target or urlsplit(target).scheme:
                    continue
                address, anchor = urldefrag(target)
                file = (path.parent / unquote(urlsplit(address).path)).resolve() if address else path
                if not file.is_file():
                    broken.append((str(path.relative_to(demo_site)), target))
                elif anchor and not anchor.startswith("t=") and file.suffix == ".html":
                    if file not in anchors:
                        anchors[file] = set(re.findall(r'\sid="([^"]+)"', file.read_text("utf-8")))
                    if unquote(anchor) not in anchors[file]:
                        broken.append((str(path.relative_to(demo_site)), target))
    assert broken == []


def test_every_page_can_be_reached_from_the_home_page(demo_site: Path, soups: Soups) -> None:
    """But for the short addresses of sessions, which people have on paper."""
    reached, waiting = set(), [demo_site / "index.html"]
    while waiting:
        path = waiting.pop()
        if path in reached or path not in soups:
            continue
        reached.add(path)
        addresses = (urldefrag(str(a["href"])).url for a in soups[path].find_all("a", href=True))
        waiting += [(path.parent / unquote(urlsplit(a).path)).resolve() for a in addresses if a]
    left = {str(path.relative_to(demo_site)) for path in soups.keys() - reached}
    assert {address for address in left if not address[0].isdecimal()} == set()


def test_pages_load_nothing_from_other_sites_and_run_no_inline_script(
    soups: Soups,
) -> None:
    for path, soup in soups.items():
        policy = soup.find("meta", attrs={"http-equiv": "Content-Security-Policy"})
        assert policy is not None, path
        assert "default-src 'self'" in policy["content"]
        assert "unsafe" not in policy["content"]
        for element in soup.find_all(["script", "img", "video", "iframe", "link", "source", "track"]):
            source = element.get("src") or (
                element.get("href") if element.get("rel") == ["stylesheet"] else None
            )
            assert not source or not urlsplit(source).scheme, (path, source)
            if element.name == "script" and not source:
                assert element.get("type") in ("application/json", "application/ld+json"), path
        assert not soup.find_all(style=True), path
        assert not soup.find_all(lambda tag: any(name.startswith("on") for name in tag.attrs)), path


def test_every_page_has_one_title_one_main_heading_and_its_language(soups: Soups) -> None:
    for path, soup in soups.items():
        assert soup.html["lang"] == "en"
        assert soup.title is not None, path
        assert soup.title.get_text().strip(), path
        assert len(soup.find_all("h1")) == 1, path


def test_headings_do_not_skip_a_level(soups: Soups) -> None:
    for path, soup in soups.items():
        levels = [int(h.name[1]) for h in soup.find_all(re.compile(r"^h[1-6]$"))]
        skips = [(a, b) for a, b in itertools.pairwise(levels) if b > a + 1]
        assert not skips, (path, levels)


def test_every_episode_and_exercise_has_its_page(demo_site: Path, demo_series: Series) -> None:
    for episode in demo_series.episodes:
        assert (demo_site / "episodes" / episode.slug / "index.html").is_file()
    for exercise in demo_series.exercises:
        assert (demo_site / "exercises" / exercise / "index.html").is_file()
    for page in demo_series.pages:
        assert (demo_site / page.slug / "index.html").is_file()


def test_an_exercise_page_lists_every_appearance_with_its_time(
    demo_site: Path, demo_series: Series, soups: Soups
) -> None:
    for exercise in demo_series.exercises:
        soup = soups.get(demo_site / "exercises" / exercise / "index.html")
        if soup is None:
            continue
        links = {a["href"] for a in soup.find_all("a", href=True)}
        for episode in demo_series.episodes:
            for block in episode.blocks:
                for item in block.items:
                    if item.exercise == exercise:
                        at = item.at if item.at is not None else block.at
                        assert f"../../episodes/{episode.slug}/index.html#t={at}" in links


def test_every_page_defers_to_a_doctor_and_says_when_to_stop(soups: Soups) -> None:
    for path, soup in soups.items():
        assert "doctor or physiotherapist" in soup.get_text(), path


def test_the_sitemap_keeps_to_its_protocol(demo_site: Path, demo_series: Series) -> None:
    """sitemaps.org protocol 0.9: namespace, absolute addresses of one host, escaped, UTF-8."""
    data = (demo_site / "sitemap.xml").read_bytes()
    root = ElementTree.fromstring(data)
    name = "{http://www.sitemaps.org/schemas/sitemap/0.9}"
    assert root.tag == f"{name}urlset"
    places = [url.find(f"{name}loc").text for url in root]  # type: ignore[union-attr]
    assert len(places) == len(set(places)) <= 50_000
    assert len(data) <= 52_428_800
    address = demo_series.details.address
    assert all(place and place.startswith(address) for place in places)
    files = {demo_site / place.removeprefix(address) / "index.html" for place in places if place}
    assert all(file.is_file() for file in files)
    to_be_found = {p for p in html_pages(demo_site) if p.name == "index.html" and not _is_aside(demo_site, p)}
    assert files == to_be_found


def _is_aside(site: Path, path: Path) -> bool:
    """Sheets are reached from their session; a page named by a number only leads on; what is kept on a device
    is for its owner."""
    parts = path.relative_to(site).parts
    return "sheet" in parts or parts[0] == "kept" or parts[0].isdigit()
