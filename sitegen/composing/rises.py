"""How much a session asks for of each exercise against the session before that has it."""

from collections.abc import Iterator, Mapping

from sitegen.model import Details, Episode
from sitegen.study.forms import FormKey, Forms
from sitegen.study.next_dose import LOAD_RISE
from sitegen.study.progression import ProgressPoint, lines_of, points_of
from sitegen.study.span import ROUNDING

Points = Mapping[tuple[FormKey, str], ProgressPoint]
"""By form and unit, how much the last session with it asks for in all."""


def too_fast(
    details: Details, forms: Forms, last: Points, episode: Episode
) -> Iterator[tuple[ProgressPoint, ProgressPoint, str]]:
    """The points before and now of what rises by more than the series allows: ``volume`` or ``load``."""
    bounds = details.bounds
    most_load = LOAD_RISE if bounds.load_rise is None else bounds.load_rise
    for exercise, point in points_of(details, forms, episode):
        before = last.get((point.form, point.unit))
        if before is None:
            continue
        after = lines_of([(exercise, before), (exercise, point)])[exercise][-1]
        if bounds.rise is not None and after.rise is not None and after.rise > bounds.rise + ROUNDING:
            yield before, after, "volume"
        elif all(one is not None and one > most_load + ROUNDING for one in (after.load_rise, after.rise)):
            yield before, after, "load"
