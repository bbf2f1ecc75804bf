"""What is wrong in a theme's templates, told with file and line, as everything else is."""

import re
import traceback
from collections.abc import Iterator, Sequence
from pathlib import Path

from jinja2 import Environment, TemplateError, TemplateNotFound, TemplateSyntaxError, UndefinedError

from sitegen.pages.theme_files import problem, shown
from sitegen.problems import ContentError, Problem

# How Jinja says that a template names what is not there; the name is told to the trainer.
_LACKING = re.compile(r"has no (?:attribute|element) '?([^']+)'?$")


def syntax_problems(
    environment: Environment, names: Sequence[str], folders: Sequence[Path]
) -> Iterator[Problem]:
    """Every template that cannot be read, all of them at once."""
    for name in names:
        try:
            environment.get_template(name)
        except TemplateSyntaxError as error:
            yield _of_syntax(error, folders)


def template_fault(error: Exception, folders: Sequence[Path]) -> ContentError | None:
    """What a template did wrong; None where no template is to blame for an error."""
    if isinstance(error, TemplateSyntaxError):
        return ContentError([_of_syntax(error, folders)])
    place = _place(error, folders)
    if place is None:
        return None
    file, line = place
    return ContentError([problem(file, line, *_words(error))])


def _of_syntax(error: TemplateSyntaxError, folders: Sequence[Path]) -> Problem:
    file = shown(error.filename, folders) if error.filename else f"templates/{error.name}"
    return problem(file, error.lineno, f"this is no template: {error.message}", "put the line right")


def _place(error: Exception, folders: Sequence[Path]) -> tuple[str, int] | None:
    """File and line of the template that was at work last (jinja2 puts its templates into the traceback)."""
    for frame in reversed(traceback.extract_tb(error.__traceback__)):
        if any(Path(frame.filename).is_relative_to(folder) for folder in folders):
            return shown(frame.filename, folders), frame.lineno or 1
    return None


def _words(error: Exception) -> tuple[str, str]:
    """Message and advice."""
    if isinstance(error, TemplateNotFound):
        return (
            f"there is no template {error.name!r}",
            "correct the name; a theme's templates lie in templates/",
        )
    if isinstance(error, UndefinedError):
        lacking = _LACKING.search(error.message or "")
        name = lacking[1] if lacking else (error.message or "").removesuffix(" is undefined").strip("'")
        advice = "correct it; what a template is given is in the one of that name in tidewater"
        return f"there is nothing called {name!r} here", advice
    if isinstance(error, TemplateError):
        return f"the template cannot be filled in: {error.message}", "put the line right"
    return f"the template asks for what cannot be had: {error}", "put the line right"
