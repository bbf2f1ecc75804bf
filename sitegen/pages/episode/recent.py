"""The files of one episode are made one after the other and share parts: each part is made once for all.

Using a part notes what was read for it, whichever file it was made for.
"""

from collections.abc import Callable
from functools import wraps
from operator import is_
from typing import ParamSpec, TypeVar

from sitegen.system.noted_reads import note_all, recording

P = ParamSpec("P")
R = TypeVar("R")


def remember_last(make: Callable[P, R]) -> Callable[P, R]:
    """Give the last result again while the arguments are the very same objects.

    Only the last one is kept: a site may have ten thousand episodes.
    """
    last: list[tuple[tuple[object, ...], R, frozenset[str]]] = []

    @wraps(make)
    def remembering(*args: P.args, **kwargs: P.kwargs) -> R:
        wanted = (*args, *kwargs.values())
        if last and len(last[0][0]) == len(wanted) and all(map(is_, last[0][0], wanted)):
            note_all(last[0][2])
            return last[0][1]
        with recording() as read:
            result = make(*args, **kwargs)
        last[:] = [(wanted, result, frozenset(read))]
        return result

    return remembering
