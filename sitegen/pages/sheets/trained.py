"""What a session trains, in short: a fact that the list of sheets and the calendar are made from."""

from dataclasses import dataclass

from sitegen.model import Episode
from sitegen.pages.site import Site
from sitegen.study.recovery import hard_sets
from sitegen.study.volume import pattern_sets
from sitegen.vocabulary import PATTERNS

TRAINED = "trained"
"""Name of the fact."""
_NAMED = 3
"""A whole-body session trains a dozen muscles hard: a list of all of them says nothing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Trained:
    """What one session trains."""

    patterns: tuple[tuple[str, float, float], ...]
    """Each pattern with its fewest and most sets, in the vocabulary's order."""
    muscles: tuple[str, ...]
    """All that it trains hard: the calendar gives each of them time to recover."""
    foremost: tuple[str, ...]
    """Those with most hard sets, the first :data:`_NAMED` of them."""


def trained_fact(site: Site, episode: Episode) -> Trained:
    """What a session trains: a fact."""
    sets = pattern_sets(site.details, site.forms, [episode])
    hard = hard_sets(site.details, site.forms, episode)
    return Trained(
        patterns=tuple((name, sets[name].low, sets[name].high) for name in PATTERNS if name in sets),
        muscles=tuple(sorted(hard)),
        foremost=tuple(sorted(hard, key=lambda muscle: (-hard[muscle].high, muscle))[:_NAMED]),
    )
