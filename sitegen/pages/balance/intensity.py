"""Minutes of work by intensity for each week, beside what public health advice asks of a week."""

from collections.abc import Sequence
from dataclasses import dataclass

from sitegen.pages.balance.labels import WeekLabel, whole
from sitegen.pages.balance.weeks_together import TrainedWeek
from sitegen.pages.effort import rounded
from sitegen.pages.site import Site
from sitegen.study.energy import LIGHT, MODERATE, VIGOROUS
from sitegen.study.span import NOTHING
from sitegen.study.training import moderate_minutes

# Both explained below the next one.
MODERATE_MINUTES = (150, 300)
# A minute of these counts as two.
VIGOROUS_MINUTES = (75, 150)
STRENGTH_DAYS = 2
"""*WHO guidelines on physical activity and sedentary behaviour*, 2020, for a week of adults of any age."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MinutesView:
    """A week's minutes as text, and its bar in per cent of the drawing's width."""

    label: WeekLabel
    light: str
    moderate: str
    vigorous: str
    counted: str
    """Moderate and twice the vigorous of conditioning blocks."""
    kcal: str
    strength_days: int
    moderate_width: float
    vigorous_width: float


@dataclass(frozen=True, slots=True, kw_only=True)
class IntensityView:
    """All weeks on one scale."""

    weeks: tuple[MinutesView, ...]
    marks: tuple[tuple[int, float], ...]
    """Minutes and place of the guideline's ends, as far as they are on the scale."""


def intensity_view(site: Site, weeks: Sequence[TrainedWeek], labels: Sequence[WeekLabel]) -> IntensityView:
    """The weeks; the scale ends a little beyond the guideline's lower end, or the longest week."""
    longest = max((moderate_minutes(one.training.aerobic).mid for one in weeks), default=0)
    # A tenth beyond the mark, so that its label has room; a twentieth beyond a bar, so that it ends inside.
    scale = max(MODERATE_MINUTES[0] * 1.1, longest * 1.05)
    return IntensityView(
        weeks=tuple(_minutes(site, one, label, scale) for one, label in zip(weeks, labels, strict=True)),
        marks=tuple((mark, _percent(mark, scale)) for mark in MODERATE_MINUTES if mark <= scale),
    )


def _minutes(site: Site, one: TrainedWeek, label: WeekLabel, scale: float) -> MinutesView:
    minutes, phrases = one.training.minutes, site.phrases
    moderate, vigorous = minutes.get(MODERATE, NOTHING), minutes.get(VIGOROUS, NOTHING)
    aerobic = one.training.aerobic
    return MinutesView(
        label=label,
        light=whole(phrases, minutes.get(LIGHT, NOTHING)),
        moderate=whole(phrases, moderate),
        vigorous=whole(phrases, vigorous),
        counted=whole(phrases, moderate_minutes(aerobic)),
        kcal=rounded(one.training.kcal, site),
        strength_days=one.training.strength_sessions,
        moderate_width=_percent(aerobic.get(MODERATE, NOTHING).mid, scale),
        vigorous_width=_percent(aerobic.get(VIGOROUS, NOTHING).mid * 2, scale),
    )


def _percent(amount: float, scale: float) -> float:
    return round(100 * amount / scale, 1)
