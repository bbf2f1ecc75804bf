"""What the preview shows at this moment, and waiting for the next."""

import threading
from collections.abc import Sequence
from dataclasses import dataclass

from sitegen.problems import Problem


@dataclass(frozen=True, slots=True)
class ShownState:
    """One state of the preview."""

    version: str
    """Changes whenever the site does."""
    problems: tuple[Problem, ...] = ()
    """What stops the content from being built; empty where the site is up to date."""


class PreviewState:
    """The current state, shared by the thread that builds and those that serve."""

    def __init__(self) -> None:
        self._changed = threading.Condition()
        self.showing = ShownState("0")
        """The current state."""
        self._count = 0

    def show_site(self) -> None:
        """A new site is in place."""
        self._count += 1
        self._set(ShownState(str(self._count)))

    def show_problems(self, problems: Sequence[Problem]) -> None:
        """The content has problems; the site is as before."""
        self._set(ShownState(self.showing.version, tuple(problems)))

    def clear_problems(self) -> None:
        """The content is right again and the site as before."""
        self._set(ShownState(self.showing.version))

    def wait_for_other(self, than: ShownState, timeout: float) -> ShownState | None:
        """The next state that is not ``than``; None when it takes longer than ``timeout`` seconds."""
        with self._changed:
            different = self._changed.wait_for(lambda: self.showing != than, timeout)
            return self.showing if different else None

    def _set(self, showing: ShownState) -> None:
        with self._changed:
            self.showing = showing
            self._changed.notify_all()
