"""The schedule: order, recovery, pace, free weeks, holidays, and a reason for every compromise."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from sitegen.model import DateRange, ScheduleWishes
from sitegen.study.schedule import (
    FinishByConflict,
    HorizonConflict,
    NoDaysConflict,
    Recovering,
    RecoveryConflict,
    Schedule,
    ScheduleRequest,
    SessionToPlace,
    Wait,
    as_data,
    place,
    request_from_series,
)
from sitegen.vocabulary import WEEKDAYS
from tests.work import calls_in

MONDAY = date(2026, 9, 7)
MON_WED_FRI = ("monday", "wednesday", "friday")


def sessions(*muscles: str) -> tuple[SessionToPlace, ...]:
    """Sessions 1, 2, …, each with the muscles written with spaces between."""
    return tuple(SessionToPlace(number=n, muscles=tuple(text.split())) for n, text in enumerate(muscles, 1))


def request(*muscles: str, **wishes: object) -> ScheduleRequest:
    given: dict[str, object] = {"start": MONDAY, "days": MON_WED_FRI, **wishes}
    return ScheduleRequest(sessions=sessions(*muscles), **given)  # type: ignore[arg-type]


def days_of(plan: Schedule) -> list[str]:
    """Weekday and date of each occurrence, such as ``Mon 09-07``."""
    return [f"{p.date:%a %m-%d}" for p in plan.placements]


def waits_of(plan: Schedule) -> list[list[str]]:
    return [[wait.kind for wait in p.waits] for p in plan.placements]


@pytest.mark.parametrize(
    ("wanted", "expected"),
    [
        pytest.param(
            request("", "", "", ""), "Mon 09-07, Wed 09-09, Fri 09-11, Mon 09-14", id="one on each day"
        ),
        pytest.param(
            request("", "", start=date(2026, 9, 8)), "Wed 09-09, Fri 09-11", id="the start is no training day"
        ),
        pytest.param(
            request("legs", "legs"), "Mon 09-07, Wed 09-09", id="48 h lie between Monday and Wednesday"
        ),
        pytest.param(
            request("legs", "legs", recovery_hours=49),
            "Mon 09-07, Fri 09-11",
            id="an hour more needs a day more",
        ),
        pytest.param(
            request("legs", "chest", "legs", days=("monday", "tuesday", "wednesday")),
            "Mon 09-07, Tue 09-08, Wed 09-09",
            id="other muscles may follow the next day",
        ),
        pytest.param(
            request("legs", "", "legs", days=("monday", "tuesday"), recovery_hours=240),
            "Mon 09-07, Tue 09-08, Mon 09-21",
            id="recovery reaches past the session between",
        ),
        pytest.param(
            request("legs", "", "legs", days=("monday", "tuesday", "wednesday"), recovery_hours=72),
            "Mon 09-07, Tue 09-08, Mon 09-14",
            id="recovery is not over a day too soon",
        ),
        pytest.param(
            request("legs", "chest", days=("monday", "tuesday"), repeats=2),
            "Mon 09-07, Mon 09-14, Tue 09-15, Mon 09-21",
            id="repeats of a session recover too",
        ),
        pytest.param(
            request("", "", "", "", deload_every=2, days=("monday", "friday")),
            "Mon 09-07, Fri 09-11, Mon 09-21, Fri 09-25",
            id="every second week is free",
        ),
        pytest.param(
            request("", "", start=date(2026, 9, 13), days=("sunday", "monday"), deload_every=2),
            "Sun 09-13, Mon 09-21",
            id="the week of a Sunday start ends that day",
        ),
        pytest.param(
            request("", "", holidays=(DateRange(first=MONDAY, last=date(2026, 9, 10)),)),
            "Fri 09-11, Mon 09-14",
            id="holidays are free, ends included",
        ),
        pytest.param(
            request("", "", "", per_week=2),
            "Mon 09-07, Wed 09-09, Mon 09-14",
            id="no more in a week than wanted",
        ),
        pytest.param(
            request("legs", "legs", "", per_week=2, days=("tuesday", "wednesday", "thursday")),
            "Tue 09-08, Thu 09-10, Tue 09-15",
            id="a spare day is for recovery",
        ),
        pytest.param(request(), "", id="nothing to place"),
    ],
)
def test_the_earliest_day_that_keeps_order_and_recovery(wanted: ScheduleRequest, expected: str) -> None:
    assert ", ".join(days_of(place(wanted))) == expected


def test_occurrence_are_numbered_one_after_the_other() -> None:
    plan = place(request("", "", repeats=2))
    assert [(p.session, p.repeat) for p in plan.placements] == [(1, 1), (1, 2), (2, 1), (2, 2)]


def test_free_weeks_are_weeks_from_monday_to_sunday() -> None:
    """ISO 8601 weeks, as the standard library counts them."""
    plan = place(request(*[""] * 60, start=date(2026, 9, 10), deload_every=4))
    first = date(2026, 9, 10).isocalendar()
    monday = date.fromisocalendar(first.year, first.week, 1)
    used = {date.fromisocalendar(*p.date.isocalendar()[:2], 1) for p in plan.placements}
    free = {monday + timedelta(weeks=w) for w in range(3, 24, 4)}
    assert used.isdisjoint(free)
    assert len(used | free) == (max(used) - monday).days // 7 + 1


class TestWaits:
    """Every training day that is passed over is accounted for."""

    def test_what_keeps_a_day_free_is_named_with_its_days(self) -> None:
        holiday = DateRange(first=date(2026, 9, 11), last=date(2026, 9, 14))
        plan = place(request("legs", "legs", holidays=(holiday,), deload_every=3, recovery_hours=13 * 24))
        recovering = Recovering(
            first=1, first_repeat=1, first_date=MONDAY, muscles=("legs",), gap_hours=48, needed_hours=312
        )
        later = replace(recovering, gap_hours=9 * 24)
        assert days_of(plan)[1] == "Mon 09-28"
        assert plan.placements[1].waits == (
            Wait(kind="recovery", first=date(2026, 9, 9), last=date(2026, 9, 9), days=1, recovery=recovering),
            Wait(kind="holiday", first=date(2026, 9, 11), last=date(2026, 9, 14), days=2),
            Wait(kind="recovery", first=date(2026, 9, 16), last=date(2026, 9, 18), days=2, recovery=later),
            Wait(kind="deload", first=date(2026, 9, 21), last=date(2026, 9, 25), days=3),
        )

    def test_days_beyond_the_pace_are_a_full_week(self) -> None:
        assert waits_of(place(request("", "", per_week=1))) == [[], ["week-full"]]

    def test_the_first_occurrence_waits_from_the_start(self) -> None:
        holiday = DateRange(first=MONDAY, last=MONDAY)
        assert waits_of(place(request("", holidays=(holiday,)))) == [["holiday"]]

    @pytest.mark.parametrize("keep_pace", [True, False])
    def test_waiting_for_recovery_is_told_whether_or_not_it_is_a_conflict(self, keep_pace: bool) -> None:
        plan = place(request("legs", "legs", days=("monday", "tuesday"), keep_pace=keep_pace))
        assert waits_of(plan) == [[], ["recovery"]]
        assert plan.kept is not keep_pace


class TestRecoveryConflicts:
    """A training day lost to recovery is a wish not kept: one pair to blame, and the ways out."""

    HAMSTRINGS_TWICE = request(
        "chest", "glutes", "chest", "hamstrings calves", "calves lats hamstrings", "chest", "glutes",
        start=date(2026, 9, 9), days=("tuesday", "wednesday"),
    )  # fmt: skip

    def test_the_two_sessions_the_gap_and_the_ways_out(self) -> None:
        plan = place(self.HAMSTRINGS_TWICE)
        assert days_of(plan)[3:5] == ["Tue 09-22", "Tue 09-29"]
        assert plan.conflicts == (
            RecoveryConflict(
                first=4,
                first_repeat=1,
                first_date=date(2026, 9, 22),
                second=5,
                second_repeat=1,
                wanted=date(2026, 9, 23),
                planned=date(2026, 9, 29),
                lost_days=1,
                muscles=("hamstrings", "calves"),
                gap_hours=24,
                needed_hours=48,
                allow_days=("monday", "thursday", "friday", "saturday", "sunday"),
                swaps=((3, 4), (5, 6)),
            ),
        )
        assert (plan.complete, plan.kept, plan.finish) == (True, False, date(2026, 10, 6))

    def test_the_plan_with_the_proposed_weekday_has_no_conflict(self) -> None:
        days = ("tuesday", "wednesday", "thursday")
        plan = place(replace(self.HAMSTRINGS_TWICE, days=days, per_week=2))
        assert plan.kept
        assert days_of(plan)[3:5] == ["Wed 09-16", "Tue 09-22"]

    def test_repeats_of_one_session_cannot_be_exchanged(self) -> None:
        plan = place(request("legs", days=("monday", "tuesday"), repeats=2))
        (conflict,) = plan.conflicts
        assert isinstance(conflict, RecoveryConflict)
        assert ((conflict.first, conflict.first_repeat), (conflict.second, conflict.second_repeat)) == (
            (1, 1),
            (1, 2),
        )
        assert conflict.swaps == ()

    def test_sessions_further_apart_are_exchanged_where_neighbours_do_not_help(self) -> None:
        plan = place(request("legs", "legs", "legs", "legs", "", "", days=("monday", "tuesday")))
        assert [c.swaps for c in plan.conflicts if isinstance(c, RecoveryConflict)] == [
            (),
            ((2, 5), (3, 6)),
            ((4, 5),),
        ]

    def test_an_exchange_that_only_moves_the_conflict_is_not_proposed(self) -> None:
        glutes_to_lats = (*self.HAMSTRINGS_TWICE.sessions[:-1], SessionToPlace(number=7, muscles=("lats",)))
        (conflict,) = place(replace(self.HAMSTRINGS_TWICE, sessions=glutes_to_lats)).conflicts
        assert isinstance(conflict, RecoveryConflict)
        assert conflict.swaps == ((3, 4),)

    def test_the_first_of_several_lost_days_is_the_wished_one(self) -> None:
        days = ("monday", "tuesday", "wednesday")
        (conflict,) = place(request("legs", "legs", days=days, recovery_hours=72)).conflicts
        assert isinstance(conflict, RecoveryConflict)
        assert (conflict.wanted, conflict.lost_days, conflict.gap_hours) == (date(2026, 9, 8), 2, 24)

    def test_each_week_has_its_own_spare_days(self) -> None:
        """Of three days two are wanted: one skipped day a week costs nothing, a second does."""
        days = ("tuesday", "wednesday", "thursday")
        plan = place(request("legs", "legs", days=days, per_week=2, recovery_hours=8 * 24))
        assert days_of(plan) == ["Tue 09-08", "Wed 09-16"]
        assert [c.lost_days for c in plan.conflicts if isinstance(c, RecoveryConflict)] == [1]

        hard = ("legs", "chest", "legs", "chest")
        plan = place(request(*hard, start=date(2026, 9, 3), days=days, per_week=2, recovery_hours=9 * 24))
        assert days_of(plan) == ["Thu 09-03", "Tue 09-08", "Tue 09-15", "Thu 09-17"]
        assert [c.second for c in plan.conflicts if isinstance(c, RecoveryConflict)] == [3]

    def test_without_a_wish_for_pace_there_is_no_conflict(self) -> None:
        plan = place(replace(self.HAMSTRINGS_TWICE, keep_pace=False))
        assert (plan.conflicts, plan.kept) == ((), True)
        assert plan.placements == place(self.HAMSTRINGS_TWICE).placements


class TestLimits:
    """Wishes that cannot be met at all."""

    @pytest.mark.parametrize(
        ("wishes", "closed_by"),
        [
            pytest.param({"days": ()}, (), id="no weekday"),
            pytest.param({"deload_every": 1}, ("deload",), id="every week free"),
            pytest.param(
                {"holidays": (DateRange(first=MONDAY, last=date(2040, 1, 1)),)},
                ("holiday",),
                id="all holidays",
            ),
            pytest.param({"horizon_days": 0, "days": ("sunday",)}, (), id="a horizon too near"),
        ],
    )
    def test_no_days(self, wishes: dict[str, object], closed_by: tuple[str, ...]) -> None:
        plan = place(request("legs", **wishes))
        assert plan.conflicts == (NoDaysConflict(closed_by=closed_by),)
        assert (plan.placements, plan.complete, plan.kept, plan.finish) == ((), False, False, None)

    def test_too_many_occurrence_before_the_horizon(self) -> None:
        plan = place(request("", "", "", horizon_days=2))
        assert plan.conflicts == (
            HorizonConflict(session=3, repeat=1, placed=2, total=3, last_day=date(2026, 9, 9), recovery=None),
        )
        assert days_of(plan) == ["Mon 09-07", "Wed 09-09"]

    def test_recovery_longer_than_the_horizon_is_named(self) -> None:
        (conflict,) = place(request("legs", "legs", horizon_days=9, recovery_hours=999)).conflicts
        assert isinstance(conflict, HorizonConflict)
        assert conflict.recovery == Recovering(
            first=1, first_repeat=1, first_date=MONDAY, muscles=("legs",), gap_hours=48, needed_hours=999
        )

    def test_the_usual_horizon_is_three_years(self) -> None:
        (conflict,) = place(request(*[""] * 1000)).conflicts
        assert isinstance(conflict, HorizonConflict)
        assert (conflict.last_day, conflict.placed) == (date(2029, 9, 7), 471)

    def test_too_late_for_the_wished_end(self) -> None:
        plan = place(request("", "", "", "", "", "", "", finish_by=date(2026, 9, 20), repeats=1))
        assert plan.conflicts == (
            FinishByConflict(
                wanted=date(2026, 9, 20),
                earliest=date(2026, 9, 21),
                session=7,
                repeat=1,
                fitting=6,
                total=7,
                without=(),
                train_days=("tuesday", "thursday", "saturday", "sunday"),
                repeats=None,
                start=date(2026, 9, 4),
            ),
        )
        assert plan.complete

    @pytest.mark.parametrize(
        ("wishes", "without"),
        [
            pytest.param({"holidays": (DateRange(first=MONDAY, last=MONDAY),)}, ("holiday",), id="a holiday"),
            pytest.param({"recovery_hours": 73}, ("recovery",), id="recovery"),
            pytest.param({"deload_every": 2}, ("deload",), id="a free week"),
            pytest.param({"start": date(2026, 9, 9)}, (), id="no rule but the start"),
        ],
    )
    def test_the_rule_in_the_way_of_the_wished_end(
        self, wishes: dict[str, object], without: tuple[str, ...]
    ) -> None:
        plan = place(request("legs", "", "legs", "legs", finish_by=date(2026, 9, 14), **wishes))
        assert [c.without for c in plan.conflicts if isinstance(c, FinishByConflict)] == [without]

    def test_fewer_repeats_that_fit(self) -> None:
        (conflict,) = place(request("", "", repeats=4, finish_by=date(2026, 9, 19))).conflicts
        assert isinstance(conflict, FinishByConflict)
        assert (conflict.session, conflict.repeat, conflict.fitting, conflict.repeats) == (2, 3, 6, 3)

    @pytest.mark.parametrize(("days_before", "found"), [(366, True), (367, False)])
    def test_an_earlier_start_is_looked_for_over_a_year(self, days_before: int, found: bool) -> None:
        wanted = MONDAY - timedelta(days=days_before)
        (conflict,) = place(request("", days=WEEKDAYS, finish_by=wanted)).conflicts
        assert isinstance(conflict, FinishByConflict)
        assert conflict.start == (wanted if found else None)

    def test_an_earlier_start_moves_the_free_weeks_too(self) -> None:
        plan = place(request("", "", "", "", deload_every=2, finish_by=date(2026, 9, 18)))
        (conflict,) = plan.conflicts
        assert isinstance(conflict, FinishByConflict)
        assert (conflict.without, conflict.start) == (("deload",), date(2026, 9, 4))


def test_counts_that_mean_nothing_are_refused() -> None:
    with pytest.raises(ValueError, match="repeats, per_week and deload_every are 1 or more"):
        request("legs", per_week=0)
    with pytest.raises(ValueError, match="recovery_hours and horizon_days are 0 or more"):
        request("legs", recovery_hours=-1)


def test_dates_at_the_end_of_the_calendar_do_not_overflow() -> None:
    plan = place(request("", "", "", start=date(9999, 12, 29)))
    assert [p.date for p in plan.placements] == [date(9999, 12, 29), date(9999, 12, 31)]


def test_the_wishes_of_a_series_are_all_heard() -> None:
    wishes = ScheduleWishes(
        start=MONDAY,
        days=("monday", "tuesday", "friday"),
        repeats=2,
        recovery_hours=72,
        deload_every=3,
        holidays=(DateRange(first=date(2026, 9, 11), last=date(2026, 9, 11)),),
        per_week=2,
        keep_pace=False,
        finish_by=date(2026, 9, 30),
    )
    plan = place(request_from_series(wishes, sessions("legs", "chest")))
    assert days_of(plan) == ["Mon 09-07", "Mon 09-14", "Tue 09-15", "Mon 09-28"]
    assert (plan.kept, plan.per_week) == (True, 2)


def test_as_plain_data() -> None:
    assert as_data(place(request("legs", days=("tuesday",)))) == {
        "placements": [{"session": 1, "repeat": 1, "date": "2026-09-08", "waits": []}],
        "conflicts": [],
        "per_week": 1,
        "complete": True,
        "kept": True,
        "finish": "2026-09-08",
    }


def long_request(count: int, finish_by: date | None = MONDAY) -> ScheduleRequest:
    """Two sessions of five wait for the one before, and the wanted end cannot be had."""
    muscles = ("legs back", "chest legs", "back calves", "calves", "legs chest back")
    hard = [muscles[(n * n) % 5] for n in range(count)]
    return request(*hard, days=("monday", "tuesday", "friday"), horizon_days=10_000, finish_by=finish_by)


def test_a_long_series_is_planned_with_its_reasons() -> None:
    plan = place(long_request(1000))
    assert len(plan.placements) == 1000
    assert len(plan.conflicts) > 200


@pytest.mark.parametrize("finish_by", [None, MONDAY], ids=["no end is wanted", "it cannot end in time"])
def test_twice_the_sessions_are_about_twice_the_work(finish_by: date | None) -> None:
    few, many = (calls_in(lambda n=n: place(long_request(n, finish_by))) for n in (200, 400))
    assert many < 2.5 * few
