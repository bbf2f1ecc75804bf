"""A client's own page: one HTML file that needs nothing else, from an e-mail, offline, on a phone."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from markupsafe import Markup

from sitegen.pages.client.client_plan import ClientPlan
from sitegen.pages.client.days import HerDay
from sitegen.pages.client.fitted import advice, fitted_in_full
from sitegen.pages.client.her_sessions import HerViews
from sitegen.pages.one_file import inlined_script, inlined_style
from sitegen.pages.readiness import readiness_view
from sitegen.pages.script_json import script_json
from sitegen.reading.markdown import block_html
from sitegen.study.field_tests import FIELD_TESTS

WHAT = "log of a client"
"""Names the kind of file that her page saves."""

STYLES = (
    *("styles/site.css", "styles/episode.css", "styles/drawings.css", "styles/sheet.css"),
    "client/client.css",
)
SCRIPTS = ("scripts/readiness.js", "scripts/plain-text.js", "client/log.js")


def client_page(
    plan: ClientPlan, sheets: Markup, days: Sequence[HerDay], calendar: bytes, today: date
) -> bytes:
    """The file. ``calendar``: her calendar file, which the page can save."""
    site = plan.site
    script, policy = inlined_script(site.theme, SCRIPTS)
    template = site.theme.environment.get_template("client.html")
    page = template.render(
        site.context(
            "plan.html",
            name=plan.client.name,
            fitted=fitted_in_full(plan),
            advice=advice(plan),
            note=Markup(block_html(plan.client.note, 2)) if plan.client.note else "",
            style=inlined_style(site.theme, STYLES),
            script=script,
            policy=policy,
            sessions=HerViews(plan, today).sessions(),
            days=days,
            tests=list(_tests(plan)),
            readiness=readiness_view(site),
            sheets=sheets,
            data=script_json(_data(plan, calendar)),
        )
    )
    return page.encode()


@dataclass(frozen=True, slots=True, kw_only=True)
class HerTest:
    """A field test that she does at home."""

    id: str
    name: str
    how: str
    counted: str
    last: str
    """Her last result with its day; empty for none."""


def _tests(plan: ClientPlan) -> Iterator[HerTest]:
    """The tests of her file, without those that something stands in the way of."""
    words, client = plan.site.theme.strings.client.tests, plan.client
    for test, in_the_way in plan.tailor.tests().items():
        if in_the_way:
            continue
        before = sorted((one for one in client.baseline if one.test == test), key=lambda one: one.day)
        yield HerTest(
            id=test,
            name=test.capitalize(),
            how=words.how[test],
            counted=words.counted[FIELD_TESTS[test]],
            last=words.last.format(result=before[-1].result, day=plan.site.phrases.day(before[-1].day))
            if before
            else "",
        )


def _data(plan: ClientPlan, calendar: bytes) -> dict[str, Any]:
    """``{"what", "code", "series", "calendar": the file's text, "words": {…}}`` for ``log.js``."""
    words = plan.site.theme.strings.client
    send = ("clear_sure", "cleared", "saved", "imported", "bad", "file")
    return {
        "what": WHAT,
        "code": plan.code,
        "series": plan.site.details.address,
        "calendar": calendar.decode(),
        "words": {name: words.send[name] for name in send}
        | {"kept": words.log.kept, "not_kept": words.log.not_kept, "calendar": words.calendar_name},
    }
