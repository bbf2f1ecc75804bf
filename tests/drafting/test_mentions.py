"""Where exercises of the library are named, in whole, in part and misheard."""

import pytest

from sitegen.drafting.heard import hear
from sitegen.model import Series
from tests.captions.library import exercise_of, series_of
from tests.drafting.talk import say


def named(text: str, library: str = "plain", *, least: float = 0.8) -> list[str]:
    heard = hear(say(text), series_of(library))
    return [m.exercise for m in heard.mentions if m.best and m.cover >= least]


@pytest.mark.parametrize(
    ("said", "exercise"),
    [
        pytest.param("Now dead lifts.", "dead-lift", id="name"),
        pytest.param("Now the lateral raise.", "side-raise", id="other-name"),
        pytest.param("Now star jumps.", "jumping-jack", id="name-of-the-trade"),
        pytest.param("Rowing, bent over.", "row", id="inflection-and-order"),
        pytest.param("This is the planck.", "plank", id="misheard-word"),
        pytest.param("Then the bird dock.", "bird-dog", id="misheard-end"),
        pytest.param("Mount and climbers.", "mountain-climber", id="sounds-like-the-whole-name"),
        pytest.param("And burp ease.", "burpee", id="one-word-heard-as-two"),
    ],
)
def test_an_exercise_is_named(said: str, exercise: str) -> None:
    assert exercise in named(said)


@pytest.mark.parametrize("said", ["Stand up tall.", "Sit down on the chair.", "Take it slow and breathe."])
def test_ordinary_words_are_no_name(said: str) -> None:
    assert named(said) == []


def test_a_number_in_a_name_is_part_of_it() -> None:
    plain = series_of("plain")
    stretch = exercise_of({"id": "figure-four", "name": "Figure-four stretch", "pattern": "mobility"})
    series = Series(details=plain.details, episodes=(), exercises=plain.exercises | {"figure-four": stretch})
    heard = hear(say("Now the figure-four stretch."), series)
    assert [(m.exercise, round(m.cover, 2)) for m in heard.mentions if m.best] == [("figure-four", 1.0)]
    assert not hear(say("Do four of these."), series).mentions


def test_of_two_names_the_fuller_one_is_meant() -> None:
    heard = hear(say("Now the side plank."), series_of("plain"))
    best = [(m.exercise, round(m.cover, 2)) for m in heard.mentions if m.best]
    assert best[0][0] == "side-plank"
