"""Dates as people write them, and the one form that files use: year-month-day (ISO 8601)."""

import calendar
import re
from datetime import date

_EXAMPLE = "write year-month-day, such as 2026-09-14"
_MONTHS = {name.lower(): number for number, name in enumerate(calendar.month_name) if name}
_MONTHS |= {name[:3]: number for name, number in _MONTHS.items()} | {"sept": 9}


def date_advice(text: str) -> str:
    """What to write instead of a date in another form; both readings where day and month can be either."""
    days = readings(text)
    if not days:
        return _EXAMPLE
    if len(days) == 1:
        return f"write {days[0]}"
    first, second = days
    return f"write {first} for {_spoken(first)}, or {second} for {_spoken(second)}"


def readings(text: str) -> list[str]:
    """The days that a date in another form can mean, as year-month-day."""
    plain = re.sub(r"\b(\d{1,2})(?:st|nd|rd|th)\b", r"\1", text.strip().lower().replace(",", " "))
    return list(dict.fromkeys(day.isoformat() for day in _readings(" ".join(plain.split()))))


def _readings(plain: str) -> list[date]:
    if match := re.fullmatch(r"(\d{4})[-/. ](\d{1,2})[-/. ](\d{1,2})", plain):
        year, month, day = map(int, match.groups())
        return _days((year, month, day))
    if match := re.fullmatch(r"(\d{1,2})\. ?(\d{1,2})\. ?(\d{4})", plain):  # with full stops the day leads
        day, month, year = map(int, match.groups())
        return _days((year, month, day))
    if match := re.fullmatch(r"(\d{1,2})[-/](\d{1,2})[-/](\d{4})", plain):
        one, other, year = map(int, match.groups())
        return _days((year, other, one), (year, one, other))
    if match := re.fullmatch(r"(\d{1,2})\.? ([a-z]+)\.? (\d{4})|([a-z]+)\.? (\d{1,2}) (\d{4})", plain):
        name = match[2] or match[4]
        return _days((int(match[3] or match[6]), _MONTHS.get(name, 0), int(match[1] or match[5])))
    return []


def _days(*candidates: tuple[int, int, int]) -> list[date]:
    days = []
    for year, month, day in candidates:
        try:
            days.append(date(year, month, day))
        except ValueError:  # no such day: the other reading is meant
            continue
    return days


def _spoken(iso: str) -> str:
    day = date.fromisoformat(iso)
    return f"{day.day} {calendar.month_name[day.month]}"


def last_days(text: str) -> str:
    """Advice for year-month-day of a day that its month does not have."""
    year, month, _ = map(int, text.split("-"))
    if not (year >= 1 and 1 <= month <= 12):
        return "months go from 01 to 12: " + _EXAMPLE
    length = calendar.monthrange(year, month)[1]
    return f"{calendar.month_name[month]} {year} has {length} days"
