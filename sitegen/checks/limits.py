"""Warnings about limits of needs that leave next to nothing of everything they are about."""

from collections.abc import Iterator, Mapping

from sitegen.checks.material import Material
from sitegen.model import Limits
from sitegen.problems import Problem, found
from sitegen.study.load import load_mass
from sitegen.study.need_limits import rpe_of
from sitegen.study.timing import session_time

TOO_LOW = 0.5
"""A limit below this share of the least that the series asks for is likely to be a slip (common practice,
no source): a client who may do so little is better served by a session of her own."""

_SAYS = {
    "effort": "RPE {amount:g}",
    "hold": "{amount:g} s",
    "load": "{amount:.3g} kg",
    "session": "{amount:.0f} s",
}
_ABOUT = {"effort": "effort", "hold": "hold", "load": "load", "session": "session"}


def check_limits(material: Material) -> Iterator[Problem]:
    """A limit that is less than half of the least that any item of the series asks for."""
    series = material.series
    if not any(_set(need.limits) for need in series.details.needs.values()):
        return
    least = _least(material)
    for need in series.details.needs.values():
        for name, amount in _set(need.limits).items():
            if name in least and amount < TOO_LOW * least[name]:
                location = series.details.location_at("needs", need.id, "limits", name)
                limit, lowest = (_SAYS[name].format(amount=value) for value in (amount, least[name]))
                message = (
                    f"the limit of {limit} is far below every {_ABOUT[name]} of the series (least: {lowest})"
                )
                advice = f"raise it, or write a session for {need.name!r}"
                yield found("warning", "limit-low", location, message, advice)


def _set(limits: Limits) -> Mapping[str, float]:
    """The limits that are set and have an amount; no load at all is a wish, not a slip."""
    return {name: value for name in _SAYS if (value := getattr(limits, name))}


def _least(material: Material) -> dict[str, float]:
    """The least of each that items and sessions ask for as filmed; what is never asked is left out."""
    series, forms, suitability = material.series, material.forms, material.suitability
    found: dict[str, list[float]] = {name: [] for name in _SAYS}
    for episode in series.episodes:
        time = session_time(series.details, forms, episode).seconds
        found["session"] += [time.low] if time else []
        for block in episode.blocks:
            for item in block.items:
                asked = suitability.asked(block, item, suitability.filmed(item))
                dose = asked.whole_dose
                found["hold"] += [dose.low] if dose is not None and asked.is_hold else []
                found["load"] += [load_mass(item.load).low] if item.load else []
                found["effort"] += [rpe_of(item.effort)] if item.effort else []
    return {name: min(values) for name, values in found.items() if values}
