"""What a trainer sends to clients after a publication: texts and addresses of what is new."""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from sitegen.model import Details, Series
from sitegen.study.moved_addresses import place_of

# The page of an episode, and none of the files beside it.
_EPISODE = re.compile(r"episodes/([^/]+)/index\.html")


@dataclass(frozen=True, slots=True, kw_only=True)
class EpisodeTexts:
    """The texts of one episode, read from the built site; empty where there is none."""

    slug: str
    address: str
    """Where clients open it."""
    announcement: str
    announcement_file: Path
    description: str
    description_file: Path


def new_episodes(added: Iterable[str], series: Series) -> list[str]:
    """Slugs of the episodes whose page is new, newest first; one that only moved is not new."""
    numbers = {episode.slug: episode.number for episode in series.episodes}
    moved = {place_of(new) for new in series.details.moved.values()}
    slugs = [match[1] for address in added if (match := _EPISODE.fullmatch(address))]
    new = [slug for slug in slugs if slug in numbers and f"episodes/{slug}" not in moved]
    return sorted(new, key=lambda slug: -numbers[slug])


def episode_texts(details: Details, out: Path, slug: str) -> EpisodeTexts:
    """The texts of an episode."""
    folder = out / "episodes" / slug
    return EpisodeTexts(
        slug=slug,
        address=f"{details.address}episodes/{slug}/",
        announcement=_read(folder / "announcement.txt"),
        announcement_file=folder / "announcement.txt",
        description=_read(folder / "description.txt"),
        description_file=folder / "description.txt",
    )


def _read(path: Path) -> str:
    try:
        return path.read_text(encoding="utf-8").strip()
    except OSError:
        return ""
