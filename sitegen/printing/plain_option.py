"""Printing by the browser's plain option ``--print-to-pdf``, where it cannot be spoken to through pipes.

The browser is started for every file and ends when it is written, which takes several times as long. It loads
the page from this process, over the loopback interface, at an address that nobody can guess.
"""

import html
import re
import secrets
import subprocess
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from urllib.parse import unquote, urljoin, urlsplit

from sitegen.printing.browser_pipe import BrowserFailed, flags
from sitegen.printing.document import Document, Paper

_LINK = re.compile(r"""<script\b.*?</script>|(<a\b[^>]*?\shref=)(["'])(?!#)(.*?)\2""", re.DOTALL)
"""A link that leaves the page: one within it must stay as it is, to become a link within the PDF file. What
scripts say of links is passed over."""
# Style for one paper: the browser prints by the paper that is written in, so the query is answered here.
_PAPER_QUERY = re.compile(r"@media print((?: and \((?:min|max)-(?:width|height): [\d.]+mm\))+)")
_BOUND = re.compile(r"(min|max)-(width|height): ([\d.]+)")
_WAIT_FOR_FONTS_MS = 2000
"""Of the page's own clock, which stands still while something is being loaded: fonts may come after the load
event, and text without its font is not printed."""
_LOOK_AGAIN_S = 0.05
"""Seconds between looks whether the program has ended: short beside the time that a page takes to print."""


class PlainOption:
    """A program that prints one page each time it is started."""

    def __init__(self, program: Path, profile: Path, *, patience: float) -> None:
        """``profile`` is an empty folder; ``patience`` is in seconds for each file."""
        self._program = program
        self._profile = profile
        self._patience = patience

    def print(self, document: Document, paper: Paper) -> bytes:
        """A document as a PDF file. Raises BrowserFailed where the program does not write one."""
        if document.files(document.address) is None:
            raise BrowserFailed(f"{document.address}: there is no such page")
        pdf = self._profile / "page.pdf"
        pdf.unlink(missing_ok=True)
        with _served(document, paper) as url:
            self._run(url, pdf)
        return pdf.read_bytes()

    def close(self) -> None:
        """Nothing runs between two files."""

    def _run(self, url: str, pdf: Path) -> None:
        command = [
            str(self._program),
            *flags(self._profile, loopback=True),
            "--no-pdf-header-footer",
            "--print-to-pdf-no-header",  # the same, as older versions have it
            f"--virtual-time-budget={_WAIT_FOR_FONTS_MS}",
            f"--print-to-pdf={pdf}",
            url,
        ]
        until = time.monotonic() + self._patience
        silent = subprocess.DEVNULL
        try:
            subprocess.run(
                command, stdin=silent, stdout=silent, stderr=silent, timeout=self._patience, check=False
            )
        except subprocess.TimeoutExpired:
            raise BrowserFailed("the browser did not answer") from None
        except OSError as error:
            raise BrowserFailed(f"{self._program}: {error.strerror}") from error
        # The program that was started may hand over to another one and end before that has written.
        while not _is_complete(pdf):
            if not pdf.exists() or time.monotonic() > until:
                raise BrowserFailed("the browser ended without a PDF file")
            time.sleep(_LOOK_AGAIN_S)


def _is_complete(pdf: Path) -> bool:
    """Whether a PDF file has its last line (ISO 32000-1, 7.5.5)."""
    try:
        return pdf.read_bytes()[-32:].rstrip().endswith(b"%%EOF")
    except OSError:
        return False


@contextmanager
def _served(document: Document, paper: Paper) -> Iterator[str]:
    """The address of the page while it is handed out to whoever knows it."""
    secret = f"/{secrets.token_urlsafe(16)}/"

    class Handler(BaseHTTPRequestHandler):
        def do_GET(self) -> None:
            path = unquote(urlsplit(self.path).path)
            address = path.removeprefix(secret)
            found = document.files(address) if path.startswith(secret) else None
            if found is None:
                self.send_error(404)
                return
            data = found.data
            if address == document.address:
                data = _with_size(_with_public_links(data.decode(), document), paper).encode()
            if found.type.startswith(("text/css", "text/html")):
                data = _answered(data.decode(), paper).encode()
            self.send_response(200)
            self.send_header("Content-Type", found.type)
            self.send_header("Content-Length", str(len(data)))
            self.end_headers()
            self.wfile.write(data)

        def log_message(self, format: str, *args: object) -> None:
            """Say nothing of requests."""

    with ThreadingHTTPServer(("127.0.0.1", 0), Handler) as server:
        thread = threading.Thread(target=server.serve_forever, args=(_LOOK_AGAIN_S,))
        thread.start()
        try:
            yield f"http://127.0.0.1:{server.server_port}{secret}{document.address}"
        finally:
            server.shutdown()
            thread.join()


def _with_public_links(page: str, document: Document) -> str:
    """The page with links that lead below the site's own address, not to where it is loaded from."""
    where = document.base + document.address

    def absolute(link: re.Match[str]) -> str:
        if link[1] is None:
            return link[0]
        target = urljoin(where, html.unescape(link[3]))
        return f"{link[1]}{link[2]}{html.escape(target)}{link[2]}"

    return _LINK.sub(absolute, page)


def _with_size(page: str, paper: Paper) -> str:
    """The page with its size of paper, which the plain option has no words for."""
    size = f"<style>@page {{ size: {paper.width}mm {paper.height}mm }}</style>"
    # Before all else of the head: what stands behind a content security policy is bound by it (CSP 3, 3.3).
    head, meta, rest = page.partition("<meta")
    return head + size + meta + rest if meta else page + size


def _answered(style: str, paper: Paper) -> str:
    """Rules with the question answered whether they are for this paper: the browser asks its usual one."""

    def is_met(bound: re.Match[str]) -> bool:
        length, limit = getattr(paper, bound[2]), float(bound[3])
        return bool(length >= limit if bound[1] == "min" else length <= limit)

    def answer(query: re.Match[str]) -> str:
        return "@media print" if all(map(is_met, _BOUND.finditer(query[1]))) else "@media not all"

    return _PAPER_QUERY.sub(answer, style)
