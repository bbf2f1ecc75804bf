"""Words that are avoided and that no form asks for: to avoid them spares nobody anything."""

from collections.abc import Iterable

from sitegen.study.forms import Forms


def declared_demands(forms: Forms) -> frozenset[str]:
    """The demands that some form makes."""
    return frozenset(demand for form in forms.values() for demand in form.demands)


def avoided_in_vain(words: Iterable[str], who: str) -> tuple[str, str]:
    """What is told of such words, and what to do about them."""
    return (
        f"no exercise is marked with {', '.join(map(repr, words))}: avoiding it changes nothing for {who}",
        "right where truly none asks for it; else add it to the demands: of those that do, for they are "
        "given as they are",
    )
