"""Firefox and WebKit as Debian ships them, driven by what they speak themselves.

Playwright drives builds of its own of these two only, and its downloads are not to be had everywhere. Both
engines know the commands of WebDriver (W3C): WebKit's driver takes them over HTTP, Firefox over Marionette, a
socket with lines of JSON. The few commands that tests need are one small class each.
"""

import json
import os
import shutil
import socket
import subprocess
import time
import urllib.request
from collections.abc import Iterator
from contextlib import ExitStack, closing, contextmanager
from pathlib import Path
from typing import Any

from tests.conftest import PATIENCE_S

MINI_BROWSERS = sorted(Path("/usr/lib").glob("*/webkit2gtk-4.*/MiniBrowser"))
MISSING = {
    "firefox": "Firefox is not installed: apt-get install firefox-esr",
    "webkit": "WebKit is not installed: apt-get install webkit2gtk-driver xvfb gstreamer1.0-libav",
}


class Engine:
    """A browser with one tab."""

    name = ""

    def send(self, command: str, **values: Any) -> Any:
        """Send a WebDriver command; gives the value it answers with."""
        raise NotImplementedError

    def open(self, address: str) -> None:
        """Go to an address and wait until it is loaded."""
        self.send("navigate", url=address)

    def run(self, script: str) -> Any:
        """The value of an expression in the page."""
        return self.send("execute", script=f"return ({script})", args=[])

    def click(self, selector: str) -> None:
        """Press an element."""
        self.run(f"(document.querySelector({json.dumps(selector)}).click(), true)")

    def close(self) -> None:
        """Let go of the connection."""

    def until(self, condition: str) -> None:
        """Wait until a condition holds in the page."""
        limit = time.monotonic() + PATIENCE_S
        while not self.run(f"Boolean({condition})"):
            if time.monotonic() > limit:
                raise AssertionError(f"{condition} did not come true in {self.name} within {PATIENCE_S} s")
            time.sleep(0.05)


class Firefox(Engine):
    """Marionette: each message is its length, a colon, and ``[0, number, command, values]``."""

    name = "firefox"
    commands = {  # noqa: RUF012
        "session": "WebDriver:NewSession",
        "navigate": "WebDriver:Navigate",
        "execute": "WebDriver:ExecuteScript",
    }

    def __init__(self, port: int) -> None:
        self._socket = _connected(port)
        self._stream = self._socket.makefile("rb")
        self._number = 0
        self._receive()  # its greeting
        self.send("session", capabilities={})

    def close(self) -> None:
        self._stream.close()
        self._socket.close()

    def _receive(self) -> Any:
        length = b""
        while not length.endswith(b":"):
            length += self._stream.read(1)
        return json.loads(self._stream.read(int(length[:-1])))

    def send(self, command: str, **values: Any) -> Any:
        self._number += 1
        message = json.dumps([0, self._number, self.commands[command], values]).encode()
        self._socket.sendall(b"%d:%b" % (len(message), message))
        _, _, error, result = self._receive()
        if error:
            raise AssertionError(f"firefox: {error['message']}")
        return result["value"] if isinstance(result, dict) and set(result) == {"value"} else result


class WebKit(Engine):
    """WebDriver over HTTP."""

    name = "webkit"
    paths = {"navigate": "url", "execute": "execute/sync"}  # noqa: RUF012

    def __init__(self, port: int) -> None:
        _connected(port).close()
        self._root = f"http://127.0.0.1:{port}/session"
        options = {"binary": str(MINI_BROWSERS[-1]), "args": ["--automation"]}
        answer = self._post("", capabilities={"alwaysMatch": {"webkitgtk:browserOptions": options}})
        self._root += f"/{answer['sessionId']}"

    def _post(self, path: str, **values: Any) -> Any:
        data = json.dumps(values).encode()
        request = urllib.request.Request(self._root + path, data, {"Content-Type": "application/json"})
        with urllib.request.urlopen(request, timeout=PATIENCE_S) as response:
            return json.load(response)["value"]

    def send(self, command: str, **values: Any) -> Any:
        return self._post(f"/{self.paths[command]}", **values)


def _free_port() -> int:
    with socket.socket() as one:
        one.bind(("127.0.0.1", 0))
        return int(one.getsockname()[1])


def _connected(port: int) -> socket.socket:
    """A connection to a program that is just starting."""
    limit = time.monotonic() + PATIENCE_S
    while True:
        try:
            return socket.create_connection(("127.0.0.1", port), timeout=PATIENCE_S)
        except OSError:
            if time.monotonic() > limit:
                raise
            time.sleep(0.05)


@contextmanager
def _running(*command: str, **settings: str) -> Iterator[subprocess.Popen[bytes]]:
    quiet = {"stdout": subprocess.PIPE, "stderr": subprocess.DEVNULL, "env": os.environ | settings}
    with subprocess.Popen(command, **quiet) as program:  # type: ignore[call-overload]
        try:
            yield program
        finally:
            program.terminate()


def is_there(name: str) -> bool:
    """Whether this computer has an engine and what it needs to be driven."""
    if name == "firefox":
        return shutil.which("firefox-esr") is not None
    return bool(MINI_BROWSERS) and None not in (shutil.which("WebKitWebDriver"), shutil.which("Xvfb"))


@contextmanager
def engine(name: str, profile: Path) -> Iterator[Engine]:
    """An engine with an empty profile, for as long as it is needed."""
    port = _free_port()
    with ExitStack() as programs:
        if name == "firefox":
            # Films play without a press, as in the other tests; no page of Firefox's own comes in between.
            wishes = {
                "marionette.port": port,
                "media.autoplay.default": 0,
                "browser.aboutwelcome.enabled": False,
            }
            lines = [f'user_pref("{key}", {json.dumps(value)});\n' for key, value in wishes.items()]
            (profile / "user.js").write_text("".join(lines))
            command = ("firefox-esr", "--headless", "--no-remote", "--profile", str(profile), "--marionette")
            programs.enter_context(_running(*command))
            yield programs.enter_context(closing(Firefox(port)))
            return
        screen = programs.enter_context(_running("Xvfb", "-displayfd", "1", "-screen", "0", "1300x950x24"))
        assert screen.stdout is not None
        display = f":{screen.stdout.readline().decode().strip()}"
        settings = {
            "DISPLAY": display,
            "HOME": str(profile),
            "GDK_BACKEND": "x11",
            "LIBGL_ALWAYS_SOFTWARE": "1",
        }
        programs.enter_context(_running("WebKitWebDriver", f"--port={port}", **settings))
        yield programs.enter_context(closing(WebKit(port)))
