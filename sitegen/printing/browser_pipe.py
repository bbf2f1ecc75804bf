"""A browser without a window, spoken to through two pipes (Chrome DevTools Protocol).

The protocol's pipe transport is JSON with a zero byte after every message; no port is opened, and
the browser ends by itself when our end of the pipes closes, however this process ends.
"""

import json
import os
import select
import signal
import time
from collections import deque
from pathlib import Path
from typing import Any

Message = dict[str, Any]

_FLAGS = (
    "--headless",
    "--disable-background-networking",
    "--disable-breakpad",
    "--disable-component-update",
    "--disable-default-apps",
    "--disable-dev-shm-usage",
    "--disable-extensions",
    "--disable-gpu",
    "--disable-sync",
    "--font-render-hinting=none",
    "--hide-scrollbars",
    "--metrics-recording-only",
    "--mute-audio",
    "--no-default-browser-check",
    "--no-first-run",
    "--no-pings",
    "--password-store=basic",
    "--use-mock-keychain",
)
_FIRST_FREE = 10
"""Our descriptors are moved up from here, so that none of them is the browser's 3 or 4 by chance."""


class BrowserFailed(Exception):
    """The browser did not start, ended or did not answer."""


def has_pipes() -> bool:
    """Whether a program can be started with two inherited pipes: on Windows Python has no means for it."""
    return hasattr(os, "posix_spawn")


def flags(profile: Path, *, loopback: bool = False) -> list[str]:
    """How the browser is started: with an empty profile, and without a network but for ``loopback``."""
    rules = "MAP * ~NOTFOUND" + (", EXCLUDE 127.0.0.1" if loopback else "")
    found = [*_FLAGS, f"--host-resolver-rules={rules}", f"--user-data-dir={profile}"]
    if hasattr(os, "geteuid") and os.geteuid() == 0:  # its sandbox refuses to be set up by the superuser
        found.append("--no-sandbox")
    return found


class Browser:
    """One running browser. Not for several threads at once."""

    def __init__(self, program: Path, profile: Path, *, patience: float = 30.0) -> None:
        """Start ``program`` with an empty ``profile`` folder; ``patience`` is in seconds for each answer.

        Raises BrowserFailed where it does not start.
        """
        self._patience = patience
        self._calls = 0
        self._unread = b""
        self._events: deque[Message] = deque()
        self._pid, self._write, self._read = _start(program, profile)

    def call(self, method: str, session: str | None = None, **parameters: Any) -> Message:
        """The answer to one command. Raises BrowserFailed where it is an error or none comes."""
        number = self.send(method, session, **parameters)
        while True:
            message = self._next_message()
            if message.get("id") != number:
                self._events.append(message)
            elif "error" in message:
                raise BrowserFailed(f"{method}: {message['error'].get('message')}")
            else:
                return dict(message["result"])

    def send(self, method: str, session: str | None = None, **parameters: Any) -> int:
        """Send a command without waiting for its answer; gives its number. Raises BrowserFailed."""
        self._calls += 1
        message = {"id": self._calls, "method": method, "params": parameters}
        if session is not None:
            message["sessionId"] = session
        data = json.dumps(message).encode() + b"\0"
        try:
            while data:
                data = data[os.write(self._write, data) :]
        except OSError as error:
            raise BrowserFailed("the browser ended") from error
        return self._calls

    def event(self) -> Message:
        """The next event (or late answer), in order. Raises BrowserFailed where none comes."""
        return self._events.popleft() if self._events else self._next_message()

    def close(self) -> None:
        """End the browser and wait until it is gone."""
        for descriptor in (self._write, self._read):
            try:
                os.close(descriptor)
            except OSError:
                pass
        _end(self._pid)

    def _next_message(self) -> Message:
        until = time.monotonic() + self._patience
        while b"\0" not in self._unread:
            ready, _, _ = select.select([self._read], [], [], max(0.0, until - time.monotonic()))
            if not ready:
                raise BrowserFailed("the browser did not answer")
            data = os.read(self._read, 1 << 20)
            if not data:
                raise BrowserFailed("the browser ended")
            self._unread += data
        data, _, self._unread = self._unread.partition(b"\0")
        try:
            return dict(json.loads(data))
        except ValueError:
            raise BrowserFailed("the program does not speak as a browser does") from None


def _start(program: Path, profile: Path) -> tuple[int, int, int]:
    """Process id, the descriptor to write to and the one to read from."""
    theirs_in, ours_out = map(_moved_up, os.pipe())
    ours_in, theirs_out = map(_moved_up, os.pipe())
    arguments = [str(program), "--remote-debugging-pipe", *flags(profile)]
    # With --remote-debugging-pipe a browser reads its descriptor 3 and writes 4; the three before it get
    # nothing.
    actions: list[tuple[int, ...] | tuple[int, int, str, int, int]] = [
        (os.POSIX_SPAWN_DUP2, theirs_in, 3),
        (os.POSIX_SPAWN_DUP2, theirs_out, 4),
        *((os.POSIX_SPAWN_OPEN, stream, os.devnull, os.O_RDWR, 0) for stream in (0, 1, 2)),
    ]
    try:
        # A process group of its own: Ctrl-C is for us, and we end the browser in order.
        pid = os.posix_spawn(program, arguments, os.environ, file_actions=actions, setpgroup=0)
    except OSError as error:
        for descriptor in (ours_in, ours_out):
            os.close(descriptor)
        raise BrowserFailed(f"{program}: {error.strerror}") from error
    finally:
        os.close(theirs_in)
        os.close(theirs_out)
    return pid, ours_out, ours_in


def _moved_up(descriptor: int) -> int:
    import fcntl  # not on Windows, where this module is loaded too but no browser is started

    moved = fcntl.fcntl(descriptor, fcntl.F_DUPFD_CLOEXEC, _FIRST_FREE)
    os.close(descriptor)
    return moved


def _end(pid: int, patience: float = 5.0) -> None:
    """Wait for a process to end by itself, then make it."""
    until = time.monotonic() + patience
    while time.monotonic() < until:
        try:
            done, _ = os.waitpid(pid, os.WNOHANG)
        except ChildProcessError:
            return
        if done:
            return
        time.sleep(0.01)  # it has no other way to say that it ended; it takes some hundredths of a second
    try:
        os.killpg(pid, signal.SIGKILL)
        os.waitpid(pid, 0)
    except (ProcessLookupError, ChildProcessError):
        pass
