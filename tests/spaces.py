"""Spaces at which no line ends, as they stand between a number and what it counts."""


def spaced(text: str) -> str:
    """A text with ordinary spaces in their place, for tests of what it says."""
    return text.replace("\N{NO-BREAK SPACE}", " ")
