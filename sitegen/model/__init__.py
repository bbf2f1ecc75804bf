"""The series as the trade sees it: checked, immutable, free of files and pages.

Records refer to exercises, needs and kit by id; :class:`Series` looks ids up. Times are whole
seconds from the start of the video. ``location`` says where a record was written.
"""

from sitegen.model.details import Bounds as Bounds
from sitegen.model.details import DateRange as DateRange
from sitegen.model.details import Details as Details
from sitegen.model.details import Host as Host
from sitegen.model.details import Kit as Kit
from sitegen.model.details import LibraryLink as LibraryLink
from sitegen.model.details import Limits as Limits
from sitegen.model.details import Logo as Logo
from sitegen.model.details import Look as Look
from sitegen.model.details import Need as Need
from sitegen.model.details import ScheduleWishes as ScheduleWishes
from sitegen.model.details import Trainer as Trainer
from sitegen.model.episode import Block as Block
from sitegen.model.episode import Episode as Episode
from sitegen.model.episode import Item as Item
from sitegen.model.episode import Rest as Rest
from sitegen.model.episode import Video as Video
from sitegen.model.episode import VideoFile as VideoFile
from sitegen.model.exercise import WORDS as WORDS
from sitegen.model.exercise import Caution as Caution
from sitegen.model.exercise import Exercise as Exercise
from sitegen.model.exercise import Fault as Fault
from sitegen.model.exercise import Muscles as Muscles
from sitegen.model.exercise import Picture as Picture
from sitegen.model.exercise import Poses as Poses
from sitegen.model.exercise import Sides as Sides
from sitegen.model.exercise import Stepping as Stepping
from sitegen.model.exercise import Variant as Variant
from sitegen.model.series import Appearance as Appearance
from sitegen.model.series import FreePage as FreePage
from sitegen.model.series import Recorded as Recorded
from sitegen.model.series import Series as Series
from sitegen.model.series import SharedLibrary as SharedLibrary
