"""Files are sent in an order in which no page is seen without its parts."""

from sitegen.publishing.difference import Difference
from sitegen.publishing.order import phases


def test_media_first_then_pages_then_where_visitors_come_in() -> None:
    difference = Difference(
        added=("assets/site.0123456789.css", "episodes/two/index.html", "media/two.0123456789.webm"),
        changed=("episodes/one/index.html", "exercises/find.js", "feed.xml", "index.html", "schedule.ics"),
        mended=("404.html", "media/one.0123456789.jpg", "needs/index.html", "schedule/index.html"),
        removed=("old/index.html",),
    )
    assert [(phase.name, phase.addresses) for phase in phases(difference)] == [
        ("media", ("assets/site.0123456789.css", "media/one.0123456789.jpg", "media/two.0123456789.webm")),
        ("new pages", ("episodes/two/index.html",)),
        ("changed pages", ("episodes/one/index.html", "exercises/find.js", "needs/index.html")),
        ("entry pages", ("404.html", "feed.xml", "index.html", "schedule.ics", "schedule/index.html")),
    ]


def test_phases_without_files_are_left_out() -> None:
    assert [phase.name for phase in phases(Difference(changed=("index.html",)))] == ["entry pages"]
    assert phases(Difference(removed=("index.html",))) == []
