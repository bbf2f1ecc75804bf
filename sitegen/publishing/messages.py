"""What `sitegen publish` says: plain lines made from what was compared and what was done."""

from collections.abc import Iterator, Mapping, Sequence
from datetime import date

from sitegen.publishing.addresses import DroppedAddress, suggestion
from sitegen.publishing.client_texts import EpisodeTexts
from sitegen.publishing.difference import Difference
from sitegen.publishing.headers import is_named_by_bytes
from sitegen.publishing.publications import Publications
from sitegen.publishing.publisher import Comparison, SentReport
from sitegen.publishing.restore import describe

_LISTED = 12
"""Most addresses listed of one kind of change."""


def title_of(difference: Difference) -> str:
    """A change in a few words, such as ``2 files new, 4 changed``."""
    counts = {
        "new": difference.added,
        "changed": difference.changed,
        "mended": difference.mended,
        "gone": difference.removed,
    }
    words = [f"{len(addresses)} {name}" for name, addresses in counts.items() if addresses]
    if not words:
        return "nothing changed"
    number, _, name = words[0].partition(" ")
    return ", ".join([f"{_count(int(number), 'file')} {name}", *words[1:]])


def before(where: str, comparison: Comparison) -> Iterator[str]:
    """What will change at a target, and what was found there."""
    yield from _state(where, comparison.history)
    difference = comparison.difference
    for name, addresses in (
        ("new", difference.added),
        ("changed", difference.changed),
        ("mended (missing or altered at the target)", difference.mended),
        ("gone", difference.removed),
    ):
        yield from _listing(name, addresses)
    if difference.by_hand:
        files = _count(len(difference.by_hand), "file")
        yield f"came there by hand, and will be kept beside the site ({files}):"
        yield from _some("by hand", difference.by_hand)
    size = f" ({_bytes(difference.bytes)})" if difference.sent else ""
    yield f"{title_of(difference)}{size}; {_count(difference.unchanged, 'file')} as they are"


def _state(where: str, history: Publications) -> Iterator[str]:
    if history.current is not None:
        yield f"{where}: publication {describe(history.current)} is out"
    elif history.unfinished or history.damaged:
        yield f"{where}: no finished publication is on record"
    else:
        yield f"{where}: no publication is on record, so nothing there will be removed"
    if history.damaged:
        yield f"damaged records are left aside: {', '.join(history.damaged)}"
    for publication in history.unfinished:
        yield f"publication {publication.number} was cut off; this one finishes its work"


def _listing(name: str, addresses: Sequence[str]) -> Iterator[str]:
    if not addresses:
        return
    pages = [a for a in addresses if not is_named_by_bytes(a)]
    media = len(addresses) - len(pages)
    beside = f", {_count(media, 'media or asset file')}" if media else ""
    yield f"{name}: {_count(len(pages), 'page or text')}{beside}"
    yield from _some(name.split(" ")[0], pages or addresses)


def _some(what: str, addresses: Sequence[str]) -> Iterator[str]:
    """Lines that say of each address what happens to it."""
    yield from (f"  {what:<8}{address}" for address in addresses[:_LISTED])
    if len(addresses) > _LISTED:
        yield f"    … and {len(addresses) - _LISTED} more"


def refused(dropped: Sequence[DroppedAddress], upcoming: Mapping[str, date]) -> Iterator[str]:
    """Why a publication that would drop addresses is not done, and what to write instead.

    ``upcoming`` are the places of episodes that are not out yet, with the days they come out on.
    """
    yield "these addresses were published, clients may have them, and they would lead nowhere:"
    for drop in dropped[:_LISTED]:
        yield f"  {drop.address or 'index.html'}" + (f" ({drop.files} files)" if drop.files > 1 else "")
    if len(dropped) > _LISTED:
        yield f"    … and {len(dropped) - _LISTED} more"
    for drop in dropped:
        if drop.address in upcoming:
            day = upcoming[drop.address]
            yield f"{drop.address} comes out on {day}: is this computer's date right, or is released: a slip?"
    yield "add to series.yaml where each has moved:"
    yield from (f"  {line}" for line in suggestion(dropped))
    yield "or drop them for good with --drop"


def after(where: str, sent: SentReport) -> Iterator[str]:
    """What was done at a target."""
    yield (
        f"publication {sent.number} is out: {_count(sent.files, 'file')} sent and read back "
        f"({_bytes(sent.bytes)}), {sent.removed} removed"
    )
    for address in sent.saved:
        yield f"  what was there by hand is now at {address} in {where}"


def texts(episode: EpisodeTexts, others: Sequence[EpisodeTexts]) -> Iterator[str]:
    """The texts to paste and the addresses to send after new episodes went out."""
    for name, text, path in (
        ("For the e-mail to clients", episode.announcement, episode.announcement_file),
        ("For where the video is hosted", episode.description, episode.description_file),
    ):
        if text:
            yield ""
            yield f"---- {name} ({path}) ----"
            yield text
            yield "----"
    yield ""
    yield "Address to send:" if not others else "Addresses to send:"
    yield from (f"  {each.address}" for each in (episode, *others))


def _bytes(size: int) -> str:
    """``812 bytes``, ``31 kB``, ``1.4 MB``."""
    # Decimal kilobytes, as storage is sold and file managers show it.
    if size < 1000:
        return _count(size, "byte")
    if size < 1_000_000:
        return f"{size / 1000:.0f} kB"
    return f"{size / 1_000_000:.1f} MB"


def _count(number: int, word: str) -> str:
    plural = {"page or text": "pages and texts", "media or asset file": "media and asset files"}
    return f"{number:,} {word if number == 1 else plural.get(word, word + 's')}"
