"""The calendar: every session on a day, in order and with recovery, and every compromise named.

``place`` answers a :class:`ScheduleRequest` with a :class:`Schedule`; the theme's script
``schedule-solver.js`` does the same in the browser on the same data (see ``as_data``).
"""

from sitegen.study.schedule.data import as_data
from sitegen.study.schedule.order import OrderProposal, better_order
from sitegen.study.schedule.records import (
    Conflict,
    FinishByConflict,
    HorizonConflict,
    NoDaysConflict,
    Placement,
    Recovering,
    RecoveryConflict,
    Relief,
    Schedule,
    ScheduleRequest,
    SessionToPlace,
    Wait,
)
from sitegen.study.schedule.scheduler import place, plan_from_series, request_from_series

__all__ = [
    "Conflict",
    "FinishByConflict",
    "HorizonConflict",
    "NoDaysConflict",
    "OrderProposal",
    "Placement",
    "Recovering",
    "RecoveryConflict",
    "Relief",
    "Schedule",
    "ScheduleRequest",
    "SessionToPlace",
    "Wait",
    "as_data",
    "better_order",
    "place",
    "plan_from_series",
    "request_from_series",
]
