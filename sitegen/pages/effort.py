"""What a session costs: minutes of work by intensity, and its energy as a range with a caution."""

from dataclasses import dataclass

from sitegen.model import Episode
from sitegen.pages.site import Site
from sitegen.study.energy import AGES, LIGHT, MODERATE, VIGOROUS, minutes_by_band, session_kcal
from sitegen.study.load import shown_mass
from sitegen.study.span import NOTHING, Span

KCAL_STEP = 10
"""Kilocalories are shown in such steps: more would be false precision."""
_LEAST_MINUTES = 0.5
"""Less of a band of effort would be shown as 0 minutes, since minutes are shown whole."""


@dataclass(frozen=True, slots=True, kw_only=True)
class EffortView:
    """A session's effort in a reader's words."""

    work: str
    """``6 min light, 11 min moderate``."""
    turns: str
    """``28–30 min``; empty where nothing is your turn."""
    kcal: str
    """``60–180``."""
    lightest: str
    """The lightest viewers that the energy is for, such as ``50 kg``."""
    heaviest: str
    """The heaviest, such as ``100 kg``."""
    ages: str
    """The ages that the tables hold for."""


def effort_view(site: Site, episode: Episode) -> EffortView | None:
    """The effort of an episode; None where it has no work to count."""
    time, phrases = site.time_of(episode), site.phrases
    minutes = minutes_by_band(site.details, site.forms, episode, time)
    words = site.theme.strings.effort
    spans = {name: minutes.get(name, NOTHING) for name in (LIGHT, MODERATE, VIGOROUS)}
    shown = [
        words.bands[name].format(time=phrases.minutes(span * 60))
        for name, span in spans.items()
        if span.high >= _LEAST_MINUTES
    ]
    if not shown:
        return None
    lightest, heaviest = body_masses(site)
    return EffortView(
        work=", ".join(shown),
        turns=phrases.about(time.your_turn) if time.your_turn.high else "",
        kcal=rounded(session_kcal(site.details, site.forms, episode, time), site),
        lightest=lightest,
        heaviest=heaviest,
        ages=ages_words(site),
    )


def body_masses(site: Site) -> tuple[str, str]:
    """The lightest and the heaviest viewer in the series' own unit: ``110 lb``."""
    masses = (shown_mass(Span(mass.base, mass.base), site.details.units) for mass in site.details.body_mass)
    low, high = (f"{round(mass.low)} {mass.unit}" for mass in masses)
    return low, high


def ages_words(site: Site) -> str:
    """The ages that the energy holds for, and what is done for older viewers where the series has them."""
    ages, words = site.details.ages, site.theme.strings.effort
    return str(words.ages_from_60 if ages is not None and ages.high > AGES[1] else words.ages)


def rounded(kcal: Span, site: Site) -> str:
    """Kilocalories in steps that do not pretend to be exact."""
    low, high = (round(end / KCAL_STEP) * KCAL_STEP for end in (kcal.low, kcal.high))
    return site.phrases.number(low, high)
