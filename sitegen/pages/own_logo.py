"""The trainer's logo inside other pictures: as data, so that the picture needs no other file."""

import base64
import mimetypes
from pathlib import Path

from sitegen.pages.site import Site


def logo_data(site: Site, content: Path) -> str:
    """The logo as a ``data:`` address (RFC 2397), the one for light grounds; empty where there is none."""
    logo = site.logo()
    if logo is None or site.details.look.logo is None:
        return ""
    file = content / site.details.look.logo.file
    kind = mimetypes.guess_type(file.name)[0] or "image/png"
    return f"data:{kind};base64,{base64.b64encode(file.read_bytes()).decode()}"
