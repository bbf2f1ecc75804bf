"""Warnings about demand words that no exercise declares: to avoid them spares nothing."""

from collections.abc import Iterator

from sitegen.checks.material import Material
from sitegen.model import Series
from sitegen.problems import Location, Problem, found
from sitegen.study.avoided_in_vain import avoided_in_vain
from sitegen.study.suitability import avoided_by

_ADVICE = (
    "write it under demands: of every exercise and variant to which its sentence applies, or remove it here"
)


def check_own_demands(material: Material) -> Iterator[Problem]:
    """A need or a caution about a word of the series' own that no form asks for.

    A word of the program's may well be asked for by none: a series without jumps serves those who can't jump.
    A word of the series' own was written because some exercise asks for it.
    """
    series = material.series
    never = [demand for demand in series.details.demands if demand not in material.declared]
    for location, who, demands in _uses(series) if never else ():
        for index, demand in enumerate(demands):
            if demand in never:
                message = f"no exercise declares {demand!r}, so {who} nothing"
                yield found("warning", "demand-never-declared", location.at(index), message, _ADVICE)


def check_spared_nothing(material: Material) -> Iterator[Problem]:
    """A need that avoids words of the program alone, none of which any form asks for.

    That may be right, and a need with other words that do change something is not told: whoever stays seated
    avoids jumps in a series without any.
    """
    details = material.series.details
    for need in details.needs.values():
        if need.avoids and (material.declared | details.demands.keys()).isdisjoint(avoided_by(details, need)):
            location = details.location_at("needs", need.id, "avoids")
            message, advice = avoided_in_vain(need.avoids, repr(need.name))
            yield found("warning", "demand-never-declared", location, message, advice)


def _uses(series: Series) -> Iterator[tuple[Location, str, tuple[str, ...]]]:
    """Where words are used, and what is wrong there with one that no exercise declares."""
    details = series.details
    for need in details.needs.values():
        location = details.location_at("needs", need.id)
        yield location.at("avoids"), f"{need.name!r} is spared", need.avoids
        yield location.at("rather_without"), f"{need.name!r} is spared", need.rather_without
    for index, caution in enumerate(details.cautions):
        yield details.location_at("cautions", index, "about"), "this caution is shown beside", caution.about
