"""The page of one episode."""

from typing import NamedTuple

from sitegen.model import Episode
from sitegen.notation import Load, format_clock
from sitegen.pages.cautions import first_sentences, folds, short_caution
from sitegen.pages.effort import effort_view
from sitegen.pages.episode.address import episode_address
from sitegen.pages.episode.clips import video_object
from sitegen.pages.episode.kit import fetch_list, more_kit, named_plans, rotation_plans
from sitegen.pages.episode.share import link_picture_of
from sitegen.pages.episode.titles import anchors_of, titled_chapters
from sitegen.pages.episode.transcript import transcript
from sitegen.pages.episode.turns import episode_data
from sitegen.pages.episode.video import video_view
from sitegen.pages.frieze import cover_figure
from sitegen.pages.load_words import load_words
from sitegen.pages.other_forms import OTHERS
from sitegen.pages.plain_text import plain_text
from sitegen.pages.script_json import script_json
from sitegen.pages.site import Site
from sitegen.pages.vessels import Vessel, vessels_of
from sitegen.pages.views import Views
from sitegen.study.load import heavier_first

ADVICE_SENTENCES = 2
"""So much of a need's advice stands at the top of a session; the rest is one link away."""


class Neighbours(NamedTuple):
    """The episodes before and after one."""

    before: Episode | None
    after: Episode | None


def make_page(site: Site, views: Views, episode: Episode, beside: Neighbours) -> bytes:
    """The page's bytes."""
    card, found = views.card(episode), titled_chapters(site, episode)
    blocks = views.blocks(episode, site.facts.of(episode, OTHERS))
    video = video_view(site, episode)
    poster = card.poster.address if card.poster else site.made_poster(episode)
    picture = link_picture_of(site, episode) or poster
    return site.render(
        "episode.html",
        episode_address(episode.slug),
        episode=episode,
        card=card,
        effort=effort_view(site, episode),
        summary=plain_text(episode.summary),
        blocks=blocks,
        drawn=any(item.form.drawing is not None for block in blocks for item in block.items),
        held=_held(site, episode),
        kit=fetch_list(site, views, episode),
        plans=named_plans(site, episode),
        more_kit=[site.details.kit[piece].name for piece in more_kit(site, episode)],
        video=video,
        video_length=_length(episode),
        poster=poster,
        picture=picture,
        keep_words=script_json(vars(site.theme.strings.keep)),
        cautions=[(one, short_caution(one) if folds(one) else "") for one in episode.cautions],
        cover=None if card.poster else cover_figure(site, views, episode),
        chapters=found,
        passages=transcript(site.cues.get(episode.captions or "", ()), found),
        advice=_advice(site),
        needs_json=views.adaptation.needs.json,
        episode_json=episode_data(site, views, episode, found),
        words_json=script_json(vars(site.theme.strings.turn)),
        adapted_json=script_json(_adapted_words(site)),
        video_json=video_object(site, episode, video, found, picture) if video else None,
        before=beside.before,
        after=beside.after,
    )


def _adapted_words(site: Site) -> dict[str, str]:
    words = site.theme.strings.episode
    version = site.theme.strings.version
    shared = {
        "changes": version.changes,
        "chosen": version.chosen,
        "or": words.instead,
        "no_kit": words.no_kit,
        "heavier_item": words.heavier_item,
    }
    return vars(site.theme.strings.adapted) | shared | {"trainer": site.details.trainer.name}


class NeedAdvice(NamedTuple):
    """What a need advises, at the top of a session."""

    name: str
    """The need's."""
    first: str
    """The first sentence, all that a phone shows at first."""
    text: str
    """The beginning."""
    whole: str

    @property
    def folds(self) -> bool:
        """Whether the beginning says more than its first sentence."""
        return self.first != self.text

    @property
    def more(self) -> bool:
        """Whether there is more than the beginning."""
        return self.text != self.whole


def _advice(site: Site) -> dict[str, NeedAdvice]:
    """Advice by need that has any."""
    return {
        need.id: NeedAdvice(
            need.name,
            first_sentences(need.advice, 1),
            first_sentences(need.advice, ADVICE_SENTENCES),
            " ".join(need.advice.split()),
        )
        for need in site.details.needs.values()
        if need.advice
    }


def _length(episode: Episode) -> str:
    known = episode.video.length if episode.video else None
    return format_clock(known) if known else ""


def _held(site: Site, episode: Episode) -> dict[str, tuple[str, str, tuple[Vessel, ...]]]:
    """By anchor of an item with a load: the load with its weight, the plan where it is uneven, and its
    vessels for the panel, the heavier first, where it is the same in every set."""
    plans = rotation_plans(site, episode)
    return {
        anchor: (
            load_words(site, item.load),
            plans.get((index, place), ""),
            _vessels(site, item.load),
        )
        for index, (block, one) in enumerate(zip(episode.blocks, anchors_of(episode), strict=True))
        for place, (item, anchor) in enumerate(zip(block.items, one.items, strict=True))
        if item.load is not None
    }


def _vessels(site: Site, load: Load) -> tuple[Vessel, ...]:
    return () if load.sets else vessels_of(site, Load(tuple(heavier_first(load))))
