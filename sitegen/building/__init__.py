"""Writing the site: only what changed, all of it or nothing, one build at a time."""

from sitegen.building.build_directory import BuildDirectory, Busy
from sitegen.building.writer import Written, write_site
from sitegen.pages.page import Page

__all__ = ["BuildDirectory", "Busy", "Page", "Written", "write_site"]
