"""Watch the content and the themes; build on every save."""

import gc
import sys
import threading
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path

from watchfiles import watch

from sitegen.building.build import Builder, IsCurrent
from sitegen.building.build_directory import OutputBusy
from sitegen.building.library_told import library_line
from sitegen.pages.page import Page
from sitegen.preview.ahead import Ahead
from sitegen.preview.state import PreviewState
from sitegen.problems import ContentError, in_file

_QUIET_MS = 8
"""Editors save in several steps; this long without a change means the save is over."""
_TICK_MS = 150
"""How often the watch looks whether it should stop."""


def build_once(builder: Builder, state: PreviewState, ahead: Ahead, tell: Callable[[str], None]) -> None:
    """Build and show the result, whatever it is; pages that are open as soon as they can be made."""

    def show_ahead(pages: Iterable[Page], is_current: IsCurrent) -> list[Page]:
        taken = ahead.open(pages, is_current, state.show_site)
        if len(ahead):
            ahead.give_way()
        return taken

    in_place, library = False, builder.library
    try:
        built = builder.build(before_writing=show_ahead)
        in_place = True
    except ContentError as error:
        state.show_problems(error.problems)
        for problem in error.problems:
            tell(str(problem))
    except (OutputBusy, OSError) as error:
        state.show_problems([in_file("build", str(builder.out), str(error))])
        tell(str(error))
    else:
        changed = len(built.written.made) + len(built.written.removed)
        if changed:
            if not len(ahead):
                state.show_site()
            waiting = len(built.series.upcoming)
            more = f"; {waiting} not out yet" if waiting else ""
            tell(f"{changed} files renewed{more}")
        else:
            state.clear_problems()
        if library is not None and builder.library is not None and library.version != builder.library.version:
            tell(library_line(builder.library, library))
    finally:
        ahead.close(in_place=in_place)
    if in_place:
        builder.remember()


def rebuild_on_save(
    builder: Builder,
    state: PreviewState,
    ahead: Ahead,
    folders: list[Path],
    stop: threading.Event,
    tell: Callable[[str], None],
) -> None:
    """Build now and after every save in ``folders`` and in a shared library, until ``stop`` is set."""
    gc.disable()  # collected between builds instead
    # Servers answer while a build computes: let them have their turn soon.
    sys.setswitchinterval(0.0005)
    for _ in _saves(builder, folders, stop):
        build_once(builder, state, ahead, tell)
        gc.collect()  # now, while nobody waits, instead of in the middle of a build


def _saves(builder: Builder, folders: list[Path], stop: threading.Event) -> Iterator[None]:
    """Comes when the watch stands and after every save; watches again where there is another library."""
    while not stop.is_set():
        watched, built = _watched(builder, folders), False
        # The first build waits for the watch to stand (its first time-out), so that no save is missed.
        for changes in watch(
            *watched,
            step=_QUIET_MS,
            debounce=400,  # milliseconds after which saves without a pause are built all the same
            stop_event=stop,
            rust_timeout=_TICK_MS,
            yield_on_timeout=True,
        ):
            if changes or not built:
                built = True
                yield
                if _watched(builder, folders) != watched:
                    break


def _watched(builder: Builder, folders: list[Path]) -> list[Path]:
    """The folders, and that of the shared library where there is one."""
    shared = builder.shared
    return [*folders, *([shared] if shared is not None and shared.is_dir() else ())]
