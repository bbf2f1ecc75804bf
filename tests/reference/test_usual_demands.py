"""What a pattern usually asks for, against the demo's library: its lists agree with its poses.

Sixty of its forms were judged one by one before their lists were looked at (``data/demands.yaml``).
"""

from sitegen.model import Series
from sitegen.study.usual_demands import usual_demands


def test_the_demos_exercises_list_what_is_usual(demo_series: Series) -> None:
    kit = demo_series.details.kit
    usual = {
        exercise.id: [
            *usual_demands(exercise.pattern, set(exercise.demands), [kit[piece] for piece in exercise.kit])
        ]
        for exercise in demo_series.exercises.values()
    }

    assert len(usual) >= 60
    assert {name: words for name, words in usual.items() if words} == {}
