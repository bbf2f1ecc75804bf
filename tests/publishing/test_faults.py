"""Whatever goes wrong at a target: nothing is lost, the message is clear, and a second run is right."""

import gzip
import json
import os
import shutil
import socket
import subprocess
import sys
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from sitegen.destinations import BucketTarget
from sitegen.publishing.bucket import BucketStore
from sitegen.publishing.publication_record import RECORDS
from sitegen.publishing.target_errors import AccessRefused, CutOff, Full, MissingExtra, NotFound, TargetError
from tests.publishing.answers import answering
from tests.publishing.places import BranchPlace, BucketPlace, FolderPlace, Place, SftpPlace
from tests.publishing.sites import FIRST, SECOND, Person

if TYPE_CHECKING:
    from tests.publishing.sftp_server import SftpServer


def some(*kinds: str, thoroughly: tuple[str, ...]) -> list[object]:
    """Kinds of targets for every run, and those that the same is tried with once in a while."""
    return [*kinds, *(pytest.param(kind, marks=pytest.mark.thorough) for kind in thoroughly)]


OLD_STYLE = {"assets/site.aaaaaaaaaa.css": FIRST["assets/site.aaaaaaaaaa.css"]}


def pages(files: dict[str, bytes]) -> dict[str, bytes]:
    return {a: data for a, data in files.items() if a.endswith(".html")}


# --- changed by hand ---------------------------------------------------------------------------


@pytest.mark.parametrize(
    "place", some("folder", "sftp", "branch", thoroughly=("folder at once", "bucket")), indirect=True
)
def test_a_file_changed_by_hand_is_kept_and_replaced(place: Place, robin: Person) -> None:
    robin.publish(place, FIRST)
    place.put("index.html", b"<h1>changed by hand</h1>")
    difference = robin.look(place, FIRST | {"404.html": b"gone"}).difference
    if place.store().lists_cheaply:
        assert (difference.mended, difference.by_hand) == (("index.html",), ("index.html",))
        robin.publish(place, FIRST | {"404.html": b"gone"})
        assert place.visible() == FIRST | {"404.html": b"gone"}
    else:  # files that are to stay are looked at when asked for
        robin.publish(place, FIRST | {"404.html": b"gone"}, thorough=True)
    assert place.visible() == FIRST | {"404.html": b"gone"}
    assert place.everything()[".published/by-hand/000002/index.html"] == b"<h1>changed by hand</h1>"


@pytest.mark.parametrize("place", some("folder", "bucket", thoroughly=("sftp",)), indirect=True)
def test_a_changed_page_that_was_changed_by_hand_too_is_kept(place: Place, robin: Person) -> None:
    robin.publish(place, FIRST)
    place.put("index.html", b"<h1>changed by hand, longer than before or after</h1>" * 9)
    sent = robin.publish(place, SECOND)
    assert sent.saved == (".published/by-hand/000002/index.html",)
    assert place.everything()[sent.saved[0]].startswith(b"<h1>changed by hand")
    assert place.visible() == SECOND | OLD_STYLE


@pytest.mark.parametrize("place", ["folder", "branch"], indirect=True)
def test_files_removed_by_hand_are_sent_again(place: Place, robin: Person) -> None:
    robin.publish(place, FIRST)
    place.delete("media/one.0123456789.webm")
    place.delete("episodes/one/index.html")
    assert robin.look(place, FIRST).difference.mended == (
        "episodes/one/index.html",
        "media/one.0123456789.webm",
    )
    robin.publish(place, FIRST)
    assert place.visible() == FIRST


@pytest.mark.parametrize("place", ["folder", "sftp"], indirect=True)
def test_files_that_were_there_before_the_first_publication_are_kept(place: Place, robin: Person) -> None:
    place.put("index.html", b"an older site")
    place.put("about.html", b"of an older site")
    sent = robin.publish(place, FIRST)
    assert sent.saved == (".published/by-hand/000001/index.html",)
    assert place.everything()[sent.saved[0]] == b"an older site"
    assert place.visible() == FIRST | {"about.html": b"of an older site"}


def test_a_thorough_look_finds_what_sizes_and_times_hide(tmp_path: Path, robin: Person) -> None:
    place = FolderPlace(tmp_path)
    robin.publish(place, FIRST)
    path = place.root / "index.html"
    before = path.stat()
    path.write_bytes(path.read_bytes().replace(b"Home", b"Hom3"))
    os.utime(path, ns=(before.st_atime_ns, before.st_mtime_ns))
    assert robin.look(place, FIRST).difference.nothing
    sent = robin.publish(place, FIRST, thorough=True)
    assert (sent.files, sent.saved) == (1, (".published/by-hand/000002/index.html",))
    assert place.visible() == FIRST


# --- a store that says nothing -----------------------------------------------------------------


def test_a_store_that_does_not_answer_is_given_up(monkeypatch: pytest.MonkeyPatch, credentials: None) -> None:
    monkeypatch.setattr("sitegen.publishing.bucket._DEADLINE_S", 1)
    with socket.create_server(("127.0.0.1", 0)) as silent:
        endpoint = f"http://127.0.0.1:{silent.getsockname()[1]}"
        store = BucketStore(BucketTarget(bucket="galley", endpoint=endpoint))
        with pytest.raises(CutOff, match="broke"):
            store.open()


# --- records missing or damaged ----------------------------------------------------------------


@pytest.mark.parametrize("place", some("folder", "branch", thoroughly=("sftp", "bucket")), indirect=True)
def test_without_records_nothing_is_removed_and_what_differs_is_kept(place: Place, robin: Person) -> None:
    robin.publish(place, FIRST)
    place.delete(f"{RECORDS}000001.json.gz")
    comparison = robin.look(place, SECOND)
    assert comparison.history.current is None
    assert (comparison.difference.removed, comparison.difference.unchanged) == ((), 3)
    robin.publish(place, SECOND)
    assert place.visible() == FIRST | SECOND
    assert place.everything()[".published/by-hand/000001/index.html"] == FIRST["index.html"]
    # From here on all is as usual.
    robin.publish(place, {a: d for a, d in SECOND.items() if a != "404.html"})
    assert "404.html" not in place.visible()


DAMAGE = {
    "cut short": lambda data: data[: len(data) // 2],
    "empty": lambda data: b"",
    "another file": lambda data: b"<html>",
    "changed inside": lambda data: gzip.compress(gzip.decompress(data).replace(b"index.html", b"other.html")),
    "record of another number": lambda data: gzip.compress(json.dumps({"number": 9}).encode()),
}


@pytest.mark.parametrize("spoil", DAMAGE.values(), ids=DAMAGE.keys())
def test_a_damaged_record_is_left_aside(spoil: object, tmp_path: Path, robin: Person) -> None:
    place = FolderPlace(tmp_path)
    robin.publish(place, FIRST)
    robin.publish(place, FIRST | {"index.html": b"two"})
    record = f"{RECORDS}000002.json.gz"
    place.put(record, spoil(place.everything()[record]))  # type: ignore[operator]
    comparison = robin.look(place, SECOND)
    assert comparison.history.damaged == (record,)
    assert comparison.history.current is not None
    assert comparison.history.current.number == 1
    sent = robin.publish(place, SECOND)
    assert sent.number == 3
    assert place.visible() == SECOND | OLD_STYLE
    assert place.everything()[".published/by-hand/000003/index.html"] == b"two"
    assert record not in place.everything()
    assert robin.look(place, SECOND).difference.nothing


# --- no room, no rights ------------------------------------------------------------------------


def test_a_full_sftp_server_says_so_and_the_old_site_stays(
    tmp_path: Path, sftp_server: "SftpServer", robin: Person
) -> None:
    place = SftpPlace(tmp_path, sftp_server)
    robin.publish(place, FIRST)
    sftp_server.room = 3000  # not enough for the new video
    with pytest.raises(TargetError, match="could not do it") as told:
        robin.publish(place, SECOND)
    assert "is there room left" in told.value.advice
    assert pages(place.visible()) == pages(dict(FIRST))
    sftp_server.room = None
    robin.publish(place, SECOND)
    assert place.visible() == SECOND | OLD_STYLE
    assert not [a for a in place.everything() if "/incoming/" in a]


def test_an_sftp_server_that_lets_nobody_write_says_so(
    tmp_path: Path, sftp_server: "SftpServer", robin: Person
) -> None:
    place = SftpPlace(tmp_path, sftp_server)
    robin.publish(place, FIRST)
    sftp_server.read_only = True
    with pytest.raises(AccessRefused, match="does not let us in"):
        robin.publish(place, SECOND)
    sftp_server.read_only = False
    assert place.visible() == FIRST
    robin.publish(place, SECOND)
    assert place.visible() == SECOND | OLD_STYLE


def _on_a_disk_of_its_own(options: str, folder: Path, then: str) -> subprocess.CompletedProcess[str]:
    """Run Python with a small or read-only disk mounted at a folder, which only that process sees."""
    script = f'mount -t tmpfs -o {options} tmpfs "$1" && shift && exec "$@"'
    own = ["unshare", "--mount"] if os.geteuid() == 0 else ["unshare", "--user", "--map-root-user", "--mount"]
    words = [*own, "sh", "-c", script, "sh", str(folder), sys.executable, "-c", then]
    root = Path(__file__).parents[2]
    return subprocess.run(words, capture_output=True, text=True, cwd=root, check=False)


_PUBLISH_TWICE = """
from pathlib import Path
from tests.publishing.places import FolderPlace
from tests.publishing.sites import FIRST, SECOND, Person
from sitegen.publishing.target_errors import TargetError
base = Path({base!r})
place, robin = FolderPlace(base), Person(base)
{before}
try:
    robin.publish(place, SECOND)
except TargetError as error:
    print(type(error).__name__, error.what)
pages = lambda files: {{a: d for a, d in files.items() if a.endswith(".html")}}
print("old pages stand", pages(place.visible()) == pages({expected}))
{after}
"""


def test_a_full_disk_says_so_and_the_old_site_stays(tmp_path: Path) -> None:
    (tmp_path / "web").mkdir()
    script = _PUBLISH_TWICE.format(
        base=str(tmp_path),
        before="robin.publish(place, FIRST); (place.root / 'filler').write_bytes(bytes(60_000))\n"
        "try: (place.root / 'more').write_bytes(bytes(200_000))\nexcept OSError: pass",
        expected="FIRST",
        after="(place.root / 'more').unlink(); robin.publish(place, SECOND)\n"
        "print('second run right', SECOND.items() <= place.visible().items())",
    )
    done = _on_a_disk_of_its_own("size=200k", tmp_path / "web", script)
    if "unshare" in done.stderr or "mount" in done.stderr:
        pytest.skip(f"no disk of one's own on this computer: {done.stderr.strip()}")
    assert done.stdout.splitlines() == [
        f"Full the folder {tmp_path}/web is full (No space left on device)",
        "old pages stand True",
        "second run right True",
    ], done.stderr


def test_a_disk_that_cannot_be_written_says_so(tmp_path: Path) -> None:
    (tmp_path / "web").mkdir()
    script = _PUBLISH_TWICE.format(base=str(tmp_path), before="", expected="{}", after="")
    done = _on_a_disk_of_its_own("ro,size=200k", tmp_path / "web", script)
    if "unshare" in done.stderr or "mount" in done.stderr:
        pytest.skip(f"no disk of one's own on this computer: {done.stderr.strip()}")
    first, second = done.stdout.splitlines()
    assert first.startswith(f"AccessRefused the folder {tmp_path}/web does not let us in")
    assert "Read-only file system" in first
    assert second == "old pages stand True"


def test_a_repository_that_refuses_says_why(tmp_path: Path, robin: Person) -> None:
    place = BranchPlace(tmp_path)
    robin.publish(place, FIRST)
    hook = place.repository / "hooks" / "pre-receive"
    hook.write_text("#!/bin/sh\necho 'quota of 5 MB reached' >&2\nexit 1\n")
    hook.chmod(0o755)
    with pytest.raises(TargetError, match="quota of 5 MB reached"):
        robin.publish(place, SECOND)
    assert place.visible() == FIRST
    hook.unlink()
    robin.publish(place, SECOND)
    assert place.visible() == SECOND | OLD_STYLE


# --- not there, not known ----------------------------------------------------------------------


def test_a_folder_on_a_drive_that_is_not_mounted(tmp_path: Path, robin: Person) -> None:
    place = FolderPlace(tmp_path / "drive")
    with pytest.raises(TargetError, match="drive does not exist") as told:
        robin.publish(place, FIRST)
    assert "mounted" in told.value.advice


def test_a_bucket_that_does_not_exist(s3_endpoint: str, bucket: BucketPlace, robin: Person) -> None:
    store = bucket.store()
    store.target = type(bucket.target)(bucket="nobody-made-it", endpoint=s3_endpoint)  # type: ignore
    with pytest.raises(NotFound, match="there is no bucket nobody-made-it"):
        store.open()


def test_a_repository_that_does_not_exist(tmp_path: Path, robin: Person) -> None:
    place = BranchPlace(tmp_path)
    shutil.rmtree(place.repository)
    with pytest.raises(NotFound, match="there is no repository"):
        robin.publish(place, FIRST)


def test_a_host_that_is_not_known_is_not_trusted(
    home: Path, tmp_path: Path, sftp_server: "SftpServer", robin: Person
) -> None:
    (home / ".ssh" / "known_hosts").unlink()
    with pytest.raises(AccessRefused, match="not among the hosts that this computer knows") as told:
        robin.publish(SftpPlace(tmp_path, sftp_server), FIRST)
    assert "ssh 127.0.0.1" in told.value.advice


def test_a_host_whose_key_has_changed_is_not_trusted(
    home: Path, tmp_path: Path, sftp_server: "SftpServer", robin: Person
) -> None:
    known = home / ".ssh" / "known_hosts"
    known.write_text(known.read_text().replace("AAAA", "AAAB"))
    with pytest.raises(AccessRefused):
        robin.publish(SftpPlace(tmp_path, sftp_server), FIRST)


def test_a_password_comes_from_the_environment(
    home: Path, tmp_path: Path, sftp_server: "SftpServer", robin: Person, monkeypatch: pytest.MonkeyPatch
) -> None:
    sftp_server.password = "a long password"
    place = SftpPlace(tmp_path, sftp_server)
    with pytest.raises(AccessRefused, match="does not let us in"):
        robin.publish(place, FIRST)
    monkeypatch.setenv("SITEGEN_SFTP_PASSWORD", "a long password")
    robin.publish(place, FIRST)
    assert place.visible() == FIRST


def test_a_server_that_cannot_rename_over_a_file_gets_it_removed_first(
    tmp_path: Path, sftp_server: "SftpServer", robin: Person
) -> None:
    sftp_server.renames_over = False
    place = SftpPlace(tmp_path, sftp_server)
    robin.publish(place, FIRST)
    robin.publish(place, SECOND)
    assert place.visible() == SECOND | OLD_STYLE


@pytest.mark.parametrize(
    ("place", "library", "extra"),
    [("bucket", "s3fs", "publish-s3"), ("sftp", "sshfs", "publish-sftp")],
    indirect=["place"],
)
def test_a_library_that_is_not_installed_is_named(
    place: Place, library: str, extra: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, library, None)
    with pytest.raises(MissingExtra) as told:
        place.store().open()
    assert told.value.what == f"{library} is not installed"
    assert told.value.advice == f'install it with: pip install "sitegen[{extra}]"'


# --- the clock ---------------------------------------------------------------------------------


@pytest.mark.parametrize("place", ["folder", "branch"], indirect=True)
def test_a_wrong_clock_changes_nothing_but_what_is_told(place: Place, robin: Person, tmp_path: Path) -> None:
    robin.publish(place, FIRST)
    in_the_past = Person(tmp_path, "robin", lambda: datetime(1970, 1, 1, tzinfo=UTC))
    in_the_future = Person(tmp_path, "robin", lambda: datetime(2099, 1, 1, tzinfo=UTC))
    assert in_the_past.publish(place, SECOND).number == 2
    assert in_the_future.publish(place, FIRST).number == 3
    assert in_the_past.look(place, FIRST).difference.nothing
    in_the_past.restore(place, 2)
    assert SECOND.items() <= place.visible().items()


def test_a_bucket_that_refuses_because_of_the_clock_says_so(bucket: BucketPlace, robin: Person) -> None:
    """The answer is that of the S3 API reference, "Error responses": RequestTimeTooSkewed, status 403."""
    body = b"<Error><Code>RequestTimeTooSkewed</Code><Message>The difference is too large.</Message></Error>"
    with answering(403, body) as endpoint:
        store = bucket.store()
        store.target = type(bucket.target)(bucket="galley", endpoint=endpoint)  # type: ignore
        with pytest.raises(AccessRefused, match="clock is wrong") as told:
            store.open()
    assert "set the clock" in told.value.advice


ANSWERS = {
    # id: (status, code of the S3 API reference, error)
    "no such key of ours": (403, "InvalidAccessKeyId", AccessRefused),
    "wrong key": (403, "SignatureDoesNotMatch", AccessRefused),
    "no rights": (403, "AccessDenied", AccessRefused),
    "no room": (507, "QuotaExceeded", Full),
    "in trouble": (500, "InternalError", TargetError),
}


@pytest.mark.parametrize(("status", "code", "error"), ANSWERS.values(), ids=ANSWERS.keys())
def test_a_bucket_says_why_it_refuses(
    status: int, code: str, error: type[TargetError], bucket: BucketPlace
) -> None:
    with answering(status, f"<Error><Code>{code}</Code><Message>m</Message></Error>".encode()) as endpoint:
        store = bucket.store()
        store.target = type(bucket.target)(bucket="galley", endpoint=endpoint)  # type: ignore
        with pytest.raises(error) as told:
            store.open()
    assert type(told.value) is error
    assert told.value.advice


def test_a_store_that_cannot_be_reached(credentials: None) -> None:
    store = BucketStore(BucketTarget(bucket="galley", endpoint="http://127.0.0.1:9"))
    with pytest.raises(CutOff, match="the connection to the bucket galley broke"):
        store.open()
