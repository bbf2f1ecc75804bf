"""A content folder to the checked series, all problems of all files at once."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from sitegen.model import Series
from sitegen.problems import ContentError, Problem, in_order
from sitegen.reading.captions.cues import Cue
from sitegen.reading.files import FileResult, digest_of_file, read_file, unreadable
from sitegen.reading.folder import Inventory, take_inventory
from sitegen.reading.lengths import fill_in_lengths
from sitegen.reading.linking import Linker
from sitegen.reading.own_pictures import fill_in_sizes
from sitegen.reading.read_cache import ReadCache
from sitegen.reading.shared_library import open_library
from sitegen.reading.source import locate
from sitegen.system.noted_reads import note
from sitegen.system.parallel import map_in_chunks


class CueShelf(Mapping[str, tuple[Cue, ...]]):
    """Caption cues by file, opened when asked for."""

    def __init__(self, results: Iterable[FileResult]) -> None:
        self._results = {result.file: result for result in results if result.usable}

    def __getitem__(self, file: str) -> tuple[Cue, ...]:
        note(f"cues {file}")
        cues: tuple[Cue, ...] = self._results[file].value
        return cues

    def __iter__(self) -> Iterator[str]:
        return iter(self._results)

    def __len__(self) -> int:
        return len(self._results)


@dataclass(frozen=True, slots=True, kw_only=True)
class Content:
    """A read folder: the series where there is one, and every problem found while reading."""

    series: Series | None
    problems: tuple[Problem, ...]
    cues: Mapping[str, tuple[Cue, ...]]
    """Caption cues by file."""
    library: str
    """Fingerprint of what every episode may rest on: exercises, routines, series.yaml."""
    habits: int = 0
    """How many values of its own files are understood, but written otherwise than documented."""
    shared: Path | None = None
    """The folder of the library shared with other series, whether it can be read or not; None without one."""


def read_series(folder: Path) -> Series:
    """The series of a content folder. Raises ContentError with every problem."""
    content = read_content(folder)
    bad = [p for p in content.problems if p.severity == "problem"]
    if bad or content.series is None:
        raise ContentError(bad)
    return content.series


def read_content(folder: Path, memory: ReadCache | None = None, jobs: int = 1) -> Content:
    """Read a folder; files that ``memory`` knows unchanged are not read again.

    Raises ContentError only where there is no series at all to speak of.
    """
    inventory = take_inventory(folder)
    memory = memory if memory is not None else ReadCache()

    def read(inventory: Inventory, wanted: list[tuple[str, str]]) -> list[FileResult]:
        return _results(inventory, memory, wanted, jobs)

    own = read(inventory, list(inventory.texts()))
    shared = open_library(inventory, next(r for r in own if r.kind == "series"), own, read)
    results = [*own, *(shared.results if shared else ())]
    named = {result.captions for result in results if result.captions}
    files = [("captions", file) for file in sorted(named & inventory.stamps.keys())]
    captions = _results(inventory, memory, files, jobs)
    digests = {r.file: r.digest for r in (*results, *captions)}
    digests |= _media_digests(inventory, memory, results)
    linker = Linker(results, frozenset(inventory.stamps), digests, memory.linked, shared)
    series = linker.link()
    linked = linker.linked()
    if linked is not None:
        memory.linked = linked
    problems = [*inventory.problems, *linker.problems, *(shared.problems if shared else ())]
    if series is not None:
        series = fill_in_lengths(series, inventory, memory, problems)
        series = fill_in_sizes(series, inventory, problems)
    problems += [problem for result in (*results, *captions) for problem in result.problems]
    return Content(
        series=series,
        problems=tuple(in_order(locate_all(problems, inventory.data))),
        cues=CueShelf(captions),
        library=linker.library,
        habits=sum(result.habits for result in own),
        shared=folder / shared.library.folder if shared else None,
    )


def _results(
    inventory: Inventory, memory: ReadCache, wanted: list[tuple[str, str]], jobs: int
) -> list[FileResult]:
    """File results in the order wanted, from memory or read now."""
    stamps = inventory.stamps
    # What did not change since it was read is not read again.
    known = {pair: memory.recall(*pair, stamps[pair[1]]) for pair in wanted}
    missing = [pair for pair, result in known.items() if result is None]

    def read(pair: tuple[str, str]) -> FileResult:
        kind, file = pair
        try:
            return read_file(kind, file, inventory.data(file))
        except OSError as error:
            return unreadable(kind, file, error.strerror or str(error))

    for result in map_in_chunks(read, missing, jobs):
        known[result.kind, result.file] = result
        memory.keep(result.kind, result.file, stamps[result.file], result, read_ns=inventory.taken_ns)
    return [known[pair] for pair in wanted]


def _media_digests(inventory: Inventory, memory: ReadCache, results: Iterable[FileResult]) -> dict[str, str]:
    """Fingerprints of the media files that are used."""
    digests = {}
    used = {file for result in results for file in result.media}
    for file in sorted(used & inventory.stamps.keys()):
        stamp = inventory.stamps[file]
        digest = memory.recall("media", file, stamp)
        if digest is None:
            digest = digest_of_file(inventory.root / file)
            memory.keep("media", file, stamp, digest, read_ns=inventory.taken_ns)
        digests[file] = digest
    return digests


def locate_all(problems: Iterable[Problem], read: Callable[[str], bytes]) -> list[Problem]:
    """Fill in the lines of problems that know only their location."""
    located = []
    for problem in problems:
        if problem.line is None and problem.location is not None:
            try:
                at = locate(read(problem.file), problem.location)
            except OSError:
                at = None
            if at is not None:
                problem = replace(problem, line=at[0], column=at[1])
        located.append(problem)
    return located
