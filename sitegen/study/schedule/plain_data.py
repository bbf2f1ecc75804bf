"""Requests and plans as plain data (JSON), the form the browser's scheduler takes and answers."""

from dataclasses import fields, is_dataclass
from datetime import date
from typing import Any


def as_data(value: Any) -> Any:
    """Records as dicts with the same names, tuples as lists, dates as ``2026-09-07``."""
    if is_dataclass(value):
        return {field.name: as_data(getattr(value, field.name)) for field in fields(value)}
    if isinstance(value, tuple):
        return [as_data(part) for part in value]
    return value.isoformat() if isinstance(value, date) else value
