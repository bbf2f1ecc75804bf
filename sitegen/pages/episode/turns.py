"""Data for the page's scripts: chapters, items with their forms by need, and each your turn to be done.

The shape, with every number in seconds (``scripts/turn-steps.js`` makes a turn's steps from it)::

    {"slug": …, "title": …, "chapters": [[start, end, anchor], …],
     "kit": {id: {"name": …, "or": [stand-in, …]}},
     "items": {anchor: {"forms": […], "own": {…}}},            see sitegen.pages.adaptation
     "blocks": {anchor: {"name": …, "at": …, "stop": … or null, "format": …, "items": [anchor, …],
                "kind": …, "sets": [low, high], "exchange": [low, high], "break": [low, high],
                "side": [low, high], "after": high, "time": high,
                "paced": {"format": …, "sets": …, …, "how": the line under the name}}}}

``at`` is null in a plan. ``stop`` is your turn; null for blocks done along with the video. ``exchange`` is
the pause between exercises, ``break`` that between sets or rounds, ``side`` that between the sides of a
timed set. ``paced`` is what takes the place of these for somebody who does nothing against the clock.
Where some need limits the session, a block also has its ``length`` at the most, video and your turn
together, and ``turns``: how many sets of each item that length counts.
"""

from collections.abc import Sequence
from typing import Any

from markupsafe import Markup

from sitegen.model import Block, Episode
from sitegen.pages.episode.titles import BlockAnchors, TitledChapter, anchors_of
from sitegen.pages.script_json import to_json
from sitegen.pages.site import Site
from sitegen.pages.views import Views
from sitegen.study.adapted import at_own_pace, is_by_the_clock, turn_length, video_stretches
from sitegen.study.span import Span
from sitegen.study.timing import pauses


def episode_data(site: Site, views: Views, episode: Episode, found: Sequence[TitledChapter]) -> Markup:
    """The whole of it as JSON; the items' forms are text already, made once for all episodes."""
    anchors = anchors_of(episode)
    head = {
        "slug": episode.slug,
        "title": episode.title,
        "chapters": [[chapter.start, chapter.end, chapter.anchor] for chapter in found],
        "blocks": {
            one.block: _block(site, views, block, stretch, one)
            for block, stretch, one in zip(episode.blocks, video_stretches(episode), anchors, strict=True)
        },
    }
    if site.details.needs:
        head["kit"] = {p.id: {"name": p.name, "or": p.stand_ins} for p in site.details.kit.values()}
    texts = views.adaptation.items_json(episode)
    items = (
        f"{to_json(anchor)}:{text}"
        for one, block_texts in zip(anchors, texts, strict=True)
        for anchor, text in zip(one.items, block_texts, strict=True)
    )
    return Markup(f'{to_json(head)[:-1]},"items":{{{",".join(items)}}}}}')


def _block(site: Site, views: Views, block: Block, stretch: float, anchors: BlockAnchors) -> dict[str, Any]:
    data: dict[str, Any] = {
        "name": block.name,
        "at": block.at,
        "stop": block.your_turn,
        "kind": block.kind,
        "items": anchors.items,
    }
    data |= _course(site, block, stretch)
    some_unhurried = any(not need.limits.speed for need in site.details.needs.values())
    if some_unhurried and is_by_the_clock(block):
        paced = at_own_pace(site.details, site.forms, block)
        data["paced"] = _course(site, paced, stretch) | {"how": views.how(paced)}
    return data


def _course(site: Site, block: Block, stretch: float) -> dict[str, Any]:
    """Format, sets, pauses and times of a block."""
    exchange, break_ = pauses(site.details, block)
    data: dict[str, Any] = {
        "format": block.format,
        "sets": [block.sets.low, block.sets.high],
        "exchange": _whole(exchange),
        "break": _whole(break_),
        "side": _whole(Span(site.details.changeover.low, site.details.changeover.high)),
        "after": block.rest.after.high if block.rest.after else 0,
        "time": block.time.high if block.time else 0,
    }
    if any(need.limits.session is not None for need in site.details.needs.values()):
        data["length"] = round(stretch + turn_length(site.details, site.forms, block))
        counted = block.your_turn is not None and not is_by_the_clock(block)
        data["turns"] = block.sets.high if counted else 0
    return data


def _whole(span: Span) -> list[int]:
    return [int(span.low), int(span.high)]
