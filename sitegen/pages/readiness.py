"""The questions before the first session, as a template shows them."""

from dataclasses import dataclass

from sitegen.model import Caution
from sitegen.pages.script_json import to_json
from sitegen.pages.site import Site
from sitegen.study.readiness import ASKING, CAREFUL, QUESTIONS, table


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadinessView:
    """What the template needs besides the strings."""

    questions: tuple[str, ...]
    listed: tuple[Caution, ...]
    """Those of the series that list who has to ask first; where it has none the strings have a list."""
    careful: dict[str, str]
    """``y`` or ``n`` by question: what it counts as where somebody does not know."""
    outcomes: str
    """The sentence for every combination of answers, as JSON."""
    asking: str
    """The combinations after which a doctor is asked first, as a JSON list."""


def readiness_view(site: Site) -> ReadinessView:
    """The questions of a site."""
    words = site.theme.strings.readiness.outcomes
    return ReadinessView(
        questions=QUESTIONS,
        listed=tuple(caution for caution in site.details.cautions if caution.asked),
        careful={question: "y" if careful else "n" for question, careful in CAREFUL.items()},
        outcomes=to_json({answers: words[outcome] for answers, outcome in table().items()}),
        asking=to_json([answers for answers, outcome in table().items() if outcome in ASKING]),
    )
