"""Writing the site: only what changed, all of it or nothing, one build at a time."""

from sitegen.output.page import Page
from sitegen.output.workshop import Busy, Workshop
from sitegen.output.writer import Written, write_site

__all__ = ["Busy", "Page", "Workshop", "Written", "write_site"]
