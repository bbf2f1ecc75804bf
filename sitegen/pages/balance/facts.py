"""What the balance needs of each episode besides what it asks for (``study.training``)."""

from typing import NamedTuple

from sitegen.model import Episode
from sitegen.pages.site import Site
from sitegen.study.progression import ProgressPoint, points_of
from sitegen.study.training import Training, training_of

TRAINING, POINTS = "training", "points"
"""Names of the facts."""


class NamedPoint(NamedTuple):
    """A point with what it is about."""

    exercise: str
    form: str
    """Name of the form."""
    point: ProgressPoint


def training_fact(site: Site, episode: Episode) -> Training:
    """What an episode asks for."""
    return training_of(site.details, site.forms, episode, site.time_of(episode))


def points_fact(site: Site, episode: Episode) -> tuple[NamedPoint, ...]:
    """How much of each exercise an episode asks for."""
    points = points_of(site.details, site.forms, episode)
    return tuple(NamedPoint(exercise, site.form(*point.form).name, point) for exercise, point in points)
