"""A library shared by several series: the content folder of one of them, read in place and never written to.

Exercises, shared blocks, and of its series.yaml the kit, muscles, demands, needs, cautions and reasons to
stop come along. What the series has of its own under the same id or name is taken instead.

Its files are known by the way from the content folder (``../../harbour/content/exercises/towel-row.yaml``),
so that every message names the file to open.
"""

import os
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Any

from sitegen.model import Details, Picture, SharedLibrary
from sitegen.problems import Location, Problem, found
from sitegen.reading.files import FileResult, digest_of
from sitegen.reading.folder import SERIES_FILE, Inventory, id_of, take_library

Read = Callable[[Inventory, list[tuple[str, str]]], list[FileResult]]
"""Gives the results of files of an inventory, from memory or read now."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenLibrary:
    """A library that was read."""

    library: SharedLibrary
    details: Details | None
    """What its series.yaml says; None where that cannot be used."""
    results: tuple[FileResult, ...]
    """Its series.yaml, and what the series has not of its own."""
    problems: tuple[Problem, ...]


def open_library(
    inventory: Inventory, series: FileResult, own: Iterable[FileResult], read: Read
) -> OpenLibrary | None:
    """The library that a series.yaml names; its files are added to the inventory. None where it names none.

    One that cannot be used is a problem of series.yaml, and an empty library.
    """
    folder = series.library
    if not folder:
        return None
    if refused := _refused(inventory, folder):
        empty = SharedLibrary(folder=folder, version="", files={})
        return OpenLibrary(library=empty, details=None, results=(), problems=(refused,))
    there = take_library(inventory.root / folder)
    inventory.stamps.update({f"{folder}/{file}": stamp for file, stamp in there.stamps.items()})
    results = read(inventory, [(kind, f"{folder}/{file}") for kind, file in there.texts()])
    files = {result.file.removeprefix(f"{folder}/"): result.digest for result in results}
    problems = [replace(one, file=f"{folder}/{one.file}") for one in there.problems]
    if any(result.library for result in results):
        message = "this library reads another library itself"
        advice = f"name that one under library: in {SERIES_FILE}, and copy what is not in it"
        problems.append(_problem(Location(f"{folder}/{SERIES_FILE}", ("library",)), message, advice))
    # What the series has of its own comes before what the library has.
    taken = {(result.kind, id_of(result.file)) for result in own}
    used = [
        _with_its_pictures(result, folder)
        for result in results
        if result.kind == "series" or (result.kind, id_of(result.file)) not in taken
    ]
    details = next((result.value for result in results if result.kind == "series" and result.usable), None)
    return OpenLibrary(
        library=SharedLibrary(folder=folder, version=version_of(files), files=files),
        details=details,
        results=tuple(used),
        problems=tuple(problems),
    )


def version_of(files: Mapping[str, str]) -> str:
    """The version of a library by the fingerprints of its files: those of its exercises, shared blocks and
    series.yaml, by path; others among them do not count."""
    counted = [
        f"{file}\0{digest}"
        for file, digest in sorted(files.items())
        if file == SERIES_FILE or file.partition("/")[0] in ("exercises", "routines")
    ]
    return digest_of("\n".join(counted).encode())[:8]


def _refused(inventory: Inventory, folder: str) -> Problem | None:
    """Why a folder cannot be the library of a content folder; None where it can."""
    place, location = inventory.root / folder, Location(SERIES_FILE, ("library",))
    if not (place / SERIES_FILE).is_file():
        what = f"there is no {SERIES_FILE} in" if place.is_dir() else "there is no folder"
        advice = "write the way from this content folder to that of another series"
        return _problem(location, f"{what} {folder}", advice)
    content, library = os.path.realpath(inventory.root), os.path.realpath(place)
    if os.path.commonpath((content, library)) in (content, library):
        advice = "a library is the content folder of another series, beside this one"
        return _problem(location, f"{folder} and the content folder lie in one another", advice)
    return None


def _problem(location: Location, message: str, advice: str) -> Problem:
    return found("problem", "library", location, message, advice)


def _with_its_pictures(result: FileResult, folder: str) -> FileResult:
    """An exercise's file whose pictures are known by the way from the content folder too."""
    if result.kind != "exercises" or not result.media:
        return result

    def placed(owner: Mapping[str, Any]) -> dict[str, Any]:
        pictures: tuple[Picture, ...] = owner.get("pictures", ())
        there = tuple(replace(one, file=f"{folder}/{one.file}") for one in pictures)
        return {**owner, "pictures": there} if pictures else dict(owner)

    value = placed(result.value)
    if "variants" in value:
        value["variants"] = tuple(map(placed, value["variants"]))
    return replace(result, media=tuple(f"{folder}/{file}" for file in result.media), value=value)


def with_library(own: Details, library: OpenLibrary) -> Details:
    """What a series says, with what its library says beside it."""
    other = library.details
    if other is None:
        return own
    there = Location(f"{library.library.folder}/{SERIES_FILE}")
    taken_over: dict[tuple[str, str | int], Location] = {
        (name, key): there.at(name, key)
        for name in ("kit", "muscles", "demands", "needs")
        for key in getattr(other, name)
        if key not in getattr(own, name)
    }
    more = [(index, one) for index, one in enumerate(other.cautions) if one not in own.cautions]
    for place, (index, _) in enumerate(more, start=len(own.cautions)):
        taken_over["cautions", place] = there.at("cautions", index)
    return replace(
        own,
        kit={**other.kit, **own.kit},
        muscles={**other.muscles, **own.muscles},
        demands={**other.demands, **own.demands},
        needs={**other.needs, **own.needs},
        cautions=(*own.cautions, *(one for _, one in more)),
        call_if=own.call_if or other.call_if,
        stop_if=own.stop_if or other.stop_if,
        emergency_number=own.emergency_number or other.emergency_number,
        taken_over=taken_over,
    )
