"""The preview's server: byte ranges, loopback only, nothing outside the site."""

import contextlib
import http.client
import socket
import struct
from collections.abc import Iterator
from pathlib import Path

import pytest

from sitegen.preview.ranges import parse_range
from sitegen.system.media_types import media_type
from tests.conftest import PATIENCE_S, serve

VIDEO = bytes(range(256)) * 40

# RFC 9110 section 14.1.2, for a file of 10,000 bytes: its own examples, then the edges.
RANGES = {
    "bytes=0-499": (0, 499),
    "bytes=500-999": (500, 999),
    "bytes=-500": (9500, 9999),
    "bytes=9500-": (9500, 9999),
    "bytes=0-0": (0, 0),
    "bytes=0-": (0, 9999),
    "bytes=9999-20000": (9999, 9999),
    "bytes=-20000": (0, 9999),
    "bytes=5-3": None,
    "bytes=0-1,3-4": None,
    "seconds=0-5": None,
    "bytes=": None,
    "bytes=-": None,
    "": None,
}


@pytest.mark.parametrize(("header", "expected"), RANGES.items(), ids=[h or "none" for h in RANGES])
def test_a_range_is_read(header: str, expected: tuple[int, int] | None) -> None:
    assert parse_range(header, 10_000) == expected


@pytest.mark.parametrize("header", ["bytes=10000-", "bytes=20000-30000", "bytes=-0"])
def test_a_range_outside_the_file_is_refused(header: str) -> None:
    with pytest.raises(ValueError, match=r"range|asked"):
        parse_range(header, 10_000)


@pytest.fixture
def port(tmp_path: Path) -> Iterator[int]:
    site = tmp_path / "site"
    (site / "media").mkdir(parents=True)
    (site / "media" / "a.webm").write_bytes(VIDEO)
    (site / "media" / "a.0123456789.webm").write_bytes(VIDEO)
    (site / "index.html").write_text("<p>home</p>")
    (site / "404.html").write_text("<p>not here</p>")
    (site / "captions.vtt").write_text("WEBVTT\n")
    (tmp_path / "secret.txt").write_text("secret")
    (site / "out").symlink_to(tmp_path / "secret.txt")
    for address in serve(site):
        yield int(address.rstrip("/").rpartition(":")[2])


def get(port: int, path: str, method: str = "GET", **headers: str) -> tuple[int, dict[str, str], bytes]:
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=PATIENCE_S)
    connection.putrequest(method, path, skip_host="Host" in headers)
    for name, value in headers.items():
        connection.putheader(name, value)
    connection.endheaders()
    with contextlib.closing(connection), connection.getresponse() as response:
        return response.status, dict(response.headers), response.read()


def test_a_part_of_a_video(port: int) -> None:
    status, headers, body = get(port, "/media/a.webm", Range="bytes=300-309")
    assert (status, body) == (206, VIDEO[300:310])
    assert headers["Content-Range"] == f"bytes 300-309/{len(VIDEO)}"
    assert headers["Content-Type"] == "video/webm"


def test_the_whole_video_says_that_parts_can_be_had(port: int) -> None:
    status, headers, body = get(port, "/media/a.webm")
    assert (status, body, headers["Accept-Ranges"]) == (200, VIDEO, "bytes")


@pytest.mark.parametrize(
    ("path", "life"),
    [
        pytest.param(
            "/media/a.0123456789.webm", "max-age=31536000, immutable", id="a name made from the bytes"
        ),
        pytest.param("/media/a.webm", "no-store", id="another name"),
        pytest.param("/index.html", "no-store", id="a page"),
    ],
)
def test_only_what_never_changes_is_kept_by_the_browser(port: int, path: str, life: str) -> None:
    assert get(port, path)[1]["Cache-Control"] == life


def test_a_part_behind_the_end(port: int) -> None:
    status, headers, _ = get(port, "/media/a.webm", Range="bytes=99999-")
    assert (status, headers["Content-Range"]) == (416, f"bytes */{len(VIDEO)}")


def test_head_has_no_body(port: int) -> None:
    status, headers, body = get(port, "/media/a.webm", method="HEAD")
    assert (status, body, headers["Content-Length"]) == (200, b"", str(len(VIDEO)))


OUTSIDE = [
    "/../secret.txt",
    "/media/../../secret.txt",
    "/%2e%2e/secret.txt",
    "/..%2fsecret.txt",
    "/out",
    "//etc/passwd",
    "/%00",
]


@pytest.mark.parametrize("path", OUTSIDE)
def test_nothing_outside_the_site_is_served(port: int, path: str) -> None:
    status, _, body = get(port, path)
    assert status == 404
    assert b"secret" not in body


def test_what_nothing_can_be_called_is_not_there(port: int, capfd: pytest.CaptureFixture[str]) -> None:
    assert get(port, f"/{'x' * 300}/")[0] == 404
    with socket.create_connection(("127.0.0.1", port), timeout=PATIENCE_S) as connection:
        connection.sendall(b"GET http://[ HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n")
        assert connection.makefile("rb").readline().split()[1] == b"400"
    assert capfd.readouterr().err == ""


def test_a_browser_that_goes_away_is_no_news(serve_folder, tmp_path: Path, capfd) -> None:
    """It resets the connection while a long file is on its way, again and again."""
    (tmp_path / "long.webm").write_bytes(bytes(20_000_000))
    (tmp_path / "index.html").write_text("x" * 5_000_000)
    port = int(serve_folder(tmp_path).rstrip("/").rpartition(":")[2])
    for address in ("/long.webm", "/index.html"):
        for _ in range(5):
            with socket.create_connection(("127.0.0.1", port)) as connection:
                connection.setsockopt(socket.SOL_SOCKET, socket.SO_LINGER, struct.pack("ii", 1, 0))
                connection.sendall(f"GET {address} HTTP/1.1\r\nHost: 127.0.0.1:{port}\r\n\r\n".encode())
                connection.recv(10)
    assert get(port, "/index.html", method="HEAD")[0] == 200
    assert capfd.readouterr().err == ""


@pytest.mark.parametrize(
    "host", ["evil.example", "evil.example:80", "127.0.0.1:1", "localhost.evil.example", ""]
)
def test_a_name_of_another_site_is_refused(port: int, host: str) -> None:
    """DNS rebinding: a page elsewhere points its own name at this computer."""
    assert get(port, "/", Host=host)[0] == 403


def test_localhost_is_this_computer(port: int) -> None:
    assert get(port, "/", Host=f"localhost:{port}")[0] == 200


def test_a_folder_without_its_slash_is_sent_on_within_the_site(port: int) -> None:
    status, headers, _ = get(port, "//media?x=1")
    assert (status, headers["Location"]) == (301, "/media/?x=1")


def test_a_page_that_is_not_there(port: int) -> None:
    status, headers, body = get(port, "/nowhere/")
    assert (status, body) == (404, b"<p>not here</p>")
    assert headers["Content-Type"] == "text/html; charset=utf-8"


TYPES = {
    "a.html": "text/html; charset=utf-8",
    "a.vtt": "text/vtt; charset=utf-8",
    "a.ics": "text/calendar; charset=utf-8",
    "a.js": "text/javascript; charset=utf-8",
    "a.json": "application/json",
    "a.svg": "image/svg+xml",
    "a.webm": "video/webm",
    "a": "application/octet-stream",
}


@pytest.mark.parametrize(("name", "kind"), TYPES.items())
def test_media_types(name: str, kind: str) -> None:
    assert media_type(name) == kind
