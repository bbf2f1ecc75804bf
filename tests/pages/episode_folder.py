"""A series with one episode, built, for the tests of the episode's files."""

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from bs4 import BeautifulSoup

from sitegen.building.build import Builder
from sitegen.pages.page import CopyOf, Page
from tests.folders import SeriesFolder

EPISODE = "episodes/01-first-steps.yaml"
SITE_FOLDER = "episodes/first-steps"
HOSTS = """hosts:
  harbour:
    name: Harbour Video
    page: "https://video.example/films/{id}#from-{seconds}"
    player: "https://play.video.example:8443/frames/{id}/from/{seconds}"
"""


class EpisodeFolder(SeriesFolder):
    """The starter series with a video at a host; ``built`` gives its site."""

    def __init__(self, root: Path) -> None:
        super().__init__(root)
        self.out = root / "build"
        self.write("series.yaml", (self.root / "series.yaml").read_text() + HOSTS)
        self.video('{host: harbour, id: "a/b c", length: "8:30"}')

    def video(self, video: str) -> None:
        """Give the episode another video."""
        lines = [line for line in self.episode.splitlines() if not line.startswith(("video:", "# video:"))]
        place = next(index for index, line in enumerate(lines) if line.startswith("blocks:"))
        self.write(EPISODE, "\n".join([*lines[:place], f"video: {video}", *lines[place:]]) + "\n")

    @property
    def episode(self) -> str:
        """The episode's file."""
        return (self.root / EPISODE).read_text()

    def blocks(self, text: str) -> None:
        """Give the episode other blocks."""
        self.write(EPISODE, self.episode[: self.episode.index("blocks:")] + f"blocks:\n{text}")

    def built(self) -> Path:
        """The episode's folder in the site, built now."""
        Builder(self.root, self.out, jobs=1).build()
        return self.out / SITE_FOLDER

    def planned(self) -> Iterator[Page]:
        """Every file of the site, none of them made."""
        builder = Builder(self.root, self.out, jobs=1)
        yield from builder.plan(builder.read())

    def made(self, name: str, folder: str = f"{SITE_FOLDER}/") -> Path:
        """One file of the episode's or another folder, made now with the media; no more of the site is."""
        for page in self.planned():
            if page.address == f"{folder}{name}" or page.address.startswith("media/"):
                data = page.make.path.read_bytes() if isinstance(page.make, CopyOf) else page.make()
                path = self.out / page.address
                path.parent.mkdir(parents=True, exist_ok=True)
                path.write_bytes(data)
        return self.out / f"{folder}{name}"

    def page(self) -> BeautifulSoup:
        """The episode's page, made now."""
        return BeautifulSoup(self.made("index.html").read_bytes(), "html.parser")


def data_of(page: BeautifulSoup, identifier: str) -> Any:
    """The JSON in a block of the page."""
    element = page.find(id=identifier)
    if element is None:
        raise AssertionError(f"there is no {identifier}")
    return json.loads(element.get_text())
