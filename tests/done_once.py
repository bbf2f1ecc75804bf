"""What depends on nothing but its arguments is worked out once in a process, not for each of many series.

Tests read and build copies of the same few exercises and sessions hundreds of times. Reading a file again
whose name and bytes are the same, and placing a body in the same poses, tells no test anything new: each
result is kept, as a preview keeps it from build to build. Tests of these functions themselves call them
directly.
"""

from collections.abc import Iterator
from contextlib import contextmanager
from functools import lru_cache

import pytest

from sitegen.model import Poses
from sitegen.reading import reader
from sitegen.study import posed_forms
from sitegen.study.body.moments import PoseBurden, hardest
from sitegen.study.body.movement import Movement, movement_of

_FILES = 1024
"""The demo has about 200 files; edited ones come on top."""


@contextmanager
def pure_work_done_once() -> Iterator[None]:
    """Within this, files are read and bodies placed once."""
    movements: dict[str, Movement | None] = {}
    asks: dict[int, tuple[Movement, PoseBurden]] = {}

    def movement_once(poses: Poses | None) -> Movement | None:
        said = repr(poses and (poses.start, poses.through, poses.finish))
        if said not in movements:
            movements[said] = movement_of(poses)
        return movements[said]

    def hardest_once(movement: Movement) -> PoseBurden:
        if id(movement) not in asks:
            asks[id(movement)] = movement, hardest(movement)  # the movement stays, and so its id
        return asks[id(movement)][1]

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(reader, "read_file", lru_cache(_FILES)(reader.read_file))
        patch.setattr(posed_forms, "movement_of", movement_once)
        patch.setattr(posed_forms, "hardest", hardest_once)
        yield
