"""The limits of a need in a reader's words."""

from collections.abc import Iterator

from sitegen.model import Limits
from sitegen.notation import Duration
from sitegen.pages.site import Site
from sitegen.pages.version_words import mass_words
from sitegen.study.need_limits import MOST_RPE


def limit_words(site: Site, limits: Limits) -> tuple[str, ...]:
    """Each limit that is set."""
    return tuple(_words(site, limits))


def _words(site: Site, limits: Limits) -> Iterator[str]:
    words, phrases = site.theme.strings.need.limit, site.phrases
    if limits.effort is not None:
        yield words.effort.format(amount=limits.effort, reserve=MOST_RPE - limits.effort)
    if not limits.max_sets:
        yield words.max_sets
    if limits.load is not None:
        mass = mass_words(limits.load, site.details.units)
        yield words.load.format(amount=mass) if limits.load else words.no_load
    if limits.load_share is not None:
        yield words.load_share.format(amount=f"{limits.load_share * 100:g}")
    if not limits.speed:
        yield words.speed
    if limits.hold is not None:
        yield words.hold.format(amount=phrases.duration(Duration(limits.hold, limits.hold)))
    if limits.session is not None:
        yield words.session.format(amount=phrases.minutes(Duration(limits.session, limits.session)))
