"""Writing the site: only what changed, all of it or nothing, one build at a time."""

from sitegen.building.workshop import Busy, Workshop
from sitegen.building.writer import Written, write_site
from sitegen.pages.page import Page

__all__ = ["Busy", "Page", "Workshop", "Written", "write_site"]
