"""What exercises of a pattern usually ask for.

Lists of demands are written in a hurry, and words never tell all. So where no poses show it, a form that does
not list what its pattern usually asks for is in doubt until its file says otherwise. Held against the demo's
library, whose lists agree with its poses (``tests/reference/test_usual_demands.py``); common practice, no
source. Of 317 exercises of other hands 127 are asked about; of 60 of these, drawn at random, 5 in vain.
"""

from collections.abc import Iterable, Iterator, Set

from sitegen.model import Kit

_ON_ARMS = ("leaning on the arms", "weight on the wrists", "shoulder load")
_ON_FLOOR = ("lying flat", "kneeling", "leaning on the arms")
"""Whoever is on the floor mostly does one of these: a list that has none of them has forgotten one."""

STANDING = {
    "carry": ("balance on one leg",),
    "squat": ("deep knee bend",),
    "lunge": ("balance on one leg",),
    "step": ("stairs and steps", "balance on one leg"),
}
"""By pattern, for whoever stands."""
LOADED = {"push vertical": ("arms overhead", "shoulder load"), "push horizontal": ("shoulder load",)}
UNLOADED = {"push vertical": _ON_ARMS, "push horizontal": _ON_ARMS}
"""By pattern, with a weight in the hands and without one: what is pushed then is the body."""
ALWAYS = {"pull vertical": ("arms overhead",)}


def usual_demands(pattern: str, demands: Set[str], kit: Iterable[Kit]) -> Iterator[str]:
    """The demands that are usual and not among ``demands``."""
    pieces = tuple(kit)
    loaded = any(piece.may_weigh for piece in pieces)
    stands, on_floor = "standing" in demands, "getting to the floor" in demands
    usual = list(ALWAYS.get(pattern, ()))
    if any(piece.is_gripped for piece in pieces):
        usual.append("grip")
    if stands or on_floor:
        # Whoever lists arms overhead presses something up, though her kit does not say what it weighs.
        usual += (LOADED if loaded or "arms overhead" in demands else UNLOADED).get(pattern, ())
    if stands:
        usual += STANDING.get(pattern, ())
    if on_floor and demands.isdisjoint(_ON_FLOOR):
        usual += _ON_FLOOR if "weight on the wrists" not in demands else ("leaning on the arms",)
    return (word for word in usual if word not in demands)
