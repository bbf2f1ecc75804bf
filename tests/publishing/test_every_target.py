"""What holds for every kind of target: a folder, SFTP, an S3 bucket, a git branch."""

import pytest

from sitegen.publishing.publication_record import RECORDS
from sitegen.publishing.target_errors import TargetError
from tests.publishing.places import Place
from tests.publishing.sites import FIRST, SECOND, Person

ENGINE = ["folder", "branch"]
"""Targets for what does not depend on the kind: one written file by file, one at once."""


def test_a_published_site_is_there_byte_for_byte(place: Place, robin: Person) -> None:
    sent = robin.publish(place, FIRST)
    assert place.visible() == FIRST
    assert (sent.number, sent.files, sent.removed) == (1, 9, 0)


def test_only_the_difference_is_sent_and_what_was_before_comes_back(place: Place, robin: Person) -> None:
    robin.publish(place, FIRST)
    # What publishing did not put there is never removed.
    mine = {"notes.txt": b"mine", "episodes/one/extra.txt": b"mine too"}
    for address, data in mine.items():
        place.put(address, data)
    difference = robin.look(place, SECOND).difference
    assert difference.added == (
        "assets/site.bbbbbbbbbb.css",
        "episodes/two/index.html",
        "media/two.abcdefabcd.webm",
    )
    assert difference.changed == (
        "episodes/one/index.html",
        "exercises/towel-row/index.html",
        "feed.xml",
        "index.html",
    )
    assert difference.removed == ("exercises/goes/index.html",)
    assert (difference.mended, difference.by_hand, difference.unchanged) == ((), (), 3)
    sent = robin.publish(place, SECOND)
    assert (sent.number, sent.files, sent.removed) == (2, 7, 1)
    # Old assets stay for pages that are still open somewhere, and to bring them back.
    old_style = {"assets/site.aaaaaaaaaa.css": FIRST["assets/site.aaaaaaaaaa.css"]}
    assert place.visible() == SECOND | old_style | mine

    robin.restore(place)
    newer = {a: SECOND[a] for a in ("assets/site.bbbbbbbbbb.css", "media/two.abcdefabcd.webm")}
    assert place.visible() == FIRST | newer | mine


@pytest.mark.parametrize("place", ENGINE, indirect=True)
def test_nothing_is_sent_where_nothing_changed(place: Place, robin: Person) -> None:
    robin.publish(place, FIRST)
    difference = robin.look(place, FIRST).difference
    assert difference.nothing
    assert difference.unchanged == 9


@pytest.mark.parametrize("place", ENGINE, indirect=True)
def test_looking_changes_nothing(place: Place, robin: Person) -> None:
    robin.publish(place, FIRST)
    before = place.everything()
    robin.look(place, SECOND)
    assert place.everything() == before


@pytest.mark.parametrize("place", ENGINE, indirect=True)
def test_the_last_five_come_back_and_what_is_older_is_forgotten(place: Place, robin: Person) -> None:
    for n in range(1, 8):
        robin.publish(
            place,
            FIRST
            | {
                "index.html": b"home %d" % n,
                f"{n}/index.html": b"alias",
                f"media/x.{n:010d}.webm": b"%d" % n,
            },
        )
    assert sorted(a for a in place.remembered() if a.startswith(RECORDS)) == [
        f".published/publications/{n:06d}.json.gz" for n in range(2, 8)
    ]
    # Five home pages, and the other page, whose bytes are the same each time.
    assert len([a for a in place.remembered() if "/kept/" in a]) == 6
    media = [f"media/x.{n:010d}.webm" for n in range(2, 8)]
    assert sorted(a for a in place.visible() if "/x." in a) == media
    with pytest.raises(TargetError, match="publication 1 cannot be brought back"):
        robin.restore(place, 1)
    for n in (2, 6):  # the oldest, which comes back as the eighth, so that the second is forgotten
        robin.restore(place, n)
        told = {a: data for a, data in place.visible().items() if "/x." not in a}
        assert told == FIRST | {"index.html": b"home %d" % n, f"{n}/index.html": b"alias"}


@pytest.mark.parametrize("place", ENGINE, indirect=True)
def test_the_first_publication_has_nothing_before_it(place: Place, robin: Person) -> None:
    robin.publish(place, FIRST)
    with pytest.raises(TargetError, match="no earlier publication"):
        robin.restore(place)


@pytest.mark.parametrize("place", ENGINE, indirect=True)
def test_only_records_and_kept_pages_lie_beside_the_site(place: Place, robin: Person) -> None:
    robin.publish(place, FIRST)
    robin.publish(place, SECOND)
    kinds = {a.split("/")[1] for a in place.remembered()}
    assert kinds == {"publications", "kept"}
