"""Prints pages to PDF: one browser for each process that prints, started when it is first needed."""

import base64
import os
import shutil
from collections.abc import Callable
from multiprocessing.util import Finalize
from pathlib import Path
from types import TracebackType

from sitegen.printing.browser_pipe import Browser, BrowserFailed, Message, has_pipes
from sitegen.printing.document import Document, Paper
from sitegen.printing.installed_browser import InstalledBrowser
from sitegen.printing.plain_option import PlainOption
from sitegen.printing.repeatable import steadied

_MM_PER_INCH = 25.4  # browsers take paper in inches


class PdfPrinter:
    """Prints documents; used by one process and by those forked from it."""

    def __init__(self, engine: InstalledBrowser, folder: Path, *, patience: float = 30.0) -> None:
        """``folder`` holds the browsers' profiles while they run; it is emptied before and after.

        ``patience``: seconds to wait for each answer of a browser; a sheet takes less than one, but not on a
        busy machine (our choice).
        """
        self.engine = engine
        self._patience = patience
        self._folder = folder
        self._tab: _Tab | PlainOption | None = None
        self._owner = 0

    def __enter__(self) -> "PdfPrinter":
        shutil.rmtree(self._folder, ignore_errors=True)
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()
        shutil.rmtree(self._folder, ignore_errors=True)

    def print(self, document: Document, paper: Paper) -> bytes:
        """A document as a PDF file. Raises BrowserFailed where the browser does not do it."""
        tab = self._own_tab()
        try:
            return steadied(tab.print(document, paper))
        except BrowserFailed:
            self.close()
            raise

    def close(self) -> None:
        """End this process's browser, where it has one."""
        if self._tab is not None and self._owner == os.getpid():
            self._tab.close()
        self._tab = None

    def _own_tab(self) -> "_Tab | PlainOption":
        if self._tab is None or self._owner != os.getpid():  # a fork's parent keeps its own
            self._owner = os.getpid()
            profile = self._folder / str(self._owner)
            profile.mkdir(parents=True, exist_ok=True)
            program, patience = self.engine.program, self._patience
            if not has_pipes():
                self._tab = PlainOption(program, profile, patience=patience)
                return self._tab
            self._tab = _Tab(Browser(program, profile, patience=patience))
            # Run at the end of a worker process, which knows no `with`.
            Finalize(None, self.close, exitpriority=1)
        return self._tab


class _Tab:
    """A tab that gets everything from us."""

    def __init__(self, browser: Browser) -> None:
        self._browser = browser
        self._document: Document | None = None
        try:
            target = browser.call("Target.createTarget", url="about:blank")["targetId"]
            attached = browser.call("Target.attachToTarget", targetId=target, flatten=True)
            self._session: str = attached["sessionId"]
            browser.call("Page.enable", self._session)
            browser.call("Page.setLifecycleEventsEnabled", self._session, enabled=True)
            browser.call("Fetch.enable", self._session, patterns=[{"urlPattern": "*"}])
        except BrowserFailed:
            browser.close()
            raise

    def close(self) -> None:
        self._browser.close()

    def print(self, document: Document, paper: Paper) -> bytes:
        if self._document is None or self._document.key != document.key:
            self._load(document)
        printed = self._ask(
            "Page.printToPDF",
            paperWidth=paper.width / _MM_PER_INCH,
            paperHeight=paper.height / _MM_PER_INCH,
            printBackground=True,
            generateTaggedPDF=True,
        )
        return base64.b64decode(printed["data"])

    def _load(self, document: Document) -> None:
        self._document = document
        navigation = self._ask("Page.navigate", url=document.base + document.address)
        if "errorText" in navigation:
            raise BrowserFailed(f"{document.address}: {navigation['errorText']}")
        loaded = {"name": "load", "loaderId": navigation["loaderId"]}
        self._until(
            lambda message: (
                message.get("method") == "Page.lifecycleEvent" and loaded.items() <= message["params"].items()
            )
        )
        # Fonts may come after the load event, and text without its font is not printed.
        self._ask("Runtime.evaluate", expression="document.fonts.ready.then(() => 0)", awaitPromise=True)

    def _ask(self, method: str, **parameters: object) -> Message:
        """The answer to a command, while the page goes on loading."""
        number = self._browser.send(method, self._session, **parameters)
        answer = self._until(lambda message: message.get("id") == number)
        if "error" in answer:
            raise BrowserFailed(f"{method}: {answer['error'].get('message')}")
        return dict(answer["result"])

    def _until(self, wanted: Callable[[Message], bool]) -> Message:
        while not wanted(message := self._browser.event()):
            if message.get("method") == "Fetch.requestPaused":
                self._serve(message["params"]["requestId"], message["params"]["request"]["url"])
        return message

    def _serve(self, request: str, url: str) -> None:
        document = self._document
        known = document is not None and url.startswith(document.base)
        found = document.files(url.removeprefix(document.base)) if document and known else None
        if found is None:
            self._browser.send(
                "Fetch.failRequest", self._session, requestId=request, errorReason="BlockedByClient"
            )
            return
        self._browser.send(
            "Fetch.fulfillRequest",
            self._session,
            requestId=request,
            responseCode=200,
            responseHeaders=[{"name": "Content-Type", "value": found.type}],
            body=base64.b64encode(found.data).decode(),
        )
