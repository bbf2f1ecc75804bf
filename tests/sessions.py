"""Short sessions in a series folder, written as a trainer would, for tests of numbers about many sessions."""

from pathlib import Path

from tests.folders import SeriesFolder

STARTER_SCHEDULE = "schedule:\n  start: 2027-01-04\n  days: [monday, thursday]\n"


class SessionFolder(SeriesFolder):
    """The starter's library without its episode; sessions of one strength block are added."""

    def __init__(self, root: Path, *, schedule: str = STARTER_SCHEDULE, more: str = "") -> None:
        super().__init__(root)
        (self.root / "episodes" / "01-first-steps.yaml").unlink()
        self.edit("series.yaml", STARTER_SCHEDULE, schedule + more)

    def session(
        self, number: int, *items: str, sets: str = "3", kind: str = "strength", head: str = ""
    ) -> str:
        """Write one; items are in short form, such as ``backpack-row, dose: 8``. Gives its file."""
        file = f"episodes/{number:02d}-session-{number}.yaml"
        lines = [
            f"title: Session {number}",
            f"number: {number}",
            *filter(None, head.split("\n")),
            "blocks:",
            "  - name: Work",
            f"    kind: {kind}",
            "    format: straight sets",
            "    at: 0:10",
            "    your_turn: 0:20",
            f"    sets: {sets}",
            "    items:",
            *(f"      - {{exercise: {item}}}" for item in items),
        ]
        self.write(file, "\n".join([*lines, ""]))
        return file

    def line(self, file: str, words: str) -> int:
        """The line on which words stand."""
        return (self.root / file).read_text().split(words)[0].count("\n") + 1

    def said(self, *checks: str) -> list[str]:
        """Place and message of the warnings of some checks."""
        return [f"{p.place}: {p.message}" for p in self.problems("warning") if p.check in checks]

    def advice(self, *checks: str) -> list[str]:
        """What the warnings of some checks advise."""
        return [problem.advice for problem in self.problems("warning") if problem.check in checks]
