"""Figures side by side on one floor: what the series is like, before a word is read."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import islice

from sitegen.model import Episode, Item
from sitegen.pages.drawings import PosePicture
from sitegen.pages.site import Site
from sitegen.pages.views import Views
from sitegen.study.forms import shown_form

_ON_HOME, _ON_COVER = 7, 3
"""Most figures: about as many as a wide screen shows at the size of a hand; of so many the first that is not
flat stands on a video's cover."""
_FLAT = 1.5
"""Wider by more than this than tall: a figure that lies stays small where there is room for a tall one."""
COVER = "cover"
"""The fact whether a session's cover has figures."""
_EPISODES = 4
"""Looked through for the home page: the first ones, so that a long series costs no more than a short one."""
_GAP = 14.0
"""Units of the drawings between two figures."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FriezeFigure:
    """One figure of the row and where it stands."""

    x: float
    y: float
    """Of the upper left corner of its box; all boxes end on the floor."""
    picture: PosePicture


@dataclass(frozen=True, slots=True, kw_only=True)
class Frieze:
    """A row of figures with the size of its box."""

    wide: float
    tall: float
    figures: tuple[FriezeFigure, ...]


def home_frieze(site: Site, most: int = _ON_HOME) -> Frieze | None:
    """Figures from the first sessions; None where no exercise of theirs has poses."""
    items = (item for episode in site.series.episodes[:_EPISODES] for item in _worked(episode))
    return _frieze(site, Views(site), items, most)


def session_frieze(site: Site, views: Views, episode: Episode, most: int) -> Frieze | None:
    """Figures of one session; None where no exercise of it has poses."""
    return _frieze(site, views, _worked(episode), most)


def cover_figure(site: Site, views: Views, episode: Episode) -> Frieze | None:
    """One figure of a session, for the cover of its video; None where no exercise of it has poses."""
    pictures = list(islice(_pictures(site, views, _worked(episode)), _ON_COVER))
    upright = [picture for picture in pictures if picture.wide <= _FLAT * picture.tall]
    return row_of((upright or pictures)[:1])


def has_cover(site: Site, episode: Episode) -> bool:
    """Whether a figure can be drawn for a session's cover: a fact."""
    # Told by the poses alone: a drawing made for the answer would be made again for the page.
    return any(shown_form(site.forms, item).poses is not None for item in _worked(episode))


def _worked(episode: Episode) -> Iterator[Item]:
    """The items of a session's main parts: strength before conditioning, for that is what it is about."""
    for kind in ("strength", "conditioning"):
        for block in episode.blocks:
            if block.kind == kind:
                yield from block.items


def _frieze(site: Site, views: Views, items: Iterable[Item], most: int) -> Frieze | None:
    return row_of(list(islice(_pictures(site, views, items), most)))


def row_of(pictures: Sequence[PosePicture]) -> Frieze | None:
    """Pictures side by side on one floor; None where there are none."""
    if not pictures:
        return None
    tall = max(picture.tall for picture in pictures)
    x, figures = 0.0, []
    for picture in pictures:
        figures.append(FriezeFigure(x=x, y=tall - picture.tall, picture=picture))
        x += picture.wide + _GAP
    return Frieze(wide=x - _GAP, tall=tall, figures=tuple(figures))


def _pictures(site: Site, views: Views, items: Iterable[Item]) -> Iterator[PosePicture]:
    """The pictures of items whose movement has not been seen yet."""
    patterns = set()
    for item in items:
        form = shown_form(site.forms, item)
        drawn = views.drawings.of(form) if form.pattern not in patterns else None
        if drawn is not None:
            patterns.add(form.pattern)
            yield drawn.key.picture
