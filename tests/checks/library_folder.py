"""The starter series with exercises written again, for tests of the checks on the library."""

from sitegen.problems import Problem
from tests.folders import SeriesFolder


class LibraryFolder(SeriesFolder):
    """A series folder whose warnings can be asked for by the name of their check."""

    def exercise(self, name: str, text: str) -> str:
        """Write an exercise with what every exercise needs besides; gives its file."""
        file = f"exercises/{name}.yaml"
        usual = {
            "name": name.replace("-", " ").capitalize(),
            "pattern": "isolation",
            "muscles": "{prime: [abdominals]}",
        }
        lines = [
            f"{key}: {value}"
            for key, value in usual.items()
            if f"{key}: " not in f"\n{text}".split("variants:")[0]
        ]
        self.write(file, "\n".join([*lines, text, ""]))
        return file

    def use(self, *exercises: str, dose: str = "8") -> None:
        """Show these exercises in an episode of their own."""
        items = "".join(f"      - {{exercise: {exercise}, dose: {dose}}}\n" for exercise in exercises)
        self.write(
            "episodes/02-more.yaml",
            "title: More\nnumber: 2\nblocks:\n"
            "  - name: All of them\n    kind: strength\n    format: straight sets\n    at: 0:10\n    items:\n"
            + items,
        )

    def plans(self, count: int) -> None:
        """Add episodes of which nothing is decided yet."""
        for number in range(11, 11 + count):
            self.write(
                f"episodes/{number}-later-{number}.yaml",
                f"title: Later {number}\nnumber: {number}\nblocks:\n",
            )

    def warnings(self, *checks: str) -> list[Problem]:
        """Those of the given checks."""
        return [problem for problem in self.problems("warning") if problem.check in checks]

    def line_of(self, file: str, words: str) -> int:
        """The first line that holds these words."""
        lines = (self.root / file).read_text().splitlines()
        return next(number for number, line in enumerate(lines, start=1) if words in line)


def said(problems: list[Problem]) -> list[tuple[str, int | None, str]]:
    """File, line and message of each."""
    return [(problem.file, problem.line, problem.message) for problem in problems]
