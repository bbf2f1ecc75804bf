"""A drawing of one pose, or several of one movement in a common box."""

import math
from dataclasses import dataclass

from markupsafe import Markup

from sitegen.pages.drawings.arrows import hips_arrow, press_arrows, round_arrow, way_arrow
from sitegen.pages.drawings.body import (
    arms_pass_head,
    draw_far_limbs,
    draw_head,
    draw_near_arms,
    draw_near_legs,
    draw_trunk,
    drawn_head,
)
from sitegen.pages.drawings.held import draw_held
from sitegen.pages.drawings.marks import draw_marks
from sitegen.pages.drawings.scene import draw_things
from sitegen.pages.drawings.shapes import GROUND_LINE, Layers, Shape, number
from sitegen.study.body.figure import Figure
from sitegen.study.body.movement import Movement, scene_of

LEAST_WIDE, LEAST_TALL = 96.0, 96.0
"""So that a small pose is not blown up beside a large one."""
LEAST_OWN = 48.0
"""A body on the floor keeps some room above it."""
_MARGIN = 6.0
"""Free room around, so that the poses of a movement side by side do not touch."""
_LYING = ("lying", "lying face down", "bridge", "side lying", "side plank")


@dataclass(frozen=True, slots=True, kw_only=True)
class PosePicture:
    """Shapes in a box, ready for the theme's template. Numbers and fixed words alone stand in the SVG."""

    left: float
    top: float
    wide: float
    tall: float
    own_top: float
    """Where this pose alone begins: a squat needs less room than the stand that it begins with."""
    shapes: tuple[Shape, ...]
    """From the back to the front."""
    svg: Markup
    """The same as SVG, without the box."""

    @property
    def box(self) -> str:
        """The viewBox, the same for all poses of a movement."""
        return f"{number(self.left)} {number(self.top)} {number(self.wide)} {number(self.tall)}"

    @property
    def own_box(self) -> str:
        """The viewBox without the free room above this pose; beside the others the floors are level."""
        return f"{number(self.left)} {number(self.own_top)} {number(self.wide)} {number(self.own_tall)}"

    @property
    def own_tall(self) -> float:
        """The height of that."""
        return self.top + self.tall - self.own_top


def pictures(movement: Movement) -> tuple[PosePicture, ...]:
    """One picture for each pose of a movement, all with the same box and the same ground."""
    front = movement.front_view
    # The same order of shapes in all of them, so that one picture can turn into the next.
    empty = Layers(front, aslant=movement.aslant)
    over_head = any(arms_pass_head(empty, figure) for figure in movement.figures)
    drawn = [_layers(movement, figure, front, over_head) for figure in movement.figures]
    if movement.start.pose.circles == "hips":
        hips_arrow(drawn[0], movement.start)
    elif movement.start.pose.circles:
        round_arrow(drawn[0], movement)
    elif len(drawn) > 1:
        way_arrow(drawn[0], movement)
    for layers, figure in zip(drawn, movement.figures, strict=True):
        press_arrows(layers, figure)
    draw_marks(drawn, movement)
    left = min(layers.box[0] for layers in drawn) - _MARGIN
    right = max(layers.box[2] for layers in drawn) + _MARGIN
    top = min(layers.box[1] for layers in drawn) - _MARGIN
    bottom = GROUND_LINE + 3
    if right - left < LEAST_WIDE:
        middle = (left + right) / 2
        left, right = middle - LEAST_WIDE / 2, middle + LEAST_WIDE / 2
    top = min(top, bottom - LEAST_TALL)
    left, top = math.floor(left), math.floor(top)
    wide, tall = math.ceil(right) - left, math.ceil(bottom) - top
    found = []
    for layers in drawn:
        ground = Layers(front)
        ground.path("ground", [(left + 4, GROUND_LINE), (left + wide - 4, GROUND_LINE)])
        # Last, so that no edge around a limb cuts it.
        shapes = (*layers.shapes, *ground.shapes)
        svg = Markup("".join(shape.svg for shape in shapes))
        own = max(top, math.floor(min(layers.box[1] - _MARGIN, bottom - LEAST_OWN)))
        found.append(
            PosePicture(left=left, top=top, wide=wide, tall=tall, own_top=own, shapes=shapes, svg=svg)
        )
    return tuple(found)


def _layers(movement: Movement, figure: Figure, front: bool, over_head: bool) -> Layers:
    layers = Layers(front, aslant=movement.aslant)
    draw_things(layers, scene_of(movement, figure))
    if figure.pose.base in _LYING:
        layers.lies_on = figure.pose.height_of("bed") if figure.pose.seat == "bed" else 0.0
    draw_held(layers, figure, behind=True)
    draw_far_limbs(layers, figure)
    draw_near_legs(layers, figure)
    # The neck: a thinner stroke from the shoulders to the head.
    layers.path("neck", [layers.flat(figure.chest), drawn_head(layers, figure)])
    draw_trunk(layers, figure)
    if not over_head:
        draw_head(layers, figure)
    # An arm lies on what it hugs; seen from the front, what is hugged would vanish behind the arms.
    hugged = any(where in ("chest", "front", "hips") for where in figure.pose.holds.values())
    if hugged and not front:
        draw_held(layers, figure, behind=False)
    draw_near_arms(layers, figure)
    if front or not hugged:
        draw_held(layers, figure, behind=False)
    if over_head:
        draw_head(layers, figure, clear=True)
    return layers
