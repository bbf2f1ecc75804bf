"""Pages in the trainer's own words may not take the places of the site's own."""

from pathlib import Path

import pytest

from sitegen.building.build import Builder
from sitegen.reading.linking import OWN_PLACES
from tests.folders import SeriesFolder

PAGE = "---\ntitle: Mine\n---\nWords.\n"


@pytest.mark.parametrize("name", ["schedule", "balance", "exercises", "assets"])
def test_a_place_of_the_site_s_own(tmp_path: Path, name: str) -> None:
    series = SeriesFolder(tmp_path)
    series.write(f"pages/{name}.md", PAGE)

    (problem,) = series.problems()
    assert (problem.file, problem.check) == (f"pages/{name}.md", "address-taken")
    assert problem.message == f"the site has pages of its own at {name}/"
    assert problem.advice == f"give the file another name, such as pages/my-{name}.md"


def test_every_folder_of_a_built_site_is_known(demo_site: Path, tmp_path: Path) -> None:
    """A new kind of page that is not named there could be overwritten by a trainer's page."""
    own = {path.name for path in demo_site.iterdir() if path.is_dir() and not path.name.isdecimal()}
    pages = {path.stem for path in (Path(__file__).parents[2] / "content" / "pages").glob("*.md")}

    assert own - pages == OWN_PLACES


def test_another_name_is_fine(tmp_path: Path) -> None:
    series = SeriesFolder(tmp_path)
    series.write("pages/my-schedule.md", PAGE)
    Builder(series.root, tmp_path / "build", jobs=1).build()

    assert (tmp_path / "build" / "my-schedule" / "index.html").is_file()
