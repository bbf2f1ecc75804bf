"""Servers of the targets on loopback, started by the tests that need them."""

import io
import itertools
import logging
import threading
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from tests.publishing.places import BranchPlace, BucketPlace, FolderPlace, Place, SftpPlace
from tests.publishing.sites import Person

if TYPE_CHECKING:
    from tests.publishing.sftp_server import SftpServer

KEY_ID, KEY = "AKIDGALLEYTEST", "a-secret-key-that-must-never-be-shown"

_buckets = itertools.count()


@pytest.fixture(scope="session")
def s3_endpoint() -> Iterator[str]:
    """Address of an S3 API server."""
    from moto.moto_server.werkzeug_app import DomainDispatcherApplication, create_backend_app
    from werkzeug.serving import make_server

    logging.getLogger("werkzeug").setLevel(logging.ERROR)
    app = _whole_requests_only(DomainDispatcherApplication(create_backend_app))
    server = make_server("127.0.0.1", 0, app, threaded=True)
    threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.05}, daemon=True).start()
    yield f"http://127.0.0.1:{server.port}"
    server.shutdown()


def _whole_requests_only(app: Any) -> Any:
    """Refuse an upload that was cut off, in its headers or in its body, as S3 does.

    S3 API reference, "Error responses": MissingContentLength and IncompleteBody. The stand-in for S3 would
    store what arrived, and take headers that end anywhere for all headers.
    """

    def checked(environ: dict[str, Any], start_response: Any) -> Any:
        told = environ.get("CONTENT_LENGTH")
        length = int(told or 0)
        body = environ["wsgi.input"].read(length)
        if len(body) < length or (not told and environ["REQUEST_METHOD"] == "PUT"):
            start_response("400 Bad Request", [("Content-Type", "application/xml")])
            return [b"<Error><Code>IncompleteBody</Code></Error>"]
        return app(environ | {"wsgi.input": io.BytesIO(body)}, start_response)

    return checked


@pytest.fixture(scope="session")
def _one_loader() -> Iterator[None]:
    """The S3 library reads its large model files once for all tests, not once for each store."""
    import aiobotocore.session

    make = aiobotocore.session.AioSession
    loader = make().get_component("data_loader")

    def session(**settings: Any) -> Any:
        made = make(**settings)
        made.register_component("data_loader", loader)
        return made

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(aiobotocore.session, "AioSession", session)
        yield


@pytest.fixture
def credentials(monkeypatch: pytest.MonkeyPatch, tmp_path: Path, _one_loader: None) -> None:
    """Keys for the S3 server in the environment, and nothing of this computer's own configuration."""
    monkeypatch.setenv("AWS_ACCESS_KEY_ID", KEY_ID)
    monkeypatch.setenv("AWS_SECRET_ACCESS_KEY", KEY)
    monkeypatch.setenv("AWS_DEFAULT_REGION", "us-east-1")
    monkeypatch.setenv("AWS_MAX_ATTEMPTS", "1")
    monkeypatch.setenv("AWS_CONFIG_FILE", str(tmp_path / "no-config"))
    monkeypatch.setenv("AWS_SHARED_CREDENTIALS_FILE", str(tmp_path / "no-credentials"))
    monkeypatch.setenv("AWS_EC2_METADATA_DISABLED", "true")


@pytest.fixture
def home(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Path:
    """A home folder of its own, without an SSH agent."""
    home = tmp_path / "home"
    home.mkdir()
    monkeypatch.setenv("HOME", str(home))
    monkeypatch.delenv("SSH_AUTH_SOCK", raising=False)
    return home


@pytest.fixture
def sftp_server(home: Path, tmp_path: Path) -> Iterator["SftpServer"]:
    """An SFTP server that the user's SSH files know."""
    from tests.publishing.sftp_server import SftpServer

    server = SftpServer(tmp_path)
    server.start()
    server.configure(home)
    yield server
    server.stop()


@pytest.fixture
def bucket(s3_endpoint: str, credentials: None, tmp_path: Path) -> BucketPlace:
    """An empty bucket."""
    return BucketPlace(tmp_path, s3_endpoint, f"galley-{next(_buckets)}")


PLACES = ("folder", "folder at once", "sftp", "bucket", "branch")


@pytest.fixture(params=PLACES)
def place(request: pytest.FixtureRequest, tmp_path: Path) -> Place:
    """A target of each kind."""
    makers: dict[str, Callable[[], Place]] = {
        "folder": lambda: FolderPlace(tmp_path),
        "folder at once": lambda: FolderPlace(tmp_path, at_once=True),
        "sftp": lambda: SftpPlace(tmp_path, request.getfixturevalue("sftp_server")),
        "bucket": lambda: request.getfixturevalue("bucket"),
        "branch": lambda: BranchPlace(tmp_path),
    }
    return makers[request.param]()


@pytest.fixture
def robin(tmp_path: Path) -> Person:
    """The trainer."""
    return Person(tmp_path)


@pytest.fixture
def maria(tmp_path: Path) -> Person:
    """Somebody else, on another computer."""
    return Person(tmp_path, "maria")
