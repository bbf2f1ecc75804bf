"""Which published addresses would be dropped, and where they may have gone."""

import pytest

from sitegen.publishing.addresses import DroppedAddress, group_dropped, suggestion

OLD = ["index.html", "episodes/steady-pull/index.html", "episodes/steady-pull/sheet/index.html",
       "episodes/cast-off/index.html", "exercises/towel-row/index.html", "exercises/index.html"]  # fmt: skip

CASES = {
    # id: (dropped, new addresses, expected)
    "renamed episode": (
        OLD[1:3],
        ["episodes/steady-hands/index.html", "episodes/steady-hands/sheet/index.html"],
        [DroppedAddress("episodes/steady-pull", 2, "episodes/steady-hands")],
    ),
    "the most similar of several new ones": (
        OLD[1:3],
        ["episodes/lee-shore/index.html", "episodes/steady-pulling/index.html"],
        [DroppedAddress("episodes/steady-pull", 2, "episodes/steady-pulling")],
    ),
    "removed without a replacement": (
        ["exercises/towel-row/index.html"],
        ["episodes/new/index.html"],
        [DroppedAddress("exercises/towel-row", 1, None)],
    ),
    "every episode": (
        [address for address in OLD if address.startswith("episodes/")],
        [],
        [DroppedAddress("episodes/cast-off", 1, None), DroppedAddress("episodes/steady-pull", 2, None)],
    ),
    "a page of one's own": (
        ["about/index.html"],
        ["about-us/index.html"],
        [DroppedAddress("about", 1, "about-us")],
    ),
    "a part of an episode": (
        ["episodes/steady-pull/sheet/index.html"],
        [],
        [DroppedAddress("episodes/steady-pull/sheet", 1, None)],
    ),
    "a file beside a page": (
        ["episodes/cast-off/sheet-a4.pdf"],
        [],
        [DroppedAddress("episodes/cast-off/sheet-a4.pdf", 1, None)],
    ),
}


@pytest.mark.parametrize(("dropped", "new", "expected"), CASES.values(), ids=CASES.keys())
def test_dropped_addresses_are_grouped(
    dropped: list[str], new: list[str], expected: list[DroppedAddress]
) -> None:
    wanted = {*OLD, *new} - set(dropped)
    assert group_dropped(dropped, wanted, OLD) == expected


def test_the_suggestion_can_be_pasted() -> None:
    lines = suggestion(
        [DroppedAddress("episodes/a", 2, "episodes/b"), DroppedAddress("exercises/c", 1, None)]
    )
    assert lines == ["moved:", "  episodes/a: episodes/b", "  exercises/c: exercises/…"]
