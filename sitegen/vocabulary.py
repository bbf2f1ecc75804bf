"""The fixed words of the trade that content files may use (see content/README.md).

These are the words as written in files. What a reader sees is in the theme's strings.
"""

from collections.abc import Collection, Mapping, Sequence

WARM_UP, MOBILITY, COOL_DOWN = "warm-up", "mobility", "cool-down"
BLOCK_KINDS = (WARM_UP, "conditioning", "strength", MOBILITY, COOL_DOWN)
AROUND_THE_WORK = (WARM_UP, MOBILITY, COOL_DOWN)
"""Kinds of blocks that prepare for the work and end it: done along with the video, mostly."""

STRAIGHT = "straight sets"
SUPERSET = "superset"
TRI_SET = "tri-set"
GIANT_SET = "giant set"
CIRCUIT = "circuit"
INTERVALS = "intervals"
AMRAP = "as many rounds as possible"
EMOM = "every minute on the minute"
FORMATS = (STRAIGHT, SUPERSET, TRI_SET, GIANT_SET, CIRCUIT, INTERVALS, AMRAP, EMOM)

ITEMS_OF_FORMAT = {SUPERSET: (2, 2), TRI_SET: (3, 3), GIANT_SET: (4, 99)}
"""Fewest and most items of the formats whose name fixes them."""

PATTERNS = (
    "squat",
    "hinge",
    "lunge",
    "step",
    "push horizontal",
    "push vertical",
    "pull horizontal",
    "pull vertical",
    "carry",
    "trunk",
    "locomotion",
    "isolation",
    "mobility",
)

MUSCLE_REGIONS = {
    "chest": "upper",
    "front shoulder": "upper",
    "side shoulder": "upper",
    "rear shoulder": "upper",
    "rotator cuff": "upper",
    "upper back": "upper",
    "lats": "upper",
    "biceps": "upper",
    "triceps": "upper",
    "forearms": "upper",
    "neck": "upper",
    "abdominals": "trunk",
    "obliques": "trunk",
    "lower back": "trunk",
    "hip flexors": "lower",
    "glutes": "lower",
    "outer hip": "lower",
    "inner thigh": "lower",
    "quadriceps": "lower",
    "hamstrings": "lower",
    "calves": "lower",
    "shins": "lower",
}
"""Known muscles and their region; a series may add its own."""

REGIONS = ("upper", "trunk", "lower")

MOVING_LEGS = "moving the legs"
ON_THE_LEGS = frozenset(
    {"standing", "jumping", "kneeling", "getting to the floor", "deep knee bend", "balance on one leg"}
    | {"stairs and steps"}
)
"""Demands by which the legs carry the body: whoever must not move them avoids these as well."""

DEMANDS: Mapping[str, str] = {
    "jumping": "Both feet are off the floor at the same time, however briefly: jumps, hops, skips, running "
    "on the spot.",
    "arms overhead": "An upper arm is raised above shoulder height: more than about 90 degrees away from the "
    "side of the trunk, whether one stands, sits, lies or bends forward.",
    "shoulder load": "The shoulder carries or pushes body weight, presses a load away, holds a weight with "
    "the arm lifted more than about 45 degrees, swings to shoulder height with speed, is pulled to the end "
    "of its range, or is lain on; what hangs straight down and a pull with the elbow below the shoulder do "
    "not count.",
    "kneeling": "A knee or shin carries weight, on the floor or on a cushion: one knee, both, or hands and "
    "knees.",
    "getting to the floor": "One has to get down to the floor and up again: whatever is done lying, "
    "kneeling, sitting or with the hands there.",
    "deep knee bend": "A knee that carries weight bends to about 90 degrees or more, so that the thigh comes "
    "level or lower; going up an ordinary step has a word of its own and does not count.",
    "balance on one leg": "One foot alone carries the body for longer than a walking step takes (about a "
    "second), with or without a hand for support; or, with nothing to hold, most of the weight is on one "
    "foot, the feet stand in a long stride or on one line, or one walks with a load.",
    "rounding the spine": "The back bends forward out of its upright shape by more than about 20 degrees "
    "between pelvis and chest, alone or with a twist; tipping forward at the hips with a long back does not "
    "count.",
    "sustained bending": "The trunk stays tipped forward at the hips by more than about 30 degrees for a "
    "whole set, or for more than about 10 seconds at a time; going down and up in every repetition, and a "
    "straight body that leans on the arms, do not count.",
    "grip": "The fingers have to close around something that would slip away: a carrier, a tin, a towel "
    "pulled tight; a hand that only rests on a chair, and a broom handle held lightly, do not count.",
    "weight on the wrists": "A hand takes weight or hard pressure while its wrist is bent back more than "
    "about 45 degrees: palms on the floor, a seat, a counter or a wall, or pressed together; fists, forearms "
    "and straight wrists do not count.",
    "lying flat": "One lies on the back, the front or the side with the head about as low as the chest.",
    "straining": "Even at its usual dose most people brace hard or hold their breath: heavy hugs and "
    "carries, hard holds, dips, lifting both legs.",
    "standing": "One stands, walks, steps or gets up from a seat.",
    "speed": "It has to be quick, faster than about one repetition a second or with sudden changes of "
    "direction, and done slowly it would be another exercise.",
    "stairs and steps": "A foot steps up onto or down from a stair, a step or a box of any height, or one "
    "stands on its edge; a foot that only rests on it does not count.",
    "twisting under load": "The trunk turns against the pelvis by more than about 20 degrees while the hands "
    "hold a weight or pull against something, or it turns quickly.",
    "lifting from the floor": "Standing or sitting, the hands take a weight up from below knee height, set "
    "one down there, or reach down there with it by bending forward.",
    "head low": "The head hangs lower than the heart: folding forward, or hips high above the hands; lying "
    "flat or in a bridge, where the head rests, does not count.",
    "leaning on the arms": "Hands, fists or forearms carry more than about a tenth of the body's weight: "
    "planks, push-ups, dips, hands and knees, a hand propped on a seat; a light touch for balance does not "
    "count.",
    MOVING_LEGS: "Sitting, or lying on a bed, a leg has to lift, move or press by its own strength, or is "
    "stretched; on the feet and on the floor other words say so, and who avoids this one avoids "
    "those as well.",
}
"""What an exercise may ask of the body that somebody may have to avoid, and when each word applies.

A series may add words of its own. The thresholds are common practice, no source, chosen so that they can be
decided from joint angles and contacts, with these exceptions that agree with published terms: the thigh
level at about 90 degrees of knee bend (the half squat, flexion of about 80 to 100 degrees, of squat
reviews), and work above shoulder height (more than 90 degrees of arm elevation; Fewster and Dickerson,
position paper of the Centre of Research Expertise for the Prevention of Musculoskeletal Disorders).
"""

UNTOLD = "demands that are not written down"
"""Stands among the demands of a form of which nothing is told, neither by list nor by poses; never in a file.

What is not known is never given to somebody who has to avoid something: every need avoids this word.
"""

UNSHOWN = "demands that poses cannot show"
"""Stands among the demands of a form that were taken from its poses alone; never in a file.

Every need avoids it that avoids a demand which poses cannot show, be it one of the series' own.
"""
SHOWN_BY_POSES = frozenset(DEMANDS) - {"straining", "speed", MOVING_LEGS}
"""The demands that poses decide (``study.body.derived``): each of these has a rule there, no other has."""


def is_told(demand: str, demands: Collection[str]) -> bool:
    """Whether a form with these demands says of this one that it makes it, or that it does not."""
    if demand in demands:
        return True
    return UNTOLD not in demands and (UNSHOWN not in demands or demand in SHOWN_BY_POSES)


def told_apart(demands: Sequence[str], others: Sequence[str]) -> tuple[str, ...]:
    """The demands that are not among the others; none where the others are not told: it would be a guess."""
    return tuple(demand for demand in demands if demand not in others and is_told(demand, others))


CHANGES = ("regression", "progression", "substitution")

UNIT_SYSTEMS = ("metric", "us", "imperial")

WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
