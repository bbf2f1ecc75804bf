"""Who does an exercise of a session in another form than filmed, in a line short enough for a phone.

A caution names those whom its writer thought of. Whoever reads it takes an exercise whose line does not name
her for one that she may do as filmed. So everybody is named for whom the session's own choice takes another
form, or less of the same: from that choice itself, which cannot leave anybody out.
"""

from collections.abc import Iterator, Sequence

from sitegen.model import Block, Episode, Item, Need
from sitegen.pages.cautions import short_caution
from sitegen.pages.site import Site
from sitegen.study.adapted import is_by_the_clock
from sitegen.study.forms import Form, shown_form
from sitegen.study.named_need import NamedNeed, without_forms
from sitegen.study.suitability import ByNeed, Versions
from sitegen.study.timing import session_time
from sitegen.study.version import Version
from sitegen.vocabulary import UNTOLD

OTHERS = "others"
"""Name of the fact."""
_NAMED_FORMS = 2
"""With more than two forms the line would be longer than the cautions: it names the needs only, and whoever
chooses hers is shown the form."""
_STANDING = "standing"
_ON_FEET_OR_FLOOR = frozenset({_STANDING, "getting to the floor"})
_SEEN = frozenset({*_ON_FEET_OR_FLOOR, "jumping", "kneeling", "lying flat"})
"""What the drawing and the name of a form show at a glance."""


def other_forms(site: Site, episode: Episode, chosen: ByNeed) -> list[tuple[str, ...]]:
    """For each block, and in it for each item, the line; empty where everybody does it as filmed."""
    needs = [(need, NamedNeed(need)) for need in site.details.needs.values()]
    by_block = zip(episode.blocks, *chosen.values(), strict=True)
    return [tuple(_lines(site, needs, block, by_need)) for block, *by_need in by_block]


def filmed_line(site: Site, episode: Episode, coverage: Sequence[tuple[int, int, int]]) -> str:
    """Who must not train from a sheet that shows the session as filmed; empty where everybody may.

    Whoever does not find her need in the line takes the sheet for hers, so it is complete: the shorter of
    two lists, of those who must not or of those who may. ``coverage`` is what the fact of that name says
    (``pages.needs``).
    """
    words = site.theme.strings.sheet
    needs = [*zip(site.details.needs.values(), coverage, strict=True)]
    changed = [need.name for need, numbers in needs if _differs(site, episode, need, numbers)]
    kept = [need.name for need, _ in needs if need.name not in changed]
    if not changed:
        return ""
    if not kept:
        return str(words.others_all)
    if len(kept) < len(changed):
        return str(words.others_but.format(needs=words.comma.join(kept)))
    return str(words.others.format(needs=words.comma.join(changed)))


def _differs(site: Site, episode: Episode, need: Need, coverage: tuple[int, int, int]) -> bool:
    """Whether somebody with the need does anything of the session in another way, or not at all.

    Besides forms and amounts, which ``coverage`` counts, that is going without the clock, and stopping early.
    """
    if any(coverage) or (not need.limits.speed and any(map(is_by_the_clock, episode.blocks))):
        return True
    longest = need.limits.session
    if longest is None:
        return False
    time = session_time(site.details, site.forms, episode)
    return (time.seconds or time.your_turn).high > longest


def _lines(
    site: Site, needs: Sequence[tuple[Need, NamedNeed]], block: Block, by_need: Sequence[Versions]
) -> Iterator[str]:
    for place, item in enumerate(block.items):
        versions = [versions[place] for versions in by_need]
        yield _line(site, item, [(*need, version) for need, version in zip(needs, versions, strict=True)])


def _line(site: Site, item: Item, chosen: Sequence[tuple[Need, NamedNeed, Version | None]]) -> str:
    filmed = shown_form(site.forms, item)
    names = {version.form.name for *_, version in chosen if version}
    named = [without_forms(short_caution(caution), names) for caution in filmed.cautions]
    others: dict[str, list[str]] = {}
    left_out, gentler = [], []
    for need, by_name, version in chosen:
        if _sees_it(need, filmed) or by_name.word_in(*named):
            continue
        if version is None:
            left_out.append(need.name)
        elif version.form.key != filmed.key:
            others.setdefault(beside(version.form.name, filmed.name), []).append(need.name)
        elif version.limited:
            gentler.append(need.name)
    return " ".join(_sentences(site, others, left_out, gentler))


def _sees_it(need: Need, filmed: Form) -> bool:
    """Whether nobody with the need can take the form for hers: she cannot do what it plainly shows.

    Somebody who trains from a chair would be named beside nearly every exercise, and bury the others there.
    What a limit changes nobody sees.
    """
    if UNTOLD in filmed.demands:
        return False
    if _STANDING in need.avoids:
        return not _ON_FEET_OR_FLOOR.isdisjoint(filmed.demands)
    return _SEEN.issuperset(need.avoids) and not set(need.avoids).isdisjoint(filmed.demands)


def _sentences(
    site: Site, others: dict[str, list[str]], left_out: Sequence[str], gentler: Sequence[str]
) -> Iterator[str]:
    words = site.theme.strings.others
    if len(others) <= _NAMED_FORMS:
        for form, names in others.items():
            yield words.form.format(needs=words.between.join(names), form=form)
    else:
        names = list(dict.fromkeys(name for ones in others.values() for name in ones))
        yield words.forms.format(needs=words.between.join(names))
    for text, some in ((words.left_out, left_out), (words.gentler, gentler)):
        if some:
            yield text.format(needs=words.between.join(some))


def beside(name: str, own: str) -> str:
    """A form's name beside that of another: ``with a tin`` for ``Bent-over row with a tin``."""
    return name.removeprefix(f"{own} ")
