"""What the poses of each form of a series come to: its movement, and what that asks of the joints.

Both are used by the drawings, the words about joints and the choice for a need. Placing a body is among the
dearest things of a build, so it is done once for all of them. Nothing but the form's poses decides: they
are looked at, and so noted, each time somebody asks.
"""

from collections.abc import Iterable

from sitegen.model import Poses
from sitegen.study.body.moments import Asks, hardest
from sitegen.study.body.movement import Movement, movement_of
from sitegen.study.forms import Form, FormKey


class PosedForms:
    """The movements of one series and what they ask, each worked out when it is first wanted."""

    def __init__(self) -> None:
        self._movements: dict[FormKey, tuple[Poses, Movement]] = {}
        self._asks: dict[FormKey, tuple[Poses, Asks]] = {}

    def movement(self, form: Form) -> Movement | None:
        """None where nothing is said about the form's poses."""
        poses = form.poses
        if poses is None:
            return None
        known = self._movements.get(form.key)
        if known is None or known[0] is not poses:
            movement = movement_of(poses)
            if movement is None:
                return None
            known = self._movements[form.key] = poses, movement
        return known[1]

    def asks(self, form: Form) -> Asks | None:
        """What the hardest pose asks of the joints; None where nothing is said about the poses."""
        poses = form.poses
        if poses is None:
            return None
        known = self._asks.get(form.key)
        if known is None or known[0] is not poses:
            movement = self.movement(form)
            if movement is None:
                return None
            known = self._asks[form.key] = poses, hardest(movement)
        return known[1]

    def work_out(self, forms: Iterable[Form]) -> None:
        """Work out all of these now, for processes that are started later."""
        for form in forms:
            self.asks(form)
