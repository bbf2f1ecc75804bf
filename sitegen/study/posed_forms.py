"""What the poses of each form of a series come to: its movement, and what that asks of the joints.

Both are used by the drawings, the words about joints and the choice for a need. Placing a body is among the
dearest things of a build, so it is done once for all of them. Nothing but the form's poses decides: they
are looked at, and so noted, each time somebody asks.

What poses ask is a few numbers and is cached between builds by what the poses say, so that a build which has
to choose among all forms again (a dose was edited) places none of them.
"""

import hashlib
from collections.abc import Callable, Iterable, MutableMapping
from typing import TypeVar

from sitegen.model import Poses
from sitegen.study.body.moments import PoseBurden, hardest
from sitegen.study.body.movement import Movement, movement_of
from sitegen.study.forms import Form, FormKey

T = TypeVar("T")
_Known = dict[FormKey, tuple[Poses, T | None]]
"""What was worked out for a form, with the poses that it was worked out from."""


class PosedForms:
    """The movements of one series and what they ask, each worked out when it is first wanted."""

    def __init__(self, asked: MutableMapping[str, PoseBurden] | None = None) -> None:
        """``asked`` holds what poses ask by their fingerprint, from earlier builds too."""
        self._movements: _Known[Movement] = {}
        self._asks: _Known[PoseBurden] = {}
        self._asked = {} if asked is None else asked

    def movement(self, form: Form) -> Movement | None:
        """None where nothing is said about the form's poses."""
        return _result(self._movements, form, lambda: movement_of(form.poses))

    def asks(self, form: Form) -> PoseBurden | None:
        """What the hardest pose asks of the joints; None where nothing is said about the poses."""
        return _result(self._asks, form, lambda: self._hardest(form))

    def _hardest(self, form: Form) -> PoseBurden | None:
        name = hashlib.blake2b(repr(form.poses).encode(), digest_size=12).hexdigest()
        if name not in self._asked:
            movement = self.movement(form)
            if movement is None:
                return None
            self._asked[name] = hardest(movement)
        return self._asked[name]

    def work_out(self, forms: Iterable[Form]) -> None:
        """Work out all of these now, for processes that are started later."""
        for form in forms:
            self.movement(form)
            self.asks(form)


def _result(known: _Known[T], form: Form, work_out: Callable[[], T | None]) -> T | None:
    """The result for the poses that the form has now, worked out where it is not known."""
    poses = form.poses
    if poses is None:
        return None
    if form.key not in known or known[form.key][0] is not poses:
        known[form.key] = poses, work_out()
    return known[form.key][1]
