"""Why an exercise was chosen, in one line for the trainer."""

from collections.abc import Iterator

from sitegen.composing.needs_kept import NeedsKept
from sitegen.composing.pool import ItemCandidate
from sitegen.composing.so_far import SoFar
from sitegen.notation.english import listed

MOST_NAMED = 3
"""Names in a row that one still reads; beyond them their number is said."""


def reason_of(so_far: SoFar, chosen: ItemCandidate) -> str:
    """What it gives the week, how long it was not used, what needs keep of it."""
    return "; ".join(_parts(so_far, chosen))


def _parts(so_far: SoFar, chosen: ItemCandidate) -> Iterator[str]:
    given = [one for one in so_far.room.muscles if one.muscle in chosen.form.muscles.prime]
    lacking = [
        f"{one.lacks:g} {'set' if one.lacks == 1 else 'sets'} of {one.muscle}"
        for one in given
        if one.lacks and one.muscle in chosen.option.feeds
    ]
    if lacking:
        yield f"the week still needs {listed(lacking)}"
    elif chosen.option.feeds:
        yield f"trains {listed(chosen.form.muscles.prime) or chosen.form.pattern}"
    else:
        yield f"{chosen.form.pattern} for the heart and lungs"
    if chosen.last is None:
        yield "new to the series"
    else:
        ago = so_far.room.number - chosen.last
        yield f"last used in episode {chosen.last}" if ago > 1 else "also in the session before"
    yield _needs(so_far, chosen.needs)


def _needs(so_far: SoFar, keep: NeedsKept) -> str:
    names = so_far.details.needs
    if not names:
        return "there are no needs to keep it from"
    if not keep.less and not keep.gap:
        return "as much of it for every need"
    said = [f"as much of it for {len(keep.whole)} of {len(names)} needs"]
    if keep.gap:
        said.append(f"nothing for {_few([names[need].name for need in keep.gap])}")
    if keep.less:
        said.append(f"less for {_few([names[need].name for need, _ in keep.less])}")
    return ", ".join(said)


def _few(some: list[str]) -> str:
    return listed(some) if len(some) <= MOST_NAMED else f"{len(some)} of them"
