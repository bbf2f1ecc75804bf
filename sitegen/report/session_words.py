"""Words that several commands have for a session in the terminal."""

from sitegen.study.span import Span


def minutes_words(seconds: Span) -> str:
    """A length of time as ``25-35 minutes``, or ``5 minutes`` where both ends are the same."""
    low, high = seconds.minutes
    amount = str(high) if low == high else f"{low}-{high}"
    return f"{amount} {'minute' if amount == '1' else 'minutes'}"


def no_such_block(kind: str) -> str:
    """What to say of a session without a warm-up or a cool-down."""
    return (
        f"it has no {kind}: the series has none to take; write one as a shared block, "
        f"routines/my-{kind}.yaml with kind: {kind}"
    )
