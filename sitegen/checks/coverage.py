"""Warnings about needs that a session does not serve."""

from collections.abc import Iterator, Sequence
from itertools import product

from sitegen.checks.material import Material
from sitegen.model import Block, Item, Series
from sitegen.problems import Location, Problem, found
from sitegen.study.forms import FormKey
from sitegen.study.suitability import Suitability
from sitegen.vocabulary import UNTOLD

_NAMED = 3
"""Most other exercises that a piece of advice names."""


def check_gaps(material: Material) -> Iterator[Problem]:
    """What somebody with a need of the series can do in no form, and what might fill the gap.

    A need that nothing at all suits is told once, for the need.
    """
    series, suitability = material.series, material.suitability
    needs = series.details.needs
    # By place, for what routines share: the item without a form, or the block that trains something else.
    gaps: dict[Location, tuple[Item, list[str]]] = {}
    off_purpose: dict[Location, tuple[Block, list[str]]] = {}
    served: set[str] = set()
    for episode in series.episodes:
        kit = suitability.kit_at_hand(episode)
        for need, block in product(needs, episode.blocks):
            versions = suitability.block(block, (need,), kit)
            for index, (item, version) in enumerate(zip(block.items, versions, strict=True)):
                if version is None:
                    gaps.setdefault(block.item_location(index), (item, []))[1].append(need)
            if any(versions):
                served.add(need)
                if not suitability.keeps_purpose(block, versions):
                    off_purpose.setdefault(block.location, (block, []))[1].append(need)
    unserved = [need for need in needs if need not in served] if series.episodes else []
    for need in unserved:
        location = material.series.details.location_at("needs", need)
        message = f"no exercise of the series suits {needs[need].name!r} in any form"
        advice = "write forms without what it avoids, or let it avoid less"
        yield found("warning", "need-unserved", location, message, advice)
    for location, (item, all_of) in gaps.items():
        if some := [need for need in dict.fromkeys(all_of) if need not in unserved]:
            yield _gap_problem(series, suitability, location, item, some)
    for location, (block, all_of) in off_purpose.items():
        names = ", ".join(repr(needs[need].name) for need in dict.fromkeys(all_of))
        message = f"for {names} nothing in {block.name!r} trains the muscles that the block is for"
        advice = "write a form that does; until then the pages say that this part trains something else"
        yield found("warning", "purpose-lost", location, message, advice)


def _gap_problem(
    series: Series, suitability: Suitability, location: Location, item: Item, needs: list[str]
) -> Problem:
    names = ", ".join(repr(series.details.needs[need].name) for need in needs)
    demands = dict.fromkeys(d for need in needs for d in suitability.reasons(item, [need]))
    message = f"no form of {series.exercise(item.exercise).name!r} suits {names}"
    advice = f"write a variant that does without {', '.join(demands)}"
    if UNTOLD in demands:
        advice = f"write the demands of {item.exercise} in its file first (demands: [] if it asks nothing)"
        return found("warning", "gap", location, message, advice)
    if not demands:
        advice = "write a variant in which the limits of the need can be kept, such as one without a load"
    others = _suggested(suitability, item, needs)
    advice += f", or one that is another exercise, such as {', '.join(others)}" if others else ""
    return found("warning", "gap", location, message, advice)


def _suggested(suitability: Suitability, item: Item, gap_needs: Sequence[str]) -> list[str]:
    """Exercises with a form for all of the needs, or at least for one."""
    for needs in (gap_needs, *([need] for need in gap_needs)):
        forms = suitability.suggestions(item, needs)
        if forms:
            return [repr(form.exercise) for form in forms[:_NAMED]]
    return []


def check_own_choices(material: Material) -> Iterator[Problem]:
    """A version chosen for a need in which a limit of the need cannot be kept."""
    for _, block, index, item in material.items():
        for need in material.suitability.unfit_choices(block, item) if item.versions else ():
            message = f"{item.versions[need]!r} cannot keep the limits of {need!r}"
            advice = "choose another version; until then the nearest form that fits is shown"
            location = block.item_location(index, "versions", need)
            yield found("warning", "choice-limits", location, message, advice)


def check_choices_agree(material: Material) -> Iterator[Problem]:
    """A version chosen for a need in one session, and another given for the same form in a later one.

    Somebody who does the series does both: what was right once is likely right again. A choice in the later
    session alone may well be meant, as a step on.
    """
    series = material.series
    suitability = material.suitability
    chosen: dict[tuple[str, str | None, str], tuple[int, Location, FormKey]] = {}
    for episode, block, index, item in material.items():
        for need, variant in item.versions.items():
            location = block.item_location(index, "versions", need)
            place = (item.exercise, item.variant, need)
            chosen.setdefault(place, (episode.number, location, FormKey(item.exercise, variant)))
    told = set[Location]()
    for number, need, item, form in _without_choice(series, suitability):
        first = chosen.get((item.exercise, item.variant, need))
        # An earlier session is no step on from a choice that comes later.
        if first is None or number < first[0] or form == first[2] or first[1] in told:
            continue
        told.add(first[1])
        name = series.exercise(item.exercise).name
        message = (
            f"{need!r} is given {first[2].variant!r} for {name!r} in episode {first[0]}, and "
            f"{form.variant or form.exercise!r} in episode {number}, where nothing is chosen"
        )
        advice = f"write for: [{need}] in the variant, or the choice in both episodes"
        yield found("warning", "choice-in-one-episode", first[1], message, advice)


def _without_choice(series: Series, suitability: Suitability) -> Iterator[tuple[int, str, Item, FormKey]]:
    """What every item becomes for each need for which nothing is chosen there."""
    for episode in series.episodes:
        for need in series.details.needs:
            session = suitability.session(episode, [need])
            for block, versions in zip(episode.blocks, session, strict=True):
                for item, version in zip(block.items, versions, strict=True):
                    if version is not None and need not in item.versions:
                        yield episode.number, need, item, version.form.key
