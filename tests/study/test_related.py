"""Exercises of the same pattern with other demands."""

from sitegen.study.forms import FormKey
from sitegen.study.related import related
from tests.study.series_parts import exercise, forms

LIBRARY = forms(
    exercise("row", prime=["upper back", "lats"], demands=("standing", "grip")),
    exercise("band-row", prime=["upper back"], demands=("grip",)),
    exercise("prone-row", prime=["upper back", "lats"], demands=("lying flat", "grip")),
    exercise("squeeze", prime=["upper back"], demands=()),
    exercise("other-row", prime=["upper back", "lats"], demands=("grip", "standing")),
    exercise("pull-apart", prime=["rear shoulder"], demands=("standing",)),
    exercise("press", pattern="push horizontal", prime=["upper back", "lats"], demands=()),
)


def names(most):
    others = [form for form in LIBRARY.values() if form.key.variant is None]
    return [one.form.exercise for one in related(LIBRARY[FormKey("row")], others, most)]


def test_most_shared_muscles_first_then_what_spares_most():
    # two muscles shared; one muscle and both demands spared; one muscle and one spared; none shared
    assert names(9) == ["prone-row", "squeeze", "band-row", "pull-apart"]


def test_no_more_than_asked_for():
    assert names(2) == ["prone-row", "squeeze"]


def test_what_is_shared_spared_and_added():
    [one] = related(LIBRARY[FormKey("row")], [LIBRARY[FormKey("prone-row")]], 9)

    assert one.shared == ("upper back", "lats")
    assert one.spares == ("standing",)
    assert one.adds == ("lying flat",)
