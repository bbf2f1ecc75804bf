"""Pages of one file: styles, fonts and scripts of the theme are written into them, and they print alone."""

import base64
import hashlib
import re
from collections.abc import Sequence

from markupsafe import Markup

from sitegen.pages.page import fingerprint
from sitegen.pages.sheets.address import paper_of
from sitegen.pages.sheets.printing import PAPERS
from sitegen.pages.site import Site
from sitegen.pages.theme import Theme, without_comments
from sitegen.printing.document import Document, Resource
from sitegen.printing.pdf_printer import PdfPrinter

# As styles name the fonts beside them: what is one file has to carry them in it.
_FONT = re.compile(rb'url\("\.\./(fonts/[^"]+)"\)')


def inlined_style(theme: Theme, names: Sequence[str]) -> Markup:
    """Style sheets one after the other, each font once. Raises ValueError for one that ends its element."""
    style = b"\n".join(without_comments(theme.data(name)) for name in names)
    style = _FONT.sub(lambda match: _data(theme, match[1].decode()), style)
    if b"</" in style:
        raise ValueError("a style sheet must not end its element")
    return Markup(style.decode())


def _data(theme: Theme, name: str) -> bytes:
    return b'url("data:font/woff2;base64,%s")' % base64.b64encode(theme.data(name))


def inlined_script(theme: Theme, names: Sequence[str]) -> tuple[Markup, str]:
    """Scripts one after the other, and what a content security policy calls them (CSP 3, hash-source).

    Raises ValueError for a script that would end its element.
    """
    script = b"\n".join(without_comments(theme.data(name)) for name in names)
    if b"</script" in script or b"<!--" in script:
        raise ValueError("a script must not end its element")
    text = script.decode()
    digest = base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()
    return Markup(text), f"'sha256-{digest}'"


def printed(site: Site, page: bytes, address: str, printer: PdfPrinter) -> bytes:
    """The page as a PDF file, on the paper of the series' units. Raises BrowserFailed where it cannot be.

    ``address`` exists while the page is printed only; links in the file lead below the site's own.
    """

    def file(asked: str) -> Resource | None:
        return Resource(page, "text/html; charset=utf-8") if asked == address else None

    document = Document(fingerprint(page), site.details.address, address, file)
    return printer.print(document, PAPERS[paper_of(site.details.units)])
