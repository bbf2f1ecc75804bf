"""Kit of which nobody wrote whether it is a load, where a need limits what is held."""

import pytest

from sitegen.reading.reader import read_series
from sitegen.study.forms import forms_of
from sitegen.study.suitability import Suitability
from tests.checks.library_folder import LibraryFolder, said

LIMIT = "arm: {name: Sore arm, limits: {load: 4 kg}}"
SHARE = "arm: {name: Sore arm, limits: {load: 50 %}}"


def bell(library: LibraryFolder, need: str, told: str) -> None:
    """A bell in the kit, an exercise with it and a variant without, and somebody with a need."""
    library.edit("series.yaml", "  backpack: {", f"  bell: {{name: Bell{told}}}\n  backpack: {{")
    library.edit("series.yaml", "  no-jumping:", f"  {need}\n  no-jumping:")
    library.exercise(
        "swing",
        "kit: [bell]\ndemands: [standing]\nvariants:\n"
        "  - {id: free, name: Free swing, change: regression, kit: []}",
    )
    library.use("swing")


def given(library: LibraryFolder, need: str = "arm") -> str | None:
    series = read_series(library.root)
    suitable = Suitability(series.details, forms_of(series.exercises))
    session = suitable.session(series.episodes[1], [need])
    return session[0][0].form.name if session[0][0] else None


@pytest.mark.parametrize("need", [LIMIT, SHARE, "arm: {name: Sore arm, limits: {load: none}}"])
def test_a_limit_on_the_load_cannot_be_kept_with_it(library: LibraryFolder, need: str) -> None:
    bell(library, need, "")

    assert given(library) == "Free swing"
    assert given(library, "no-jumping") == "Swing"
    [problem] = library.warnings("untold-load")
    line = library.line_of("series.yaml", "bell: {name: Bell")
    message = "nothing says whether 'Bell' is a load, so what takes it is given to nobody with: Sore arm"
    assert said([problem]) == [("series.yaml", line, message)]
    assert problem.advice.startswith("under bell write load: no if it is none")


@pytest.mark.parametrize("told", [", load: no", ", weighs: [2 kg]"], ids=["no load", "a light weight"])
def test_what_is_told_keeps_the_limit(library: LibraryFolder, told: str) -> None:
    bell(library, LIMIT, told)

    assert given(library) == "Swing"
    assert library.warnings("untold-load") == []


def test_a_variant_that_says_how_much_is_held_keeps_the_limit(library: LibraryFolder) -> None:
    bell(library, LIMIT, "")
    library.edit("exercises/swing.yaml", "change: regression, kit: []", "change: regression, most_load: 3 kg")

    assert given(library) == "Free swing"
    library.edit("exercises/swing.yaml", "most_load: 3 kg", "most_load: 5 kg")
    series = read_series(library.root)
    suitable = Suitability(series.details, forms_of(series.exercises))
    [(found,)] = suitable.session(series.episodes[1], ["arm"])
    assert found is not None
    assert (found.form.name, found.most_kg, found.limited) == ("Free swing", 4.0, ("light",))


def test_nobody_is_told_of_it_where_no_need_limits_the_load(library: LibraryFolder) -> None:
    bell(library, "arm: {name: Sore arm, avoids: [jumping]}", "")

    assert library.warnings("untold-load") == []


def test_no_load_and_a_weight_at_once_is_a_problem(library: LibraryFolder) -> None:
    library.edit("series.yaml", "Sturdy chair, load: no,", "Sturdy chair, load: no, holds: 3 kg,")

    [problem] = library.problems()
    assert problem.message == "it has holds: and is said to be no load"
    assert problem.advice == "leave load: no out, or holds:"
