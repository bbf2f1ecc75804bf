"""The calendar: every session on a day, in order and with recovery, and every compromise named.

``place`` answers a :class:`ScheduleRequest` with a :class:`Schedule`; the theme's script
``schedule-solver.js`` does the same in the browser on the same data (see ``as_data``).
"""

from sitegen.study.schedule.order import OrderProposal as OrderProposal
from sitegen.study.schedule.order import better_order as better_order
from sitegen.study.schedule.plain_data import as_data as as_data
from sitegen.study.schedule.records import Conflict as Conflict
from sitegen.study.schedule.records import FinishByConflict as FinishByConflict
from sitegen.study.schedule.records import HorizonConflict as HorizonConflict
from sitegen.study.schedule.records import NoDaysConflict as NoDaysConflict
from sitegen.study.schedule.records import Placement as Placement
from sitegen.study.schedule.records import Recovering as Recovering
from sitegen.study.schedule.records import RecoveryConflict as RecoveryConflict
from sitegen.study.schedule.records import Schedule as Schedule
from sitegen.study.schedule.records import ScheduleRequest as ScheduleRequest
from sitegen.study.schedule.records import SessionToPlace as SessionToPlace
from sitegen.study.schedule.records import Wait as Wait
from sitegen.study.schedule.scheduler import place as place
from sitegen.study.schedule.scheduler import request_from_series as request_from_series
