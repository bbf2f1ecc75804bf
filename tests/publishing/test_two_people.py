"""Two people publish to one target: the second is told, and nobody's work is mixed with another's."""

import json
import subprocess
import sys
from datetime import UTC, datetime
from pathlib import Path

import pytest

from sitegen.publishing.headers import headers_for
from sitegen.publishing.lease import Holder, Lease, this_holder
from sitegen.publishing.publication_record import LEASE
from sitegen.publishing.target_errors import TargetBusy
from tests.publishing.places import BranchPlace, Place
from tests.publishing.sites import FIRST, SECOND, Person

LEASED = ["folder", "folder at once", "sftp", "bucket"]
HERE = ["folder"]


@pytest.mark.parametrize("place", LEASED, indirect=True)
def test_the_second_is_told_who_publishes_and_since_when(place: Place, robin: Person, maria: Person) -> None:
    store = place.store()
    store.open()
    holder = Holder("robin@studio", "another-machine", 1, "2026-09-14T12:00:00+00:00", "token")
    with Lease(store, holder), pytest.raises(TargetBusy) as told:
        maria.publish(place, FIRST)
    store.close()
    assert told.value.what == "robin@studio has been publishing there since 2026-09-14 12:00:00 UTC"
    assert "--take-over" in told.value.advice
    assert place.visible() == {}
    maria.publish(place, FIRST)
    assert place.visible() == FIRST


@pytest.mark.parametrize("place", HERE, indirect=True)
def test_a_lease_left_behind_elsewhere_can_be_taken_over(place: Place, maria: Person) -> None:
    place.put(LEASE, json.dumps(["robin"]).encode())  # not even readable
    maria.publish(place, FIRST)
    lease = {"name": "robin@studio", "machine": "m", "process": 1, "since": "2026", "token": "t"}
    place.put(LEASE, json.dumps(lease).encode())
    with pytest.raises(TargetBusy):
        maria.publish(place, SECOND)
    maria.publish(place, SECOND, take_over=True)
    assert SECOND.items() <= place.visible().items()
    assert LEASE not in place.everything()


@pytest.mark.parametrize("place", HERE, indirect=True)
def test_a_lease_that_makes_no_sense_is_no_hindrance(place: Place, maria: Person) -> None:
    lease = {"name": "r", "machine": maria.holder().machine, "process": 1, "since": "", "token": "t"}
    absurd = (
        lease | {"process": 10**40},
        lease | {"process": -1},
        lease | {"process": "one"},
        lease | {"since": 7},
        lease | {"name": ["r"]},
    )
    for number, one in enumerate([*map(json.dumps, absurd), "[" * 100_000]):
        place.put(LEASE, one.encode())
        maria.publish(place, FIRST | {"index.html": b"%d" % number})
        assert place.visible()["index.html"] == b"%d" % number


@pytest.mark.parametrize("text", [None, "", "0" * 15, "somewhere else!!"])
def test_two_computers_never_share_a_word(text: str | None, tmp_path: Path) -> None:
    """With the same word each would take a lease of the other for one of its own that was left behind."""
    words = []
    for name in ("here", "there"):
        caches = tmp_path / name
        caches.mkdir()
        if text is not None:
            (caches / "machine").write_text(text)
        words.append(this_holder(caches, datetime(2026, 9, 14, tzinfo=UTC)).machine)
        assert this_holder(caches, datetime(2026, 9, 14, tzinfo=UTC)).machine == words[-1]
    assert len(set(words)) == 2
    assert all(len(word) == 16 for word in words)


@pytest.mark.parametrize("place", HERE, indirect=True)
def test_a_lease_of_a_run_from_here_that_has_ended_is_no_hindrance(place: Place, robin: Person) -> None:
    ended = subprocess.Popen([sys.executable, "-c", "pass"])
    ended.wait()
    mine = robin.holder()
    lease = {"name": "robin@here", "machine": mine.machine, "process": ended.pid, "since": "", "token": "t"}
    place.put(LEASE, json.dumps(lease).encode())
    robin.publish(place, FIRST)
    assert place.visible() == FIRST


@pytest.mark.parametrize("place", HERE, indirect=True)
def test_a_run_from_here_that_goes_on_keeps_its_lease(place: Place, robin: Person) -> None:
    with subprocess.Popen([sys.executable, "-c", "input()"], stdin=subprocess.PIPE) as running:
        mine = robin.holder()
        lease = {
            "name": "robin@here",
            "machine": mine.machine,
            "process": running.pid,
            "since": "",
            "token": "t",
        }
        place.put(LEASE, json.dumps(lease).encode())
        with pytest.raises(TargetBusy, match="robin@here"):
            robin.publish(place, FIRST)
        running.communicate(b"\n")


@pytest.mark.parametrize("place", HERE, indirect=True)
def test_a_run_whose_lease_was_taken_over_stops(place: Place, robin: Person, maria: Person) -> None:
    robin.publish(place, FIRST)
    store = place.store()
    store.open()
    comparison = robin.compare(store, SECOND)
    write, taken = store.write, []

    def taken_over_meanwhile(address: str, body: object, headers: object) -> None:
        write(address, body, headers)  # type: ignore[arg-type]
        if address.startswith("media/") and not taken:
            taken.append(address)
            lease = {"name": "maria@desk", "machine": "m", "process": 1, "since": "", "token": "hers"}
            write(LEASE, json.dumps(lease).encode(), headers_for(LEASE))

    store.write = taken_over_meanwhile  # type: ignore[method-assign, assignment]
    with pytest.raises(TargetBusy, match="maria@desk took over publishing"):
        robin.send(store, comparison)
    store.close()
    pages = {a: data for a, data in place.visible().items() if a.endswith(".html")}
    assert pages == {a: data for a, data in FIRST.items() if a.endswith(".html")}
    assert json.loads(place.everything()[LEASE])["name"] == "maria@desk"
    maria.publish(place, SECOND, take_over=True)
    assert SECOND.items() <= place.visible().items()


@pytest.mark.parametrize(
    "place", ["folder", pytest.param("bucket", marks=pytest.mark.thorough)], indirect=True
)
def test_what_was_looked_at_before_somebody_else_published_is_not_sent(
    place: Place, robin: Person, maria: Person
) -> None:
    robin.publish(place, FIRST)
    store = place.store()
    store.open()
    comparison = robin.compare(store, SECOND)
    maria.publish(place, FIRST | {"index.html": b"from maria"})
    with pytest.raises(TargetBusy, match=r"somebody else has published to .* since you looked"):
        robin.send(store, comparison)
    store.close()
    assert place.visible()["index.html"] == b"from maria"
    robin.publish(place, SECOND)
    assert SECOND.items() <= place.visible().items()


def test_on_a_branch_the_one_who_pushes_second_is_told(
    tmp_path: object, robin: Person, maria: Person
) -> None:
    place = BranchPlace(robin.folder.parent)
    robin.publish(place, FIRST)
    store = place.store()
    store.open()
    comparison = robin.compare(store, SECOND)
    place.put("index.html", b"from maria")
    with pytest.raises(
        TargetBusy, match=r"Maria has published \(.*\) to the branch pages of site.git meanwhile"
    ):
        robin.send(store, comparison)
    store.close()
    assert place.visible() == FIRST | {"index.html": b"from maria"}
