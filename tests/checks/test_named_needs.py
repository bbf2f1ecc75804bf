"""Texts that name a need in so many words, against what the need is given."""

import pytest

from tests.checks.library_folder import LibraryFolder, said

NEED = "needs:\n  bones: {name: Thin bones, also: [osteoporosis], avoids: [jumping]}\n"
EXERCISE = """demands: [{demands}]
cautions: [{{text: "{caution}"}}]
variants:
  - {{id: soft, name: Soft, change: regression, demands: [], note: "{note}"{more}}}
"""


@pytest.mark.parametrize(
    ("demands", "caution", "note", "more", "told"),
    [
        ("", "Take care.", "For anybody", "", []),
        ("", "With osteoporosis turn half way.", "For anybody", "", ["named-in-caution"]),
        ("", "With a thin bone turn half way.", "For anybody", "", ["named-in-caution"]),
        ("", "Take care.", "For thin bones", "", ["named-in-note"]),
        ("", "Take care.", "For thin bones", ", for: [bones]", []),
        ("jumping", "Take care.", "For thin bones", "", []),
        ("jumping", "Take care.", "Soft", ", for: [bones]", []),
    ],
)
def test_a_text_that_names_a_need_is_heeded_by_the_choice(
    library: LibraryFolder, demands: str, caution: str, note: str, more: str, told: list[str]
) -> None:
    library.edit("series.yaml", "needs:\n", NEED)
    library.exercise("turn", EXERCISE.format(demands=demands, caution=caution, note=note, more=more))
    library.use("turn")

    found = library.warnings("named-in-caution", "named-in-note", "meant-unfit")
    assert [problem.check for problem in found] == told


@pytest.mark.parametrize(
    ("caution", "told"),
    [
        ("With osteoporosis take the small turn.", ""),
        ("With osteoporosis turn with a chair.", ""),
        ("With osteoporosis take the seated turn.", "Seated turn"),
        ("With osteoporosis take the small turn, or the seated turn.", ""),
        ("Everybody else takes the seated turn.", ""),
    ],
)
def test_a_caution_sends_to_the_form_that_is_given(library: LibraryFolder, caution: str, told: str) -> None:
    library.edit("series.yaml", "needs:\n", NEED)
    exercise = f"""demands: [jumping]
cautions: [{{text: "{caution}", about: [jumping]}}]
variants:
  - {{id: small, name: Small turn holding a chair, change: regression, demands: []}}
  - {{id: seat, name: Seated turn, change: regression, demands: []}}
"""
    library.exercise("turn", exercise)
    library.use("turn")

    message = (
        f"a caution of 'Turn' sends 'Thin bones' to {told!r}, but the choice is 'Small turn holding a chair' "
        "(episode 2)"
    )
    assert [one.message for one in library.warnings("caution-other-form")] == ([message] if told else [])


@pytest.mark.parametrize(
    ("caution", "told"),
    [
        ("With a sore heel take the small turn. Others turn gently.", True),
        ("With a sore heel take the small turn; everybody else turns gently.", True),
        ("With osteoporosis, no jumping or seated take the small turn. Others turn gently.", False),
        ("With a sore heel take the small turn. Turn gently.", False),
        ("Never in the way of others.", False),
    ],
)
def test_a_caution_that_speaks_to_the_others(library: LibraryFolder, caution: str, told: bool) -> None:
    """Whoever has another form and is not named would take herself for one of them."""
    library.edit("series.yaml", "needs:\n", NEED)
    exercise = f"""demands: [jumping]
cautions: [{{text: "{caution}", about: [jumping]}}]
variants:
  - {{id: small, name: Small turn, change: regression, demands: []}}
"""
    library.exercise("turn", exercise)
    library.use("turn")

    message = (
        "a caution of 'Turn' tells the others what to do, and 'Thin bones', whom it does not name, is given "
        "another form (episode 2)"
    )
    assert [one.message for one in library.warnings("caution-others")] == ([message] if told else [])


def test_a_form_for_a_need_that_it_does_not_suit(library: LibraryFolder) -> None:
    library.edit("series.yaml", "needs:\n", NEED)
    variant = "variants:\n  - {id: hop, name: Hop, change: regression, demands: [jumping], for: [bones]}"
    file = library.exercise("turn", variant)
    library.use("turn")

    message = "'Hop' is for 'bones', but asks for jumping, which it avoids"
    assert said(library.warnings("meant-unfit")) == [(file, library.line_of(file, "id: hop"), message)]


@pytest.mark.parametrize(
    ("first", "second", "told"),
    [
        ("versions: {bones: soft}", "", True),
        ("versions: {bones: soft}", "versions: {bones: soft}", False),
        ("", "versions: {bones: soft}", False),  # a step on, later in the series
        ("", "", False),
    ],
)
def test_a_choice_in_one_episode_holds_in_the_next(
    library: LibraryFolder, first: str, second: str, told: bool
) -> None:
    library.edit("series.yaml", "needs:\n", NEED)
    library.exercise("turn", "demands: []\nvariants:\n  - {id: soft, name: Soft, change: regression}")
    for number, choice in ((2, first), (3, second)):
        library.write(
            f"episodes/0{number}-more-{number}.yaml",
            f"title: More {number}\nnumber: {number}\nblocks:\n  - name: All\n    kind: strength\n"
            "    format: straight sets\n    at: 0:10\n    items:\n"
            f"      - exercise: turn\n        dose: 8\n        {choice}\n",
        )

    message = (
        "'bones' is given 'soft' for 'Turn' in episode 2, and 'turn' in episode 3, where nothing is chosen"
    )
    found = [problem.message for problem in library.warnings("choice-in-one-episode")]
    assert found == ([message] if told else [])
