"""What came back of a client, as lines for the terminal."""

import textwrap
from collections.abc import Iterable, Iterator, Sequence
from datetime import date

from sitegen.clients.came_back import (
    CameBack,
    FirstAndLast,
    FormCourse,
    LoggedExercise,
    PlannedOccurrence,
)
from sitegen.clients.log import Sitting
from sitegen.clients.next_steps import NextStep
from sitegen.clients.troubles import ReportedTrouble
from sitegen.study.doses import dose_in
from sitegen.study.field_tests import FIELD_TESTS, Norm, norm_of

CARE = (
    'Pain and dizziness come first, and what is marked "read this first": talk about them before the next '
    "session. A doctor or physiotherapist "
    "is to be asked; what they say holds."
)


def lines_of(back: CameBack, steps: Sequence[NextStep], width: int) -> Iterator[str]:
    """What needs a look first, then what was done, how it went on and what was left out."""
    for paragraph, indent in _paragraphs(back, steps):
        yield from textwrap.wrap(paragraph, width, subsequent_indent=indent, break_on_hyphens=False) or [""]


def _paragraphs(back: CameBack, steps: Sequence[NextStep]) -> Iterator[tuple[str, str]]:
    yield f"{back.client.name} ({back.client.id}): {done_words(back)}", "  "
    if back.troubles:
        yield f"  {CARE}", "  "
    yield from _list(
        "", (f"{day_of(one.sitting)} {one.title}: {trouble_words(one)}" for one in back.troubles)
    )
    yield from _list("Not sure", back.unsure)
    yield from _list("Remarks", (f"{day_of(one)} {title_of(back, one)}: {one.text}" for one in back.remarks))
    yield from _list("What next, for you to decide", map(step_words, steps))
    yield from _list("Field tests", test_lines(back))
    yield from _list("Got easier", map(change_words, back.easier))
    yield from _list("Got harder", map(change_words, back.harder))
    yield from _list("Not done", map(missed_words, back.missed))
    left_out = (f"{day_of(one)} {title_of(back, one)}: {', '.join(names)}" for one, names in back.left_out)
    yield from _list("Nothing written for", left_out)
    for course in back.courses:
        yield f"  {course.name}{asked_words(course)}", "    "
        for entry in course.entries:
            yield f"    {day_words(entry.day)}: {entry_words(entry)}", "      "


def _list(title: str, lines: Iterable[str]) -> Iterator[tuple[str, str]]:
    lines = list(lines)
    if lines and title:
        yield f"  {title}", "  "
    for line in lines:
        yield f"  - {line}", "    "


def done_words(back: CameBack) -> str:
    """How much of her plan is done: of what is due where her plan has days."""
    through = {one.key for one in back.done}
    if back.due:
        on_plan = sum(one.key in through for one in back.due)
        return f"{on_plan} of {len(back.due)} sessions done that are due, {_all(back)}"
    count = len(back.done)
    return f"{count} {'session' if count == 1 else 'sessions'} done, {_all(back)}"


def _all(back: CameBack) -> str:
    return f"{len(back.planned)} planned in all"


def day_of(sitting: Sitting) -> str:
    """The day that she named."""
    return day_words(sitting.done) if sitting.done else "(no day)"


def day_words(day: date) -> str:
    """``8 Dec 2026``, which no line breaks apart."""
    return f"{day.day}\N{NO-BREAK SPACE}{day:%b}\N{NO-BREAK SPACE}{day.year}"


def title_of(back: CameBack, sitting: Sitting) -> str:
    """The session's title, with which time it was from the second on."""
    title = back.titles.get(sitting.slug, sitting.slug)
    return title if sitting.time == 1 else f"{title}, time {sitting.time}"


def missed_words(planned: PlannedOccurrence) -> str:
    """A session that was due."""
    return f"{day_words(planned.day)}: {planned.title}" if planned.day else planned.title


def trouble_words(trouble: ReportedTrouble) -> str:
    """What was wrong, in her words where she has some."""
    one = trouble.sitting
    parts = [f"read this first ({', '.join(trouble.signs)})"] if trouble.signs else []
    if one.pain is not None:
        # Where it hurts is often told in the remark, and then it is said.
        nowhere = "pain; where, the remark may say" if one.text else "pain, it is not said where"
        parts.append(f"pain: {one.pain}" if one.pain else nowhere)
    if one.dizzy:
        parts.append("dizzy, faint or short of breath")
    if trouble.taken_back:
        parts.append("(a later log does not say it any more)")
    if trouble.reworded:
        parts.append("(a later log says it in other words)")
    if one.text:
        parts.append(f"“{one.text}”")
    parts += [f"“{text}”" for text in trouble.in_fields]
    return "; ".join(parts)


def change_words(change: FirstAndLast) -> str:
    """``Towel row: 8, 8, effort 7 (1 Dec 2026), now 10, 10, effort 6 (15 Dec 2026)``."""
    before, after = (f"{entry_words(one)} ({day_words(one.day)})" for one in (change.first, change.last))
    return f"{change.course.name}: {before}, now {after}"


def step_words(step: NextStep) -> str:
    """What is proposed for a form, or why it stays as it is."""
    return f"{step.name}: {step.why}" if step.proposal else f"{step.name} stays as it is: {step.why}"


def test_lines(back: CameBack) -> Iterator[str]:
    """Each test from the first result to the last, as a change; beside it what is published, and of whom."""
    for test, unit in FIELD_TESTS.items():
        results = [one for one in back.tests if one.test == test]
        if not results:
            continue
        first, last = results[0], results[-1]
        line = f"{test.capitalize()}: {first.result} {unit} ({day_words(first.day)})"
        if last is not first:
            weeks, change = round((last.day - first.day).days / 7), last.result - first.result
            line += f", now {last.result} ({day_words(last.day)}): {change:+d} in {weeks} weeks"
        norm = norm_of(test, back.client.age, back.client.sex)
        yield f"{line}. {_norm_words(norm, back.client.sex or '')}" if norm else line


def _norm_words(norm: Norm, sex: str) -> str:
    """No grade: where others are, and who they were."""
    figure = f"{norm.low:g}" if norm.low == norm.high else f"the middle half {norm.low:g} to {norm.high:g}"
    people = {"woman": "women", "man": "men"}[sex]
    low, high = norm.ages
    return f"For comparison, {people} of {low} to {high}: {figure} ({norm.people}; {norm.source})"


def asked_words(course: FormCourse) -> str:
    """What her plan asks for now."""
    if course.asked is None:
        return " (not in the plan now)"
    version = course.asked.version
    dose = version.dose or dose_in(course.asked.block, course.asked.block.items[0])
    held = f" with {version.load}" if version.load else ""
    return f" (asked now: {dose}{held})"


def entry_words(entry: LoggedExercise) -> str:
    """What she wrote of one exercise, as she wrote it."""
    written = entry.written
    effort = f"effort {entry.effort}" if entry.effort is not None else ""
    whole = " (whole session)" if effort and written.effort is None else ""
    parts = (written.reps, f"with {written.load}" if written.load else "", effort + whole)
    return ", ".join(part for part in parts if part)
