"""The connection breaks at any moment: the old site stays readable, a second run finishes the work.

A real connection to a real server goes through a proxy that breaks after a number of bytes. A few points,
evenly spread over the bytes that the publication takes; `python -m tests.bench cuts` takes as many as told.
"""

import os
import re
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from sitegen.publishing.target_errors import CutOff
from tests.publishing.cutting import CuttingProxy
from tests.publishing.places import BucketPlace, Files, Place, SftpPlace
from tests.publishing.sites import FIRST, SECOND, Person

if TYPE_CHECKING:
    from tests.publishing.sftp_server import SftpServer

SFTP_CUTS = int(os.environ.get("CUTS", "4"))
BUCKET_CUTS = int(os.environ.get("CUTS", "2"))
OLD = {a: d for a, d in FIRST.items() if a not in SECOND and a.startswith("assets/")}


def check_readable(visible: Files) -> None:
    """Every page is the old or the new one, whole, and everything that a page names is there."""
    for address, data in visible.items():
        assert data in (FIRST.get(address), SECOND.get(address)), f"{address} is neither old nor new"
        if address.endswith(".html"):
            for name in re.findall(rb"(?:assets|media|episodes)/[\w./-]+", data):
                assert name.decode() in visible, f"{address} needs {name.decode()}"
    assert visible.keys() >= FIRST.keys() & SECOND.keys(), "something that was there and stays is missing"


def cut_and_finish(place: Place, proxy: CuttingProxy, robin: Person, budget: int) -> bool:
    """Publish over a connection that breaks, look, then publish again; gives whether it broke."""
    proxy.cut_after(budget)
    try:
        robin.publish(place, SECOND)
        broke = False
    except CutOff:
        broke = True
    assert proxy.is_cut or not broke
    proxy.cut_after(None)
    check_readable(place.visible())
    # A cut in the farewell of a finished publication is no failure: then all of it must be there.
    assert broke or place.visible() == SECOND | OLD
    robin.publish(place, SECOND)
    assert place.visible() == SECOND | OLD
    return broke


def run_cuts(place: Place, proxy: CuttingProxy, robin: Person, reset: Callable[[], None], cuts: int) -> None:
    robin.publish(place, FIRST)
    reset()
    proxy.cut_after(None)
    robin.publish(place, SECOND)
    total = proxy.passed
    for number in range(cuts):
        reset()
        # How many bytes a publication takes differs a little from run to run, and those at the very end
        # are the farewell of one that is out: the last point is well before.
        assert cut_and_finish(place, proxy, robin, int(total * 0.9 * (number + 0.5) / cuts))


@pytest.fixture
def proxy_to_sftp(sftp_server: "SftpServer", home: Path) -> Iterator[CuttingProxy]:
    proxy = CuttingProxy(sftp_server.port)
    sftp_server.configure(home, proxy.port)
    yield proxy
    proxy.close()


def test_over_sftp(
    tmp_path: Path, sftp_server: "SftpServer", proxy_to_sftp: CuttingProxy, robin: Person
) -> None:
    place = SftpPlace(tmp_path, sftp_server, proxy_to_sftp.port)
    saved = tmp_path / "saved"

    def reset() -> None:
        if saved.exists():
            shutil.rmtree(place.root)
            shutil.copytree(saved, place.root)
        else:
            shutil.copytree(place.root, saved)

    run_cuts(place, proxy_to_sftp, robin, reset, SFTP_CUTS)


@pytest.mark.thorough
def test_over_s3(bucket: BucketPlace, s3_endpoint: str, robin: Person) -> None:
    proxy = CuttingProxy(int(s3_endpoint.rpartition(":")[2]))
    bucket.target = type(bucket.target)(
        bucket=bucket.target.bucket, prefix="galley", endpoint=f"http://127.0.0.1:{proxy.port}"
    )
    saved: list[dict[str, tuple[bytes, dict[str, str]]]] = []

    def reset() -> None:
        if saved:
            bucket.bring_to(saved[0])
        else:
            saved.append(bucket.snapshot())

    run_cuts(bucket, proxy, robin, reset, BUCKET_CUTS)
    proxy.close()


def test_a_page_half_way_would_be_noticed() -> None:
    with pytest.raises(AssertionError, match="neither old nor new"):
        check_readable(dict(FIRST) | {"index.html": FIRST["index.html"][:9]})
    with pytest.raises(AssertionError, match="needs assets/site"):
        check_readable({a: d for a, d in FIRST.items() if not a.startswith("assets/")})
