"""An edited cue of a large series: only the pages that show it are sent, counted."""

from pathlib import Path

import pytest

from sitegen.building.build import Builder
from sitegen.publishing.site_files import site_files
from tests.generate import generate
from tests.publishing.places import FolderPlace, files_below
from tests.publishing.sites import Person

EPISODES, EXERCISES = 16, 134
CUE = "Pull your elbows back, then wait for a slow breath"


def edit_a_cue(content: Path) -> None:
    """Give the first cue of one exercise other words."""
    path = content / "exercises" / "towel-row-2.yaml"
    lines = path.read_text().splitlines(keepends=True)
    at = next(index for index, line in enumerate(lines) if line.startswith("cues:")) + 1
    lines[at] = f"  - {CUE}\n"
    path.write_text("".join(lines))


@pytest.mark.thorough
def test_only_the_pages_that_show_it_are_sent(tmp_path: Path) -> None:
    content, out = generate(tmp_path, EPISODES, EXERCISES), tmp_path / "build"
    place, robin = FolderPlace(tmp_path), Person(tmp_path)
    robin.folder = out

    def build() -> dict[str, bytes]:
        Builder(content, out, jobs=2).build()
        built = files_below(out)
        assert site_files(out, tmp_path / "digests").keys() == built.keys()
        return built

    before = build()
    robin.publish(place, before)
    edit_a_cue(content)
    after = build()
    changed = {address for address, data in after.items() if before.get(address) != data}
    comparison = robin.look(place, after)
    assert set(comparison.difference.sent) == changed
    assert comparison.difference.unchanged == len(after) - len(changed)
    shows = {
        a for a, data in after.items() if CUE.encode() in data or CUE.replace(" ", "\\n").encode() in data
    }
    assert "exercises/towel-row-2/index.html" in shows
    assert {a for a in changed if a.endswith(".html")} == {a for a in shows if a.endswith(".html")}
    assert len(changed) < len(after) / 20
    sent = robin.publish(place, after)
    assert sent.files == len(changed)
    assert place.visible() == after
