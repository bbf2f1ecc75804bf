"""How near one form of an exercise is to another, and what is lost on the way.

The order in which forms are tried for somebody with a need, and why:

1. **Not harder.** Somebody with a need is never given a harder form while another fits. Past a substitution
   nobody knows, and what may be harder comes as late as what is.
2. **The same movement and muscles.** The movement pattern and the prime muscles are what a form is in
   the session for. A form that keeps both comes first; then those that keep one of them, the muscles
   before the pattern; fewer prime muscles lost before more.
3. **As much of the load as the need allows.** A loaded exercise stays loaded: without its load a hinge
   is no deadlift. A need that limits the load makes it lighter and keeps the form. An exercise filmed
   without a load stays without one: somebody with a need is not handed a weight that the video does not have.
4. **Not much easier.** One step down the ladder is what a need usually takes, and counts as no loss;
   every further one makes the form worse.
5. **Less for a joint that is spared**, where poses tell (``joint_loads``); it depends on the need, and so
   ``suitability`` sees to it.
6. **Kit at hand** before what has still to be fetched, fewer pieces before more. Fetching a chair costs a
   minute, training something else costs the session, so it comes after the training.
7. **The same dose**, then a smaller or another one, then a larger one: a larger dose may be harder.
8. **Fewest steps** along the links that the trainer wrote, fewest other exercises gone on into first,
   then the order written (see ``walk``).
"""

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from sitegen.model import Kit
from sitegen.notation import Dose
from sitegen.study.forms import Form, FormKey, Forms


class Distance(NamedTuple):
    """How far a form is from the one filmed; the smaller the nearer, the first difference decides."""

    harder: bool
    unlike: int
    """0 for the same pattern and all prime muscles, to 3 for another pattern and none of them."""
    muscles_lost: int
    """Prime muscles of the form filmed that are no prime muscles here. Of forms that are equally unlike, the
    one with fewer has another pattern instead: the muscles come before the pattern."""
    load_lost: bool
    load_added: bool
    much_easier: int
    """Steps down the ladder, less steps up, beyond the first."""
    fetch: int
    """Pieces of kit that are not at hand."""
    dose: int
    """0 for the same, 1 for a smaller or another one, 2 for a larger one."""

    @property
    def kind(self) -> tuple[int, ...]:
        """What decides up to the load: forms alike in it are as good for the purpose of the item."""
        return self[:5]


@dataclass(frozen=True, slots=True, kw_only=True)
class Loss:
    """Something that a form lacks, or has more of, against the one filmed."""

    what: str
    """One of :data:`LOSSES`."""
    names: tuple[str, ...] = ()
    """The muscles that are no longer trained hard, where it is about muscles."""


LOSSES = (
    *("harder", "not compared"),
    *("muscles", "some muscles", "pattern", "load", "more", "less", "other dose", "again"),
)
"""A harder form; one that may be, for no step says how hard it is beside the one filmed; none, or only some,
of the prime muscles; another movement; no load any more; a larger, a smaller or another kind of dose; the
same exercise as another item of the block."""


def is_loaded(form: Form, kit: Mapping[str, Kit], held: Collection[str]) -> bool:
    """Whether a form is done with a load: a piece that is one, or one in which something is ``held``."""
    pieces = [kit[piece] for piece in form.kit if piece in kit]
    return any(piece in held for piece in form.kit) or any(one.holds or one.weighs for one in pieces)


def is_untold_load(form: Form, kit: Mapping[str, Kit]) -> bool:
    """Whether a form takes a piece of which nobody wrote whether it is a load."""
    return any(piece in kit and kit[piece].load_untold for piece in form.kit)


def compare_doses(filmed: Dose | None, dose: Dose | None) -> str:
    """``""`` for the same, else ``more``, ``less`` or ``other dose``."""
    if dose == filmed or dose is None or filmed is None:
        return ""
    if dose.kind != filmed.kind or dose.unit != filmed.unit or "max" in (dose.kind, filmed.kind):
        return "other dose"
    one, other = (each.sides * each.high for each in (dose, filmed))
    low, low_filmed = (each.sides * each.low for each in (dose, filmed))
    if one == other and low == low_filmed:
        return "other dose"  # set by set, or split in another way
    return "more" if (one, low) > (other, low_filmed) else "less"


def rise(forms: Forms, filmed: Form, steps: Sequence[FormKey]) -> int:
    """Steps up the ladder less steps down, on a walk from the form as filmed.

    A step to a progression goes up and one to a regression down; a step back to what a form is
    made from does the opposite.
    """
    return sum(way * _UP.get(change, 0) for change, way in _changes(forms, filmed, steps))


def _changes(forms: Forms, filmed: Form, steps: Sequence[FormKey]) -> Iterator[tuple[str, int]]:
    """The kind of change of each step of a walk, with 1 where it is made and -1 where it is taken back."""
    here = filmed
    for key in steps:
        there = forms[key]
        yield (here.change, -1) if here.made_from == key else (there.change, 1)
        here = there


_UP = {"progression": 1, "regression": -1}
# Ranks, of which the least is the nearest: less or another kind of dose is as near as the other, and more
# comes last, for it asks of her what nobody has filmed.
_DOSE = {"": 0, "less": 1, "other dose": 1, "more": 2}


def is_compared(forms: Forms, filmed: Form, steps: Sequence[FormKey]) -> bool:
    """Whether the steps of a walk say how hard the last form is beside the one filmed.

    A substitution is another movement, of which nobody wrote how hard it is: past it steps up and down
    count from something unknown.
    """
    return all(change != "substitution" for change, _ in _changes(forms, filmed, steps))


def distance(
    filmed: Form, form: Form, *, up: int, loaded: tuple[bool, bool], fetch: int, dose: str
) -> Distance:
    """How far ``form`` is from ``filmed``; ``dose`` as :func:`compare_doses` says it.

    ``loaded`` tells whether the form filmed is done with a load, and whether the other is.
    """
    lost = muscles_lost(filmed, form)
    off_muscles = 0 if not lost else 2 if len(lost) == len(filmed.muscles.prime) else 1
    return Distance(
        harder=up > 0,
        unlike=off_muscles + (form.pattern != filmed.pattern),
        muscles_lost=len(lost),
        load_lost=loaded == (True, False),
        load_added=loaded == (False, True),
        much_easier=max(0, -up - 1),
        fetch=fetch,
        dose=_DOSE[dose],
    )


def muscles_lost(filmed: Form, form: Form) -> tuple[str, ...]:
    """Prime muscles of the form filmed that are no prime muscles of the other."""
    return tuple(muscle for muscle in filmed.muscles.prime if muscle not in form.muscles.prime)


def losses(filmed: Form, form: Form, near: Distance, dose: str, *, compared: bool = True) -> tuple[Loss, ...]:
    """All that is lost or gained in difficulty, in the order of :data:`LOSSES`; ``compared`` as
    :func:`is_compared` says it."""
    found = [Loss(what="harder" if compared else "not compared")] if near.harder else []
    if near.muscles_lost:
        what = "muscles" if near.muscles_lost == len(filmed.muscles.prime) else "some muscles"
        found.append(Loss(what=what, names=muscles_lost(filmed, form)))
    if form.pattern != filmed.pattern:
        found.append(Loss(what="pattern"))
    if near.load_lost:
        found.append(Loss(what="load"))
    if dose:
        found.append(Loss(what=dose))
    return tuple(found)
