"""Warnings about needs that a session does not serve."""

from collections.abc import Iterator
from dataclasses import dataclass, field

from sitegen.checks.material import Material
from sitegen.model import Block, Episode, Item, Series
from sitegen.problems import Problem, Spot, found
from sitegen.study.forms import forms_of, shown_form
from sitegen.study.suitability import Suitability

_NAMED = 3
"""Most other exercises that a piece of advice names."""


@dataclass(slots=True)
class _Gap:
    """An item without a fitting form for some needs; one of a routine may have it in several episodes."""

    item: Item
    kit: frozenset[str]
    """At hand in the first session that has the gap."""
    needs: list[str] = field(default_factory=list)


def check_gaps(material: Material) -> Iterator[Problem]:
    """An item that somebody with a need of the series can do in no form, and what might fill the gap."""
    series = material.series
    suitability = Suitability(series.details, forms_of(series.exercises))
    gaps: dict[Spot, _Gap] = {}
    for episode in series.episodes:
        _collect(series, suitability, episode, gaps)
    for spot, gap in gaps.items():
        yield _gap_problem(series, suitability, spot, gap)


def _collect(series: Series, suitability: Suitability, episode: Episode, gaps: dict[Spot, _Gap]) -> None:
    kit = suitability.kit_at_hand(episode)
    for block in episode.blocks:
        for index, item in enumerate(block.items):
            for need in series.details.needs:
                # Nothing to look for where the form filmed may stay.
                if suitability.reasons(item, [need]) and suitability.version(item, [need], kit) is None:
                    gap = gaps.setdefault(block.item_spot(index), _Gap(item, kit))
                    gap.needs += [need] if need not in gap.needs else []


def _gap_problem(series: Series, suitability: Suitability, spot: Spot, gap: _Gap) -> Problem:
    name = series.exercise(gap.item.exercise).name
    names = ", ".join(repr(series.details.needs[need].name) for need in gap.needs)
    demands = dict.fromkeys(d for need in gap.needs for d in suitability.reasons(gap.item, [need]))
    message = f"no form of {name!r} suits {names}"
    advice = f"write a variant that does without {', '.join(demands)}"
    others = _suggested(suitability, gap)
    advice += f", or one that is another exercise, such as {', '.join(others)}" if others else ""
    return found("warning", "gap", spot, message, advice)


def _suggested(suitability: Suitability, gap: _Gap) -> list[str]:
    """Exercises with a form for all of the needs, or at least for one."""
    for needs in (gap.needs, *([need] for need in gap.needs)):
        forms = suitability.suggestions(gap.item, needs, gap.kit)
        if forms:
            return [repr(form.exercise) for form in forms[:_NAMED]]
    return []


def check_own_choices(material: Material) -> Iterator[Problem]:
    """A version chosen for a need that asks for kit which the session does not list."""
    series = material.series
    forms = forms_of(series.exercises)
    suitability = Suitability(series.details, forms)
    seen: set[Spot] = set()
    for episode in series.episodes:
        kit = suitability.kit_at_hand(episode)
        for block, index, item in _items_with_choices(episode):
            for need in suitability.unfit_choices(item, kit):
                spot = block.item_spot(index, "versions", need)
                chosen = next(v.form for v in suitability.fitting(item, [need]) if v.own_choice)
                missing = sorted(set(chosen.kit) - kit - set(shown_form(forms, item).kit))
                if spot not in seen:
                    seen.add(spot)
                    message = (
                        f"{chosen.name!r} needs {', '.join(missing)}, which nothing else in the session does"
                    )
                    advice = (
                        "choose a version with the kit at hand; until then the nearest other form is shown"
                    )
                    yield found("warning", "choice-kit", spot, message, advice)


def _items_with_choices(episode: Episode) -> Iterator[tuple[Block, int, Item]]:
    for block in episode.blocks:
        for index, item in enumerate(block.items):
            if item.versions:
                yield block, index, item
