"""Every link of every page leads somewhere: in a sub-folder of a server and from the file system.

What holds in a sub-folder holds at the root of a domain: there is only less that an address could leave.

One and the same check in a real browser, for the browser knows best what an address means.
"""

import json
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from urllib.parse import unquote, urlsplit

import pytest
from playwright.sync_api import Page

from sitegen.building.build import Builder
from tests.conftest import serve
from tests.folders import SeriesFolder

COLLECT = """
() => {
  const named = {a: "href", area: "href", link: "href", script: "src", img: "src", source: "src",
                 track: "src", video: "src", audio: "src", iframe: "src", form: "action", use: "href"};
  const addresses = new Set();
  for (const [tag, key] of Object.entries(named))
    for (const each of document.getElementsByTagName(tag))
      if (each.hasAttribute(key)) addresses.add(new URL(each.getAttribute(key), document.baseURI).href);
  for (const each of document.querySelectorAll("video[poster]")) addresses.add(each.poster);
  for (const each of document.querySelectorAll("meta[http-equiv=refresh]"))
    addresses.add(new URL(each.content.split("url=")[1], document.baseURI).href);
  return {links: [...addresses], ids: [...document.querySelectorAll("[id]")].map((each) => each.id)};
}
"""


@dataclass
class Checked:
    """What the check found in a site."""

    pages: dict[str, set[str]] = field(default_factory=dict)
    """Ids on every page that links led to, by address below the root."""
    links: set[tuple[str, str]] = field(default_factory=set)
    """Page and the absolute address it names."""
    failed: list[str] = field(default_factory=list)
    """Requests that failed and complaints of the browser."""


def check_links(page: Page, root: str, folder: Path, most_of_a_kind: int = 10_000) -> Checked:
    """Open the pages that can be reached from the home page; collect what they name.

    With ``most_of_a_kind``, only so many of the pages that lie in one folder and are as deep.
    """
    kinds: Counter[tuple[str, int]] = Counter()
    checked = Checked()
    page.on("requestfailed", lambda request: _note_failure(checked, request.url, request.failure or ""))
    page.on("console", lambda message: _note(checked, page, message.type, message.text))
    page.on(
        "response",
        lambda answer: answer.status < 400 or checked.failed.append(f"{answer.url}: {answer.status}"),
    )
    waiting = ["index.html", "404.html"]
    while waiting:
        address = waiting.pop()
        kind = (address.split("/")[0], address.count("/"))
        if address in checked.pages or kinds[kind] == most_of_a_kind:
            continue
        kinds[kind] += 1
        page.goto(root + address, wait_until="domcontentloaded")
        told = page.evaluate(COLLECT)
        checked.pages[address] = set(told["ids"])
        for link in told["links"]:
            checked.links.add((address, link))
            inside = below(link, root)
            if inside is not None and inside.endswith(".html") and (folder / inside).is_file():
                waiting.append(inside)
    return checked


def _note_failure(checked: Checked, address: str, reason: str) -> None:
    if "ERR_ABORTED" not in reason:  # a picture still on its way when the next page is opened
        checked.failed.append(f"{address}: {reason}")


def _note(checked: Checked, page: Page, kind: str, text: str) -> None:
    if kind == "error":
        checked.failed.append(f"{page.url}: {text}")


def below(link: str, root: str) -> str | None:
    """The address below the root that a link names; None for one outside."""
    return unquote(urlsplit(link[len(root) :]).path) if link.startswith(root) else None


def broken(checked: Checked, root: str, folder: Path, published: str) -> Iterator[str]:
    """Every link that leads nowhere, and every one that leaves the site without need."""
    for page, link in sorted(checked.links):
        inside = below(link, root)
        if inside is None:
            # Absolute addresses where a standard wants them (canonical), other hosts, mail, telephone.
            if not link.startswith((published, "https://video.example/", "mailto:", "tel:", "data:")):
                yield f"{page} leads out of the site to {link}"
            elif link.startswith(published) and not (folder / _file(link.removeprefix(published))).is_file():
                yield f"{page} names {link}, which is not published"
        elif not (folder / inside).is_file():
            yield f"{page} leads to {inside}, which is not there"
        elif inside in checked.pages:
            part = unquote(urlsplit(link).fragment)
            if part and not part.startswith("t=") and part not in checked.pages[inside]:
                yield f"{page} leads to #{part} of {inside}, which has no such part"


def _file(address: str) -> str:
    path = urlsplit(address).path
    return f"{path}index.html" if not path or path.endswith("/") else path


@pytest.fixture(params=["sub-folder", pytest.param("file system", marks=pytest.mark.thorough)])
def root(request: pytest.FixtureRequest, demo_site: Path) -> Iterator[str]:
    """Where the demo's site is opened, ending in ``/``."""
    if request.param == "file system":
        yield f"{demo_site.as_uri()}/"
    else:
        for address in serve(demo_site.parent):
            yield f"{address}{demo_site.name}/"


def test_every_link_leads_somewhere(root: str, demo_site: Path, page: Page) -> None:
    published = json.loads((demo_site / "episodes/cast-off/chapters.json").read_text())["chapters"][0]["url"]
    published = published.partition("episodes/")[0]
    # What lies in one folder is made alike; that every link of every page holds is checked without a browser.
    checked = check_links(page, root, demo_site, most_of_a_kind=1)
    assert list(broken(checked, root, demo_site, published)) == []
    assert checked.failed == []
    kinds = {address.split("/")[0] for address in checked.pages}
    assert kinds >= {"episodes", "exercises", "needs", "schedule", "balance", "sheets"}


def test_an_address_that_moved_leads_on(
    tmp_path: Path, page: Page, serve_folder: Callable[[Path], str]
) -> None:
    series = SeriesFolder(tmp_path)
    with (series.root / "series.yaml").open("a") as stream:
        stream.write("moved: {episodes/cast-away: episodes/first-steps}\n")
    Builder(series.root, tmp_path / "build", jobs=1).build()
    for root in (serve_folder(tmp_path / "build"), f"{(tmp_path / 'build').as_uri()}/"):
        page.goto(f"{root}episodes/cast-away/index.html?t=75#welcome")
        page.wait_for_url(f"{root}episodes/first-steps/index.html?t=75#welcome")


def test_a_link_to_nowhere_would_be_noticed(
    tmp_path: Path, page: Page, serve_folder: Callable[[Path], str]
) -> None:
    (tmp_path / "other.html").write_text("<p id=here>Here</p>")
    (tmp_path / "404.html").write_text("<p>Not here</p>")
    (tmp_path / "index.html").write_text(
        "<a href=gone.html>1</a><a href=other.html#there>2</a><a href=other.html#here>3</a>"
        "<a href=/outside.html>4</a><script src=missing.js></script>"
    )
    root = serve_folder(tmp_path)
    checked = check_links(page, root, tmp_path)
    assert list(broken(checked, root, tmp_path, "https://x.example/")) == [
        "index.html leads to gone.html, which is not there",
        "index.html leads to missing.js, which is not there",
        "index.html leads to #there of other.html, which has no such part",
        "index.html leads to outside.html, which is not there",
    ]
    assert any("missing.js: 404" in line for line in checked.failed)
