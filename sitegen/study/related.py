"""Exercises that do much the same and ask other things of the body."""

from collections.abc import Iterable
from dataclasses import dataclass

from sitegen.study.forms import Form
from sitegen.vocabulary import told_apart


@dataclass(frozen=True, slots=True, kw_only=True)
class RelatedExercise:
    """Another exercise in its main form, and what it asks for less and more."""

    form: Form
    shared: tuple[str, ...]
    """Prime muscles of both."""
    spares: tuple[str, ...]
    """Demands that this one does not make and the other one does."""
    adds: tuple[str, ...]
    """Demands that only this one makes."""


def related(main: Form, others: Iterable[Form], most: int) -> tuple[RelatedExercise, ...]:
    """The main forms of the same pattern with other demands, at most so many.

    First those that share the most prime muscles, then those that spare the most, then in the
    order given. Common practice, no source.
    """
    alike = [
        RelatedExercise(
            form=other,
            shared=tuple(muscle for muscle in main.muscles.prime if muscle in other.muscles.prime),
            spares=told_apart(main.demands, other.demands),
            adds=told_apart(other.demands, main.demands),
        )
        for other in others
        if other.key != main.key and other.pattern == main.pattern and set(other.demands) != set(main.demands)
    ]
    return tuple(sorted(alike, key=lambda one: (-len(one.shared), -len(one.spares)))[:most])
