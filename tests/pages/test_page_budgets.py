"""What a session's page may weigh and ask for before it is played, with a trainer's own poster too.

How high it may be is asked in tests/browser/test_phone_length.py.

Both bounds are our choice: 60 kB are 5 s on a network of 100 kbit/s, and a browser makes six requests to a
server at once (HTTP/1.1, common practice), so ten are two rounds.
"""

import gzip
from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from tests.conftest import DEMO

MOST_BYTES, MOST_REQUESTS = 60_000, 10
FONTS = 4
"""Both faces in two weights; letters beyond western ones ask for more of them."""
ASKED_FOR = (
    'link[rel="stylesheet"], script[src], main img[src]:not([loading="lazy"]), .masthead img, video[poster]'
)
"""What a page's elements ask for at once, besides the film's beginning (HTML standard, preload)."""
SESSIONS = sorted(file.stem.partition("-")[2] for file in (DEMO / "episodes").glob("*.yaml"))


def loaded(page: BeautifulSoup) -> list[str]:
    """The addresses of files that come with a page, without fonts and the film."""
    elements = page.select(ASKED_FOR)
    named = [str(one.get("href") or one.get("src") or one.get("poster")) for one in elements]
    return [address for address in named if not address.startswith("data:")]


@pytest.mark.parametrize("session", SESSIONS)
def test_a_session_weighs_little_until_it_is_played(demo_site: Path, session: str) -> None:
    file = demo_site / f"episodes/{session}/index.html"
    page = BeautifulSoup(file.read_bytes(), "html.parser")
    files = [(file.parent / address).resolve() for address in loaded(page)]

    weight = sum(len(gzip.compress(one.read_bytes(), 9)) for one in (file, *files))

    assert weight <= MOST_BYTES
    # Page, fonts, the beginning of the film, a poster where there is none; a small logo asks for nothing.
    assert (
        1 + len(files) + FONTS + len(page.select("video")) + (not page.select("video[poster]"))
        <= MOST_REQUESTS
    )
