"""A client's days: her sessions on her own days by the rules of the series, and the calendar file."""

from dataclasses import dataclass, replace
from datetime import date

from sitegen.clients.came_back import PlannedOccurrence
from sitegen.pages.calendar_file import CalendarEvent, calendar_file
from sitegen.pages.client.client_plan import ClientPlan
from sitegen.pages.schedule.events import description, reminder, stamp, summary, uid_ending
from sitegen.pages.schedule.sentences import ScheduleSentences
from sitegen.pages.schedule.sessions import ScheduledSession
from sitegen.study.calendar_entries import CalendarEntry, brief_of, entries
from sitegen.study.recovery import hard_muscles
from sitegen.study.schedule import SessionToPlace, request_from_series
from sitegen.study.timing import session_time
from sitegen.study.weeks import planned_days


@dataclass(frozen=True, slots=True, kw_only=True)
class HerDay:
    """One time that she does a session."""

    key: str
    """Of her log: the session's slug and which time it is."""
    slug: str
    date: date
    day: str
    title: str


class HerDays:
    """Places one client's sessions. What comes out after ``today`` has no link in the calendar."""

    def __init__(self, plan: ClientPlan, today: date) -> None:
        self._plan, self._today = plan, today
        self._site = plan.site
        self._episodes = {one.episode.number: one.episode for one in plan.sessions}
        self._placed = self._occurrences()

    def _occurrences(self) -> list[tuple[int, int, date]]:
        """SessionToPlace, time and day of every occurrence that has a day; none without a calendar."""
        wishes, details = self._site.details.schedule, self._site.details
        if wishes is None:
            return []
        repeats = self._plan.client.repeat
        # Each time is a session of its own to the scheduler, for not all are done equally often.
        sessions = [
            SessionToPlace(
                number=number, muscles=tuple(sorted(hard_muscles(details, self._site.forms, episode)))
            )
            for number, episode in self._episodes.items()
            for _ in range(repeats.get(episode.slug, 1))
        ]
        counted: dict[int, int] = {}
        placed = []
        for number, _, day in planned_days(request_from_series(wishes, sessions)):
            counted[number] = counted.get(number, 0) + 1
            placed.append((number, counted[number], day))
        return placed

    def days(self) -> list[HerDay]:
        """Every occurrence in order."""
        words, client = ScheduleSentences(self._site, {}), self._site.theme.strings.client
        return [
            HerDay(
                key=f"{self._episodes[number].slug}-{time}",
                slug=self._episodes[number].slug,
                date=day,
                day=words.day(day),
                title=client.session.format(number=number, title=self._episodes[number].title)
                + (f" ({client.again.format(n=time)})" if time > 1 else ""),
            )
            for number, time, day in self._placed
        ]

    def calendar(self) -> bytes:
        """The calendar file; nothing where she has no days. It says nothing of needs."""
        wishes = self._site.details.schedule
        if wishes is None or not self._placed:
            return b""
        forms, details = self._site.forms, self._site.details
        briefs = {
            number: brief_of(details, forms, episode, session_time(details, forms, episode))
            for number, episode in self._episodes.items()
        }
        events = [self._event(entry) for entry in entries(details, briefs, self._placed)]
        zone = wishes.time_zone if wishes.time is not None else None
        return calendar_file(events, name=details.title, time_zone=zone)

    def _event(self, entry: CalendarEntry) -> CalendarEvent:
        site, episode = self._site, self._episodes[entry.brief.number]
        session = self._scheduled(entry)
        return CalendarEvent(
            uid=f"{entry.key}.{self._plan.code}{uid_ending(site.details.address)}",
            summary=summary(site, session),
            # Her own page is a file on her device: the calendar cannot lead there.
            description=description(site, replace(session, out=False), entry.repeat),
            date=entry.date,
            minutes=entry.start,
            duration=entry.brief.minutes,
            stamp=stamp(site, episode),
            alarm=reminder(site, session),
        )

    def _scheduled(self, entry: CalendarEntry) -> ScheduledSession:
        brief = entry.brief
        episode = self._episodes[brief.number]
        later = episode.released is not None and episode.released > self._today
        return ScheduledSession(
            number=brief.number,
            slug=brief.slug,
            title=brief.title,
            out=not later,
            released=episode.released,
            coming=self._site.phrases.day(episode.released) if later and episode.released else "",
            time=self._site.phrases.about(brief.seconds) if brief.seconds else "",
            brief=brief,
            fetch="",
            items=(),
        )


def planned_occurrences(plan: ClientPlan, today: date) -> list[PlannedOccurrence]:
    """Every time that she is to do a session; without days where her plan has no calendar."""
    days = HerDays(plan, today).days()
    if days:
        return [PlannedOccurrence(key=one.key, title=one.title, day=one.date) for one in days]
    repeats = plan.client.repeat
    return [
        PlannedOccurrence(key=f"{one.filmed.slug}-{time}", title=one.filmed.title, day=None)
        for one in plan.sessions
        for time in range(1, repeats.get(one.filmed.slug, 1) + 1)
    ]
