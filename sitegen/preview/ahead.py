"""The pages of the next site, to be looked at while all of it is still being planned and written.

One save may change hundreds of files, which takes seconds in a long series. Whoever waits for the
one page they have open gets it first, the rest of the site after it.
"""

import threading
import time
from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from dataclasses import replace
from functools import partial
from pathlib import Path

from sitegen.pages.page import CopyOf, Page
from sitegen.system.noted_reads import note_all, recording

_HEAD_START_S, _LULL_S = 0.3, 0.06
"""How long the build waits at most for a page to be asked for; asked for nothing so long, it goes on."""


class Ahead:
    """Shared by the thread that builds and those that serve; only one of them makes a page at a time."""

    def __init__(self) -> None:
        self._turn = threading.Condition()
        self._door = threading.Lock()
        """Held for a moment, to count."""
        self._looking: Counter[str] = Counter()
        """Addresses of the pages that are open in browsers."""
        self.asking = 0
        """How many servers wait for a file at the moment."""
        self._asked = 0
        """Files of the next site that were asked for so far."""
        self._planning = False
        self._in_place = False
        """Whether a site is in place; none is before the first build."""
        self._coming: dict[str, Page] = {}
        self._made: dict[str, tuple[bytes, frozenset[str]]] = {}
        """Pages of the next site that were asked for, with what was read for them."""

    # --- for the build ---------------------------------------------------------------------

    def open(
        self, pages: Iterable[Page], is_current: Callable[[Page], bool], show: Callable[[], None]
    ) -> list[Page]:
        """Take the plan of the next site; the pages as the build is to make them.

        Calls ``show`` where something differs from the site in place: as soon as there is a page
        that somebody has open, or at the end.
        """
        with self._door:
            looking = set(self._looking)
        shown = False
        planned = []
        with self._turn:
            self._planning, self._asked = True, 0
            try:
                for page in pages:
                    planned.append(self._take(page, is_current))
                    if page.address in looking and self._make_now(page.address) is not None and not shown:
                        shown = True
                        show()
            finally:
                self._planning = False
        if self._coming and not shown:
            show()
        return planned

    def _take(self, page: Page, is_current: Callable[[Page], bool]) -> Page:
        if not self._in_place or is_current(page):
            return page
        self._coming[page.address] = page
        if isinstance(page.make, CopyOf):
            return page
        return replace(page, make=partial(self._make_in_turn, page.address, page.make))

    def __len__(self) -> int:
        """How many files are to come."""
        return len(self._coming)

    def give_way(self) -> None:
        """Wait a little for whoever has a page open to ask for it, and until all have what they want."""
        deadline = time.monotonic() + _HEAD_START_S
        asked = -1
        while (left := deadline - time.monotonic()) > 0:
            if asked == self._asked != 0:
                return
            asked = self._asked
            time.sleep(min(_LULL_S, left))

    def close(self, *, in_place: bool) -> None:
        """The build is over, and its site in place or not: what is on the disk holds."""
        with self._turn:
            self._coming, self._made = {}, {}
        self._in_place |= in_place

    def _make_in_turn(self, address: str, make: Callable[[], bytes]) -> bytes:
        """A page for the build, which lets those go first who wait for one."""
        with self._turn:
            self._turn.wait_for(lambda: not self.asking)
            if address not in self._made:
                return make()
            data, read = self._made[address]
            note_all(read)
            return data

    # --- for those that serve --------------------------------------------------------------

    @contextmanager
    def looking_at(self, address: str) -> Iterator[None]:
        """A page is open in a browser meanwhile."""
        with self._door:
            self._looking[address] += 1
        try:
            yield
        finally:
            with self._door:
                self._looking -= Counter([address])

    def get(self, address: str) -> bytes | Path | None:
        """A file of the next site, or where to copy it from; None where the one on the disk holds."""
        if address in self._made:
            self._come(1)
            self._come(-1)
            made = self._made.get(address)
            return made[0] if made else None
        if not self._planning and address not in self._coming:
            return None
        self._come(1)
        with self._turn:
            try:
                page = self._coming.get(address)
                return page.make.path if page and isinstance(page.make, CopyOf) else self._make_now(address)
            finally:
                self._come(-1)
                self._turn.notify_all()

    def _come(self, more: int) -> None:
        with self._door:
            self.asking += more
            self._asked += max(0, more)

    def _make_now(self, address: str) -> bytes | None:
        """The bytes of a page that is to come; None for another, or one that is copied."""
        page = self._coming.get(address)
        if page is None or isinstance(page.make, CopyOf):
            return None
        if address not in self._made:
            with recording() as read:
                data = page.make()
            self._made[address] = data, frozenset(read)
        return self._made[address][0]
