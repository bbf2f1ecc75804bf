"""A series says when to stop, whom to ask first and what number to call; what it leaves out is told."""

import re
from pathlib import Path

import pytest

from sitegen.cli import main
from tests.checks.library_folder import LibraryFolder

CHECKS = ("never-stop", "stop-unsaid", "caution-unsaid", "no-emergency-number")
NEVER = "nothing tells clients when to stop: no page and no sheet has a sign to stop with"


def _without(library: LibraryFolder, *keys: str) -> None:
    """The starter's own series without some keys."""
    library.make_own()
    text = (library.root / "series.yaml").read_text()
    for key in keys:
        text = re.sub(rf"^{key}:.*\n(?:[ ].*\n)*", "", text, flags=re.M)
    library.write("series.yaml", text)


@pytest.mark.parametrize(
    ("missing", "told"),
    [
        ((), []),
        (("call_if", "stop_if"), [("never-stop", NEVER, "call_if: [pain or pressure in the chest, ")]),
        (
            ("stop_if",),
            [("stop-unsaid", "nothing says with what signs clients stop and rest", "write stop_if: [dizz")],
        ),
        (
            ("call_if",),
            [
                (
                    "stop-unsaid",
                    "nothing says with what signs clients stop and call for help",
                    "write call_if:",
                )
            ],
        ),
        (
            ("cautions",),
            [("caution-unsaid", "nothing tells clients whom to ask before they start", "'Ask your doctor")],
        ),
        (
            ("emergency_number",),
            [("no-emergency-number", "nothing says which number clients call", "where they live")],
        ),
    ],
    ids=lambda value: " and ".join(value) if value and isinstance(value[0], str) else "",
)
def test_what_a_series_leaves_unsaid(
    library: LibraryFolder, missing: tuple[str, ...], told: list[tuple[str, str, str]]
) -> None:
    _without(library, *missing)
    found = library.warnings(*CHECKS)

    assert [one.check for one in found] == [check for check, _, _ in told]
    for problem, (_, message, advice) in zip(found, told, strict=True):
        assert problem.file == "series.yaml"
        assert message in problem.message
        assert advice in problem.advice


def test_what_to_write_can_be_copied(library: LibraryFolder) -> None:
    """The lists that the message names, written into the file, are what it asks for."""
    _without(library, "call_if", "stop_if")
    [problem] = library.warnings("never-stop")
    lists = re.findall(r"(?:call_if|stop_if): \[[^]]*\]", problem.advice)
    library.write("series.yaml", "\n".join([(library.root / "series.yaml").read_text(), *lists, ""]))

    assert len(lists) == 2
    assert library.problems() == []
    assert library.warnings(*CHECKS) == []


@pytest.mark.parametrize(
    ("more", "status", "said"),
    [
        ("", 1, NEVER),
        ("silence: {never-stop: I tell them}\n", 1, NEVER),
        ("stop_if: [dizziness]\n", 0, "call for help"),
    ],
    ids=["neither list", "neither list, silenced", "one list"],
)
def test_nothing_goes_out_without_a_reason_to_stop(
    library: LibraryFolder,
    more: str,
    status: int,
    said: str,
    capsys: pytest.CaptureFixture[str],
    tmp_path: Path,
) -> None:
    _without(library, "call_if", "stop_if", "emergency_number")
    target = "publish:\n  home: {to: folder, path: published}\n"
    library.write("series.yaml", (library.root / "series.yaml").read_text() + target + more)

    assert main(["publish", "--content", str(library.root), "--pages-only", "--preview-only"]) == status
    printed = "".join(capsys.readouterr())
    assert said in printed
    assert ("nothing was published" in printed) is bool(status)
    assert ("nothing says which number clients call" in printed) is not bool(
        status
    )  # asked for before it goes out
