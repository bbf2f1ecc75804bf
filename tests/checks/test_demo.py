"""What the checks have to say of the demo: nothing that its trainer did not settle."""

from sitegen.model import Series
from sitegen.problems import Problem


def test_the_demo_is_sensible(demo_warnings: list[Problem]) -> None:
    """Nothing keeps it from being built, and every number keeps the bounds its trainer set, but for what is
    silenced with a reason."""
    assert [str(p) for p in demo_warnings if p.severity == "problem"] == []
    mine = {
        "session-time", "volume-low", "volume-high", "push-pull", "volume-rise", "recovery", "calendar",
        "released-late", "calendar-changed",
    }  # fmt: skip
    assert [str(p) for p in demo_warnings if p.check in mine] == []

    # It serves every need.
    about_needs = ("gap", "choice-limits", "limit-low", "need-unserved", "purpose-lost")
    assert [str(problem) for problem in demo_warnings if problem.check in about_needs] == []

    # Times and doses of the demo were written apart from what is heard in its captions.
    about_talk = ("chapter-off", "dose-said")
    assert [str(problem) for problem in demo_warnings if problem.check in about_talk] == []


def test_the_page_about_kit_has_every_piece(demo_series: Series) -> None:
    """It is in the trainer's own words, so a piece that is added later could be missing."""
    [page] = [page for page in demo_series.pages if page.slug == "kit-from-the-kitchen"]
    rows = [line.lower() for line in page.text.splitlines() if line.startswith("|")]

    missing = [
        piece.name
        for piece in demo_series.details.kit.values()
        if not any(piece.name.lower() in row for row in rows)
    ]
    assert missing == []
