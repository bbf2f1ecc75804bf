"""A digit too many, minutes for seconds, a set to failure: asked about, in sessions, shared blocks and forms."""

import pytest

from tests.checks.library_folder import LibraryFolder

EPISODE = "episodes/01-first-steps.yaml"
CHECKS = ("too-much", "to-failure")


def _asked(library: LibraryFolder) -> list[tuple[str, str, str]]:
    return [(p.file, p.message, p.advice) for p in library.warnings(*CHECKS)]


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("dose: 8-12,", 'dose: "1000",', "1000 repetitions in a set: is that a slip? The most that is usual at home is 60 repetitions"),
        ("dose: 8-12,", 'dose: "60",', ""),
        ("dose: 8-12,", 'dose: "61",', "61 repetitions in a set"),
        ("dose: 8-12,", "dose: 8-120,", "120 repetitions in a set"),
        ("dose: 8-12,", "dose: [10, 80, 10],", "80 repetitions in a set"),
        ("dose: 8-12,", "dose: 400 steps,", "400 steps in a set"),
        ("dose: 8-12,", "dose: 300 m,", "300 m in a set"),
        ("dose: 8-12,", "dose: max,", ""),
        ("dose: 8-12,", 'dose: "max, 0-2 in reserve",', "max, 0-2 in reserve is a set until nothing more is possible"),
        ("dose: 8 each side", "dose: 800 each side", "800 repetitions in a set"),
        ("dose: 30 s,", "dose: 30 min,", "1800 s in a set: is that a slip? The most that is usual at home is 600 s"),
        ("dose: 30 s,", "dose: 10 min,", ""),
        ("effort: RPE 6", "effort: RPE 10", "RPE 10 is a set until nothing more is possible, at home and with nobody beside"),
        ("effort: RPE 6", "effort: RPE 8-10", "RPE 8-10 is a set"),
        ("effort: RPE 6", "effort: RPE 9", ""),
        ("tempo: 3-0-1-0, effort: 2 in", "tempo: 3-0-1-0, effort: 0 in", "0 in reserve is a set"),
        ("tempo: 3-0-1-0", "tempo: 30-0-1-0", "30 s in one phase of a repetition"),
        ("sets: 3\n    rest: {between_sets: 30 s}", "sets: 33\n    rest: {between_sets: 30 s}", "33 sets: is that a slip? The most that is usual at home is 10"),
        ("between_sets: 60-90 s", "between_sets: 60 min", "a rest of 60 min: is that a slip? The most that is usual at home is 10 min"),
        ("at: \"0:20\"", "at: \"0:20\"\n    sets: 40", "40 sets"),
    ],
)  # fmt: skip
def test_an_amount_of_a_session(library: LibraryFolder, old: str, new: str, told: str) -> None:
    library.edit(EPISODE, old, new)
    asked = _asked(library)

    assert library.problems() == []
    assert [file for file, _, _ in asked] == ([EPISODE] if told else [])
    assert all(message.startswith(told) for _, message, _ in asked)


@pytest.mark.parametrize(
    ("format", "told"),
    [
        ("format: intervals, work: 20 s, rounds: 8", ""),
        ("format: intervals, work: 20 s, rounds: 80", "80 rounds"),
        ("format: intervals, work: 20 min, rounds: 8", "an interval of 20 min"),
        ("format: as many rounds as possible, time: 10 min", ""),
        ("format: as many rounds as possible, time: 100 min", "a block of 100 min"),
    ],
)
def test_an_amount_of_a_block(library: LibraryFolder, format: str, told: str) -> None:
    dose = "" if "work" in format else ", dose: 8"
    items = f"[{{exercise: chair-squat{dose}}}, {{exercise: jumping-jack{dose}}}]"
    rest = ", rest: {between_exercises: 10 s, between_sets: 10 s}" if "work" in format else ""
    block = f"{{name: Fast, kind: conditioning, {format}{rest}, items: {items}}}"
    library.write("episodes/02-fast.yaml", f"title: Fast\nnumber: 2\nblocks:\n  - {block}\n")
    asked = _asked(library)

    assert library.problems() == []
    assert [message.partition(":")[0] for _, message, _ in asked] == ([told] if told else [])


def test_what_a_load_weighs(library: LibraryFolder) -> None:
    library.edit("series.yaml", "holds: 15 kg", "holds: 150 kg")
    library.edit(EPISODE, "dose: 8 each side,", "dose: 8 each side, load: 75 kg,")

    assert [message for _, message, _ in _asked(library)] == [
        "a load of 75 kg: is that a slip? The most that is usual at home is 50 kg in all hands"
    ]


def test_a_form_and_a_shared_block_are_asked_about_once(library: LibraryFolder) -> None:
    library.edit(
        "exercises/chair-squat.yaml", "id: seated-knee-press", "id: seated-knee-press\n    dose: 30 min"
    )
    library.edit("routines/short-warm-up.yaml", "dose: 30 s", "dose: 300 reps")
    text = (library.root / EPISODE).read_text().replace("number: 1", "number: 2")
    library.write("episodes/02-again.yaml", text)

    assert [(file, message.partition(":")[0]) for file, message, _ in _asked(library)] == [
        ("exercises/chair-squat.yaml", "1800 s in a set"),
        ("routines/short-warm-up.yaml", "300 repetitions in a set"),
    ]


def test_a_reason_silences_it(library: LibraryFolder) -> None:
    library.edit(EPISODE, "effort: RPE 6", "effort: RPE 10")
    [(_, _, advice)] = _asked(library)
    assert advice == "write RPE 8 or 2 in reserve, or silence: {to-failure: the reason}"
    library.edit(EPISODE, "number: 1", "number: 1\nsilence: {to-failure: A sprint for the fit}")
    assert _asked(library) == []
