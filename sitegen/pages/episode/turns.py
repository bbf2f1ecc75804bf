"""Data for the page's scripts: chapters, items with their forms by need, and each your turn to be done.

The shape, with every number in seconds (``scripts/turn-steps.js`` makes a turn's steps from it)::

    {"slug": …, "title": …, "chapters": [[start, end, anchor], …],
     "items": {anchor: {"forms": […], "own": {…}}},            see sitegen.pages.adaptation
     "blocks": {anchor: {"name": …, "at": …, "stop": … or null, "format": …, "items": [anchor, …],
                "sets": [low, high], "exchange": [low, high], "break": [low, high], "side": [low, high],
                "after": high, "time": high}},
     "held": {anchor: {"load": …, "heavy": [[hand, seconds until the swap or 0, words], …]}}}

``at`` is null in a plan. ``stop`` is your turn; null for blocks done along with the video. ``exchange``
is the pause between exercises, ``break`` that between sets or rounds, ``side`` that between the sides of a
timed set.
"""

from collections.abc import Iterator, Sequence
from typing import Any

from markupsafe import Markup

from sitegen.model import Block, Episode
from sitegen.pages.episode.kit import hands_of, load_words
from sitegen.pages.episode.titles import BlockAnchors, TitledChapter, anchors_of
from sitegen.pages.rotation import amount_words
from sitegen.pages.scriptdata import to_json
from sitegen.pages.site import Site
from sitegen.pages.views import Views
from sitegen.study.doses import dose_in
from sitegen.study.rotation import RotatedSet, Rotation, rotations
from sitegen.study.span import Span
from sitegen.study.timing import item_sets, pauses


def episode_data(site: Site, views: Views, episode: Episode, found: Sequence[TitledChapter]) -> Markup:
    """The whole of it as JSON; the items' forms are text already, made once for all episodes."""
    anchors = anchors_of(episode)
    head = {
        "slug": episode.slug,
        "title": episode.title,
        "chapters": [[chapter.start, chapter.end, chapter.anchor] for chapter in found],
        "blocks": {
            one.block: _block(site, block, one) for block, one in zip(episode.blocks, anchors, strict=True)
        },
        "held": dict(_held(site, episode, anchors)),
    }
    texts = views.adaptation.items_json(episode)
    items = (
        f"{to_json(anchor)}:{text}"
        for one, block_texts in zip(anchors, texts, strict=True)
        for anchor, text in zip(one.items, block_texts, strict=True)
    )
    return Markup(f'{to_json(head)[:-1]},"items":{{{",".join(items)}}}}}')


def _block(site: Site, block: Block, anchors: BlockAnchors) -> dict[str, Any]:
    exchange, break_ = pauses(site.details, block)
    return {
        "name": block.name,
        "at": block.at,
        "stop": block.your_turn,
        "format": block.format,
        "items": anchors.items,
        "sets": [block.sets.low, block.sets.high],
        "exchange": _whole(exchange),
        "break": _whole(break_),
        "side": _whole(Span(site.details.changeover.low, site.details.changeover.high)),
        "after": block.rest.after.high if block.rest.after else 0,
        "time": block.time.high if block.time else 0,
    }


def _whole(span: Span) -> list[int]:
    return [int(span.low), int(span.high)]


def _held(
    site: Site, episode: Episode, anchors: Sequence[BlockAnchors]
) -> Iterator[tuple[str, dict[str, Any]]]:
    hands = hands_of(site, episode)
    for index, (block, one) in enumerate(zip(episode.blocks, anchors, strict=True)):
        for place, (item, anchor) in enumerate(zip(block.items, one.items, strict=True)):
            if item.load is not None:
                heavy = _heavy(site, block, place, hands[index, place]) if (index, place) in hands else []
                yield anchor, {"load": load_words(site, item.load), "heavy": heavy}


def _heavy(site: Site, block: Block, place: int, first: str) -> list[list[Any]]:
    """For each set of an uneven load: the hand that begins, seconds until it swaps, and when in words."""
    item = block.items[place]
    sets = item_sets(site.details, site.forms, block)[place]
    # The plan for the most sets begins as those for fewer do, but for the last one's swap.
    plans = rotations(block, item, sets, first)[-1:]
    sides = dose_in(block, item).sides
    return [_heavy_set(site, plan, one, sides) for plan in plans for one in plan.sets]


def _heavy_set(site: Site, plan: Rotation, one: RotatedSet, sides: int) -> list[Any]:
    words = site.theme.strings.rotation
    if one.every:
        every = amount_words(site.phrases, plan.measure, Span(one.every, one.every))
        return [one.begins, 0, words.swap_every.format(amount=every)]
    amount = one.stretches[0].amount
    # Where sides are done one after the other the load changes hands with the side.
    if sides == 2 or len(one.stretches) == 1 or amount is None:
        return [one.begins, 0, ""]
    seconds = int(amount.high) if plan.measure == "seconds" else 0
    return [
        one.begins,
        seconds,
        words.swap_after.format(amount=amount_words(site.phrases, plan.measure, amount)),
    ]
