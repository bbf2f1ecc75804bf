"""The headers of published files and the forms they are stored in."""

import builtins
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sitegen.publishing.headers import decoded, encoded, form_for, headers_for, is_named_by_bytes
from sitegen.publishing.target_errors import MissingExtra

YEAR = "public, max-age=31536000, immutable"  # RFC 9111, 5.2.2.1; RFC 8246
ASK = "public, no-cache"  # RFC 9111, 5.2.2.4

HEADERS = {
    # address: (media type of the IANA registry, cache life, form where gzip is wanted)
    "index.html": ("text/html; charset=utf-8", ASK, "gzip"),
    "episodes/steady-pull/index.html": ("text/html; charset=utf-8", ASK, "gzip"),
    "exercises/find.js": ("text/javascript; charset=utf-8", ASK, "gzip"),  # RFC 9239
    "assets/site.c0bea40d73.css": ("text/css; charset=utf-8", YEAR, "gzip"),
    "assets/fonts.ee6b9ae7b6.woff2": ("font/woff2", YEAR, ""),  # RFC 8081
    "media/03.0123456789.webm": ("video/webm", YEAR, ""),
    "media/03.0123456789.jpg": ("image/jpeg", YEAR, ""),
    "media/towel-row.0123456789.svg": ("image/svg+xml", YEAR, "gzip"),
    "episodes/steady-pull/captions.vtt": ("text/vtt; charset=utf-8", ASK, "gzip"),
    "episodes/steady-pull/chapters.json": ("application/json", ASK, "gzip"),
    "episodes/steady-pull/sheet-a4.pdf": ("application/pdf", ASK, ""),
    "episodes/steady-pull/description.txt": ("text/plain; charset=utf-8", ASK, ""),
    "feed.xml": ("application/atom+xml", ASK, ""),  # RFC 4287, 7
    "sitemap.xml": ("application/xml", ASK, ""),
    "schedule.ics": ("text/calendar; charset=utf-8", ASK, ""),  # RFC 5545, 8.1
    "CNAME": ("application/octet-stream", ASK, ""),
}


@pytest.mark.parametrize(("address", "expected"), HEADERS.items(), ids=HEADERS.keys())
def test_headers(address: str, expected: tuple[str, str, str]) -> None:
    headers = headers_for(address)
    assert (headers.content_type, headers.cache_control, form_for(address, "gzip")) == expected


NAMES = {
    "assets/site.c0bea40d73.css": True,
    "assets/vendor/minisearch.940fa03dba.js": True,
    "media/a b.0123456789.webm": True,
    "media/notes.0123456789": True,
    "media/03.webm": False,
    "assets/site.css": False,
    "assets/site.C0BEA40D73.css": False,
    "episodes/x.0123456789.html": False,
    "media/x.0123456789abc.webm": False,
}


@pytest.mark.parametrize(("address", "named"), NAMES.items(), ids=NAMES.keys())
def test_names_that_change_with_their_bytes(address: str, named: bool) -> None:
    assert is_named_by_bytes(address) is named


@given(st.binary(max_size=2000), st.sampled_from(["", "gzip", "br"]))
def test_what_is_encoded_comes_back(data: bytes, form: str) -> None:
    assert decoded(encoded(data, form), form) == data
    assert encoded(data, form) == encoded(data, form)


@pytest.mark.parametrize("form", ["gzip", "br"])
def test_bytes_that_are_not_in_a_form_are_given_as_they_are(form: str) -> None:
    assert decoded(b"<h1>by hand</h1>", form) == b"<h1>by hand</h1>"


def test_without_the_brotli_library_gzip_takes_its_place(monkeypatch: pytest.MonkeyPatch) -> None:
    assert form_for("index.html", "brotli") == "br"
    real = builtins.__import__

    def without(name: str, *rest: Any) -> Any:
        if name == "brotli":
            raise ImportError(name)
        return real(name, *rest)

    monkeypatch.setattr(builtins, "__import__", without)
    assert form_for("index.html", "brotli") == "gzip"
    with pytest.raises(MissingExtra, match="brotli is not installed"):
        decoded(b"x", "br")
