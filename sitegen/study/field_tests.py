"""Simple field tests that need no apparatus (common practice, no source)."""

from collections.abc import Mapping

FIELD_TESTS: Mapping[str, str] = {
    # Full stands from a chair of about 43 cm with the arms crossed, in 30 seconds.
    "chair stand": "stands",
    # Times the right knee comes up to half way between kneecap and hip bone, in two minutes.
    "two-minute step": "steps",
    # On one foot, eyes open, a hand near a support, at most 45 seconds.
    "one-leg stance": "seconds",
    # In good form, with the hands on a counter.
    "counter push-up": "reps",
}
"""By name, what is counted."""
