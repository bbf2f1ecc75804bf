"""What publishing would change: pure comparison of what is wanted with what is there."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from sitegen.publishing.headers import is_named_by_bytes
from sitegen.publishing.publication_record import PublishedFile
from sitegen.publishing.publications import Publications
from sitegen.publishing.store import StoredFile


@dataclass(frozen=True, slots=True, kw_only=True)
class TargetState:
    """What is at the target, as far as it was looked at."""

    found: Mapping[str, StoredFile]
    looked_at: frozenset[str] | None = None
    """Addresses that were looked at; None for all. The others are taken to be as recorded."""
    digests: Mapping[str, str]
    """Fingerprints of the files that had to be read, see :func:`to_read`."""

    def knows(self, address: str) -> bool:
        """Whether the address was looked at."""
        return self.looked_at is None or address in self.looked_at


@dataclass(frozen=True, slots=True, kw_only=True)
class Difference:
    """What a publication changes at the target; addresses are in order."""

    added: tuple[str, ...] = ()
    changed: tuple[str, ...] = ()
    mended: tuple[str, ...] = ()
    """Published before and wanted unchanged, but missing or altered at the target."""
    removed: tuple[str, ...] = ()
    by_hand: tuple[str, ...] = ()
    """Those of the others whose file at the target was not put there by a publication."""
    bytes: int = 0
    """Bytes to send, before compression."""
    unchanged: int = 0

    @property
    def sent(self) -> tuple[str, ...]:
        """Everything that has to be sent."""
        return tuple(sorted((*self.added, *self.changed, *self.mended)))

    @property
    def nothing(self) -> bool:
        """Whether the target is as wanted."""
        return not (self.sent or self.removed)


def worth_a_look(wanted: Mapping[str, PublishedFile], history: Publications) -> frozenset[str]:
    """Addresses that a publication may touch: all that differ from the one that is out."""
    base = history.files
    sent = {a for a, entry in wanted.items() if not _same(entry, base.get(a))}
    return frozenset(sent | _to_remove(wanted, history))


def to_read(
    wanted: Mapping[str, PublishedFile], history: Publications, found: Mapping[str, StoredFile]
) -> list[str]:
    """Addresses whose file must be read to know what it is: the tag does not tell."""
    base = history.files
    touched = (set(wanted) | _to_remove(wanted, history)) & set(found)
    return sorted(a for a in touched if a not in base or not base[a].tag or base[a].tag != found[a].tag)


def compare(wanted: Mapping[str, PublishedFile], history: Publications, there: TargetState) -> Difference:
    """The difference between what is wanted and what is at the target."""
    groups: dict[str, list[str]] = {"added": [], "changed": [], "mended": [], "unchanged": []}
    by_hand = []
    for address, entry in sorted(wanted.items()):
        groups[_group(address, entry, history, there)].append(address)
    removed = sorted(a for a in _to_remove(wanted, history) if not there.knows(a) or a in there.found)
    for address in (*groups["added"], *groups["changed"], *groups["mended"], *removed):
        digest = there.digests.get(address)
        if digest is not None and digest not in history.known_digests(address):
            by_hand.append(address)
    unchanged = groups.pop("unchanged")
    return Difference(
        **{name: tuple(addresses) for name, addresses in groups.items()},
        removed=tuple(removed),
        by_hand=tuple(sorted(by_hand)),
        bytes=sum(wanted[a].size for addresses in groups.values() for a in addresses),
        unchanged=len(unchanged),
    )


def _group(address: str, entry: PublishedFile, history: Publications, there: TargetState) -> str:
    base = history.files.get(address)
    if not there.knows(address):
        return "unchanged"
    if address not in there.found:
        return "mended" if base is not None else "added"
    digest = there.digests.get(address)
    if digest is None:  # the tag says that it is as recorded
        return "unchanged" if _same(entry, base) else "changed"
    if digest == entry.digest and (history.known_form(address) or entry.form) == entry.form:
        return "unchanged"
    return "mended" if _same(entry, base) else "changed"


def _same(entry: PublishedFile, base: PublishedFile | None) -> bool:
    return base is not None and (entry.digest, entry.form) == (base.digest, base.form)


def _to_remove(wanted: Mapping[str, PublishedFile], history: Publications) -> set[str]:
    """What publications put there and is not needed: neither now nor to bring an earlier one back."""
    return set(history.ours - wanted.keys() - history.needed_names())


def dropped_addresses(wanted: Iterable[str], history: Publications) -> list[str]:
    """Addresses that clients may have and that would lead nowhere.

    Names that change with their bytes are no addresses to send: pages lead to them.
    """
    kept = set(wanted)
    return sorted(a for a in history.files if a not in kept and not is_named_by_bytes(a))
