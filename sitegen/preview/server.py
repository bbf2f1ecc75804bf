"""A server for one folder: loopback only, byte ranges for seeking, nothing outside the folder."""

import os
import re
import sys
from http import HTTPStatus
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any, BinaryIO
from urllib.parse import unquote, urlsplit

from sitegen.preview.ranges import parse_range
from sitegen.system.media_types import media_type

LOOPBACK = "127.0.0.1"
_CHUNK = 1 << 16
"""Bytes sent at once: a film is never held in memory, and 64 kB cost few calls."""
_OF_ITS_BYTES = re.compile(r"^/(?:assets|media)/[^/?]+\.[0-9a-f]{10}\.\w+$")
"""Addresses that name their bytes: what is there never changes."""
_FOREVER = "max-age=31536000, immutable"


class SiteServer(ThreadingHTTPServer):
    """Serves ``folder()``, which is asked for at every request: it may be swapped meanwhile."""

    daemon_threads = True

    def __init__(self, folder: Path, port: int = 0, handler: type["SiteHandler"] | None = None) -> None:
        self.folder = Path(os.path.abspath(folder))
        super().__init__((LOOPBACK, port), handler or SiteHandler)

    @property
    def address(self) -> str:
        """Where to point a browser."""
        return f"http://{LOOPBACK}:{self.server_address[1]}/"

    def handle_error(self, request: Any, client_address: Any) -> None:
        """A browser that goes away in the middle of an answer is no news; anything else is told."""
        if not isinstance(sys.exception(), ConnectionError):
            super().handle_error(request, client_address)


class SiteHandler(BaseHTTPRequestHandler):
    """GET and HEAD of files."""

    server: SiteServer
    protocol_version = "HTTP/1.1"

    def do_GET(self) -> None:
        """Send a file."""
        self._respond(send_body=True)

    def do_HEAD(self) -> None:
        """Send what GET would, without the body."""
        self._respond(send_body=False)

    def log_message(self, format: str, *args: object) -> None:
        """Say nothing: the terminal is for problems in the content."""

    def parse_request(self) -> bool:
        """Whether this is a request that can be answered; an address that is none has its answer already."""
        if not super().parse_request():
            return False
        try:
            urlsplit(self.path)
        except ValueError:
            self.send_error(HTTPStatus.BAD_REQUEST, "This is not an address")
            return False
        return True

    def _respond(self, send_body: bool) -> None:
        if not self._host_is_ours():
            # Another site's script may point a name of its own at this computer.
            self._send(HTTPStatus.FORBIDDEN, b"Open the preview by its own address.", "text/plain", send_body)
            return
        self._send_at(urlsplit(self.path).path, send_body)

    def _send_at(self, address: str, send_body: bool) -> None:
        """Answer with what is at an address."""
        path = self.resolve(address)
        if path is None:
            self._send_not_found(send_body)
        elif path.is_dir():
            self._redirect()
        else:
            self._send_file(path, send_body)

    def _host_is_ours(self) -> bool:
        host, _, port = self.headers.get("Host", "").partition(":")
        return host in (LOOPBACK, "localhost") and port in ("", str(self.server.server_address[1]))

    def resolve(self, address: str) -> Path | None:
        """The file (or folder without a slash) at an address; None where there is none."""
        root = self.server.folder
        parts = [part for part in unquote(address).split("/") if part]
        if any(part in (".", "..") or "\\" in part or "\0" in part for part in parts):
            return None
        path = root.joinpath(*parts)
        try:
            if path.is_dir() and address.endswith("/"):
                path = path / "index.html"
            inside = os.path.realpath(path).startswith(os.path.realpath(root) + os.sep)
            return path if inside and path.exists() else None
        except OSError:  # a name longer than the disk allows
            return None

    def _redirect(self) -> None:
        parts = urlsplit(self.path)
        self.send_response(HTTPStatus.MOVED_PERMANENTLY)
        # Two slashes at the front would be another host.
        query = f"?{parts.query}" if parts.query else ""
        self.send_header("Location", "/" + parts.path.strip("/") + "/" + query)
        self.send_header("Content-Length", "0")
        self.end_headers()

    def _send_not_found(self, send_body: bool) -> None:
        page = self.server.folder / "404.html"
        body = page.read_bytes() if page.is_file() else b"Not found"
        self._send(HTTPStatus.NOT_FOUND, self._rewritten(body), "text/html; charset=utf-8", send_body)

    def _rewritten(self, body: bytes) -> bytes:
        """A page's bytes on their way out; the preview adds to them."""
        return body

    def _send(self, status: HTTPStatus, body: bytes, kind: str, send_body: bool) -> None:
        self.send_response(status)
        self.send_header("Content-Type", kind)
        self.send_header("Content-Length", str(len(body)))
        self.send_header("Cache-Control", "no-store")
        self.end_headers()
        if send_body:
            self.wfile.write(body)

    def _send_file(self, path: Path, send_body: bool) -> None:
        kind = media_type(path.name)
        if kind.startswith("text/html"):
            self._send(HTTPStatus.OK, self._rewritten(path.read_bytes()), kind, send_body)
            return
        with path.open("rb") as stream:
            self._send_ranged(stream, os.fstat(stream.fileno()).st_size, kind, send_body)

    def _send_ranged(self, stream: BinaryIO, size: int, kind: str, send_body: bool) -> None:
        try:
            wanted = parse_range(self.headers.get("Range", ""), size)
        except ValueError:
            self.send_response(HTTPStatus.REQUESTED_RANGE_NOT_SATISFIABLE)
            self.send_header("Content-Range", f"bytes */{size}")
            self.send_header("Content-Length", "0")
            self.end_headers()
            return
        first, last = wanted or (0, size - 1)
        self.send_response(HTTPStatus.PARTIAL_CONTENT if wanted else HTTPStatus.OK)
        if wanted:
            self.send_header("Content-Range", f"bytes {first}-{last}/{size}")
        self.send_header("Accept-Ranges", "bytes")
        self.send_header("Content-Type", kind)
        self.send_header("Content-Length", str(last - first + 1))
        self.send_header("Cache-Control", _FOREVER if _OF_ITS_BYTES.search(self.path) else "no-store")
        self.end_headers()
        if send_body:
            self._copy(stream, first, last - first + 1)

    def _copy(self, stream: BinaryIO, start: int, length: int) -> None:
        stream.seek(start)
        try:
            while length > 0 and (chunk := stream.read(min(_CHUNK, length))):
                self.wfile.write(chunk)
                length -= len(chunk)
        except (BrokenPipeError, ConnectionResetError):  # the browser seeks on
            self.close_connection = True
