"""One publication from beginning to end: look, compare, and then send, verify, remove.

Whatever moment a connection breaks at, each address holds its old file or its new one, whole;
what pages need is there before them; and the records tell the next run how far this one came.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from typing import TypeVar

from sitegen.publishing.difference import Difference, TargetState, compare, to_read, worth_a_look
from sitegen.publishing.file_source import FileSource
from sitegen.publishing.headers import headers_for, is_named_by_bytes
from sitegen.publishing.lease import Lease
from sitegen.publishing.order import phases
from sitegen.publishing.publication_record import BY_HAND, KEPT, OWN, Publication, PublishedFile
from sitegen.publishing.publications import Publications, read_history
from sitegen.publishing.store import Store, StoredFile
from sitegen.publishing.target_errors import AGAIN, Missing, TargetBusy, TargetError

T = TypeVar("T")

Progress = Callable[[str, int, int], None]
"""Called with what is being done, how much of it is done and how much there is."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Comparison:
    """What a publication would do, and on what grounds."""

    wanted: Mapping[str, PublishedFile]
    history: Publications
    there: TargetState
    difference: Difference


@dataclass(frozen=True, slots=True, kw_only=True)
class SentReport:
    """What a publication did."""

    number: int
    files: int
    """Files that were sent and read back."""
    bytes: int
    """Bytes sent for them, as stored."""
    removed: int
    saved: tuple[str, ...] = ()
    """Where files that came by hand were put at the target."""


class Publisher:
    """Publishes to one open target."""

    def __init__(self, store: Store, now: Callable[[], datetime], progress: Progress | None = None) -> None:
        self.store = store
        self._now = now
        self._progress = progress or (lambda what, done, total: None)

    # --- looking ---------------------------------------------------------------------------

    def compare(self, wanted: Mapping[str, PublishedFile], *, thorough: bool = False) -> Comparison:
        """What would change; ``thorough`` reads every file instead of trusting tags."""
        history = read_history(self.store)
        there = self._look_around(wanted, history, thorough)
        difference = compare(wanted, history, there)
        return Comparison(wanted=wanted, history=history, there=there, difference=difference)

    def _look_around(
        self, wanted: Mapping[str, PublishedFile], history: Publications, thorough: bool
    ) -> TargetState:
        looked_at = None
        if self.store.lists_cheaply or thorough or history.current is None:
            found = {a: f for a, f in self.store.list().items() if not a.startswith(OWN)}
        else:
            looked_at = worth_a_look(wanted, history)
            looks = zip(looked_at, self._each("looking", self.store.look, looked_at), strict=True)
            found = {address: look for address, look in looks if look is not None}
        reads = to_read(wanted, history, found)
        if thorough:
            reads = sorted(found.keys() & (wanted.keys() | history.ours))

        def read(address: str) -> str | None:
            form = history.known_form(address) or (wanted[address].form if address in wanted else "")
            return self.store.digest(address, form)

        digests = dict(zip(reads, self._each("comparing", read, reads), strict=True))
        gone = [address for address, digest in digests.items() if digest is None]
        found = {a: f for a, f in found.items() if a not in gone}
        known = {a: digest for a, digest in digests.items() if digest is not None}
        return TargetState(found=found, looked_at=looked_at, digests=known)

    # --- sending ---------------------------------------------------------------------------

    def send(self, comparison: Comparison, source: FileSource, lease: Lease, title: str) -> SentReport:
        """Bring the target to what is wanted; the caller holds the lease.

        Raises TargetBusy where somebody published since the comparison, and TargetError.
        """
        history, difference = comparison.history, comparison.difference
        if not history.same_as(read_history(self.store)):
            message = f"somebody else has published to {self.store.where} since you looked"
            raise TargetBusy(message, f"{AGAIN} to see what changes now")
        self.store.begin()
        record = Publication(
            number=history.next_number,
            at=self._now().astimezone(UTC).isoformat(timespec="seconds"),
            finished=False,
            files=comparison.wanted,
            title=title,
            again=source.again,
        )
        self._write_record(record)
        saved = self._save_by_hand(difference, record.number)
        self._keep_replaced(comparison)
        size = self._send_files(comparison, source, lease)
        lease.look(now=True)
        self._write_record(replace(record, finished=True, files=self._with_tags(comparison)))
        self._remove(difference.removed)
        self._forget(history, record)
        self.store.finish(f"Publication {record.number}: {title}")
        return SentReport(
            number=record.number,
            files=len(difference.sent),
            bytes=size,
            removed=len(difference.removed),
            saved=saved,
        )

    def _write_record(self, record: Publication) -> None:
        data = record.dump()
        self.store.write(record.address, data, headers_for(record.address))
        if self.store.read(record.address) != data:
            raise TargetError(f"{self.store.where} does not give back what was written ({record.address})")

    def _save_by_hand(self, difference: Difference, number: int) -> tuple[str, ...]:
        """Copy what came by hand and is about to be replaced or removed, where nothing clears it away."""
        copies = {address: f"{BY_HAND}{number:06d}/{address}" for address in difference.by_hand}
        for address, copy in copies.items():
            self.store.copy(address, copy)
        return tuple(copies.values())

    def _keep_replaced(self, comparison: Comparison) -> None:
        """Copy the published files that are about to be replaced, to bring them back one day."""
        base, there = comparison.history.files, comparison.there
        difference = comparison.difference
        kept = self.store.list(KEPT)

        def is_old(address: str) -> bool:
            """Whether the file there is that of the publication that is out, and has no copy yet."""
            if address not in base or address not in there.found or is_named_by_bytes(address):
                return False
            digest = there.digests.get(address, base[address].digest)
            return digest == base[address].digest and base[address].kept_at not in kept

        def keep(address: str) -> None:
            try:
                self.store.copy(address, base[address].kept_at)
            except Missing:  # removed by hand a moment ago
                pass

        self._each("keeping the old", keep, filter(is_old, (*difference.changed, *difference.removed)))

    def _send_files(self, comparison: Comparison, source: FileSource, lease: Lease) -> int:
        """Send every phase and read it back; gives the bytes sent."""
        total = 0
        for phase in phases(comparison.difference):
            lease.look(now=True)

            def send(address: str) -> int:
                lease.look()
                return source.send(self.store, address, comparison.wanted[address])

            total += sum(self._each(f"sending {phase.name}", send, phase.addresses))
            self._verify(phase.addresses, comparison.wanted, send)
        return total

    def _verify(
        self, addresses: Sequence[str], wanted: Mapping[str, PublishedFile], send: Callable[[str], int]
    ) -> None:
        """Read files back; what is not right is sent once more, and is an error if that does not help."""

        def right(address: str) -> bool:
            return self.store.digest(address, wanted[address].form) == wanted[address].digest

        for last in (False, True):
            read_back = zip(addresses, self._each("reading back", right, addresses), strict=True)
            wrong = [address for address, good in read_back if not good]
            if not wrong:
                return
            if last:
                advice = f"nothing was lost; {AGAIN}, and ask who runs the target if it stays so"
                raise TargetError(f"{self.store.where} does not give back what was sent: {wrong[0]}", advice)
            addresses = wrong
            self._each("sending again", send, wrong)

    def _with_tags(self, comparison: Comparison) -> dict[str, PublishedFile]:
        """The files with the target's tags: as found, looked up for what was sent, else as recorded."""
        wanted, base = comparison.wanted, comparison.history.files
        sent = comparison.difference.sent
        looks = self._looks(sent)

        def tag(address: str) -> str:
            found = looks[address] if address in looks else comparison.there.found.get(address)
            if found is not None:
                return found.tag
            return base[address].tag if address in base and address not in looks else ""

        return {address: replace(entry, tag=tag(address)) for address, entry in wanted.items()}

    def _looks(self, addresses: Sequence[str]) -> Mapping[str, StoredFile | None]:
        if self.store.lists_cheaply:
            listed = self.store.list()
            return {address: listed.get(address) for address in addresses}
        return dict(zip(addresses, self._each("noting", self.store.look, addresses), strict=True))

    # --- clearing up -----------------------------------------------------------------------

    def _remove(self, addresses: Sequence[str]) -> None:
        self._each("removing", self.store.remove, addresses)
        self.store.tidy(addresses)

    def _forget(self, history: Publications, record: Publication) -> None:
        """Remove the records and the kept files that only older publications need."""
        remembered = history.remembered()
        old = {p.address for p in (*history.finished, *history.unfinished)} | set(history.damaged)
        old -= {p.address for p in remembered}
        needed = {entry.kept_at for p in remembered for entry in p.files.values()}
        old |= self.store.list(KEPT).keys() - needed
        self._remove(sorted(old - {record.address}))

    # --- many at a time --------------------------------------------------------------------

    def _each(self, what: str, do: Callable[[str], T], addresses: Iterable[str]) -> list[T]:
        """``do`` for each address, several at a time where the target allows; results in order."""
        waiting = list(addresses)
        results = []
        with ThreadPoolExecutor(max(1, self.store.concurrency)) as pool:
            futures = [pool.submit(do, address) for address in waiting]
            try:
                for done, future in enumerate(futures, 1):
                    results.append(future.result())
                    self._progress(what, done, len(waiting))
            except BaseException:  # Ctrl-C too: what is under way ends, the rest is not begun
                pool.shutdown(wait=True, cancel_futures=True)
                raise
        return results
