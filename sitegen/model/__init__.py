"""The series as the trade sees it: checked, immutable, free of files and pages.

Records refer to exercises, needs and kit by id; :class:`Series` looks ids up. Times are whole
seconds from the start of the video. ``location`` says where a record was written.
"""

from sitegen.model.details import (
    Bounds,
    DateRange,
    Details,
    Host,
    Kit,
    LibraryLink,
    Limits,
    Logo,
    Look,
    Need,
    ScheduleWishes,
    Trainer,
)
from sitegen.model.episode import (
    Block,
    Episode,
    Item,
    Rest,
    Video,
    VideoFile,
)
from sitegen.model.exercise import (
    WORDS,
    Caution,
    Exercise,
    Fault,
    Muscles,
    Picture,
    Poses,
    Sides,
    Stepping,
    Variant,
)
from sitegen.model.series import (
    Appearance,
    FreePage,
    Recorded,
    Series,
    SharedLibrary,
)

__all__ = [
    "WORDS",
    "Appearance",
    "Block",
    "Bounds",
    "Caution",
    "DateRange",
    "Details",
    "Episode",
    "Exercise",
    "Fault",
    "FreePage",
    "Host",
    "Item",
    "Kit",
    "LibraryLink",
    "Limits",
    "Logo",
    "Look",
    "Muscles",
    "Need",
    "Picture",
    "Poses",
    "Recorded",
    "Rest",
    "ScheduleWishes",
    "Series",
    "SharedLibrary",
    "Sides",
    "Stepping",
    "Trainer",
    "Variant",
    "Video",
    "VideoFile",
]
