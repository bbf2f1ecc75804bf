"""Bring back an earlier publication from what the target itself has kept."""

from dataclasses import replace

from sitegen.publishing.file_source import KeptFiles, lost_files
from sitegen.publishing.publication_record import KEPT, Publication, PublishedFile
from sitegen.publishing.publications import Publications
from sitegen.publishing.publisher import Comparison, Publisher
from sitegen.publishing.target_errors import TargetError


def find_publication(history: Publications, number: int | None) -> Publication:
    """The publication with a number, or the last that was whole before what is out. Raises TargetError."""
    earlier = history.earlier
    if not earlier:
        raise TargetError("there is no earlier publication to bring back")
    if number is None:
        return earlier[-1]
    found = next((p for p in earlier if p.number == number), None)
    if found is None:
        advice = f"these can: {'; '.join(map(describe, reversed(earlier)))}"
        raise TargetError(f"publication {number} cannot be brought back", advice)
    return found


def describe(publication: Publication) -> str:
    """``12 of 2026-09-14 18:02 UTC (3 pages added)``, in one line."""
    when = publication.at[:16].replace("T", " ")
    again = f", as {publication.again} was" if publication.again is not None else ""
    return f"{publication.number} of {when} UTC ({publication.title}{again})"


def compare_for_restore(publisher: Publisher, publication: Publication) -> tuple[Comparison, KeptFiles]:
    """What bringing it back would change. Raises TargetError where the target has lost a file of it."""
    wanted: dict[str, PublishedFile] = {a: replace(entry, tag="") for a, entry in publication.files.items()}
    comparison = publisher.compare(wanted)
    lost = lost_files(publication, comparison.difference.sent, publisher.store.list(KEPT))
    if lost:
        message = f"publication {publication.number} cannot be brought back"
        why = f"{lost[0]} is no longer at the target"
        raise TargetError(f"{message}: {why}", "publish from the content instead")
    return comparison, KeptFiles(publication)
