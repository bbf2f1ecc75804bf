"""The trade's short forms: parse what a trainer writes, print it back the same.

Each type has ``parse(text)`` and ``str(value)``; ``parse(str(value)) == value`` always
holds. A text that does not parse raises :class:`NotationError`, which carries what is
wrong and an example of what to write instead.
"""

from sitegen.notation.clock import format_clock, parse_clock
from sitegen.notation.count import Count
from sitegen.notation.dose import Dose, DoseChange
from sitegen.notation.durations import Duration
from sitegen.notation.effort import Effort
from sitegen.notation.errors import NotationError
from sitegen.notation.load import Load, LoadPart
from sitegen.notation.quantity import Quantity
from sitegen.notation.tempo import Tempo

__all__ = [
    "Count",
    "Dose",
    "DoseChange",
    "Duration",
    "Effort",
    "Load",
    "LoadPart",
    "NotationError",
    "Quantity",
    "Tempo",
    "format_clock",
    "parse_clock",
]
