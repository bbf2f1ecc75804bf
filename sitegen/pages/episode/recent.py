"""The files of one episode are made one after the other and share parts: each part is made once for all."""

from collections.abc import Callable
from functools import wraps
from operator import is_
from typing import ParamSpec, TypeVar

P = ParamSpec("P")
R = TypeVar("R")


def remember_last(make: Callable[P, R]) -> Callable[P, R]:
    """Give the last result again while the arguments are the very same objects.

    Only the last one is kept: a site may have ten thousand episodes.
    """
    kept: list[tuple[tuple[object, ...], R]] = []

    @wraps(make)
    def remembering(*args: P.args, **kwargs: P.kwargs) -> R:
        wanted = (*args, *kwargs.values())
        if kept and len(kept[0][0]) == len(wanted) and all(map(is_, kept[0][0], wanted)):
            return kept[0][1]
        result = make(*args, **kwargs)
        kept[:] = [(wanted, result)]
        return result

    return remembering
