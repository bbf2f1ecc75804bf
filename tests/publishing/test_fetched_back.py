"""The published demo fetched back over HTTP as visitors do: byte for byte, with headers and ranges."""

import gzip
import threading
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import brotli
import pytest

from sitegen.preview.server import SiteServer
from sitegen.publishing.headers import headers_for, is_named_by_bytes
from tests.publishing.places import BucketPlace, Files, FolderPlace, files_below
from tests.publishing.sites import Person


@pytest.fixture(scope="module")
def demo_files(demo_site: Path) -> Files:
    """The files of the demo's site without most of its videos, which are all alike."""
    files = files_below(demo_site)
    videos = sorted(a for a in files if a.endswith((".mp4", ".webm")))
    return {a: data for a, data in files.items() if a not in videos[2:]}


@contextmanager
def served(folder: Path) -> Iterator[str]:
    server = SiteServer(folder)
    threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.02}, daemon=True).start()
    yield server.address
    server.shutdown()
    server.server_close()


def fetch(address: str, **headers: str) -> Any:
    return urllib.request.urlopen(urllib.request.Request(address, headers=headers))


RANGES = {"bytes=0-99": (0, 99), "bytes=1000-1999": (1000, 1999), "bytes=-500": (-500, None)}


def check_ranges(url: str, data: bytes) -> None:
    """Parts of a file as a browser asks for them when it seeks (RFC 9110, section 14)."""
    for wanted, (first, last) in RANGES.items():
        answer = fetch(url, Range=wanted)
        part = data[first : None if last is None else last + 1]
        assert answer.status == 206
        assert answer.read() == part
        start = first % len(data)
        assert answer.headers["Content-Range"] == f"bytes {start}-{start + len(part) - 1}/{len(data)}"


def test_from_a_bucket(bucket: BucketPlace, robin: Person, demo_files: Files) -> None:
    # Two of each sort of file: the folder below gets all of them.
    by_sort: dict[str, list[str]] = {}
    for address in sorted(demo_files):
        by_sort.setdefault(address.rpartition(".")[2], []).append(address)
    few = {"index.html", *(address for sort in by_sort.values() for address in sort[:2])}
    files = {address: demo_files[address] for address in few}
    robin.publish(bucket, files)
    assert bucket.visible() == files
    for address in ("index.html", "sitemap.xml", next(a for a in files if a.endswith(".woff2"))):
        told = bucket.request(address).headers
        wanted = headers_for(address)
        assert (told["Content-Type"], told["Cache-Control"]) == (wanted.content_type, wanted.cache_control)
    video = next(a for a in files if a.endswith((".mp4", ".webm")))
    check_ranges(f"{bucket.address}/galley/{video}", demo_files[video])


def test_from_a_folder(tmp_path: Path, robin: Person, demo_files: Files) -> None:
    place = FolderPlace(tmp_path)
    robin.publish(place, demo_files)
    with served(place.root) as root:
        for address, data in demo_files.items():
            assert fetch(root + address).read() == data, address
        video = next(a for a in demo_files if a.endswith((".mp4", ".webm")))
        check_ranges(root + video, demo_files[video])


FORMS = {"gzip": ("gzip", gzip.decompress), "brotli": ("br", brotli.decompress), "none": (None, bytes)}


@pytest.mark.parametrize("compress", FORMS)
def test_text_is_stored_compressed_and_says_so(
    compress: str, s3_endpoint: str, credentials: None, tmp_path: Path, robin: Person
) -> None:
    place = BucketPlace(tmp_path, s3_endpoint, f"forms-{compress}", compress=compress)
    page = b"<p>Towel row</p>" * 200
    robin.publish(place, {"index.html": page, "feed.xml": page, "media/x.0123456789.webm": page})
    coding, undo = FORMS[compress]
    told = place.request("index.html")
    assert told.headers["Content-Encoding"] == coding
    stored = told.read()
    assert undo(stored) == page
    assert (len(stored) < len(page) / 10) == (coding is not None)
    for address in ("feed.xml", "media/x.0123456789.webm"):
        assert place.request(address).headers["Content-Encoding"] is None
        assert place.request(address).read() == page


def test_another_compression_is_a_change(
    s3_endpoint: str, credentials: None, tmp_path: Path, robin: Person
) -> None:
    place = BucketPlace(tmp_path, s3_endpoint, "forms-change", compress="gzip")
    files = {"index.html": b"<p>Towel row</p>" * 200, "feed.xml": b"<feed/>"}
    robin.publish(place, files)
    place.target = type(place.target)(  # type: ignore[call-arg]
        bucket="forms-change", prefix="galley", endpoint=s3_endpoint, compress="brotli"
    )
    assert robin.look(place, files).difference.changed == ("index.html",)
    robin.publish(place, files)
    assert place.request("index.html").headers["Content-Encoding"] == "br"
    robin.restore(place)
    assert place.request("index.html").headers["Content-Encoding"] == "gzip"
    assert place.visible() == files


def test_names_that_change_with_their_bytes_may_be_kept_for_ever(demo_files: Files) -> None:
    named = {a for a in demo_files if is_named_by_bytes(a)}
    assert {a.split("/")[0] for a in named} == {"assets", "media"}
    assert {a for a in demo_files if a.split("/")[0] in ("assets", "media")} == named
