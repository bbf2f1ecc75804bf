"""A line beside an exercise never offers going on with a sign that is a reason to stop."""

import pytest

from tests.checks.library_folder import LibraryFolder, said

MESSAGE = "this line speaks of {}, a reason to stop, and does not say to stop"


LINES = (
    ("Dizzy on rising? Hands on the counter.", "dizziness"),
    ("Light-headed: slow down.", "dizziness"),
    ("If you get dizzy take the counter, and talk to your doctor if it comes back.", "dizziness"),
    ("With pain in the chest make it smaller.", "pain in the chest"),
    ("Breathless? Take longer rests.", "breathlessness"),
    ("Never push into tingling.", "numbness or tingling"),
    ("A heart that races: slower.", ""),
    ("Where the heart races go slower.", "a heart that stumbles or races"),
    ("A knee gives way? Hold the rail.", "a joint that gives way"),
    ("Dizzy now: stop, and sit down.", ""),
    ("Stop if your fingers tingle.", ""),
    ("If you are ever dizzy, ask your doctor first.", ""),
    ("With numb feet ask before you try it.", ""),
    ("A chair that gives way is a fall.", ""),
    ("Chest high, and write the number down.", ""),
)
"""What stands beside an exercise, and the sign in it that it offers to go on with."""


@pytest.mark.parametrize(
    ("written", "place"),
    [
        ("cautions:\n  - {{text: '{}'}}", "text: "),
        ("cautions:\n  - {{text: Take care., short: '{}'}}", "short: "),
        ("cues: ['{}']", "cues: "),
        ("variants:\n  - {{id: low, name: Low, change: regression, note: '{}'}}", "note: "),
    ],
    ids=["caution", "short caution", "cue", "note of a variant"],
)
def test_a_sign_beside_an_exercise(library: LibraryFolder, written: str, place: str) -> None:
    """Each line in an exercise of its own, all of them checked at once."""
    wanted = []
    for number, (line, sign) in enumerate(LINES):
        file = library.exercise(f"thrust-{number}", written.format(line))
        if sign:
            wanted.append((file, library.line_of(file, place), MESSAGE.format(sign)))
    assert sorted(said(library.warnings("goes-on"))) == sorted(wanted)


def test_a_note_of_a_session(library: LibraryFolder):
    library.exercise("thrust", "demands: []")
    library.use("thrust")
    file = "episodes/02-more.yaml"
    text = (library.root / file).read_text().replace("dose: 8}", "dose: 8, note: 'Dizzy? Slower.'}")
    library.write(file, text)

    assert said(library.warnings("goes-on")) == [
        (file, library.line_of(file, "Dizzy?"), MESSAGE.format("dizziness"))
    ]
