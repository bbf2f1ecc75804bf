"""Putting the figure into the scene: for each kind of base, where hips and trunk are.

The usual place of the feet is x = 0; a chair that one sits on, a wall or a step have places that follow
from it, so that start and finish share one scene.
"""

from collections.abc import Callable, Mapping

from sitegen.study.body.figure import Figure
from sitegen.study.body.placing.feet import stand
from sitegen.study.body.placing.hands import all_fours, on_hands, span_of
from sitegen.study.body.placing.knees import kneel
from sitegen.study.body.placing.lying import bridge, lie
from sitegen.study.body.placing.on_side import lie_on_side, side_plank
from sitegen.study.body.placing.supported import SEAT_BACK, at_wall, dip, hang_back, sit
from sitegen.study.body.placing.trunk import SharedByPoses, raise_figure
from sitegen.study.body.pose import FullPose

Placer = Callable[[FullPose, SharedByPoses], Figure]
_PLACERS: Mapping[str, Placer] = {
    "standing": stand,
    "seated": sit,
    "half kneeling": kneel,
    "kneeling": kneel,
    "all fours": all_fours,
    "plank": on_hands,
    "knee plank": on_hands,
    "side plank": side_plank,
    "side lying": lie_on_side,
    "lying": lie,
    "lying face down": lie,
    "bridge": bridge,
    "back to the wall": at_wall,
    "hanging back": hang_back,
    "dip": dip,
}


def place(pose: FullPose, shared: SharedByPoses | None = None) -> Figure:
    """The figure in that pose. What cannot be is noted in ``trouble``; there is always a figure."""
    figure = _PLACERS[pose.base](pose, shared or SharedByPoses())
    if pose.lift and pose.base != "seated":
        raise_figure(figure, pose.lift)
    return figure


__all__ = ["SEAT_BACK", "SharedByPoses", "place", "span_of"]
