"""Where a planned exercise is shown whose name was not understood."""

from sitegen.draft.find import Naming
from sitegen.draft.heard import Heard
from sitegen.draft.lexicon import stems_of
from sitegen.draft.mentions import Mention, opens
from sitegen.draft.plan import PlannedItem
from sitegen.draft.stems import likeness, stem

_ENOUGH = 2.2
_OPENED, _AFTER_SILENCE, _DOSED, _WORD, _MOST_WORDS = 2.0, 1.0, 1.5, 0.4, 1.2
"""What speaks for a place: words that open an exercise, a silence before it, the planned dose, words about
it.
"""

_SILENCE_S = 3.0
_REACH = 35
"""Words after a place in which dose and words about the exercise are looked for."""

_LIKE = 0.6


def guessed(heard: Heard, item: PlannedItem, first: int, last: int) -> Mention | None:
    """A mention at the likeliest place between two tokens; None where nothing speaks clearly for one.

    Only beginnings of sentences are places. The mention's confidence is low, whatever is found.
    """
    tokens = heard.talk.tokens
    places = [i for i in range(first, min(last, len(tokens))) if tokens[i].break_before == 2]
    scored = [(_score(heard, item, place, places), -place) for place in places]
    if not scored or max(scored)[0] < _ENOUGH:
        return None
    place = -max(scored)[1]
    naming = Naming(
        exercise=item.exercise,
        variant=None,
        first=place,
        last=place,
        score=0.0,
        matched=0,
        exact=False,
        announced=True,
    )
    return Mention(
        naming=naming, score=0.0, conditional=False, elsewhere=False, opened=False, led=False, dose=None
    )


def _score(heard: Heard, item: PlannedItem, place: int, places: list[int]) -> float:
    following = next((p for p in places if p > place), place + _REACH)
    reach = place + _REACH
    score = _OPENED if opens(heard.talk.words(place, place + 10)) else 0.0
    score += _AFTER_SILENCE if heard.talk.tokens[place].pause_before >= _SILENCE_S else 0.0
    if item.dose is not None and any(
        place <= a.first < max(following, reach)
        and (a.dose.low, a.dose.high) == (item.dose.low, item.dose.high)
        for a in heard.amounts.doses
    ):
        score += _DOSED
    return score + min(_MOST_WORDS, _WORD * _words_about(heard, item, place, reach))


def _words_about(heard: Heard, item: PlannedItem, first: int, last: int) -> int:
    """How many different words of the exercise's name, kit, muscles and cues are said."""
    said = {stem(token.text) for token in heard.talk.tokens[first:last]}
    exercise = heard.series.exercises.get(item.exercise)
    name = stems_of(exercise.name) if exercise else ()
    about = heard.lexicon.context.get(item.exercise, frozenset())
    near = sum(any(likeness(word, meant) >= _LIKE for word in said) for meant in name if len(meant) > 2)
    return len(said & about) + 2 * near
