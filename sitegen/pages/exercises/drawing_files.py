"""The drawings of each exercise as one small file beside its page, for pages that name many forms.

A list of sixty forms would weigh several times as much with its drawings in it. As pictures of their own they
are loaded when they come into view, also where a page is opened as a file and without scripts. One file holds
all forms of an exercise: one more in it weighs a few hundred bytes packed, one more file costs every build.
The form is named behind the ``#``: a view of the file (SVG 2, 16.7.3, linking into SVG content), 3 wide to 2
high as pages show it. Sheets show its poses apart and in the colours of paper, whatever the screen:
``FORM.key`` is the one that tells most, ``FORM.other`` the other end. Each pose is drawn once, and the view
of the form uses that drawing.
"""

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import partial

from sitegen.model import Exercise
from sitegen.pages.drawings import DrawnForm, PosePicture
from sitegen.pages.frieze import Frieze, row_of
from sitegen.pages.page import Page
from sitegen.pages.site import Site
from sitegen.pages.views import Views
from sitegen.study.forms import Form

MAIN = "_main"
"""The view of the main form: no id of a variant begins so."""
_LEAST_WIDE = 264.0
"""Of a view, in units of the drawings: two figures that stand fill it, and none is blown up."""
_MOST_WIDE = 396.0
"""A start and a finish that take more, lying ones, would be too small: the more telling alone is shown."""
_GAP = 600
"""Units between a view and the next: a place taller than its view shows more, but no neighbour."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FilePose:
    """A pose as it is drawn in the file."""

    id: str
    y: float
    """Of its upper edge in the file; its left one is at 0."""
    picture: PosePicture
    view: str
    """``key`` or ``other``; empty where no sheet shows it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FileView:
    """One form in the file."""

    id: str
    box: str
    """The viewBox."""
    poses: tuple[FilePose, ...]
    used: tuple[tuple[str, float, float], ...]
    """What the view shows: the id of a pose, and how far from its own place."""


def drawing_address(form: Form) -> str:
    """The picture of a form, below the site's root; empty where nothing is said about its poses."""
    if form.poses is None:
        return ""
    return f"exercises/{form.key.exercise}/drawings.svg#{form.key.variant or MAIN}"


def drawing_pages(site: Site, views: Views) -> Iterator[Page]:
    """One file for each exercise."""
    for exercise in site.series.exercises.values():
        yield Page(f"exercises/{exercise.id}/drawings.svg", partial(_make, site, views, exercise))


def _make(site: Site, views: Views, exercise: Exercise) -> bytes:
    forms = site.forms.of(exercise.id)
    drawn = {form.key.variant or MAIN: views.drawings.of(form) for form in forms.values()}
    address = f"exercises/{exercise.id}/drawings.svg"
    return site.render("exercise_drawings.svg", address, views=list(_views(drawn))).strip()


def pose_views(form: DrawnForm) -> tuple[str, ...]:
    """The views of single poses in the order in which sheets show them, as ``("other", "key")``."""
    if len(form.frames) == 1:
        return ("key",)
    return ("key", "other") if form.key is form.frames[0] else ("other", "key")


def _views(drawn: Mapping[str, DrawnForm | None]) -> Iterator[FileView]:
    top = 0
    for name, form in drawn.items():
        row = _row(form) if form is not None else None
        if form is None or row is None:
            continue
        # Three to two in whole units, whatever is in it: all views have one shape.
        tall = 2 * math.ceil(max(_LEAST_WIDE, row.wide, row.tall * 1.5) / 3)
        wide = tall // 2 * 3
        poses = tuple(_poses(name, form, top + tall + _GAP))
        left, floor = (wide - row.wide) // 2, top + tall
        shown = [(next(p for p in poses if p.picture is f.picture), f) for f in row.figures]
        used = tuple((pose.id, left + f.x, floor - row.tall + f.y - pose.y) for pose, f in shown)
        yield FileView(id=name, box=f"0 {top} {wide} {tall}", poses=poses, used=used)
        top = math.ceil(poses[-1].y + poses[-1].picture.tall) + _GAP


def _poses(name: str, form: DrawnForm, top: float) -> Iterator[FilePose]:
    start, last = form.frames[0], form.frames[-1]
    views = {id(form.key.picture): "key"}
    views.setdefault(id(last.picture if form.key is start else start.picture), "other")
    pictures = {id(frame.picture): frame.picture for frame in (start, form.key, last)}
    for number, (identity, picture) in enumerate(pictures.items(), start=1):
        yield FilePose(id=f"{name}.{number}", y=top, picture=picture, view=views.get(identity, ""))
        top += picture.tall + _GAP


def _row(form: DrawnForm) -> Frieze | None:
    """The start and the finish side by side, or the pose that tells most."""
    ends = [form.frames[0].picture, *(frame.picture for frame in form.frames[1:][-1:])]
    row = row_of(ends)
    return row if row is not None and row.wide <= _MOST_WIDE else row_of([form.key.picture])
