"""A content folder to the checked series, all problems of all files at once."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from pathlib import Path

from sitegen.content.captions import Cue
from sitegen.content.files import FileResult, digest_of, read_file
from sitegen.content.folder import Inventory, take_inventory
from sitegen.content.library import Linker
from sitegen.content.memory import Memory
from sitegen.content.source import locate
from sitegen.model import Series
from sitegen.parallel import map_in_chunks
from sitegen.problems import ContentError, Problem, in_order


@dataclass(frozen=True, slots=True, kw_only=True)
class Content:
    """A read folder: the series where there is one, and every problem found while reading."""

    series: Series | None
    problems: tuple[Problem, ...]
    cues: dict[str, tuple[Cue, ...]]
    """Caption cues by file."""


def read_series(folder: Path) -> Series:
    """The series of a content folder. Raises ContentError with every problem."""
    content = read_content(folder)
    bad = [p for p in content.problems if p.severity == "problem"]
    if bad or content.series is None:
        raise ContentError(bad)
    return content.series


def read_content(folder: Path, memory: Memory | None = None, jobs: int = 1) -> Content:
    """Read a folder; files that ``memory`` knows unchanged are not read again.

    Raises ContentError only where there is no series at all to speak of.
    """
    inventory = take_inventory(folder)
    memory = memory if memory is not None else Memory()
    results = _results(inventory, memory, list(inventory.texts()), jobs)
    captions = _results(inventory, memory, _captions_of(results, inventory), jobs)
    digests = {r.file: r.digest for r in (*results, *captions)}
    digests |= _media_digests(inventory, memory, results)
    linker = Linker(results, frozenset(inventory.stamps), digests)
    series = linker.link()
    problems = [*inventory.problems, *linker.problems]
    problems += [problem for result in (*results, *captions) for problem in result.problems]
    return Content(
        series=series,
        problems=tuple(in_order(locate_all(problems, inventory.data))),
        cues={r.file: r.value for r in captions if r.value is not None},
    )


def _results(
    inventory: Inventory, memory: Memory, wanted: list[tuple[str, str]], jobs: int
) -> list[FileResult]:
    """File results in the order wanted, from memory or read now."""
    missing = [(kind, file) for kind, file in wanted if memory.recall(kind, file, inventory.stamps[file]) is None]

    def read(pair: tuple[str, str]) -> FileResult:
        return _read(inventory, *pair)

    for result in map_in_chunks(read, missing, jobs):
        memory.keep(result.kind, result.file, inventory.stamps[result.file], result)
    return [memory.recall(kind, file, inventory.stamps[file]) for kind, file in wanted]


def _read(inventory: Inventory, kind: str, file: str) -> FileResult:
    try:
        return read_file(kind, file, inventory.data(file))
    except OSError as error:
        reason = error.strerror or str(error)
        problem = Problem(
            severity="problem",
            check="unreadable",
            file=file,
            message=f"the file cannot be read ({reason})",
            advice="check that it exists and that you may read it",
        )
        return FileResult(kind, file, "", None, (problem,))


def _captions_of(results: Iterable[FileResult], inventory: Inventory) -> list[tuple[str, str]]:
    files = {r.value.get("captions") for r in results if r.kind == "episodes" and r.value is not None}
    return [("captions", file) for file in sorted(f for f in files if f) if file in inventory.stamps]


def _media_digests(inventory: Inventory, memory: Memory, results: Iterable[FileResult]) -> dict[str, str]:
    """Fingerprints of the media files that are used."""
    digests = {}
    for file in sorted(_media_of(results) & inventory.stamps.keys()):
        stamp = inventory.stamps[file]
        digest = memory.recall("media", file, stamp)
        if digest is None:
            digest = digest_of(inventory.data(file))
            memory.keep("media", file, stamp, digest)
        digests[file] = digest
    return digests


def _media_of(results: Iterable[FileResult]) -> set[str]:
    files: set[str] = set()
    for result in results:
        if result.value is None:
            continue
        if result.kind == "episodes":
            video, poster = result.value.get("video"), result.value.get("poster")
            files |= {video.file} if video and video.file else set()
            files |= {poster.file} if poster else set()
        elif result.kind == "exercises":
            owners = [result.value, *result.value.get("variants", ())]
            files |= {picture.file for owner in owners for picture in owner.get("pictures", ())}
    return files


def locate_all(problems: Iterable[Problem], read: Callable[[str], bytes]) -> list[Problem]:
    """Fill in the lines of problems that know only their spot."""
    located = []
    for problem in problems:
        if problem.line is None and problem.spot is not None:
            try:
                at = locate(read(problem.file), problem.spot)
            except OSError:
                at = None
            if at is not None:
                problem = replace(problem, line=at[0], column=at[1])
        located.append(problem)
    return located
