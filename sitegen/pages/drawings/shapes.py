"""What a drawing is made of: strokes and discs with a class, in the drawing's own units.

The theme's styles give the classes their colours, so that one drawing serves light, dark and paper. As SVG
they are written here, once for all pages that show them: a template would take several times as long.
"""

import math
from collections.abc import Iterable
from dataclasses import dataclass, field
from itertools import pairwise

from sitegen.study.body.vectors import Vec

UNITS = 0.88
"""Drawing units in a centimetre: the standard body is about 154 units tall."""
FLOOR = 180.0
"""Where the ground is, counted downwards as SVG does."""
GROUND_LINE = FLOOR + 1.7
"""The middle of the line of the ground: it begins where a foot ends, and so hides none of it."""
RESTING = 4.3
"""Height in centimetres, above what they lie on, of limbs that rest: half the breadth of their stroke."""
_ASLANT = math.radians(50.0)
"""From the front round to the side: trunk and arms each keep more than half of their length."""
_SPINE_LYING, _HIGH = 11.5, 34.0
"""Centimetres: ``study.body.figure.LYING`` in halves, and about three times that. A lying body's strokes run
through its middle, where its spine is, and would hover over the ground by half a trunk's depth. So what is
lower than ``_HIGH`` is drawn lower, the spine at ``RESTING``."""


@dataclass(frozen=True, slots=True)
class Stroke:
    """A path. ``kind`` is one of the classes that the theme draws:

    ``limb``, ``far`` (a limb on the far side), ``neck``, ``gap`` (a clear edge around a limb that
    crosses the body), ``thing``, ``ground``, ``vessel`` (an outline), ``load`` (filled), ``arrow``,
    ``mark``, ``cloth``.
    """

    kind: str
    path: str

    @property
    def svg(self) -> str:
        """The element."""
        return f'<path class="d-{self.kind}" d="{self.path}"/>'


@dataclass(frozen=True, slots=True)
class Disc:
    """The head."""

    kind: str
    x: float
    y: float
    radius: float

    @property
    def svg(self) -> str:
        """The element."""
        return f'<circle class="d-{self.kind}" cx="{self.x}" cy="{self.y}" r="{self.radius}"/>'


Shape = Stroke | Disc


@dataclass(slots=True)
class Layers:
    """Shapes from the back to the front, and the box around them."""

    front_view: bool
    shapes: list[Shape] = field(default_factory=list)
    box: list[float] = field(default_factory=lambda: [1e9, 1e9, -1e9, -1e9])  # empty: all lies outside
    taken: list[tuple[list[tuple[float, float]], float]] = field(default_factory=list)
    """Corners of everything drawn with half its breadth, for finding free places."""
    lies_on: float | None = None
    """Height in centimetres of what a lying body lies on; None where nothing is to be drawn lower."""
    aslant: bool = False
    """A front view from aside."""

    def flat(self, at: Vec) -> tuple[float, float]:
        """A point of the scene on the page."""
        across = at[2] if self.front_view else at[0]
        if self.aslant:
            across = at[2] * math.cos(_ASLANT) + at[0] * math.sin(_ASLANT)
        return across * UNITS, FLOOR - self._drawn_height(at[1]) * UNITS

    def _drawn_height(self, height: float) -> float:
        if self.lies_on is None:
            return height
        above = height - self.lies_on
        if above >= _HIGH:
            return height
        pressed = _HIGH - (_HIGH - above) * (_HIGH - RESTING) / (_HIGH - _SPINE_LYING)
        return self.lies_on + max(RESTING, pressed)

    def body(self, kind: str, *points: Vec) -> None:
        """A limb through points of the scene, none of them drawn into the ground."""
        lowest = FLOOR - RESTING * UNITS
        self.path(kind, [(x, min(y, lowest)) for x, y in map(self.flat, points)])

    def line(self, kind: str, *points: Vec, margin: float = 5.0) -> None:
        """A stroke through points of the scene."""
        self.path(kind, [self.flat(point) for point in points], margin)

    def path(
        self, kind: str, points: Iterable[tuple[float, float]], margin: float = 5.0, *, closed: bool = False
    ) -> None:
        """A stroke through points of the page."""
        points = list(points)
        self._grow(points, margin)
        way = "M" + "L".join(f"{number(x)} {number(y)}" for x, y in points) + ("z" if closed else "")
        self.shapes.append(Stroke(kind, way))

    def curve(
        self, kind: str, a: tuple[float, float], c: tuple[float, float], b: tuple[float, float]
    ) -> None:
        """A quadratic curve from ``a`` to ``b`` that bends towards ``c``."""
        self._grow([a, b, ((a[0] + b[0]) / 4 + c[0] / 2, (a[1] + b[1]) / 4 + c[1] / 2)], 5.0)
        way = f"M{number(a[0])} {number(a[1])}Q{number(c[0])} {number(c[1])} {number(b[0])} {number(b[1])}"
        self.shapes.append(Stroke(kind, way))

    def disc(self, kind: str, at: tuple[float, float], radius: float) -> None:
        """A filled circle."""
        self._grow([at], radius)
        self.shapes.append(Disc(kind, round(at[0], 1), round(at[1], 1), radius))

    def raw(self, kind: str, path: str, corners: Iterable[tuple[float, float]]) -> None:
        """A path written out, with points that its box must hold."""
        self._grow(list(corners), 2.0)
        self.shapes.append(Stroke(kind, path))

    def occupied(self) -> list[tuple[float, float, float]]:
        """Points along everything drawn, each with half its breadth."""
        return [(x, y, margin) for points, margin in self.taken for x, y in _closely(points)]

    def _grow(self, points: list[tuple[float, float]], margin: float) -> None:
        # Half the breadth alone, without the room around it; nothing counts as broader than a head.
        self.taken.append((points, min(margin, 10.5) - 1.5))
        box = self.box
        for x, y in points:
            box[0], box[1] = min(box[0], x - margin), min(box[1], y - margin)
            box[2], box[3] = max(box[2], x + margin), max(box[3], y + margin)


def _closely(points: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """A line with points so close together that what keeps clear of the points keeps clear of the line."""
    found = points[:1]
    for (ax, ay), (bx, by) in pairwise(points):
        steps = max(1, int(math.hypot(bx - ax, by - ay) / 10))  # half of ten is less than arrows keep clear
        found += [(ax + (bx - ax) * k / steps, ay + (by - ay) * k / steps) for k in range(1, steps + 1)]
    return found


def number(value: float) -> str:
    """One decimal at most, and no more characters than needed."""
    text = f"{value:.1f}"
    return text[:-2] if text.endswith(".0") else text
