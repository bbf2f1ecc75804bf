"""What a proposed session would do: what the needs lose of it, how its exercises grew and would grow."""

from collections.abc import Iterator, Mapping

from sitegen.model import Episode, Series
from sitegen.report.curves import curve_words
from sitegen.report.week_room import lost_words
from sitegen.study.forms import Forms, forms_of
from sitegen.study.progression import points_of, progression
from sitegen.study.week_room import KeptSets, kept_by_need


class ProposalAnswers:
    """Answers for the proposals of one series, whose progression is worked out once."""

    def __init__(self, series: Series) -> None:
        self._details = series.details
        self._forms: Forms = forms_of(series.exercises)
        self._lines = progression(self._details, self._forms, series.sessions)

    def lost(self, episode: Episode) -> Iterator[tuple[str, str]]:
        """Name of each need that would lose much of the session, and what."""
        return self.lost_rows(kept_by_need(self._details, self._forms, [episode]))

    def lost_rows(self, kept: Mapping[str, Mapping[str, KeptSets]]) -> Iterator[tuple[str, str]]:
        """What :meth:`lost` gives, of what needs keep of any sessions."""
        for need, muscles in kept.items():
            if words := lost_words(muscles):
                yield self._details.needs[need].name, words

    def curves(self, episode: Episode) -> Iterator[tuple[str, str]]:
        """Name of each exercise, and its curve before and with the session."""
        for exercise, point in points_of(self._details, self._forms, episode):
            yield self._forms[point.form].name, curve_words(self._lines.get(exercise, ()), point)
