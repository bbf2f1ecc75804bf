"""What a pattern usually asks for, against the demo's library: its lists agree with its poses.

Sixty of its forms were judged one by one before their lists were looked at (``data/demands.yaml``).
"""

from sitegen.model import Series
from sitegen.study.usual_demands import usual_demands

_WORN = {"bear-hug-carry"}  # nothing has to be gripped


def test_of_the_demos_exercises_all_but_one_list_what_is_usual(demo_series: Series) -> None:
    kit = demo_series.details.kit
    weights = {piece.id for piece in kit.values() if piece.weighs or piece.holds or piece.load_untold}
    usual = {
        exercise.id: [
            *usual_demands(
                exercise.pattern, set(exercise.demands), loaded=not weights.isdisjoint(exercise.kit)
            )
        ]
        for exercise in demo_series.exercises.values()
    }

    assert len(usual) >= 60
    assert {name for name, words in usual.items() if words} == _WORN
