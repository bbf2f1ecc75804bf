"""A build from beginning to end: read, check, plan, write."""

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from sitegen.checks import Material, warnings
from sitegen.content.memory import Memory
from sitegen.content.reader import Content, locate_all, read_content
from sitegen.model import Series
from sitegen.output import Workshop, Written, write_site
from sitegen.output.page import Page
from sitegen.output.writer import Progress
from sitegen.pages.plan import plan_site
from sitegen.pages.site import Site
from sitegen.pages.theme import Theme
from sitegen.parallel import usable_cores
from sitegen.problems import ContentError, Problem, in_order
from sitegen.resources import code_fingerprint, themes_folder
from sitegen.state import cache_folder


@dataclass(frozen=True, slots=True, kw_only=True)
class Built:
    """What a build did."""

    series: Series
    written: Written
    warnings: tuple[Problem, ...]


class Builder:
    """Builds one content folder into one site; keeps what it read between builds."""

    def __init__(self, content: Path, out: Path, *, jobs: int | None = None) -> None:
        self.content = content
        self.out = out
        self.jobs = jobs or usable_cores()
        self._code = code_fingerprint()
        self._cache = cache_folder(out)
        self._memory = Memory.load(self._cache / "memory", self._code)

    def build(self, progress: Progress | None = None) -> Built:
        """Bring the site up to date.

        Raises ContentError where the content has problems, Busy where another build runs and
        OSError where the disk refuses; the site is then as it was.
        """
        with Workshop(self.out) as workshop:
            content = self._read()
            series = _series_or_raise(content)
            pages = self.plan(content)
            written = write_site(workshop, pages, jobs=self.jobs, progress=progress)
        return Built(series=series, written=written, warnings=tuple(self._warnings(content)))

    def _read(self) -> Content:
        content = read_content(self.content, self._memory, self.jobs)
        if self._memory.changed:
            self._memory.save(self._cache / "memory", self._code)
            self._memory.changed = False
        return content

    def plan(self, content: Content) -> list[Page]:
        """Every page of the site of a read folder."""
        series = _series_or_raise(content)
        theme = Theme(self._theme_folder(series.details.theme), series.details.language, self._cache)
        return plan_site(Site(series, content.cues, theme, self._code), self.content)

    def _theme_folder(self, name: str) -> Path:
        """A theme beside the content folder, or one that comes with the program."""
        folders = [self.content.parent / "themes" / name, themes_folder() / name]
        found = next((folder for folder in folders if (folder / "templates").is_dir()), None)
        if found is None:
            message = f"there is no theme {name!r}"
            advice = "leave theme: out for the usual one"
            raise ContentError([Problem(severity="problem", check="no-theme", file="series.yaml", message=message, advice=advice)])
        return found

    def _warnings(self, content: Content) -> Iterable[Problem]:
        soft = [p for p in content.problems if p.severity == "warning"]
        if content.series is not None:
            soft += warnings(Material(content.series, content.cues))
        return in_order(locate_all(soft, lambda file: (self.content / file).read_bytes()))


def _series_or_raise(content: Content) -> Series:
    bad = [p for p in content.problems if p.severity == "problem"]
    if bad or content.series is None:
        raise ContentError(bad)
    return content.series
