"""A small valid series in a folder of its own, for tests to spoil."""

import shutil
from pathlib import Path

from sitegen.checks import check_read
from sitegen.problems import ContentError, Problem
from sitegen.reading.reader import read_content
from sitegen.resources import starter_folder


def check_content(folder: Path) -> list[Problem]:
    """Every problem and warning of a content folder. Raises ContentError where there is no series."""
    return check_read(read_content(folder), folder)


class SeriesFolder:
    """The starter series, copied; ``edit`` and ``write`` change it."""

    def __init__(self, root: Path) -> None:
        self.root = root / "content"
        shutil.copytree(starter_folder(), self.root)

    def write(self, file: str, text: str | bytes) -> None:
        """Write a file, making its folder."""
        path = self.root / file
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(text.encode() if isinstance(text, str) else text)

    def edit(self, file: str, old: str, new: str) -> None:
        """Replace words that are there exactly once."""
        text = (self.root / file).read_text()
        if text.count(old) != 1:
            raise AssertionError(f"{old!r} is {text.count(old)} times in {file}")
        self.write(file, text.replace(old, new))

    def spoil(self, file: str, old: str, new: str) -> tuple[int, int] | None:
        """Edit; gives line and column of the ``¦`` in ``new``, which is not written."""
        self.edit(file, old, new)
        text = (self.root / file).read_text()
        before, mark, after = text.partition("¦")
        if not mark:
            return None
        self.write(file, before + after)
        return before.count("\n") + 1, len(before) - before.rfind("\n")

    def make_own(self) -> None:
        """Replace the starter's texts, which are never published."""
        text = (self.root / "series.yaml").read_text()
        for old, new in (
            ("title: My series", "title: Steps at home"),
            ("Say in a sentence or two what the series is and whom it is for.", "Steps for everybody."),
            ("https://series.example/", "https://steps.example/"),
            ("Your name", "Robin Vale"),
            ("Who you are and how you work.", "Robin walks."),
            ("# emergency_number:", "emergency_number:"),
        ):
            if old not in text:
                raise AssertionError(f"{old!r} is not in series.yaml")
            text = text.replace(old, new)
        self.write("series.yaml", text)
        example = "episodes/01-first-steps.yaml"
        self.write(example, (self.root / example).read_text() + "# My own.\n")

    def problems(self, severity: str = "problem") -> list[Problem]:
        """What a check finds."""
        try:
            found = check_content(self.root)
        except ContentError as error:
            found = error.problems
        return [problem for problem in found if problem.severity == severity]
