"""The fixed words of the trade that content files may use (see content/README.md).

These are the words as written in files. What a reader sees is in the theme's strings.
"""

BLOCK_KINDS = ("warm-up", "conditioning", "strength", "mobility", "cool-down")

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

DEMANDS = (
    "jumping",
    "arms overhead",
    "shoulder load",
    "kneeling",
    "getting to the floor",
    "deep knee bend",
    "balance on one leg",
    "rounding the spine",
    "sustained bending",
    "grip",
    "weight on the wrists",
    "lying flat",
    "straining",
    "standing",
    "speed",
)
"""What an exercise may ask of the body that somebody may have to avoid."""

CHANGES = ("regression", "progression", "substitution")

UNIT_SYSTEMS = ("metric", "us", "imperial")

WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
