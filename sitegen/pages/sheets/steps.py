"""The steps of a sheet, from roomy to tight, as the theme's style sheet sets them.

The style sheet is the one place where they are written: ``.step-3 { --type: 12pt; … }``.
"""

import re
from dataclasses import dataclass

MM_PER_POINT = 25.4 / 72
"""CSS Values and Units 3: a point is 1/72 inch, an inch 25.4 mm."""

LENGTHS = ("stop", "type", "lead", "pad", "gap", "cell", "set", "pics", "pic", "dose", "load", "lite")
"""Properties of a step that are lengths."""

# The style sheet is the one place of these sizes: what is laid out is measured with what is printed.
_RULE = re.compile(r"^\.(step-\d+) \{([^}]*)\}", re.MULTILINE)
_PROPERTY = re.compile(r"--([a-z]+): ([^;]+);")


@dataclass(frozen=True, slots=True, kw_only=True)
class TypeStep:
    """One step. Lengths are in millimetres."""

    name: str
    """Its class in the style sheet."""
    stop: float
    """Size of the reasons to stop."""
    type: float
    """Size of the type."""
    lead: float
    """From one line to the next."""
    pad: float
    """Above and below an item's words."""
    gap: float
    """Above a block."""
    name_size: float
    """Size of an exercise's name, against the type; its lead grows with it."""
    cell: float
    """Least height of a box to write in."""
    set: float
    """Width of a box."""
    pics: float
    """Width of the column of drawings; 0 for none."""
    pic: float
    """Height of a drawing."""
    dose: float
    """Width of the column for the dose in large figures; 0 where it stands in the line with the name."""
    load: float
    """Width of the column for vessels; 0 for none."""
    lite: float
    """Side of the drawing beside an exercise that is only ticked off; 0 for none."""
    parts_start_lines: bool
    """True where the cue, the fault and so on each start a line."""
    parts_below: bool
    """True where they start below the line with the name."""
    columns_of_kit: bool
    """True where pieces of kit stand side by side with their vessels; else they follow one another."""
    all_stand_ins: bool
    """False where a piece of kit is shown with its first stand-in only."""
    fix: bool
    """True where a fault is shown with its fix."""
    forms: bool
    """True where the easier and the harder form are named."""
    faults: bool
    """True where the fault to avoid is given."""
    warm: bool
    """True where exercises that are only ticked off have more words than name, dose and care."""


def read_steps(style: str) -> tuple[TypeStep, ...]:
    """The steps in a style sheet, in its order. Raises ValueError where there is none."""
    steps = tuple(_step(name, dict(_PROPERTY.findall(body))) for name, body in _RULE.findall(style))
    if not steps:
        raise ValueError("the theme's styles/sheet.css has no .step-1 { … }")
    return steps


def _step(name: str, values: dict[str, str]) -> TypeStep:
    return TypeStep(
        name=name,
        **{key: millimetres(values[key]) for key in LENGTHS},
        name_size=float(values["name"]),
        parts_start_lines=values["part"] == "block",
        parts_below=values["head"] == "block",
        columns_of_kit=values["fetch"] == "grid",
        all_stand_ins=values["more"] == "inline",
        fix=values["fix"] == "inline",
        forms=values["forms"] != "none",
        faults=values["slip"] != "none",
        warm=values["warm"] != "none",
    )


def millimetres(length: str) -> float:
    """``12pt`` or ``4.2mm`` in millimetres. Raises ValueError for another unit."""
    amount, unit = re.fullmatch(r"([\d.]+)(\w+)", length).groups()  # type: ignore[union-attr]
    if unit == "pt":
        return float(amount) * MM_PER_POINT
    if unit == "mm":
        return float(amount)
    raise ValueError(f"{length!r} is in neither pt nor mm")
