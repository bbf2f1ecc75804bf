"""Where the sheets are, and the short addresses that can be read aloud."""

from sitegen.model import Episode
from sitegen.pages.episode import episode_address
from sitegen.pages.site import Site

USUAL, LARGE, WEEKS, CODE = "usual", "large", "weeks", "code"
"""The usual print, the large print, four weeks side by side, and the code that opens the session."""

_FILES = {USUAL: "index.html", LARGE: "large/index.html", WEEKS: "weeks/index.html", CODE: "code.svg"}


def sheet_address(slug: str, kind: str = USUAL) -> str:
    """A file of a session's sheets."""
    return f"episodes/{slug}/sheet/{_FILES[kind]}"


def pdf_address(slug: str, paper: str) -> str:
    """The usual print as a PDF file for ``a4`` or ``letter``."""
    return f"episodes/{slug}/sheet-{paper}.pdf"


def large_pdf_address(slug: str) -> str:
    """The large print as a PDF file, for the paper that the series' country has."""
    return f"episodes/{slug}/sheet-large.pdf"


def paper_of(units: str) -> str:
    """The paper of a series: US Letter where it counts in US units."""
    return "letter" if units == "us" else "a4"


def alias_address(site: Site, episode: Episode) -> str | None:
    """A page named by the session's number alone; None where the trainer has put something else there."""
    name = str(episode.number)
    taken = any(page.slug == name for page in site.series.pages) or any(
        old.strip("/").split("/")[0] == name for old in site.details.moved
    )
    return None if taken else f"{name}/index.html"


def spoken_address(site: Site, episode: Episode) -> str:
    """The shortest way to a session, as one says it: without ``https://`` and the last slash."""
    address = site.public(alias_address(site, episode) or episode_address(episode.slug))
    return address.partition("://")[2].removesuffix("/")
