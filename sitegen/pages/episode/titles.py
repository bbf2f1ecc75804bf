"""Chapters with their titles and anchors, for the page and for every file that lists them."""

from collections.abc import Iterator
from dataclasses import dataclass

from sitegen.model import Episode
from sitegen.pages.anchors import Anchors
from sitegen.pages.site import Site
from sitegen.study.chapters import Chapter, ListedTime, chapters


@dataclass(frozen=True, slots=True, kw_only=True)
class TitledChapter:
    """A chapter as a reader sees it."""

    title: str
    start: int
    end: int
    anchor: str
    """Of its block or item on the episode's page; empty for what comes before the first block."""
    parts: tuple["TitledChapter", ...] = ()


@dataclass(frozen=True, slots=True)
class BlockAnchors:
    """The anchors of a block and of its items on the episode's page."""

    block: str
    items: tuple[str, ...]


def anchors_of(episode: Episode) -> tuple[BlockAnchors, ...]:
    """All anchors, in the order and with the numbers that the page gives them."""
    anchors = Anchors()
    return tuple(
        BlockAnchors(anchors.take(block.name), tuple(anchors.take(item.exercise) for item in block.items))
        for block in episode.blocks
    )


def titled_chapters(site: Site, episode: Episode) -> tuple[TitledChapter, ...]:
    """The chapters of an episode's video, items as their parts."""
    anchors = anchors_of(episode)
    return tuple(_titled(site, episode, chapter, anchors) for chapter in chapters(episode))


def _titled(
    site: Site, episode: Episode, chapter: Chapter, anchors: tuple[BlockAnchors, ...]
) -> TitledChapter:
    if chapter.block is None:
        anchor = ""
    elif chapter.item is None:
        anchor = anchors[chapter.block].block
    else:
        anchor = anchors[chapter.block].items[chapter.item]
    return TitledChapter(
        title=chapter_title(site, episode, chapter),
        start=chapter.start,
        end=chapter.end,
        anchor=anchor,
        parts=tuple(_titled(site, episode, part, anchors) for part in chapter.parts),
    )


def chapter_title(site: Site, episode: Episode, chapter: Chapter) -> str:
    """The name of the block, or of the exercise in the form that is shown."""
    if chapter.block is None:
        opening: str = site.theme.strings.episode.opening
        return opening
    block = episode.blocks[chapter.block]
    if chapter.item is None:
        return block.name
    item = block.items[chapter.item]
    name: str = site.form(item.exercise, item.variant).name
    return name


def entry_title(site: Site, episode: Episode, entry: ListedTime) -> str:
    """The names of what an entry of the list of times stands for; the opening only where it is alone."""
    named = [one for one in entry.chapters if one.block is not None] or list(entry.chapters)
    joint: str = site.theme.strings.episode.shared_entry
    return joint.join(chapter_title(site, episode, chapter) for chapter in named)


def nested(found: tuple[TitledChapter, ...]) -> Iterator[TitledChapter]:
    """Every chapter, each followed by its parts."""
    for chapter in found:
        yield chapter
        yield from nested(chapter.parts)
