"""What trainers write by habit, and the documented form of the same.

Each function of :data:`HABITS` takes a text that its short form does not read and gives the documented
text, or None where it knows no such habit. A text that can be read in two ways raises NotationError with
both. The habits are common practice, no source, unless one is named.
"""

import re
from collections.abc import Callable, Mapping

from sitegen.notation.errors import NotationError
from sitegen.notation.text import PLAIN_SIGNS, tidy

Habit = Callable[[str], str | None]

_NUMBER = r"\d+(?:\.\d+)?"
_WHOLE_RANGE = r"\d+(?:-\d+)?"  # "8", "8-12"
_SIDE_WORD = r"(?:side|leg|arm|hand|way|foot)"
_SIDES = re.compile(
    rf"(?P<amount>.*\S)(?:(?<!e) ?/ ?(?:{_SIDE_WORD}|s|l)| (?:each|ea\.?|per|a|every|both) {_SIDE_WORD}s?"
    r"| ?(?:e/s|p/s|l ?[/+&] ?r|r ?[/+&] ?l)|(?P<bare> ?(?:each|ea\.?))"
    r"| ?left ?(?:[/+&]|and) ?right| ?right ?(?:[/+&]|and) ?left)"
)
_LEFT_AND_RIGHT = re.compile(
    rf"(?P<amount>{_WHOLE_RANGE}(?: ?s)?) ?(?P<side>l|r|left|right) ?(?:[/+&,]|and)? ?"
    r"(?P=amount) ?(?!(?P=side)$)(?:l|r|left|right)"
    rf"|(?P<one>l|r|left|right) ?(?P<much>{_WHOLE_RANGE}(?: ?s)?) ?(?:[/+&,]|and)? ?(?!(?P=one) ?\d)"
    r"(?:l|r|left|right) ?(?P=much)"
)
"""As much on either side, said of each: ``10R/10L``."""
# 30", 30 secs, 30s hold.
_SECONDS = re.compile(rf"(?P<low>{_WHOLE_RANGE}) ?(?:\"|''|secs?\.?|seconds?|s)(?: ?(?:hold|holds))?")
# 2', 2 mins; an m alone is a metre.
_MINUTES = re.compile(rf"(?P<low>{_WHOLE_RANGE}) ?(?:'|mins?\.?|minutes?|m(?=in))")
# 1'30", 1m30s.
_MINUTES_SECONDS = re.compile(r"(?P<min>\d+) ?(?:'|m(?:ins?)?) ?(?P<s>\d{1,2}) ?(?:\"|''|s(?:ecs?)?)?")


def _plain(text: str) -> str:
    """Lower case, one kind of dash and quote, ``to`` between numbers a dash, a decimal comma a point."""
    plain = tidy(text).translate(str.maketrans("’′″”“", '\'\'"""'))
    if match := re.search(r"\b(\d{1,3}),(\d{3})\b(?!,)", plain):
        whole, point = f"{match[1]}{match[2]}", f"{match[1]}.{match[2]}".rstrip("0").rstrip(".")
        what = f"'{match[1]},{match[2]}' in {text!r} can be read in two ways"
        raise NotationError(what, f"write {whole} or {point}, without a comma")
    if re.fullmatch(r"\d+(?:,\d+){2,}", plain):  # a list, whose commas are no decimal ones
        return plain.replace(",", ", ")
    plain = re.sub(r"(?<=\d),(?=\d)", ".", plain)
    return re.sub(r"(?<=\d) ?(?:to|until|till|~|\.\.) ?(?=\d)", "-", plain)


def _both(text: str, first: str, said: str, second: str, or_said: str) -> NotationError:
    """The error that asks which of two readings is meant."""
    advice = f"write {first} for {said}, or {second} for {or_said}"
    return NotationError(f"{text!r} can be read in two ways", advice)


def duration(text: str, *, plain_is_seconds: bool = False) -> str | None:
    """Durations such as ``45 secs``, ``30"``, ``1'30"``; ``90`` where a plain number can only be seconds."""
    plain = _plain(text)
    if match := _MINUTES_SECONDS.fullmatch(plain):
        return f"{match['min']} min {int(match['s'])} s" if int(match["s"]) else f"{match['min']} min"
    if match := _SECONDS.fullmatch(plain):
        return f"{match['low']} s"
    if match := _MINUTES.fullmatch(plain):
        return f"{match['low']} min"
    if re.fullmatch(r"(?:no|zero)(?: rest)?|0 ?s(?:ecs?)?|-", plain):
        return "none"
    if re.fullmatch(_WHOLE_RANGE, plain):
        if not plain_is_seconds or int(plain.split("-")[0]) < _FEWEST_SECONDS:
            raise _both(text, f"{plain} s", "seconds", f"{plain} min", "minutes")
        return f"{plain} s"
    return None


_FEWEST_SECONDS = 10
"""A rest or a work time of a plain number smaller than this may be meant in minutes."""


def rest(text: str) -> str | None:
    """A rest or work time: a plain number of ten or more is seconds."""
    return duration(text, plain_is_seconds=True)


def dose(text: str) -> str | None:
    """``8 to 12``, ``10 each``, ``10R/10L``, ``30 s hold``, ``AMRAP``, ``3x10``, ``3*10``, ``12/10/8``."""
    plain = _plain(text)
    _ask_about_dose(text, plain)
    if match := re.fullmatch(rf"(\d{{1,2}}) ?(?:x|[*·]|by|sets? of|rounds? of|times) ?({_SET_OF})", plain):
        one = dose(match[2]) or match[2]
        return ", then ".join([one] * int(match[1])) if 1 <= int(match[1]) <= _MOST_SETS else None
    if re.fullmatch(
        rf"{_WHOLE_RANGE}(?: ?/ ?{_WHOLE_RANGE}){{2,}}|{_WHOLE_RANGE}(?:, ?{_WHOLE_RANGE})+", plain
    ):
        return ", then ".join(re.split(r" ?[/,] ?", plain))
    if match := _LEFT_AND_RIGHT.fullmatch(plain):
        amount = match["amount"] or match["much"]
        return f"{dose(amount) or amount} each side"
    if match := _SIDES.fullmatch(plain):
        amount = match["amount"].strip()
        return f"{dose(amount) or amount} {'each' if match['bare'] else 'each side'}"
    if re.fullmatch(r"amrap|as many as possible|as many (?:reps )?as you can|max reps|max\.?|maximum", plain):
        return "max"
    if match := re.fullmatch(
        r"max(?:imum)?(?: reps)? ?[,(]? ?(?:leave|leaving|with)? ?(\d+(?:-\d+)?) (?:rir|left)\)?", plain
    ):
        return f"max, {match[1]} in reserve"
    times = r"(?:r|rep|reps|repetitions|times)\.?"
    if match := re.fullmatch(rf"({_WHOLE_RANGE}) ?{times}|x ?({_WHOLE_RANGE})", plain):
        return match[1] or match[2]
    if match := re.fullmatch(rf"(?:hold|for) (?:for )?({_WHOLE_RANGE}.*)", plain):
        return dose(match[1]) or match[1]
    if match := re.fullmatch(rf"({_WHOLE_RANGE}) ?(?:paces|strides)", plain):
        return f"{match[1]} steps"
    if re.fullmatch(_WHOLE_RANGE, plain):
        return plain
    return duration(text)


_SET_OF = rf"(?:{_WHOLE_RANGE}(?!\d).*|amrap|max)"
"""What a set may be of: ``10``, ``30s each``, ``max``."""
_MOST_SETS = 12
"""More sets than that are a slip: 30x10."""


def _ask_about_dose(text: str, plain: str) -> None:
    """Ask where a dose has two readings."""
    if re.fullmatch(r"(?:to |until )?(?:failure|fail|exhaustion)", plain):
        raise _both(
            text, "max", "as many as can be done well", "max, 0 in reserve", "until no more is possible"
        )
    if match := re.fullmatch(r"(\d+) ?(?:\+|or more|plus|min(?:imum)?)", plain):
        low = int(match[1])
        more = "max, 2 in reserve"
        raise _both(text, f"{low}-{low + low // 2}", "a range", more, "as many as can be done well")
    if match := re.fullmatch(r"amrap (\d+)", plain):
        raise NotationError(
            f"{text!r} can be read in several ways",
            f"write max for as many as can be done well, or {match[1]} s for a time; for rounds write in the "
            f"block format: as many rounds as possible and time: {match[1]} min",
        )
    if match := re.fullmatch(r"(\d+)((?:-\d+){2,})", plain):
        numbers = [match[1], *match[2].strip("-").split("-")]
        listed, split = ", ".join(numbers), " + ".join(numbers)
        sets = f"{', '.join(numbers[:-1])} and {numbers[-1]}"
        raise _both(
            text,
            f"[{listed}]",
            f"{len(numbers)} sets of {sets}",
            split,
            f"one set in {len(numbers)} parts",
        )
    if match := re.fullmatch(r"(\d+) ?x", plain):
        raise NotationError(
            f"{text!r} can be read in two ways",
            f"write {match[1]} for {match[1]} repetitions; for {match[1]} sets write sets: {match[1]} in the "
            "block and the repetitions here",
        )
    if match := re.fullmatch(r"(\d+) ?(?:alternating|alternate|alt\.?|total)", plain):
        count = int(match[1])
        half = f"{count // 2} each side"
        if "total" in plain:
            raise _both(text, half, f"{count} in all", match[1], "one side only")
        raise _both(
            text, half, f"{count} in all, side by side", f"{count} each side", "as many on either side"
        )


def dose_change(text: str) -> str | None:
    """Doses by habit such as ``20 secs``; ``half the reps``, ``50%``, ``2 fewer``, ``10 secs more``."""
    plain = _plain(text)
    for factor, said in _FACTORS_SAID.items():
        if re.fullmatch(rf"(?:{said})(?: (?:of )?(?:the )?(?:reps|time|dose|amount|it))?", plain):
            return factor
    if match := re.fullmatch(r"(\d+) ?([a-z]*) ?(more|extra|less|fewer)(?: (reps|steps|breaths))?", plain):
        return _difference(
            "+" if match[3] in ("more", "extra") else "-", match[1], match[2] or match[4] or ""
        )
    if match := re.fullmatch(r"(?:(\+|add|plus)|(-|minus|take off)) ?(\d+) ?([a-z]+)?", plain):
        return _difference("+" if match[1] else "-", match[3], match[4] or "")
    if re.fullmatch(r"no change|unchanged|as (?:it is|written|filmed)|the same", plain):
        return "same"
    if re.fullmatch(r"(?:both|two) (?:legs|arms|hands|sides)(?: (?:together|at once))?", plain):
        return "both sides"
    if match := re.fullmatch(r"(\d+)((?:-\d+){2,})", plain):
        numbers = [match[1], *match[2].strip("-").split("-")]
        sets, parts = ", then ".join(numbers), " + ".join(numbers)
        raise _both(text, sets, f"{len(numbers)} sets", parts, f"one set in {len(numbers)} parts")
    return dose(text)


_FACTORS_SAID: Mapping[str, str] = {
    "half": r"half|50 ?%|1/2|½|x ?0\.5|0\.5 ?x|half as (?:many|long|much)",
    "double": r"double|twice|200 ?%|x ?2|2 ?x|twice as (?:many|long|much)",
}
"""A factor and how it is said."""


def _difference(sign: str, amount: str, unit: str) -> str:
    """A change by so many; a unit that changes do not know is left for the short form to refuse."""
    seconds = {"sec", "secs", "second", "seconds", "s"}
    known = "s" if unit in seconds else {"rep": "reps", "step": "steps", "breath": "breaths"}.get(unit, unit)
    return f"{sign}{amount} {known}".rstrip()


def spelled(text: str) -> str:
    """A short form that is read as it stands, in the spelling of the documentation: ``30secs`` is ``30 s``.

    Spaces, units and sides only; whether it still says the same is for the caller to see.
    """
    plain = re.sub(r"\s+", " ", text.translate(PLAIN_SIGNS)).strip()
    plain = re.sub(r"(?<=\d) ?x ?(?=\d)", " x ", plain)
    plain = re.sub(r"(?<=\d)(?=[A-Za-z])(?!x)", " ", plain)  # not "3x", which has its spaces already
    plain = re.sub(rf" ?/ ?{_SIDE_WORD}\b| (?:per|a) side\b", " each side", plain)
    for word, unit in _SPELLED.items():
        plain = re.sub(rf"(?<=\d )(?:{word})\b", unit, plain)
    return re.sub(r"(?<=\d) reps?\b(?! in)", "", plain)  # but "2 reps in reserve" is an effort


_SPELLED: Mapping[str, str] = {
    "seconds?|secs?": "s",
    "minutes?|mins?": "min",
    "met(?:re|er)s?": "m",
    "litres?|liters?": "l",
    "lbs": "lb",
}


def effort(text: str) -> str | None:
    """Efforts such as ``RPE8``, ``RPE 8.5``, ``8/10``, ``@8``, ``2 RIR``, ``2 left``."""
    plain = _plain(text)
    if match := re.fullmatch(r"(?:rpe|@|effort) ?[:=@]? ?(\d+(?:\.5)?)(?: ?- ?(\d+))?(?: ?/ ?10)?", plain):
        return _rpe(match[1], match[2])
    if match := re.fullmatch(r"(\d+(?:\.5)?)(?: ?- ?(\d+))? ?(?:/ ?10|out of 10|of 10)(?: rpe)?", plain):
        return _rpe(match[1], match[2])
    left = r"(?:rir|(?:reps? )?(?:left|spare|in the tank|short of failure))"
    if match := re.fullmatch(rf"({_WHOLE_RANGE}) ?{left}|rir ?[:=]? ?({_WHOLE_RANGE})", plain):
        return f"{match[1] or match[2]} in reserve"
    if match := re.fullmatch(_WHOLE_RANGE, plain):
        raise _both(text, f"RPE {plain}", "how hard it feels", f"{plain} in reserve", "repetitions left over")
    return None


def _rpe(low: str, high: str | None) -> str:
    """Half a point lies between two: ``8.5`` is 8 to 9 (as in the scale of Zourdos and others 2016, from
    memory: "could do one more, maybe two")."""
    if low.endswith(".5") and high is None:
        whole = int(float(low))
        return f"RPE {whole}-{whole + 1}"
    return f"RPE {low}-{high}" if high else f"RPE {low}"


def tempo(text: str) -> str | None:
    """``3010``, ``30X0``, ``3/1/1/0``; three counts have no pause at the top."""
    plain = re.sub(r"^tempo ?:? ?", "", _plain(text))
    if match := re.fullmatch(r"(\d)(\d)(\d|x)(\d)", plain):
        return "-".join(match.groups())
    if match := re.fullmatch(r"(\d{1,2})[ /:.,]+(\d{1,2})[ /:.,]+(\d{1,2}|x)[ /:.,]+(\d{1,2})", plain):
        return "-".join(match.groups())
    if match := re.fullmatch(r"(\d{1,2})[ /:.,-]+(\d{1,2})[ /:.,-]+(\d{1,2}|x)|(\d)(\d)(\d|x)", plain):
        return "-".join([*(part for part in match.groups() if part), "0"])
    return None


def load(text: str) -> str | None:
    """Loads such as ``12,5 kg``, ``12 kgs``, ``5 l of water``, ``5 kg each hand``; ``8 kg sand``, a mass."""
    plain = _plain(text)
    if re.fullmatch(r"(?:body ?weight|bw|none|no load|empty|-)", plain):
        raise NotationError(f"{text!r} is no load", "leave load: out where nothing is held")
    for pattern in _TWICE:
        if match := re.fullmatch(pattern, plain):
            return f"2 x {load(match[1]) or match[1]}"
    if " + " in plain or re.search(r"\d.* (?:and|&) \d", plain):
        parts = re.split(r" ?\+ ?| (?:and|&) ", plain)
        return " + ".join(load(part) or part for part in parts)
    match = re.fullmatch(rf"({_NUMBER}) ?([a-z]+(?: gal)?)\.?(?: (?:of )?([a-z]+))?", plain)
    if not match:
        return None
    unit, fill = _UNITS.get(match[2], match[2]), match[3]
    if unit in ("kg", "g", "lb"):
        fill = None  # a mass is a mass, whatever it is of
    return f"{match[1]} {unit}" + (f" {fill}" if fill else "")


_TWICE = (
    r"(?:2 ?x ?)?(.+?)(?: (?:each|per|in each|a) (?:hand|side|arm)| ?/ ?hand| each| ea\.?)",
    r"(.+?) ?x ?2",
    r"(?:2|two|a pair of) ?(?:x|of) ?(.+)",
)
"""The same in either hand, in the order in which they are tried: the first knows a number before it."""
_UNITS: Mapping[str, str] = {
    **dict.fromkeys(("kgs", "kilo", "kilos", "kilogram", "kilograms", "kilogramme", "kilogrammes"), "kg"),
    **dict.fromkeys(("gram", "grams", "gr", "grs"), "g"),
    **dict.fromkeys(("lbs", "pound", "pounds"), "lb"),
    **dict.fromkeys(("litre", "litres", "liter", "liters", "ltr", "ltrs", "lt"), "l"),
}


def quantity(text: str) -> str | None:
    """``12,5 kg``, ``20 cms``."""
    found = re.fullmatch(rf"({_NUMBER}) ?([a-z]+)\.?", _plain(text))
    if not found:
        return None
    unit = _UNITS.get(found[2]) or (found[2].removesuffix("s") if found[2] != "s" else found[2])
    return f"{found[1]} {unit}"


def count(text: str) -> str | None:
    """``3 sets``, ``3x``, ``2 to 3``."""
    plain = _plain(text)
    found = re.fullmatch(rf"(?:x ?)?({_WHOLE_RANGE}) ?(?:x|sets?|rounds?|times)?", plain)
    return found[1] if found else None


HABITS: Mapping[str, Habit] = {
    "count": count,
    "dose": dose,
    "dose change": dose_change,
    "duration": duration,
    "effort": effort,
    "load": load,
    "quantity": quantity,
    "rest": rest,
    "tempo": tempo,
}
"""By kind of short form."""
