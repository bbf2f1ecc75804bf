"""Words that are no recognition errors: ordinary ones, those of coaching, units and sides of doses."""

from sitegen.draft.trade import COMMON_WORDS, KIT_WORDS, STRONG_BASES, TELLING_WORDS, WEAK_BASES, words_in
from sitegen.draft.words import NUMBER_WORDS

UNITS = (
    "seconds",
    "minutes",
    "minute",
    "reps",
    "repetitions",
    "times",
    "breaths",
    "steps",
    "rounds",
    "sets",
    "each",
    "every",
    "per",
)
PLACES = ("side", "leg", "arm", "foot", "hand", "way", "direction", "sides", "legs", "arms")
ORDER = ("exercise", "exercises", "welcome", "superset", "circuit")
"""Words that order a session."""

ORDINAL = ("first", "second", "third", "fourth")
ORDERED = words_in("exercise exercises one circuit superset group set block part round pair")
"""What an ordinal stands before."""

SMALL = words_in(
    "a an the and then or so of on in at to for with from off up down is are it its your my this that "
    "each by as now just"
)
"""Words that others run into."""

_COACHING = words_in(
    "breathe breath breathing squeeze hold hips chest elbows elbow knees shoulders shoulder wrists "
    "neck head toes heels heel core belly "
    "floor wall ground slowly slow tall straight bent bend reach lower lift drop drive swing step "
    "steps switch swap change "
    "kilos kilo litres litre pounds years people exercises different same both straight again ready"
)
KNOWN = (
    _COACHING
    | COMMON_WORDS
    | NUMBER_WORDS
    | frozenset((*UNITS, *PLACES, *ORDER, *ORDINAL, *ORDERED))
    | frozenset(" ".join((STRONG_BASES, WEAK_BASES)).replace("|", " ").split())
    | TELLING_WORDS
    | words_in(
        "inside outside beside besides upside offside sideways alongside onset upset upright upstairs "
        "downstairs stairway "
        "handstand handle footstep footsteps footrest armrest armchair backrest legroom setup warmup "
        "today forward forwards "
        "backwards everything anything something nothing anyone everyone someone without within whoever "
        "however another "
        "downward upward waistband headrest bedside seaside roadside handsfree breakfast pause video "
        "rests resting"
    )
    | frozenset(word for key, others in KIT_WORDS.items() for word in (key, *others.split()))
)


def is_unit(word: str) -> bool:
    """Whether a word can only be the unit of a dose, a rest or a number of sets."""
    return word in ("seconds", "minutes", "reps", "repetitions", "breaths", "rounds", "sets")
