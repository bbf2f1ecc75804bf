"""A file that came back, to a log: what her page saves, or the progress file of the public site.

Nothing is guessed and nothing is mended: a file that says one thing that a page would not have written is
refused whole, in one line with the place, because half of a log could hide the pain in the other half.
"""

import re
from collections.abc import Iterator, Mapping
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any

from sitegen.clients.client import TestResult, reference_of
from sitegen.clients.log import Log, LogEntry, Sitting
from sitegen.clients.untrusted_json import NotAccepted, read_json, shown
from sitegen.model import Episode, Series
from sitegen.reading.schemas.texts import LONGEST_ID
from sitegen.study.field_tests import FIELD_TESTS
from sitegen.study.forms import FormKey

LOG, PROGRESS = "log of a client", "progress of a series"
"""What the two kinds of file call themselves (``client/log.js``, ``scripts/progress-file.js``)."""
VERSIONS = (1, 2)
"""Version 2 has an effort for each exercise, and field tests."""
MOST_SITTINGS, MOST_ITEMS, MOST_TESTS, MOST_DAYS = 1000, 100, 200, 60
"""Sessions in a log, exercises in one, field tests, and days that the site keeps of one session
(``progress-store.js``); the others are several times what years of training write (our choice)."""
MOST_TEXT, MOST_LINE, MOST_LOAD, MOST_REPS = 2000, 200, 40, 60
"""Characters of what she writes: the fields of her page take no more (``client.html``)."""
MOST_WORD = 120
"""Characters of dates, codes and names, several times those of the longest (our choice)."""
MOST_TIMES = 99
"""How often one session can be done again: two digits, as :data:`_SITTING` reads them."""
_LONGEST_NAME = 255 + LONGEST_ID
"""Characters: the longest name is an exercise's, which is that of a file, with a variant's behind it."""
_ID = r"[a-z0-9]+(?:-[a-z0-9]+)*"
# A session and which time of it, up to the 99th: a key of the log that her page keeps.
_SITTING = re.compile(rf"({_ID})-([1-9][0-9]?)")
_FORM = re.compile(rf"{_ID}(?:/{_ID})?")
_DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
_MOMENT = re.compile(rf"{_DAY.pattern}(?:T[0-9]{{2}}:[0-9]{{2}}:[0-9]{{2}}(?:\.[0-9]{{1,3}})?Z)?")
_CODE = re.compile(r"[0-9a-f]{12,64}")  # 16 digits today; longer ones would be read as well
_EARLIEST = date(2000, 1, 1)
"""An earlier day is a slip of the pen or of a clock that was never set."""


def read_log(path: Path, series: Series) -> Log:
    """The log of a file. Raises NotAccepted, in one line."""
    data = read_json(path)
    top = _Value("", data)
    what = data.get("what") if isinstance(data, dict) else None
    if what == LOG:
        return _client_log(top, path.name)
    if what == PROGRESS:
        return _progress(top, path.name, series)
    raise NotAccepted("it is no log: neither a client's page nor the site has saved it")


class _Value:
    """A value with the way that leads to it, for messages."""

    def __init__(self, way: str, value: Any) -> None:
        self._way, self.value = way, value

    def wrong(self, message: str) -> NotAccepted:
        return NotAccepted(f"{self._way}: {message}" if self._way else message)

    def record(self, known: tuple[str, ...] | None = None, most: int | None = None) -> dict[str, "_Value"]:
        """The values of a record by name; ``known``: no other names, ``most``: no more of them."""
        if not isinstance(self.value, dict):
            raise self.wrong("it is not a record")
        if most is not None and len(self.value) > most:
            raise self.wrong(f"it has {len(self.value)} entries, more than {most}")
        for name in self.value:
            if known is not None and name not in known:
                raise self.wrong(f"{shown(name)} is not known in such a file")
        return {name: self._inside(name, inner) for name, inner in self.value.items()}

    def list(self, most: int) -> "list[_Value]":
        if not isinstance(self.value, list) or len(self.value) > most:
            raise self.wrong(f"it is not a list of at most {most}")
        return [self._inside(str(n), inner) for n, inner in enumerate(self.value, 1)]

    def _inside(self, name: str, inner: Any) -> "_Value":
        # A name goes into a message: one that is not plain could hold what a terminal obeys.
        plain = name if re.fullmatch(r"[a-z0-9/_-]{1,80}", name) else shown(name)
        return _Value(f"{self._way} > {plain}" if self._way else plain, inner)

    def text(self, most: int) -> str:
        if not isinstance(self.value, str):
            raise self.wrong("it is not a text")
        # The page counts in units of UTF-16, of which a character may take two: never fewer than here.
        if len(self.value) > most:
            raise self.wrong(f"it is longer than {most} characters")
        return self.value

    def matching(self, pattern: re.Pattern[str], what: str) -> str:
        text = self.text(MOST_WORD)
        if not pattern.fullmatch(text):
            raise self.wrong(f"{shown(text)} is not {what}")
        return text

    def whole(self, least: int, most: int) -> int:
        if isinstance(self.value, bool) or not isinstance(self.value, int):
            raise self.wrong("it is not a whole number")
        if not least <= self.value <= most:
            raise self.wrong(f"{self.value} is not between {least} and {most}")
        return self.value

    def day(self) -> date:
        text = self.matching(_DAY, "a date")
        try:
            day = date.fromisoformat(text)
        except ValueError:
            raise self.wrong(f"{shown(text)} is not a date") from None
        if day < _EARLIEST:
            raise self.wrong(f"{text} is too long ago")
        return day

    def moment(self) -> datetime:
        """A day alone is as old as its beginning."""
        text = self.matching(_MOMENT, "a moment")
        try:
            moment = datetime.fromisoformat(text)
        except (ValueError, OverflowError):  # the latter for midnight at the end of the year 9999
            raise self.wrong(f"{shown(text)} is not a moment") from None
        return moment if moment.tzinfo else moment.replace(tzinfo=UTC)

    def yes(self) -> bool:
        if self.value is not True:
            raise self.wrong("it is not true")
        return True


def _client_log(top: _Value, file: str) -> Log:
    parts = top.record(("what", "v", "for", "series", "saved", "sittings", "tests"))
    _version(parts, VERSIONS)
    for name in ("for", "saved", "sittings"):
        if name not in parts:
            raise top.wrong(f"it says no {name}")
    parts["series"].text(MOST_LINE) if "series" in parts else ""  # not used, but it has to be a text
    sittings = parts["sittings"].record(most=MOST_SITTINGS)
    return Log(
        file=file,
        code=parts["for"].matching(_CODE, "the code of a plan"),
        saved=parts["saved"].moment(),
        sittings=tuple(_sitting(name, place) for name, place in sittings.items()),
        tests=tuple(map(_test, parts["tests"].list(MOST_TESTS))) if "tests" in parts else (),
    )


def _version(parts: Mapping[str, _Value], known: tuple[int, ...]) -> None:
    if "v" not in parts:
        raise NotAccepted("it does not say its version")
    version = parts["v"].whole(0, 10**9)
    if version > max(known):
        raise NotAccepted(f"it is of version {version}, newer than this program: bring sitegen up to date")
    if version not in known:
        raise parts["v"].wrong(f"there is no version {version}")


def _named(name: str, place: _Value) -> tuple[str, int]:
    match = _SITTING.fullmatch(name) if len(name) <= _LONGEST_NAME else None
    if not match:
        raise place.wrong("it is not a session and which time of it, such as cast-off-1")
    return match[1], int(match[2])


_SITTING_NAMES = ("v", "done", "effort", "text", "pain", "dizzy", "changed", "items")


def _sitting(name: str, place: _Value) -> Sitting:
    slug, time = _named(name, place)
    parts = place.record(_SITTING_NAMES)
    _version(parts, (1,))
    items = parts["items"].record(most=MOST_ITEMS) if "items" in parts else {}
    return Sitting(
        slug=slug,
        time=time,
        done=parts["done"].day() if "done" in parts else None,
        effort=parts["effort"].whole(0, 10) if "effort" in parts else None,
        text=parts["text"].text(MOST_TEXT) if "text" in parts else "",
        pain=parts["pain"].text(MOST_LINE) if "pain" in parts else None,
        dizzy=parts["dizzy"].yes() if "dizzy" in parts else False,
        changed=parts["changed"].moment() if "changed" in parts else None,
        items={_form_name(form, inner): _written(inner) for form, inner in items.items()},
    )


def _form_name(name: str, place: _Value) -> str:
    if len(name) > _LONGEST_NAME or not _FORM.fullmatch(name):
        raise place.wrong("it is not the id of an exercise")
    return name


def _written(place: _Value) -> LogEntry:
    parts = place.record(("load", "reps", "effort"))
    return LogEntry(
        load=parts["load"].text(MOST_LOAD).strip() if "load" in parts else "",
        reps=parts["reps"].text(MOST_REPS).strip() if "reps" in parts else "",
        effort=parts["effort"].whole(0, 10) if "effort" in parts else None,
    )


MOST_RESULT = 999
"""Repetitions or seconds of a field test: three digits, as its field takes them."""


def _test(place: _Value) -> TestResult:
    parts = place.record(("test", "day", "result"))
    if set(parts) != {"test", "day", "result"}:
        raise place.wrong("a field test has test, day and result")
    test = parts["test"].text(40)  # longer than any name of a test
    if test not in FIELD_TESTS:
        raise parts["test"].wrong(f"{shown(test)} is not a field test")
    return TestResult(test=test, day=parts["day"].day(), result=parts["result"].whole(0, MOST_RESULT))


# --- the progress file of the public site --------------------------------------------------------


def _progress(top: _Value, file: str, series: Series) -> Log:
    parts = top.record(("what", "v", "series", "saved", "entries", "days", "plan"))
    _version(parts, (1,))
    for name in ("series", "saved", "entries"):
        if name not in parts:
            raise top.wrong(f"it says no {name}")
    if parts["series"].text(MOST_LINE) != series.details.address:
        raise NotAccepted(f"it is of another series, {shown(parts['series'].value)}")
    saved = parts["saved"].moment()
    episodes = {episode.slug: episode for episode in series.sessions}
    days = parts["days"].record(most=MOST_SITTINGS) if "days" in parts else {}
    whole = {slug: sorted(_whole_days(place)) for slug, place in days.items()}
    entries = parts["entries"].record(most=MOST_SITTINGS)
    found = {
        key: sitting
        for name, place in entries.items()
        for key, sitting in [_entry(name, place, episodes, whole, saved)]
    }
    for slug, dates in whole.items():
        for time, day in enumerate(dates[:MOST_TIMES], 1):
            # As on the site: the n-th whole day is the n-th time, unless she said otherwise.
            found.setdefault((slug, time), Sitting(slug=slug, time=time, done=day, changed=saved))
    return Log(file=file, code="", saved=saved, sittings=tuple(found.values()))


def _entry(
    name: str,
    place: _Value,
    episodes: Mapping[str, Episode],
    whole: Mapping[str, list[date]],
    saved: datetime,
) -> tuple[tuple[str, int], Sitting]:
    slug, time = _named(name, place)
    parts = place.record(("v", "done", "text", "items"))
    _version(parts, (1,))
    ticked = parts.get("done")
    days = whole.get(slug, [])
    if ticked is None:
        done = days[time - 1] if len(days) >= time else None
    else:
        done = None if ticked.value is False else ticked.day()
    items = parts["items"].record(most=MOST_ITEMS) if "items" in parts else {}
    sitting = Sitting(
        slug=slug,
        time=time,
        done=done,
        text=parts["text"].text(MOST_TEXT) if "text" in parts else "",
        changed=saved,
        items={_asked_for(_form_name(form, p), episodes.get(slug)): _written(p) for form, p in items.items()},
    )
    return (slug, time), sitting


def _asked_for(name: str, episode: Episode | None) -> str:
    """The form of a session that the site calls by the id of its variant, or else of its exercise."""
    for block in episode.blocks if episode else ():
        for item in block.items:
            if (item.variant or item.exercise) == name:
                return reference_of(FormKey(item.exercise, item.variant))
    return name


def _whole_days(place: _Value) -> Iterator[date]:
    """Days on which every turn was through, or the video was seen to its end where there is none.

    The countdowns of a turn under way (``at``, ``clock`` and others) are the site's own affair.
    """
    parts = place.record(("v", "days"))
    days = parts["days"].record(most=MOST_DAYS) if "days" in parts else {}
    for name, day in days.items():
        inside = day.record(("of", "turns", "watched"))
        of = inside["of"].whole(0, MOST_ITEMS) if "of" in inside else 0
        turns = inside["turns"].record(most=MOST_ITEMS) if "turns" in inside else {}
        through = sum(map(_is_through, turns.values()))
        when = _Value(f"days > {shown(name)}", name).day()
        if through >= of if of else "watched" in inside and inside["watched"].yes():
            yield when


def _is_through(turn: _Value) -> bool:
    parts = turn.record(most=20)  # several times what the page keeps of a turn
    if "done" not in parts or "need" not in parts:
        raise turn.wrong("it says no done or no need")
    sets = [one.text(120) for one in parts["done"].list(500)]
    return len(sets) >= parts["need"].whole(0, 500)
