"""The calendar of the series: its page, its calendar file, and what a client does with both."""

from sitegen.pages.schedule.facts import SESSION, session_fact
from sitegen.pages.schedule.pages import schedule_pages

__all__ = ["SESSION", "schedule_pages", "session_fact"]
