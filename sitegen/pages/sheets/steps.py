"""The steps of a sheet, from roomy to tight, as the theme's style sheet sets them.

The style sheet is the one place where they are written: ``.step-3 { --type: 12pt; … }``.
"""

import re
from dataclasses import dataclass

MM_PER_POINT = 25.4 / 72
"""CSS Values and Units 3: a point is 1/72 inch, an inch 25.4 mm."""

_RULE = re.compile(r"^\.(step-\d+) \{([^}]*)\}", re.MULTILINE)
_PROPERTY = re.compile(r"--([a-z]+): ([^;]+);")


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One step. Lengths are in millimetres."""

    name: str
    """Its class in the style sheet."""
    type: float
    """Size of the type."""
    lead: float
    """From one line to the next."""
    pad: float
    """Above and below an item's words."""
    gap: float
    """Between blocks."""
    cell: float
    """Least height of a line to write on."""
    half: float
    """The same where there are two, one for each side."""
    set: float
    """Width of a box."""
    parts_start_lines: bool
    """True where the cue, the fault and so on each start a line."""
    parts_below: bool
    """True where they start below the line with the name."""
    all_stand_ins: bool
    """False where a piece of kit is shown with its first stand-in only."""
    fix: bool
    """True where a fault is shown with its fix."""
    forms: bool
    """True where the easier and the harder form are named."""
    faults: bool
    """True where the fault to avoid is given."""


def read_steps(style: str) -> tuple[Step, ...]:
    """The steps in a style sheet, in its order. Raises ValueError where there is none."""
    steps = tuple(_step(name, dict(_PROPERTY.findall(body))) for name, body in _RULE.findall(style))
    if not steps:
        raise ValueError("the theme's styles/sheet.css has no .step-1 { … }")
    return steps


def _step(name: str, values: dict[str, str]) -> Step:
    return Step(
        name=name,
        **{key: millimetres(values[key]) for key in ("type", "lead", "pad", "gap", "cell", "half", "set")},
        parts_start_lines=values["part"] == "block",
        parts_below=values["head"] == "block",
        all_stand_ins=values["more"] == "inline",
        fix=values["fix"] == "inline",
        forms=values["forms"] != "none",
        faults=values["slip"] != "none",
    )


def millimetres(length: str) -> float:
    """``12pt`` or ``4.2mm`` in millimetres. Raises ValueError for another unit."""
    amount, unit = re.fullmatch(r"([\d.]+)(\w+)", length).groups()  # type: ignore[union-attr]
    if unit == "pt":
        return float(amount) * MM_PER_POINT
    if unit == "mm":
        return float(amount)
    raise ValueError(f"{length!r} is in neither pt nor mm")
