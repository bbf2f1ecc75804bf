"""What the trainer wishes of a session."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class SessionWishes:
    """Everything is left to the series where nothing is wanted."""

    minutes: int | None = None
    """Most minutes of the whole session, film included; None for what the session's shape takes."""
    kit: frozenset[str] | None = None
    """Ids of the only kit that may be used; None for all."""
    without: frozenset[str] = frozenset()
    """Exercises that are left out."""
    more: frozenset[str] = frozenset()
    """Muscles and patterns to be given more."""
    new: int = 0
    """Most exercises that the series has not shown before."""
    serve: frozenset[str] = frozenset()
    """Needs of whom nobody may be left without a form of any exercise."""
