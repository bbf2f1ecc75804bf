"""Only one person publishes to a target at a time: a small file there says who.

The file is made only if there is none, which every kind of target can do in one step. It is not
told by a clock whether its holder still works, for clocks differ: whoever finds an old lease asks
its holder, or takes it over, and the holder then stops at its next look.
"""

import getpass
import json
import os
import re
import secrets
import socket
import sys
import time
from dataclasses import asdict, dataclass
from datetime import UTC, datetime
from pathlib import Path

from sitegen.publishing.headers import headers_for
from sitegen.publishing.publication_record import LEASE
from sitegen.publishing.store import Store
from sitegen.publishing.target_errors import Missing, TargetBusy, TargetError
from sitegen.system.whole_files import write_once

_LOOK_SECONDS = 10.0
"""Time between two looks whether the lease is still ours."""

_LONGEST = 300
"""Characters of a field of a lease; a longer one was not written by this program."""

_A_WORD = re.compile("[0-9a-f]{16}")

_held: set[str] = set()
"""Tokens of leases that this process holds."""


@dataclass(frozen=True, slots=True)
class Holder:
    """Who publishes, as the lease file at the target says."""

    name: str
    machine: str
    """A random word that only this user's caches know."""
    process: int
    since: str
    """ISO 8601, UTC, by the holder's clock."""
    token: str
    """Tells one lease from another."""


def this_holder(caches: Path, now: datetime) -> Holder:
    """Who is publishing from here."""
    try:
        name = f"{getpass.getuser()}@{socket.gethostname()}"
    except (OSError, KeyError):
        name = socket.gethostname()
    since = now.astimezone(UTC).isoformat(timespec="seconds")
    return Holder(name, _machine(caches), os.getpid(), since, secrets.token_hex(8))


def _machine(caches: Path) -> str:
    path = caches / "machine"
    word = _word_in(path)
    if not word:
        path.parent.mkdir(parents=True, exist_ok=True)
        path.unlink(missing_ok=True)  # an empty word may be that of another computer, too
        write_once(path, secrets.token_hex(8).encode())
        word = _word_in(path)
    return word


def _word_in(path: Path) -> str:
    """The word in a file; empty where there is none, or what stands there was not written by this program."""
    try:
        word = path.read_text(encoding="ascii", errors="replace")
    except OSError:
        return ""
    return word if _A_WORD.fullmatch(word) else ""


class Lease:
    """The lease of a target, taken by ``with``."""

    def __init__(self, store: Store, holder: Holder, *, take_over: bool = False) -> None:
        self.store, self.holder, self.take_over = store, holder, take_over
        self._looked = 0.0

    def __enter__(self) -> "Lease":
        if self.store.has_lease:
            self._take()
            _held.add(self.holder.token)
        return self

    def __exit__(self, kind: object, error: object, trace: object) -> None:
        if not self.store.has_lease:
            return
        _held.discard(self.holder.token)
        try:
            if self._token_there() == self.holder.token:
                self.store.remove(LEASE)
        except TargetError:  # the connection is gone: the next run from here sees that nobody holds it
            if error is None:
                raise

    def _take(self) -> None:
        data = json.dumps(asdict(self.holder)).encode()
        if not self.store.create(LEASE, data):
            other = _holder_in(self.store)
            if other is not None and not (self.take_over or _is_over(other, self.holder)):
                raise TargetBusy(*_told(other))
            self.store.write(LEASE, data, headers_for(LEASE))
        # A target that does not know "only if there is none" lets the last one win.
        if self._token_there() != self.holder.token:
            other = _holder_in(self.store)
            raise (
                TargetBusy(*_told(other))
                if other
                else TargetBusy("somebody else began to publish at the same moment")
            )
        self._looked = time.monotonic()

    def look(self, *, now: bool = False) -> None:
        """Raise TargetBusy if somebody took the lease over; asks the target now and then, or ``now``."""
        if not self.store.has_lease or (not now and time.monotonic() - self._looked < _LOOK_SECONDS):
            return
        self._looked = time.monotonic()
        other = _holder_in(self.store)
        if other is None or other.token != self.holder.token:
            who = other.name if other else "somebody"
            raise TargetBusy(f"{who} took over publishing to {self.store.where}; this run has stopped")

    def _token_there(self) -> str | None:
        holder = _holder_in(self.store)
        return holder.token if holder else None


def current_holder(store: Store) -> Holder | None:
    """Who is publishing to a target, for those who only look."""
    return _holder_in(store) if store.has_lease else None


def _holder_in(store: Store) -> Holder | None:
    """The holder that the lease file names; None where there is none, or it cannot be read."""
    try:
        holder = Holder(**json.loads(store.read(LEASE)))
    except (Missing, ValueError, TypeError, RecursionError):
        return None
    texts = (holder.name, holder.machine, holder.since, holder.token)
    is_sound = all(isinstance(text, str) and len(text) <= _LONGEST for text in texts)
    return holder if is_sound and type(holder.process) is int else None


def _is_over(other: Holder, holder: Holder) -> bool:
    """Whether the run that holds a lease was one from here, and has ended."""
    if other.machine != holder.machine:
        return False
    if other.process == os.getpid():
        return other.token not in _held
    return not _is_running(other.process)


def _is_running(process: int) -> bool:
    if sys.platform == "win32":  # there, asking would end the process
        return True
    if process < 1:  # to the system, a group of processes
        return False
    try:
        os.kill(process, 0)
    except (ProcessLookupError, OverflowError):
        return False
    except OSError:
        pass
    return True


def _told(other: Holder) -> tuple[str, str]:
    since = other.since.replace("T", " ").replace("+00:00", " UTC")
    advice = "wait, or ask; if that run was cut off, add --take-over"
    return f"{other.name} has been publishing there since {since}", advice
