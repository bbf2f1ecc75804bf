"""A client's own page: one HTML file that needs nothing else, from an e-mail, offline, on a phone."""

from collections.abc import Sequence
from datetime import date
from typing import Any

from markupsafe import Markup

from sitegen.pages.client.days import HerDay
from sitegen.pages.client.inline import inlined_script, inlined_style
from sitegen.pages.client.site import ClientPlan
from sitegen.pages.client.views import HerViews
from sitegen.pages.readiness import readiness_view
from sitegen.pages.scriptdata import script_json
from sitegen.reading.markdown import block_html

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
            note=Markup(block_html(plan.client.note, 2)) if plan.client.note else "",
            style=inlined_style(site.theme, STYLES),
            script=script,
            policy=policy,
            sessions=HerViews(plan, today).sessions(),
            days=days,
            readiness=readiness_view(site),
            sheets=sheets,
            data=script_json(_data(plan, calendar)),
        )
    )
    return page.encode()


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
