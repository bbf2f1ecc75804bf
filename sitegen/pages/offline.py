"""What lets viewers keep a session on their device: service worker, manifest, the list of what is kept.

W3C, *Service Workers*: the worker answers for all addresses below its own, so it lies at the site's root.
W3C, *Web Application Manifest*: what a device shows for the site once somebody puts it on the home screen.
"""

from collections.abc import Iterator
from functools import partial

from sitegen.pages.icon import ICON, SIZE, TOUCH_ICON
from sitegen.pages.page import Page
from sitegen.pages.script_json import script_json, to_json
from sitegen.pages.site import Site
from sitegen.pages.theme import without_comments

WORKER, MANIFEST, KEPT = "offline.js", "site.webmanifest", "kept/index.html"
_SCRIPT = "scripts/offline-worker.js"
_SHORT_NAME = 30
"""Most letters of the name below an icon, for which there is little room."""


def offline_pages(site: Site) -> Iterator[Page]:
    """The files that concern the device, and the page that lists what is kept there."""
    yield Page(WORKER, partial(_worker, site))
    yield Page(MANIFEST, partial(_manifest, site))
    yield Page(KEPT, partial(_list, site))


def _list(site: Site) -> bytes:
    return site.render("kept.html", KEPT, keep_words=script_json(vars(site.theme.strings.keep)))


def _worker(site: Site) -> bytes:
    return without_comments(site.theme.data(_SCRIPT))


def _manifest(site: Site) -> bytes:
    details = site.details
    return to_json(
        {
            "name": details.title,
            "short_name": details.title[:_SHORT_NAME],
            "description": details.summary,
            "lang": details.language,
            "start_url": "./",
            "scope": "./",
            "display": "standalone",
            "background_color": site.theme.palette.colours["light"]["paper"],
            "theme_color": site.theme.palette.colours["light"]["paper"],
            "icons": [
                {"src": ICON, "type": "image/svg+xml", "sizes": "any"},
                {"src": TOUCH_ICON, "type": "image/png", "sizes": f"{SIZE}x{SIZE}"},
            ],
        }
    ).encode()
