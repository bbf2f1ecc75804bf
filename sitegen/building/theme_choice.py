"""Which theme a series is built with, tried before anything is made from it."""

from pathlib import Path

from sitegen.model import Details
from sitegen.pages.theme import Theme
from sitegen.problems import ContentError, found
from sitegen.reading.reader import locate_all
from sitegen.resources import themes_folder

BASE = "tidewater"
"""What another theme leaves out comes from this one."""


def chosen_theme(content: Path, details: Details, cache: Path | None = None) -> Theme:
    """The theme of a series, in its colours. Raises ContentError where it, or a colour, will not do."""
    folder, base = _folder(content, details), themes_folder() / BASE
    own = folder != base
    theme = Theme(folder, details.language, cache, below=[base] if own else [], look=details.look)
    problems = list(theme.palette.problems(details))
    if problems:
        raise ContentError(locate_all(problems, lambda file: (content / file).read_bytes()))
    theme = _kept(theme, cache)
    if own:  # the program's own is tried by its tests
        theme.check()
    return theme


_KEPT: dict[tuple[object, ...], Theme] = {}
"""Themes of this process: an unchanged one keeps its strings and loaded templates for the next build."""
_MOST_KEPT = 4
"""A preview has one at a time; tests and benchmarks build several series in turn."""


def _kept(theme: Theme, cache: Path | None) -> Theme:
    """The theme as it is already known, where nothing of it has changed."""
    key = (theme.digest, theme.files.folders, cache)
    known = _KEPT.pop(key, theme)
    while len(_KEPT) >= _MOST_KEPT:
        del _KEPT[next(iter(_KEPT))]
    _KEPT[key] = known
    return known


def _folder(content: Path, details: Details) -> Path:
    """A theme beside the content folder, or one that comes with the program."""
    beside, shipped = content.parent / "themes", themes_folder()
    for themes in (beside, shipped):
        if (themes / details.theme).is_dir():
            return themes / details.theme
    message = f"there is no theme {details.theme!r}"
    advice = f"make a folder {details.theme} in {beside}, or leave theme: out for the usual one"
    problem = found("problem", "no-theme", details.location.at("theme"), message, advice)
    raise ContentError(locate_all([problem], lambda file: (content / file).read_bytes()))
