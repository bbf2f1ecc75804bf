"""Demands: the known words, those a series declares, and where each word's sentence is to be read."""

from importlib.resources import files
from pathlib import Path

import pytest
import yaml

from sitegen.reading.reader import read_series
from sitegen.reading.schemas.json_schema import schemas
from sitegen.study.forms import FormKey, forms_of
from sitegen.vocabulary import DEMANDS, UNSHOWN, UNTOLD
from tests.folders import SeriesFolder

SQUAT = "exercises/chair-squat.yaml"
GUIDE = Path(__file__).parents[2] / "content" / "README.md"


@pytest.fixture
def series(tmp_path: Path) -> SeriesFolder:
    return SeriesFolder(tmp_path)


def declare(series: SeriesFolder, word: str, sentence: str) -> None:
    series.edit("series.yaml", "units: metric ", f"demands: {{{word}: {sentence}}}\nunits: metric ")


def test_a_demand_of_the_series_own_may_be_used_and_avoided(series: SeriesFolder) -> None:
    declare(series, "cold water", "A hand or foot is in cold water")
    series.edit(
        SQUAT, "demands: [standing, deep knee bend]", "demands: [standing, deep knee bend, cold water]"
    )
    series.edit("series.yaml", "avoids: [standing, jumping,", "avoids: [standing, cold water, jumping,")

    assert series.problems() == []
    read = read_series(series.root)
    assert read.exercise("chair-squat").demands == ("standing", "deep knee bend", "cold water")
    assert read.details.needs["seated"].avoids[:2] == ("standing", "cold water")


UNTOLD_FORM = ("demands that are not written down",)
SOFT = "{id: soft, name: Soft, change: regression"
SITS = "poses: {hold: {base: seated}}"


@pytest.mark.parametrize(
    ("text", "main", "soft"),
    [
        pytest.param(f"variants:\n  - {SOFT}}}", UNTOLD_FORM, UNTOLD_FORM, id="neither words nor poses"),
        pytest.param(f"variants:\n  - {SOFT}, demands: []}}", UNTOLD_FORM, (), id="a variant with words"),
        pytest.param(f"variants:\n  - {SOFT}, {SITS}}}", UNTOLD_FORM, (UNSHOWN,), id="a variant with poses"),
        pytest.param(f"demands: []\nvariants:\n  - {SOFT}}}", (), (), id="written out: nothing"),
        pytest.param(f"{SITS}\nvariants:\n  - {SOFT}}}", (UNSHOWN,), (UNSHOWN,), id="poses that ask nothing"),
        pytest.param(f"demands: []\n{SITS}\nvariants:\n  - {SOFT}}}", (), (), id="poses, and an answer"),
        pytest.param(
            f"{SITS}\nvariants:\n  - {SOFT}, poses: {{hold: {{shoulders: 85, turn: 30}}}}}}",
            (UNSHOWN,),
            ("shoulder load", "twisting under load", UNSHOWN),
            id="poses that leave open whether a word with a speed applies",
        ),
        pytest.param(
            "variants:\n  - {id: soft, change: substitution, exercise: chair-squat}",
            UNTOLD_FORM,
            ("standing", "deep knee bend"),
            id="a variant that is another exercise",
        ),
        pytest.param(
            "demands: []\nvariants:\n  - {id: soft, change: substitution, exercise: blank}",
            (),
            UNTOLD_FORM,
            id="a variant that is an exercise of which nothing is told",
        ),
        pytest.param(
            "demands: []\nvariants:\n  - {id: base, change: substitution, exercise: blank}\n"
            f"  - {SOFT}, of: base}}",
            (),
            UNTOLD_FORM,
            id="made from one that is",
        ),
    ],
)
def test_what_is_not_told_is_not_nothing(
    series: SeriesFolder, text: str, main: tuple[str, ...], soft: tuple[str, ...]
) -> None:
    usual = "pattern: isolation\nmuscles: {prime: [triceps]}\n"
    series.write("exercises/blank.yaml", f"name: Blank\n{usual}")
    series.write("exercises/swing.yaml", f"name: Swing\n{usual}{text}\n")

    assert series.problems() == []
    forms = forms_of(read_series(series.root).exercises)
    assert forms[FormKey("swing")].demands == main
    assert forms[FormKey("swing", "soft")].demands == soft


@pytest.mark.parametrize("word", [UNTOLD, UNSHOWN])
def test_no_file_can_write_the_word_for_what_is_not_told(series: SeriesFolder, word: str) -> None:
    series.edit(SQUAT, "demands: [standing, deep knee bend]", f"demands: [{word}]")
    assert [problem.message for problem in series.problems()] == [f"there is no demand {word!r}"]


def test_a_version_chosen_for_a_need_has_to_be_told(series: SeriesFolder) -> None:
    series.write(
        "exercises/swing.yaml",
        f"name: Swing\npattern: isolation\nmuscles: {{prime: [triceps]}}\nvariants:\n  - {SOFT}}}\n",
    )
    series.edit(
        "episodes/01-first-steps.yaml",
        "{exercise: jumping-jack,",
        "{exercise: swing, versions: {no-jumping: soft},",
    )

    [problem] = series.problems()
    assert problem.message == (
        "the variant 'soft' asks for demands that are not written down, which 'no-jumping' avoids"
    )


def test_a_slip_in_a_word_of_the_series_own_is_told_with_its_sentence(series: SeriesFolder) -> None:
    declare(series, "cold water", "A hand or foot is in cold water")
    series.edit(SQUAT, "demands: [standing, deep knee bend]", "demands: [standing, cold watter]")

    [problem] = series.problems()
    assert problem.message == "there is no demand 'cold watter'"
    assert problem.advice.startswith("did you mean 'cold water'? (A hand or foot is in cold water)")


@pytest.mark.parametrize(
    ("text", "main", "soft"),
    [
        pytest.param("name: Hop\ndemands: [standing]", ("standing", "jumping"), (), id="name"),
        pytest.param(
            "name: Swing\nsummary: Jump up.\ndemands: []", ("jumping", "standing"), (), id="summary"
        ),
        pytest.param(
            "name: Swing\ncues: [Jump up]\ndemands: [standing]", ("standing", "jumping"), (), id="cue"
        ),
        pytest.param("name: Hop\ndemands: [jumping]", ("jumping", "standing"), (), id="goes-with-it"),
        pytest.param("name: Seated hop\ndemands: [jumping]", ("jumping",), (), id="seated"),
        pytest.param("name: Swing\ncues: [Do not jump]\ndemands: []", (), (), id="denied"),
        pytest.param(
            "name: Hop\ndemands: []\nsilence: {undeclared-demand: The heels stay down}", (), (), id="settled"
        ),
    ],
)
def test_what_its_words_tell_is_asked_until_the_trainer_settles_it(
    series: SeriesFolder, text: str, main: tuple[str, ...], soft: tuple[str, ...]
) -> None:
    usual = "pattern: isolation\nmuscles: {prime: [triceps]}\n"
    variant = "variants:\n  - {id: soft, name: Soft swing, change: regression, demands: []}"
    series.write("exercises/swing.yaml", f"{text}\n{usual}{variant}\n")

    assert series.problems() == []
    forms = forms_of(read_series(series.root).exercises)
    assert forms[FormKey("swing")].demands == main
    assert forms[FormKey("swing", "soft")].demands == soft


@pytest.mark.parametrize(
    ("word", "advice"),
    [
        ("lying on the back", "write 'lying flat' (lying flat: One lies on the back"),
        ("stairs", "write 'stairs and steps' (stairs and steps: "),
        ("Rounded back", "write 'rounding the spine' ("),
        ("hands", "write what you mean: 'grip' or 'weight on the wrists' (grip: "),
    ],
)
def test_a_common_name_leads_to_the_word_of_the_files(series: SeriesFolder, word: str, advice: str) -> None:
    series.edit(SQUAT, "demands: [standing, deep knee bend]", f"demands: [standing, {word}]")

    [problem] = series.problems()
    assert problem.advice.startswith(advice)


def test_every_common_name_leads_to_words_that_are_known() -> None:
    text = files("sitegen.reading").joinpath("common_names.yaml").read_text()
    names = yaml.safe_load(text)["demands"]
    assert {demand for meant in names.values() for demand in meant} <= DEMANDS.keys()
    assert not names.keys() & DEMANDS.keys()


def test_words_are_not_blamed_while_nobody_knows_what_the_series_declares(series: SeriesFolder) -> None:
    series.edit("series.yaml", "units: metric ", "units: metrical ")
    series.edit(SQUAT, "demands: [standing, deep knee bend]", "demands: [standing, cold water]")

    assert [problem.file for problem in series.problems()] == ["series.yaml"]


@pytest.mark.parametrize("demand", DEMANDS)
def test_every_demand_is_explained_to_the_trainer(demand: str) -> None:
    """The guide and the editor say the same sentence as ``check``."""
    assert f"| {demand} | {DEMANDS[demand]} |" in GUIDE.read_text()
    offered = schemas()["exercise.schema.json"]["properties"]["demands"]["anyOf"][1]["anyOf"]
    assert {"const": demand, "description": DEMANDS[demand]} in offered


@pytest.mark.parametrize("sentence", DEMANDS.values(), ids=DEMANDS.keys())
def test_each_says_it_in_one_sentence(sentence: str) -> None:
    assert sentence[0].isupper()
    assert sentence.endswith(".")
    assert ". " not in sentence
    assert len(sentence) <= 300, "the most that a series' own sentence may have"
