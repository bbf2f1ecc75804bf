"""Figures side by side on one floor: what the series is like, before a word is read."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import islice

from sitegen.model import Item
from sitegen.pages.drawings import Picture
from sitegen.pages.site import Site
from sitegen.pages.views import Views
from sitegen.study.forms import Form, shown_form

_MOST_FIGURES = 7
"""About as many as a wide screen shows at the size of a hand."""
_EPISODES = 4
"""Looked through for figures: the first ones, so that a long series costs no more than a short one."""
_GAP = 14.0
"""Units of the drawings between two figures."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """One figure of the row and where it stands."""

    x: float
    y: float
    """Of the upper left corner of its box; all boxes end on the floor."""
    picture: Picture


@dataclass(frozen=True, slots=True, kw_only=True)
class Frieze:
    """A row of figures with the size of its box."""

    wide: float
    tall: float
    figures: tuple[Standing, ...]


def make_frieze(site: Site) -> Frieze | None:
    """Figures from the first sessions, each of another movement; None where no exercise has poses."""
    pictures = list(islice(_pictures(site), _MOST_FIGURES))
    if not pictures:
        return None
    tall = max(picture.tall for picture in pictures)
    x, figures = 0.0, []
    for picture in pictures:
        figures.append(Standing(x=x, y=tall - picture.tall, picture=picture))
        x += picture.wide + _GAP
    return Frieze(wide=x - _GAP, tall=tall, figures=tuple(figures))


def _pictures(site: Site) -> Iterator[Picture]:
    drawings, patterns = Views(site).drawings, set()
    for form in _shown(site):
        drawn = drawings.of(form) if form.pattern not in patterns else None
        if drawn is not None:
            patterns.add(form.pattern)
            yield drawn.key.picture


def _shown(site: Site) -> Iterator[Form]:
    return (shown_form(site.forms, item) for item in items_of_frieze(site))


def items_of_frieze(site: Site) -> Iterator[Item]:
    """The items whose figures may stand in the row, in the order shown."""
    for episode in site.series.episodes[:_EPISODES]:
        for block in episode.blocks:
            if block.kind in ("conditioning", "strength"):
                yield from block.items
