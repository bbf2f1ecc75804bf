"""How many drawn examples a test tries: a sample in every run, many in ``make thorough``."""

from hypothesis import settings


def draws(sample: int, thorough: int) -> settings:
    """Settings for ``@given``. The profiles that look for more take the larger count."""
    many = settings.get_current_profile_name() in ("thorough", "search")
    return settings(max_examples=thorough if many else sample, deadline=None)
