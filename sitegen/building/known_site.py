"""What is known of the site in place: which batches and pages a build may leave as they are."""

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import chain
from typing import NamedTuple

from sitegen.building.manifest import (
    SINGLE,
    BatchHead,
    BuiltBatch,
    BuiltFile,
    FileGroup,
    Manifest,
    Stamp,
    group_of,
)
from sitegen.building.site_state import session_folder
from sitegen.pages.inputs import Inputs
from sitegen.pages.page import Batch, Page, PlannedBatch, fingerprint, plan_now
from sitegen.system.file_states import FileState
from sitegen.system.noted_reads import recording


class SettledBatch(NamedTuple):
    """A batch that is as it was by all that was read for it; whether its files are has to be looked at."""

    batch: Batch
    built: BuiltBatch

    def addresses(self) -> Collection[str]:
        """Of all its files."""
        return self.built.files


class _Planned(NamedTuple):
    """A batch whose pages are looked at one by one."""

    batch: Batch
    addresses: frozenset[str]
    fingerprint: str
    read: frozenset[str]
    """Names of what was read to plan it."""


class KnownSite:
    """What is known of the site in place; from two manifests where a crash left it open which one holds.

    It takes the batches of the next site as they are planned: see :meth:`take`.
    """

    def __init__(self, manifests: Iterable[Manifest], site_key: str, inputs: Inputs) -> None:
        self._manifests = list(manifests)
        self.site_key = site_key
        self.inputs = inputs
        self.settled: dict[str, SettledBatch] = {}
        """Batches that are left as they are, by name."""
        self._planned: dict[str, _Planned] = {}
        self._current: dict[tuple[int, str], bool] = {}

    @property
    def damaged(self) -> bool:
        """Whether a manifest cannot be read."""
        return any(manifest.damaged for manifest in self._manifests)

    # --- batches ---------------------------------------------------------------------------

    def take(self, batch: Batch) -> PlannedBatch:
        """Settle a batch where nothing that was read for it has changed; otherwise plan it."""
        for manifest in self._manifests:
            built = manifest.batches.get(batch.name)
            if (
                built is not None
                and manifest.site_key == self.site_key
                and built.head.recipe == batch.recipe
                and built.head.key == self.inputs.key(built.head.read)
            ):
                settled = self.settled[batch.name] = SettledBatch(batch, built)
                return PlannedBatch(batch, (), built.head.addresses, settled.addresses)
        return self._plan(batch)

    def _plan(self, batch: Batch) -> PlannedBatch:
        with recording() as read:
            taken = plan_now(batch)
        addresses = frozenset(taken.addresses())
        self._planned[batch.name] = _Planned(batch, addresses, taken.fingerprint, frozenset(read))
        return taken

    def open(self, names: Iterable[str]) -> Iterator[Page]:
        """The pages of settled batches, which are to be looked at one by one after all."""
        for name in names:
            yield from self._plan(self.settled.pop(name).batch).pages

    def shared(self, addresses: Iterable[str]) -> set[str]:
        """Names of settled batches in whose folders other pages are planned, or were."""
        places = {folder: name for name, one in self.settled.items() for folder in one.built.head.folders}
        single = (m.batches[SINGLE].files for m in self._manifests if SINGLE in m.batches)
        others = {session_folder(address) for address in chain(addresses, *single)}
        return {places[folder] for folder in others & places.keys()}

    def touched(self, folders: Mapping[str, str], files: Mapping[str, FileState]) -> set[str]:
        """Names of settled batches whose files are not as they were left, by the fingerprints of their
        folders and the states of others."""
        return {
            name
            for name, (_, built) in self.settled.items()
            if built.head.states != states_of(built.head, folders, files)
        }

    # --- files -----------------------------------------------------------------------------

    def addresses(self) -> set[str]:
        """Of all files that builds are known to have written, but those in the folders of settled batches."""
        whole = {id(one.built) for one in self.settled.values()}
        loose = {address for one in self.settled.values() for address in one.built.head.loose}
        return loose.union(
            address
            for manifest in self._manifests
            for batch in manifest.batches.values()
            if id(batch) not in whole
            for address in batch.files
        )

    def is_current(self, page: Page, stamp: Stamp | None = None) -> bool:
        """Whether a page that is made now would be the one in place, which has the stamp if one is given."""
        for manifest in self._manifests:
            entry = manifest.file(page.address)
            if (
                entry is not None
                and entry.recipe == page.recipe
                and stamp in (None, entry.stamp)
                and manifest.site_key == self.site_key
                and self._group_is_current(manifest, group_of(page.address))
            ):
                return True
        return False

    def _group_is_current(self, manifest: Manifest, name: str) -> bool:
        known = self._current.get((id(manifest), name))
        if known is None:
            group = manifest.group(name)
            known = group is not None and group.key == self.inputs.key(group.read)
            self._current[id(manifest), name] = known
        return known

    # --- the next manifest -----------------------------------------------------------------

    def manifest(
        self,
        pages: Sequence[Page],
        read: Mapping[str, Iterable[str]],
        files: Mapping[str, FileState],
        folders: Mapping[str, str],
    ) -> Manifest:
        """That of the next site, of these pages and the settled batches.

        ``read`` says what was read for files made now, by address. ``files`` are the states of all files but
        those in the folders of settled batches, ``folders`` the fingerprints of all session folders.
        """
        batch_of = {address: name for name, one in self._planned.items() for address in one.addresses}
        entries: dict[str, dict[str, BuiltFile]] = {name: {} for name in (*self._planned, SINGLE)}
        for page in pages:
            built = BuiltFile(page.recipe, stamp_of(files[page.address]))
            entries[batch_of.get(page.address, SINGLE)][page.address] = built
        batches = {}
        for name, of_batch in entries.items():
            groups = self._groups(of_batch, read)
            head = self._head(name, of_batch, groups)
            batches[name] = BuiltBatch.of(_as_left(head, folders, files), of_batch, groups)
        for name, (_, before) in self.settled.items():
            batches[name] = BuiltBatch(_as_left(before.head, folders, files), before.packed)
        return Manifest(self.site_key, batches)

    def _head(self, name: str, addresses: Collection[str], groups: Mapping[str, FileGroup]) -> BatchHead:
        names = dict.fromkeys(chain.from_iterable(group.read for group in groups.values()))
        if name == SINGLE:
            return BatchHead(count=len(addresses), read=tuple(names))
        planned = self._planned[name]
        names |= dict.fromkeys(sorted(self.inputs.shortened(planned.read)))
        return BatchHead(
            recipe=planned.batch.recipe,
            key=self.inputs.key(names),
            read=tuple(names),
            addresses=planned.fingerprint,
            count=len(addresses),
            folders=tuple(dict.fromkeys(filter(None, map(session_folder, addresses)))),
            loose=tuple(address for address in addresses if not session_folder(address)),
        )

    def _groups(self, addresses: Iterable[str], made: Mapping[str, Iterable[str]]) -> dict[str, FileGroup]:
        """The groups of some addresses: ``made`` gives what was read for files made now."""
        of_group: dict[str, list[str]] = {}
        for address in addresses:
            of_group.setdefault(group_of(address), []).append(address)
        groups = {}
        for name, members in of_group.items():
            now = [made[address] for address in members if address in made]
            # Files that are as they were, made from what was read for them then.
            before = self._current_groups(name) if len(now) < len(members) else []
            if now or len(before) != 1:
                groups[name] = FileGroup.of({*chain(*now, *(group.read for group in before))}, self.inputs)
            else:
                groups[name] = before[0]
        return groups

    def _current_groups(self, name: str) -> list[FileGroup]:
        found = [m.group(name) for m in self._manifests if self._group_is_current(m, name)]
        return [group for group in found if group is not None]


def _as_left(head: BatchHead, folders: Mapping[str, str], files: Mapping[str, FileState]) -> BatchHead:
    return replace(head, states=states_of(head, folders, files) or "")


def states_of(head: BatchHead, folders: Mapping[str, str], files: Mapping[str, FileState]) -> str | None:
    """Fingerprint of the states of all files of a batch, by those of its folders and of files elsewhere; None
    where one is missing."""
    if not (folders.keys() >= set(head.folders) and files.keys() >= set(head.loose)):
        return None
    inside = (f"{folder} {folders[folder]}" for folder in head.folders)
    return fingerprint(*inside, *(f"{address} {tuple(files[address])}" for address in head.loose))


def stamp_of(file: FileState) -> Stamp:
    """The stamp of a written file."""
    return file.size, file.time_ns
