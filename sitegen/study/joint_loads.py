"""Which of several forms is easier on a joint that somebody spares, by a static estimate from their poses.

Some demands are about a joint: who avoids deep knee bends, for instance, has a careful knee. Of forms that
are equally good otherwise the one that asks less of that joint then comes first (see ``suitability``). A
demand that a need avoids for another reason is none of these: somebody who stays seated bends no knee because
she does not stand.

Loads are counted in steps, so that differences too small to mean anything do not decide (``body.compare``).
"""

from collections.abc import Collection, Mapping, Sequence

from sitegen.study.body.compare import BENT, CARRY, FLOORS, SHARE_FLOOR, WORTH
from sitegen.study.body.moments import PoseBurden
from sitegen.study.forms import Form
from sitegen.study.posed_forms import PosedForms

SPARED = ("knees", "back", "shoulders")
"""Joints in the order in which they decide where somebody spares several."""

_JOINT_OF: Mapping[str, str] = {
    "deep knee bend": "knees",
    "rounding the spine": "back",
    "arms overhead": "shoulders",
    "shoulder load": "shoulders",
}
_NOT_STANDING = "standing"

Steps = tuple[tuple[int, int], ...]
"""For each joint of :data:`SPARED`: what it carries, and how far it is bent, in steps."""


def spared_joints(demands: Collection[str]) -> tuple[str, ...]:
    """The joints that somebody spares who avoids these demands."""
    found = {_JOINT_OF[demand] for demand in demands if demand in _JOINT_OF}
    if _NOT_STANDING in demands:
        found.discard("knees")
    return tuple(joint for joint in SPARED if joint in found)


class JointLoads:
    """The loads of the forms of one series."""

    def __init__(self, posed: PosedForms) -> None:
        self._posed = posed

    def of(self, forms: Sequence[Form]) -> list[Steps] | None:
        """The loads of forms to choose among, the one filmed first.

        None where nothing can be compared: nothing is said about the poses of one of them, or the first is
        for moving or stretching, which is not ranked by the load on joints.
        """
        if not forms or forms[0].pattern == "mobility":
            return None
        found = [steps for steps in map(self._steps, forms) if steps is not None]
        return found if len(found) == len(forms) else None

    def _steps(self, form: Form) -> Steps | None:
        asks = self._posed.asks(form)
        return None if asks is None else _counted(asks)


def _counted(asks: PoseBurden) -> Steps:
    knees, back, shoulders = (
        _steps_above(asks.moments[joint], WORTH[joint], FLOORS[joint]) for joint in SPARED
    )
    # Where hands carry, the weight on them says more than a moment that depends on how they push; body weight
    # on the arms is more than any arm that is lifted.
    leaning = (1 + round(asks.hands / SHARE_FLOOR), 0) if asks.hands >= CARRY else (0, shoulders)
    return (
        (knees, round(asks.knee / BENT) if knees else 0),
        (back, round(asks.trunk / BENT) if back else 0),
        leaning,
    )


def _steps_above(moment: float, worth: float, step: float) -> int:
    """What is so little that a joint is not spoken of counts as nothing: no reason to take another form."""
    return round((moment - worth) / step) + 1 if moment >= worth else 0
