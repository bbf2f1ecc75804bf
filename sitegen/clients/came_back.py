"""What one client's logs say against her plan: what needs a look first, what was done, how it went on."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import NamedTuple

from sitegen.clients.client import Client, TestResult, form_key, reference_of
from sitegen.clients.danger_words import SignReader
from sitegen.clients.log import Log, LogEntry, Sitting
from sitegen.clients.log_merging import merged_sittings, oldest_first, wrong_clocks
from sitegen.clients.log_numbers import counts_of, kilograms, load_of
from sitegen.clients.tailored import TailoredItem, TailoredSession
from sitegen.clients.troubles import ReportedTrouble, signs_in, troubles_of
from sitegen.model import Block
from sitegen.study.field_tests import FIELD_TESTS
from sitegen.study.forms import Forms
from sitegen.study.load import same_mass
from sitegen.study.version import Version
from sitegen.study.volume import COUNTED_KINDS
from sitegen.vocabulary import AMRAP, EMOM

EASIER_BY = 1
"""Points of effort on the scale of 0 to 10 that count as a change (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedOccurrence:
    """One time that she is to do a session; without a day where her plan has no calendar."""

    key: str
    title: str
    day: date | None


@dataclass(frozen=True, slots=True, kw_only=True)
class AskedForm:
    """A form as one of her sessions asks for it."""

    block: Block
    version: Version
    sets: int | None
    """Fewest sets of it in that session; None where the format leaves that open."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LoggedExercise:
    """One exercise on one day."""

    sitting: Sitting
    written: LogEntry
    counts: tuple[int, ...]
    """Set by set; empty where they cannot be read."""
    kg: float | None
    """None where nothing was held or it cannot be read."""
    asked_sets: int | None
    """Fewest sets of it that her plan asks for in that session; None where it does not say."""

    @property
    def day(self) -> date:
        """When it was done."""
        assert self.sitting.done is not None
        return self.sitting.done

    @property
    def effort(self) -> int | None:
        """Her effort in the exercise, else in the whole session."""
        own = self.written.effort
        return self.sitting.effort if own is None else own

    @property
    def mean(self) -> float | None:
        """The mean of the counts."""
        return sum(self.counts) / len(self.counts) if self.counts else None


@dataclass(frozen=True, slots=True, kw_only=True)
class FormCourse:
    """How one form went on, day after day."""

    reference: str
    name: str
    asked: AskedForm | None
    """As her plan asks for it now; None where it is no longer in it."""
    entries: tuple[LoggedExercise, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class FirstAndLast:
    """The first and the last time of a form, where the two can be compared."""

    course: FormCourse
    first: LoggedExercise
    last: LoggedExercise


@dataclass(frozen=True, slots=True, kw_only=True)
class CameBack:
    """All of it for one client."""

    client: Client
    planned: tuple[PlannedOccurrence, ...]
    due: tuple[PlannedOccurrence, ...]
    """Planned up to yesterday, or up to today and done."""
    done: tuple[Sitting, ...]
    """By day."""
    missed: tuple[PlannedOccurrence, ...]
    """Due and not done."""
    troubles: tuple[ReportedTrouble, ...]
    """The latest first."""
    remarks: tuple[Sitting, ...]
    """Sittings with a note of another kind, the latest first."""
    courses: tuple[FormCourse, ...]
    easier: tuple[FirstAndLast, ...]
    harder: tuple[FirstAndLast, ...]
    left_out: tuple[tuple[Sitting, tuple[str, ...]], ...]
    """Names of exercises for which she wrote nothing in a sitting where she wrote something for others."""
    unsure: tuple[str, ...]
    """What the reader could make nothing of, a line for each."""
    tests: tuple[TestResult, ...]
    """Of her file and of her logs, by day."""
    titles: Mapping[str, str]
    """Of sessions, by slug."""


def came_back(
    client: Client,
    logs: Iterable[Log],
    sessions: Sequence[TailoredSession],
    planned: Sequence[PlannedOccurrence],
    forms: Forms,
    today: date,
    reader: SignReader,
) -> CameBack:
    """Lay logs against a plan. A sitting that several logs tell of counts once: the latest word holds."""
    logs = oldest_first(logs, today)  # the latest word is merged last, and so holds
    merged = merged_sittings(logs, today)
    titles = {session.filmed.slug: session.filmed.title for session in sessions}
    unsure = [*wrong_clocks(logs, titles, today), *_unsure(merged, titles, today)]
    done = sorted(
        (one for one in merged.values() if one.done is not None and one.done <= today),
        key=lambda one: (one.done, one.key),
    )
    through = {one.key for one in done}
    # Today is not over yet. What was done before its day was not due.
    due = tuple(
        one
        for one in planned
        if one.day is not None and (one.day < today or (one.day == today and one.key in through))
    )
    asked = asked_amounts(sessions)
    courses = tuple(_courses(done, asked, forms))
    unsure += _unread(courses)
    unsure += _tests_to_come(logs, today)
    if not reader.knows_language and any(one.text for one in merged.values()):
        unsure.append(
            "remarks are searched for the signs of series.yaml alone, for no others are known in its "
            "language: read each one"
        )
    easier, harder = _changes(courses)
    return CameBack(
        client=client,
        planned=tuple(planned),
        due=due,
        done=tuple(done),
        missed=tuple(one for one in due if one.key not in through),
        troubles=tuple(troubles_of(logs, merged, titles, reader)),
        remarks=tuple(
            sorted(
                (
                    one
                    for one in merged.values()
                    if one.text and not one.troubled and not signs_in(one, reader)
                ),
                key=lambda one: one.done or date.min,
                reverse=True,
            )
        ),
        courses=courses,
        easier=easier,
        harder=harder,
        left_out=tuple(_left_out(done, sessions)),
        unsure=tuple(unsure),
        tests=_tests(client, logs, today),
        titles=titles,
    )


def _unsure(merged: Mapping[str, Sitting], titles: Mapping[str, str], today: date) -> Iterator[str]:
    unknown = sorted({one.slug for one in merged.values()} - set(titles))
    for slug in unknown:
        yield f"session {slug} is not in the plan now; what was written of it is shown all the same"
    for one in merged.values():
        if one.done is not None and one.done > today:
            title = titles.get(one.slug, one.slug)
            yield f"{title} is dated {one.done:%d %b %Y}, which is still to come: not counted"


def _tests_to_come(logs: Iterable[Log], today: date) -> Iterator[str]:
    for test, day in sorted({(one.test, one.day) for log in logs for one in log.tests if one.day > today}):
        yield f"{test} is dated {day:%d %b %Y}, which is still to come: not counted"


def _unread(courses: Iterable[FormCourse]) -> Iterator[str]:
    for course in courses:
        for entry in course.entries:
            written = entry.written
            if written.reps and not entry.counts:
                yield f"{course.name}, {entry.day:%d %b %Y}: no repetitions can be read from {written.reps!r}"
            if written.load and entry.kg is None:
                yield f"{course.name}, {entry.day:%d %b %Y}: no weight can be read from {written.load!r}"


def asked_amounts(sessions: Iterable[TailoredSession]) -> dict[tuple[str, str], AskedForm]:
    """Amounts by session and form; what a session asks for twice counts as it is asked for first.

    Its sets are counted together, for it has one line in her log.
    """
    found: dict[tuple[str, str], AskedForm] = {}
    for session in sessions:
        for block, one in _logged(session):
            version = one.version
            assert version is not None
            key = (session.filmed.slug, reference_of(version.form.key))
            sets = _fewest_sets(block)
            if before := found.get(key):
                both = None if before.sets is None or sets is None else before.sets + sets
                found[key] = replace(before, sets=both)
            else:
                found[key] = AskedForm(block=block, version=version, sets=sets)
    return found


def _fewest_sets(block: Block) -> int | None:
    return None if block.format in (AMRAP, EMOM) else block.sets.low


def _logged(session: TailoredSession) -> Iterator[tuple[Block, TailoredItem]]:
    for block, items in session.blocks:
        if block.kind in COUNTED_KINDS:
            yield from ((block, one) for one in items if one.version is not None)


def _courses(
    done: Iterable[Sitting], asked: Mapping[tuple[str, str], AskedForm], forms: Forms
) -> Iterator[FormCourse]:
    lines: dict[str, list[LoggedExercise]] = {}
    for sitting in done:
        for reference, written in sitting.items.items():
            if written.said:
                now = asked.get((sitting.slug, reference))
                load = load_of(written.load, now.version.load if now else None)
                entry = LoggedExercise(
                    sitting=sitting,
                    written=written,
                    counts=counts_of(written.reps, _measure(now)),
                    kg=kilograms(load),
                    asked_sets=now.sets if now else None,
                )
                lines.setdefault(reference, []).append(entry)
    for reference, entries in lines.items():
        form = forms.get(form_key(reference))
        slug = entries[-1].sitting.slug
        now = asked.get((slug, reference)) or next(
            (one for (_, name), one in asked.items() if name == reference), None
        )
        yield FormCourse(
            reference=reference, name=form.name if form else reference, asked=now, entries=tuple(entries)
        )


def _measure(asked: AskedForm | None) -> str | None:
    """What its dose counts; None where that is not known, or up to her."""
    dose = asked.version.dose if asked else None
    return dose.measure if dose is not None and dose.kind != "max" else None


def _changes(courses: Iterable[FormCourse]) -> tuple[tuple[FirstAndLast, ...], tuple[FirstAndLast, ...]]:
    """Forms that got easier, and those that got harder, from the first comparable time to the last."""
    easier, harder = [], []
    for course in courses:
        known = list(_comparable(course.entries))
        if len(known) < 2:
            continue
        first, last = known[0], known[-1]
        change = FirstAndLast(course=course, first=first.entry, last=last.entry)
        if _is_easier(first, last):
            easier.append(change)
        elif _is_easier(last, first):
            harder.append(change)
    return tuple(easier), tuple(harder)


class _Comparable(NamedTuple):
    entry: LoggedExercise
    effort: int
    mean: float


def _comparable(entries: Iterable[LoggedExercise]) -> Iterator[_Comparable]:
    for entry in entries:
        if entry.effort is not None and entry.mean is not None:
            yield _Comparable(entry, entry.effort, entry.mean)


def _is_easier(before: _Comparable, after: _Comparable) -> bool:
    """No less done for a lower effort, or more done for no more effort.

    A load that is known once and not the other time cannot be compared, and the mean of three sets not with
    that of one.
    """
    one, other = before.entry, after.entry
    if (one.kg is None) != (other.kg is None) or len(one.counts) != len(other.counts):
        return False
    held, held_now = one.kg or 0.0, other.kg or 0.0
    alike = same_mass(held, held_now)
    no_less = (alike or held_now > held) and after.mean >= before.mean
    more = (held_now > held and not alike) or after.mean > before.mean
    fell = before.effort - after.effort
    return no_less and (fell >= EASIER_BY or (more and fell >= 0))


def _left_out(
    done: Iterable[Sitting], sessions: Iterable[TailoredSession]
) -> Iterator[tuple[Sitting, tuple[str, ...]]]:
    by_slug = {session.filmed.slug: session for session in sessions}
    for sitting in done:
        session = by_slug.get(sitting.slug)
        wrote = {
            name for name, one in sitting.items.items() if one.load or one.reps or one.effort is not None
        }
        if session is None or not wrote:
            continue
        names = dict.fromkeys(
            one.version.form.name
            for _, one in _logged(session)
            if one.version is not None and reference_of(one.version.form.key) not in wrote
        )
        if names:
            yield sitting, tuple(names)


def _tests(client: Client, logs: Iterable[Log], today: date) -> tuple[TestResult, ...]:
    """Each result once; of one test on one day the log's word holds, for it is the later one.

    What a log dates in days to come is no result yet.
    """
    found = {(one.test, one.day): one for one in client.baseline}
    for log in logs:
        found |= {(one.test, one.day): one for one in log.tests if one.day <= today}
    return tuple(sorted(found.values(), key=lambda one: (list(FIELD_TESTS).index(one.test), one.day)))
