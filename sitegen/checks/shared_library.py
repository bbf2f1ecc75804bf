"""What a trainer should know of the library that her series shares with others."""

from collections.abc import Iterator

from sitegen.checks.material import Material
from sitegen.problems import Problem, found


def check_version(material: Material) -> Iterator[Problem]:
    """The library is another one than when the trainer last looked the series over."""
    details, library = material.series.details, material.series.library
    noted = details.library.version if details.library else ""
    if library is not None and noted and noted != library.version:
        message = f"the shared library is version {library.version} now; {noted} is noted here"
        advice = f"look at what it changes in this series, then write version: {library.version}"
        yield found("warning", "library-changed", details.location.at("library", "version"), message, advice)


def check_own_instead(material: Material) -> Iterator[Problem]:
    """An exercise of the series in whose place the library has one too: what is mended there is not here."""
    library = material.series.library
    for exercise in material.series.exercises.values():
        if library is not None and exercise.location.file in library.files:
            message = f"the shared library has {exercise.location.file} too; the one of this series is used"
            advice = "delete the one here, or write silence: {own-instead: the reason}"
            yield found("warning", "own-instead", exercise.location.at("name"), message, advice)
