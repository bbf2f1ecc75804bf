"""What came back of several clients, as one page for their trainer. It stays on the trainer's computer."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from itertools import starmap

from sitegen.clients.came_back import CameBack, FormCourse
from sitegen.clients.log_text import (
    CARE,
    asked_words,
    change_words,
    day_of,
    day_words,
    done_words,
    entry_words,
    missed_words,
    step_words,
    test_lines,
    title_of,
    trouble_words,
)
from sitegen.clients.next_steps import NextStep
from sitegen.pages.client.charts import HEIGHT, WIDTH, ChartRow, chart_of
from sitegen.pages.one_file import inlined_style
from sitegen.pages.site import Site

STYLES = ("styles/site.css", "client/came_back.css")


@dataclass(frozen=True, slots=True, kw_only=True)
class CourseView:
    """One exercise: its chart, and every day in words."""

    name: str
    asked: str
    chart: tuple[ChartRow, ...]
    days: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PersonView:
    """One client."""

    id: str
    name: str
    done: str
    share: float | None
    """Of what is due, from 0 to 1; None where nothing is."""
    troubles: tuple[str, ...]
    unsure: tuple[str, ...]
    remarks: tuple[str, ...]
    steps: tuple[tuple[str, bool], ...]
    """What next, and whether something is proposed."""
    tests: tuple[str, ...]
    easier: tuple[str, ...]
    harder: tuple[str, ...]
    missed: tuple[str, ...]
    left_out: tuple[str, ...]
    courses: tuple[CourseView, ...]


def came_back_page(
    site: Site, backs: Sequence[tuple[CameBack, tuple[NextStep, ...]]], refused: Sequence[str], today: date
) -> bytes:
    """The page. ``refused``: a line for each file that was not read."""
    # Who had pain or was dizzy comes first, then by name.
    people = sorted(starmap(_person, backs), key=lambda one: (not one.troubles, one.name, one.id))
    template = site.theme.environment.get_template("came_back.html")
    return template.render(
        site.context(
            "came-back.html",
            people=people,
            refused=refused,
            care=CARE,
            day=day_words(today),
            size=(WIDTH, HEIGHT),
            style=inlined_style(site.theme, STYLES),
        )
    ).encode()


def _person(back: CameBack, steps: Sequence[NextStep]) -> PersonView:
    through = {one.key for one in back.done}
    due = [one.key in through for one in back.due]
    return PersonView(
        id=back.client.id,
        name=back.client.name,
        done=done_words(back),
        share=sum(due) / len(due) if due else None,
        troubles=tuple(f"{day_of(one.sitting)} {one.title}: {trouble_words(one)}" for one in back.troubles),
        unsure=back.unsure,
        remarks=tuple(f"{day_of(one)} {title_of(back, one)}: {one.text}" for one in back.remarks),
        steps=tuple((step_words(step), step.proposal is not None) for step in steps),
        tests=tuple(test_lines(back)),
        easier=tuple(map(change_words, back.easier)),
        harder=tuple(map(change_words, back.harder)),
        missed=tuple(map(missed_words, back.missed)),
        left_out=tuple(
            f"{day_of(one)} {title_of(back, one)}: {', '.join(names)}" for one, names in back.left_out
        ),
        courses=tuple(map(_course, back.courses)),
    )


def _course(course: FormCourse) -> CourseView:
    return CourseView(
        name=course.name,
        asked=asked_words(course),
        chart=chart_of(course),
        days=tuple((day_words(entry.day), entry_words(entry)) for entry in course.entries),
    )
