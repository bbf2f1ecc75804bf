"""What the text of a need promises, against what its demands and forms keep."""

import pytest

from tests.checks.library_folder import LibraryFolder

NEED = """needs:
  calm: {{name: Calm, avoids: [{avoids}], advice: "{advice}"}}
"""


@pytest.mark.parametrize(
    ("advice", "avoids", "told"),
    [
        ("No jumping and nothing else.", "kneeling", ["jumping"]),
        ("No jumping and nothing else.", "jumping", []),
        ("Jump as you like.", "kneeling", []),
        ("Never kneel, and do not lean on your hands.", "kneeling", ["leaning on the arms"]),
    ],
)
def test_advice_rules_out_only_what_is_avoided(
    library: LibraryFolder, advice: str, avoids: str, told: list[str]
) -> None:
    library.edit("series.yaml", "needs:\n", NEED.format(advice=advice, avoids=avoids))

    messages = [problem.message for problem in library.warnings("promise-not-kept")]
    assert [message.rpartition("does not avoid ")[2] for message in messages] == told


@pytest.mark.parametrize(
    ("pattern", "cue", "told"),
    [
        ("locomotion", "Step to and fro", True),
        ("locomotion", "One hand on the counter, step to and fro", False),
        ("locomotion", "Punch slowly, feet planted", False),
        ("squat", "Sit back and stand up", False),
    ],
)
def test_a_promised_hold_is_there_wherever_one_steps(
    library: LibraryFolder, pattern: str, cue: str, told: bool
) -> None:
    advice = "A hand is on the counter wherever you step."
    library.edit("series.yaml", "needs:\n", NEED.format(advice=advice, avoids="jumping"))
    library.exercise("walk", f'pattern: {pattern}\ndemands: [standing]\ncues: ["{cue}"]')
    library.use("walk")

    found = [one.message for one in library.warnings("promise-of-a-hold") if "'Walk'" in one.message]
    assert bool(found) == told
