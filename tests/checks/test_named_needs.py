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


def test_a_form_for_a_need_that_it_does_not_suit(library: LibraryFolder) -> None:
    library.edit("series.yaml", "needs:\n", NEED)
    variant = "variants:\n  - {id: hop, name: Hop, change: regression, demands: [jumping], for: [bones]}"
    file = library.exercise("turn", variant)
    library.use("turn")

    message = "'Hop' is for 'bones', but asks for jumping, which it avoids"
    assert said(library.warnings("meant-unfit")) == [(file, library.line_of(file, "id: hop"), message)]
