"""The preview's own answers: the stream of changes, and pages with its script in them."""

import json
from collections.abc import Callable, Mapping
from http import HTTPStatus
from urllib.parse import unquote, urlsplit

from sitegen.preview.ahead import Ahead
from sitegen.preview.beside_film import MOST_BYTES, FilmAnswer, FilmPages, own_file
from sitegen.preview.server import SiteHandler
from sitegen.preview.state import PreviewState, ShownState
from sitegen.problems import ContentError
from sitegen.system.media_types import media_type

_OWN = "/-/"
"""Addresses of the preview's own files; no page of a site starts so (slugs are words)."""
_FILM = f"{_OWN}film/"
_FILES = ("preview.js", "preview.css", "beside_film.js", "beside_film.css")
_KEEP_ALIVE_SECONDS = 15.0
"""Between signs of life on an open stream of events, as the HTML standard advises (server-sent events: every
15 seconds or so; from memory), so that nothing between takes it for dead."""
_TITLE = "The content has problems. This is the last page that was right:"


class PreviewHandler(SiteHandler):
    """Serves the site and tells its pages when to reload."""

    state: PreviewState
    ahead: Ahead
    films: FilmPages
    trainer_pages: Mapping[str, Callable[[], str]]
    """By name, pages that are made when they are asked for and are in no site."""

    def do_GET(self) -> None:
        """Send a file of the site, or one of the preview's own."""
        path = urlsplit(self.path).path
        if not path.startswith(_OWN) or not self._host_is_ours():
            super().do_GET()
        elif path == f"{_OWN}changes":
            with self.ahead.looking_at(_file_at(unquote(urlsplit(self.path).query))):
                self._stream_changes()
        elif path.startswith(_FILM):
            self._send_answer(self.films.get(unquote(path.removeprefix(_FILM))))
        else:
            self._send_own(path.removeprefix(_OWN))

    def do_POST(self) -> None:
        """Change an episode's file as one of the pages beside a film asks."""
        path = urlsplit(self.path).path
        # The rest of a request that is refused is not read, so nothing may follow it.
        self.close_connection = True
        length = self.headers.get("Content-Length", "")
        if not self._host_is_ours() or not self._origin_is_ours():
            self._send(HTTPStatus.FORBIDDEN, b"Open the preview by its own address.", "text/plain", True)
        elif not path.startswith(_FILM) or self.headers.get_content_type() != "application/json":
            self._send(HTTPStatus.NOT_FOUND, b"Not found", "text/plain", True)
        elif not length.isdecimal() or int(length) > MOST_BYTES:
            self._send(HTTPStatus.REQUEST_ENTITY_TOO_LARGE, b"Too long", "text/plain", True)
        else:
            body = self.rfile.read(int(length))
            token = self.headers.get("X-Page-Token", "")
            self._send_answer(self.films.post(unquote(path.removeprefix(_FILM)), token, body))

    def _origin_is_ours(self) -> bool:
        """Whether a page of the preview itself asks; browsers name the asking page's origin (Fetch
        standard, section 3.2).
        """
        origin = self.headers.get("Origin")
        return origin is None or urlsplit(origin).netloc == self.headers.get("Host")

    def _send_answer(self, answer: FilmAnswer) -> None:
        if isinstance(answer.body, bytes):
            self._send(answer.status, answer.body, answer.kind, True)
        else:
            self._send_file(answer.body, True)

    def _send_at(self, address: str, send_body: bool) -> None:
        name = _file_at(unquote(address))
        coming = self.ahead.get(name)
        if isinstance(coming, bytes):
            kind = media_type(name)
            body = self._rewritten(coming) if kind.startswith("text/html") else coming
            self._send(HTTPStatus.OK, body, kind, send_body)
        elif coming is not None:
            self._send_file(coming, send_body)
        else:
            super()._send_at(address, send_body)

    def _send_own(self, name: str) -> None:
        if (make := self.trainer_pages.get(name)) is not None:
            self._send_trainer_page(make)
        elif name in _FILES:
            self._send(HTTPStatus.OK, own_file(name), media_type(name), True)
        else:
            self._send(HTTPStatus.NOT_FOUND, b"", "text/plain", True)

    def _send_trainer_page(self, make: Callable[[], str]) -> None:
        try:
            body = make().encode()
        except ContentError:  # the preview's script shows what is wrong
            body = own_file("waiting.html")
        self._send(HTTPStatus.OK, self._rewritten(body), "text/html; charset=utf-8", True)

    def _rewritten(self, body: bytes) -> bytes:
        tags = own_file("tags.html").replace(b"VERSION", self.state.showing.version.encode())
        return body.replace(b"</body>", tags)

    def _send_not_found(self, send_body: bool) -> None:
        if (self.server.folder / "404.html").is_file():
            super()._send_not_found(send_body)
            return
        body = self._rewritten(own_file("waiting.html"))
        self._send(HTTPStatus.OK, body, "text/html; charset=utf-8", send_body)

    def _stream_changes(self) -> None:
        """Server-sent events (HTML standard, section 9.2): one per state, comments in between."""
        self.send_response(HTTPStatus.OK)
        self.send_header("Content-Type", "text/event-stream")
        self.send_header("Cache-Control", "no-store")
        self.end_headers()
        self.close_connection = True
        showing = self.state.showing
        try:
            self._send_event(showing)
            while True:
                following = self.state.wait_for_other(showing, _KEEP_ALIVE_SECONDS)
                if following is None:
                    self.wfile.write(b":\n\n")
                else:
                    showing = following
                    self._send_event(showing)
        except OSError:  # the page was closed
            return

    def _send_event(self, showing: ShownState) -> None:
        problems = None
        if showing.problems:
            listed = [{"place": p.place, "message": p.message, "advice": p.advice} for p in showing.problems]
            problems = {"title": _TITLE, "list": listed}
        data = json.dumps({"version": showing.version, "problems": problems})
        self.wfile.write(f"event: state\ndata: {data}\n\n".encode())


def _file_at(path: str) -> str:
    """Address of the file that is sent for a path."""
    name = path.lstrip("/")
    return name if name and not name.endswith("/") else f"{name}index.html"


def handler_for(
    state: PreviewState,
    ahead: Ahead,
    films: FilmPages,
    trainer_pages: Mapping[str, Callable[[], str]] | None = None,
) -> type[PreviewHandler]:
    """A handler class that knows the state, the pages to come, the pages beside films and the trainer's own
    pages below ``/-/``."""
    known = {"state": state, "ahead": ahead, "films": films, "trainer_pages": trainer_pages or {}}
    return type("BoundPreviewHandler", (PreviewHandler,), known)
