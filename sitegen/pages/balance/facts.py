"""What the balance needs of each episode, cached as text between builds.

Text (JSON) rather than records: a build that changes one episode of a thousand reads back only
what it shows, and equal facts are equal text.
"""

import json
from collections.abc import Mapping, Sequence
from dataclasses import fields
from typing import Any, NamedTuple

from sitegen.model import Episode
from sitegen.pages.script_json import to_json
from sitegen.pages.site import Site
from sitegen.study.forms import FormKey
from sitegen.study.progression import ProgressPoint, points_of
from sitegen.study.span import Span
from sitegen.study.training import Training, UnevenLoad, training_of
from sitegen.study.volume import Balance

TRAINING, POINTS = "training", "points"
"""Names of the facts."""

_SIDES = tuple(field.name for field in fields(Balance))


def training_fact(site: Site, episode: Episode) -> str:
    """What an episode asks for, for :func:`read_training`."""
    one = training_of(site.details, site.forms, episode, site.time_of(episode))
    return to_json(
        [
            _packed(one.strength),
            _packed(one.conditioning),
            [_ends(getattr(one.balance, side)) for side in _SIDES],
            _ends(one.one_sided),
            _ends(one.two_sided),
            [[uneven.exercise, uneven.left_over, uneven.measure] for uneven in one.uneven],
            _packed(one.minutes),
            _packed(one.aerobic),
            _ends(one.kcal),
            one.strength_sessions,
        ]
    )


def read_training(text: str, number: int) -> Training:
    """The training of the episode with that number from its fact."""
    strength, conditioning, balance, one_sided, two_sided, uneven, minutes, aerobic, kcal, sessions = (
        json.loads(text)
    )
    return Training(
        strength=_unpacked(strength),
        conditioning=_unpacked(conditioning),
        balance=Balance(**{side: Span(*ends) for side, ends in zip(_SIDES, balance, strict=True)}),
        one_sided=Span(*one_sided),
        two_sided=Span(*two_sided),
        uneven=tuple(
            UnevenLoad(session=number, exercise=name, left_over=left, measure=measure)
            for name, left, measure in uneven
        ),
        minutes=_unpacked(minutes),
        aerobic=_unpacked(aerobic),
        kcal=Span(*kcal),
        strength_sessions=sessions,
    )


def points_fact(site: Site, episode: Episode) -> str:
    """How much of each exercise an episode asks for, for :func:`read_points`."""
    return to_json(
        [_point(site, name, point) for name, point in points_of(site.details, site.forms, episode)]
    )


def _point(site: Site, exercise: str, point: ProgressPoint) -> list[Any]:
    held = [_ends(span) if span else None for span in (point.load_kg, point.volume_load)]
    ends = (_ends(point.sets), _ends(point.amount))
    return [exercise, site.form(*point.form).name, *point.form, *ends, point.unit, point.assumed, *held]


class NamedPoint(NamedTuple):
    """A point with what it is about."""

    exercise: str
    form: str
    """Name of the form."""
    point: ProgressPoint


def read_points(text: str, episode: Episode) -> list[NamedPoint]:
    """The points of an episode from its fact."""
    return [NamedPoint(row[0], row[1], _read_point(row[2:], episode)) for row in json.loads(text)]


def _read_point(row: Sequence[Any], episode: Episode) -> ProgressPoint:
    of, variant, sets, amount, unit, assumed, load, volume_load = row
    return ProgressPoint(
        episode=episode.slug,
        number=episode.number,
        form=FormKey(of, variant),
        sets=Span(*sets),
        amount=Span(*amount),
        unit=unit,
        assumed=assumed,
        load_kg=Span(*load) if load else None,
        volume_load=Span(*volume_load) if volume_load else None,
    )


def _ends(span: Span) -> list[float]:
    return [span.low, span.high]


def _packed(sums: Mapping[str, Span]) -> dict[str, list[float]]:
    return {key: _ends(span) for key, span in sums.items()}


def _unpacked(sums: Mapping[str, Sequence[float]]) -> dict[str, Span]:
    return {key: Span(*ends) for key, ends in sums.items()}
