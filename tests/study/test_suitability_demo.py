"""Every need and every pair of the demo: no avoided demand, no limit broken, nothing lost unsaid."""

import itertools

import pytest

from sitegen.model import Item, Limits, Series
from sitegen.study.forms import Form, forms_of, shown_form
from sitegen.study.load import load_mass
from sitegen.study.need_limits import rpe_of
from sitegen.study.suitability import Suitability
from sitegen.study.version import Version


@pytest.mark.parametrize("size", [1, 2], ids=["every need", "every pair"])
def test_the_demo_is_safe_and_says_what_is_lost(demo_series: Series, size: int) -> None:
    forms = forms_of(demo_series.exercises)
    suitability = Suitability(demo_series.details, forms)
    needs = demo_series.details.needs
    looked_at = 0
    for ids in itertools.combinations(needs, size):
        for episode in demo_series.episodes:
            for block, versions in zip(episode.blocks, suitability.session(episode, ids), strict=True):
                for item, version in zip(block.items, versions, strict=True):
                    if version is None:
                        continue
                    looked_at += 1
                    for need in (needs[one] for one in ids):
                        assert not set(version.form.demands) & set(need.avoids), (episode.slug, ids)
                        assert not broken(need.limits, item, version), (episode.slug, ids, version.form.name)
                    assert not unsaid(shown_form(forms, item), version), (episode.slug, ids)
    assert looked_at > 1000


def broken(limits: Limits, item: Item, version: Version) -> list[str]:
    """Which limits a version does not keep."""
    held = load_mass(version.load).high if version.load else version.most_kg or 0.0
    dose, effort = version.dose, version.effort
    found = []
    if limits.load is not None and held > limits.load + 1e-9:
        found.append("load")
    if limits.load_share is not None and item.load:
        found += ["share"] if held > limits.load_share * load_mass(item.load).high + 1e-9 else []
    if limits.effort is not None and effort is not None and rpe_of(effort) > limits.effort:
        found.append("effort")
    if limits.effort is not None and dose and dose.reserve and dose.reserve[0] < 10 - limits.effort:
        found.append("reserve")
    if not limits.max_sets and dose is not None and dose.kind == "max":
        found.append("max")
    if not limits.speed and version.tempo is not None and version.tempo.lifting is None:
        found.append("speed")
    return found


def unsaid(filmed: Form, version: Version) -> set[str]:
    """What a version lacks against the form filmed without saying so."""
    lost = set(filmed.muscles.prime) - set(version.form.muscles.prime)
    said = {muscle for one in version.lost for muscle in one.names}
    missing = lost - said
    if filmed.pattern != version.form.pattern and "pattern" not in {one.what for one in version.lost}:
        missing.add("pattern")
    if version.harder and {"harder", "not compared"}.isdisjoint(one.what for one in version.lost):
        missing.add("harder")
    return missing
