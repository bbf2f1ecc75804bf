"""Laying a plan over mentions: the best monotone assignment."""

from itertools import combinations

from hypothesis import given
from hypothesis import strategies as st

from sitegen.draft.align import MISSED, Planned, aligned
from sitegen.draft.find import Naming
from sitegen.draft.mentions import Mention


def mention(exercise: str, place: int, score: float = 1.0, **others: float) -> Mention:
    naming = Naming(
        exercise=exercise,
        variant=None,
        first=place,
        last=place,
        score=1.0,
        matched=1,
        exact=True,
        others=others,
    )
    return Mention(
        naming=naming, score=score, conditional=False, elsewhere=False, opened=False, led=False, dose=None
    )


def plan(*exercises: str) -> list[Planned]:
    return [Planned(block=0, item=index, exercise=exercise) for index, exercise in enumerate(exercises)]


def places(exercises: list[str], mentions: list[Mention]) -> list[int | None]:
    return [m.naming.first if m else None for m in aligned(plan(*exercises), mentions)]


def test_in_order() -> None:
    assert places(["a", "b"], [mention("a", 1), mention("b", 5)]) == [1, 5]


def test_a_recap_does_not_win_over_the_first_showing() -> None:
    assert places(["a", "b"], [mention("a", 1), mention("b", 5), mention("a", 9), mention("b", 10)]) == [1, 5]


def test_what_is_not_mentioned_is_missed() -> None:
    assert places(["a", "c", "b"], [mention("a", 1), mention("b", 5)]) == [1, None, 5]


def test_an_exercise_planned_twice_takes_two_mentions() -> None:
    assert places(["a", "b", "a"], [mention("a", 1), mention("b", 5), mention("a", 9)]) == [1, 5, 9]


def test_an_ambiguous_name_may_be_the_planned_one() -> None:
    assert places(["b"], [mention("a", 1, b=0.6)]) == [1]


def test_two_that_are_swapped_cannot_both_be_placed() -> None:
    assert places(["a", "b"], [mention("b", 1), mention("a", 5)]).count(None) == 1


letters = st.sampled_from("abc")


@given(st.lists(letters, max_size=5), st.lists(letters, max_size=6))
def test_no_other_monotone_assignment_places_more(exercises: list[str], said: list[str]) -> None:
    """With equal scores the alignment is a longest common subsequence, found here by trying all."""
    mentions = [mention(exercise, place) for place, exercise in enumerate(said)]
    chosen = places(exercises, mentions)
    kept = [place for place in chosen if place is not None]
    assert kept == sorted(set(kept))
    assert all(said[p] == e for e, p in zip(exercises, chosen, strict=True) if p is not None)
    longest = max(
        size
        for size in range(min(len(exercises), len(said)) + 1)
        if any(
            [exercises[i] for i in rows] == [said[j] for j in columns]
            for rows in combinations(range(len(exercises)), size)
            for columns in combinations(range(len(said)), size)
        )
    )
    assert len(kept) == longest
    assert MISSED < 0
