"""The forms of one exercise as a ladder, from the easiest to the hardest."""

from dataclasses import dataclass

from sitegen.model import Exercise
from sitegen.study.forms import Form, FormKey, Forms
from sitegen.vocabulary import told_apart

# Which way a change of a form leads from the form that it was made from.
_STEPS = {"regression": -1, "progression": 1, "substitution": 0}


@dataclass(frozen=True, slots=True, kw_only=True)
class Rung:
    """One form, and how it compares with the main form."""

    form: Form
    level: int
    """Steps from the main form, which is 0: below it regressions, above it progressions."""
    apart: bool
    """Whether it is another movement in its place, or made from one, so that no step says how hard it is."""
    spares: tuple[str, ...]
    """Demands of the main form that it does not make."""
    adds: tuple[str, ...]
    """Demands that it makes and the main form does not."""


def ladder(exercise: Exercise, forms: Forms) -> tuple[Rung, ...]:
    """Every form of the exercise, the easiest first.

    A regression stands one step below the form it is made from, a progression one above, and a
    substitution beside it. On one level the main form comes first and substitutions last, else as
    written. Common practice, no source: how hard a form is for somebody is theirs to feel.
    """
    main = forms[FormKey(exercise.id)]
    rungs = []
    for variant in (None, *(v.id for v in exercise.variants)):
        changes = [one.change for one in exercise.ancestry(variant)]
        level = sum(_STEPS[change] for change in changes)
        form = forms[FormKey(exercise.id, variant)]
        rungs.append(_rung(form, main, level, apart="substitution" in changes))
    return tuple(sorted(rungs, key=lambda rung: (rung.level, rung.form.change == "substitution")))


def neighbours(exercise: Exercise, variant: str | None, forms: Forms) -> tuple[Form | None, Form | None]:
    """The next easier and the next harder form than one of an exercise; a substitution is neither."""
    rungs = ladder(exercise, forms)
    here = next(rung.level for rung in rungs if rung.form.key.variant == variant)
    steps = [rung for rung in rungs if rung.form.change != "substitution"]
    below = max((rung.level for rung in steps if rung.level < here), default=None)
    above = min((rung.level for rung in steps if rung.level > here), default=None)
    # The first on a level counts, so the others are written over.
    on_level: dict[int | None, Form] = {rung.level: rung.form for rung in reversed(steps)}
    return on_level.get(below), on_level.get(above)


def _rung(form: Form, main: Form, level: int, *, apart: bool) -> Rung:
    return Rung(
        form=form,
        level=level,
        apart=apart,
        spares=told_apart(main.demands, form.demands),
        adds=told_apart(form.demands, main.demands),
    )
