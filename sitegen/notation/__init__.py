"""The trade's short forms: parse what a trainer writes, print it back the same.

Each type has ``parse(text)`` and ``str(value)``; ``parse(str(value)) == value`` always
holds. A text that does not parse raises :class:`NotationError`, which carries what is
wrong and an example of what to write instead.
"""

from sitegen.notation.clock import format_clock as format_clock
from sitegen.notation.clock import parse_clock as parse_clock
from sitegen.notation.count import Count as Count
from sitegen.notation.dose import Dose as Dose
from sitegen.notation.dose import DoseChange as DoseChange
from sitegen.notation.durations import Duration as Duration
from sitegen.notation.effort import Effort as Effort
from sitegen.notation.errors import NotationError as NotationError
from sitegen.notation.load import Load as Load
from sitegen.notation.load import LoadPart as LoadPart
from sitegen.notation.quantity import Quantity as Quantity
from sitegen.notation.tempo import Tempo as Tempo
