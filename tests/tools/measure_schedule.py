"""Measure the scheduler: python tests/tools/measure_schedule.py

Series of 200, 1,000 and 10,000 sessions, each with two hard muscles of eight drawn from a fixed seed;
median of five runs, in seconds, on one core.
"""

import statistics
import time
from collections.abc import Callable
from datetime import date
from random import Random

from sitegen.study.schedule import ScheduleRequest, Session, better_order, place

MUSCLES = ("chest", "lats", "biceps", "glutes", "hamstrings", "quadriceps", "calves", "abdominals")
WISHES = (
    (("monday", "wednesday", "friday"), 48),
    (("monday", "tuesday", "thursday", "friday"), 72),
)
ENOUGH_DAYS = 40_000


def request(count: int, days: tuple[str, ...], recovery_hours: int) -> ScheduleRequest:
    """A series of so many sessions, with a horizon far enough off."""
    random = Random(count)
    sessions = tuple(
        Session(number=number, muscles=tuple(random.sample(MUSCLES, 2))) for number in range(1, count + 1)
    )
    return ScheduleRequest(
        sessions=sessions,
        start=date(2026, 9, 7),
        days=days,
        recovery_hours=recovery_hours,
        horizon_days=ENOUGH_DAYS,
    )


def seconds(work: Callable[[], object]) -> float:
    """Median of five runs."""
    taken = []
    for _ in range(5):
        begin = time.perf_counter()
        work()
        taken.append(time.perf_counter() - begin)
    return statistics.median(taken)


def report(wanted: ScheduleRequest) -> None:
    """Print what one series takes, and what a better order would do for it."""
    plan_s, order_s = seconds(lambda: place(wanted)), seconds(lambda: better_order(wanted))
    proposal = better_order(wanted)
    better = "no order is better"
    if proposal:
        better = f"{proposal.lost_days} lost with {len(proposal.moved)} exchanges, exact: {proposal.exact}"
    print(
        f"{len(wanted.sessions):6} sessions, {len(wanted.days)} days, {wanted.recovery_hours} h: "
        f"{len(place(wanted).conflicts)} conflicts, plan {plan_s:.3f} s, order {order_s:.3f} s ({better})"
    )


def main() -> None:
    """Print one line for each series."""
    for count in (200, 1_000, 10_000):
        for days, hours in WISHES:
            report(request(count, days, hours))


if __name__ == "__main__":
    main()
