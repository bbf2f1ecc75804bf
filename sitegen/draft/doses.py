"""Doses in talk: "twelve reps", "eight each side", "thirty seconds", "make that ten"."""

import re
from collections.abc import Iterator
from dataclasses import replace

from sitegen.draft.amounts import Amount, Amounts, counting
from sitegen.draft.sets import TIME, changed, length_of, sets_said, time_kind, times_said
from sitegen.draft.talk import CLAUSE, Talk
from sitegen.draft.words import Stream
from sitegen.notation import Dose

MOST_REPS = 100
_FEWEST = {3: 2, 2: 3, 1: 4, 0: 5}
"""Smallest number that is a dose, by how plainly it is said: small ones mostly count something else."""

_PLACE = r"(?:side|leg|arm|foot|hand|way|direction|knee|shoulder|hip|ankle|elbow)s?"
_SIDE = (
    rf"(?:on |per |with |to |for |in |at |of |the )*"
    rf"(?:(?:each|every|either|per|a) {_PLACE}\b|(?:on|per|for|in) (?:side|leg|arm|way)\b|"
    rf"both (?:sides|ways|directions)|each\b(?! (?:exercise|move|of|set|round|1|time|other)))"
)
_SIDES = re.compile(
    rf"^side\b|^(?:on |to )?this (?:side|way|leg|arm|foot|hand|1)\b|^(?:on|with|for) (?:the |"
    rf"your )?(?:first|right|left)\b|^on (?:the )?1 (?:side|leg|arm)\b|^(?:then |and |slow |good |"
    rf"times |reps |repetitions |steps |breaths )*{_SIDE}"
)
_NUMBER = r"\b(?P<n>\d{1,3})(?: (?:to|or) (?P<m>\d{1,3})\b)?"
_UNIT = re.compile(
    rf"{_NUMBER} (?:(?:good|slow|easy|big|nice|little|solid|deep|long|controlled|full|perfect|short|"
    rf"proper|more|of) ){{0,2}}"
    r"(?P<unit>reps?|repetitions?|breaths?|steps|times|of (?:these|those|them|each|everything|this|"
    r"that)|ones|in total|in all|altogether|goes)\b"
)
_SURE_UNITS = ("rep", "breath")
"""Beginnings of units that nothing but a dose has."""

_ASKED = re.compile(
    rf"\b(?:do|doing|want|wants|going for|go for|aim for|shoot for|make (?:it|that|this)|lets (?:say|"
    rf"make it|go with|go|do)|going|"
    rf"just|get|get to|reach|looking for|for|then|at least|not more than|no more than|up to|take|"
    rf"sets of|rounds of|reps are|its|is|thats|be) {_NUMBER}(?: |$)"
)
_BETWEEN = re.compile(r"\bbetween (?P<n>\d{1,3}) and (?P<m>\d{1,3})\b(?! (?:kilos?|exercises|rounds|sets))")
_TWICE = re.compile(r"\b(?P<n>\d{1,3}) and (?P<m>(?P=n))\b")
_ALONE = re.compile(rf"{_NUMBER}(?: |$)")
_MOST = re.compile(
    r"\bas many (?:reps |repetitions |of (?:them|these) |good ones )?as (?:(?:you|we|i|they|"
    r"anyone) (?:can|like|want)|possible)\b|\b(?:to|until|till) failure\b"
)

_SPARE = re.compile(r"\b(\d) (?:\w+ ){0,2}?in (?:reserve|the tank)\b")
_RESERVE = re.compile(
    r"\b(?:stop|stopping|stops|finish) (?:\w+ ){0,3}?(?:with |have |"
    r"got )?(?P<n>\d) (?:\w+ ){0,2}?(?:in reserve|in the tank|left)\b"
)
_NAMED = re.compile(
    r"\b(?:number|all|exercise|excise|session|workout|round|set|part|lesson|minute|day|week|superset|"
    r"circuit|block|group|episode|class|video|page|level|"
    r"stage|move|movement|station|pair|section|chapter|step|(?<!more )than|my|about a|was it|is it|"
    r"or is it|did|he did|she did|said|wrote|were|was|after|over|to|tri set|super set|giant set) $"
)
_THING = re.compile(
    r"^(?:(?:kilos?|kg|kilograms?|lit(?:re|er)s?|l|lb|lbs|pounds?|ounces|percent|degrees|years?|"
    r"weeks?|days?|months?|hours?|people|oclock|stairs?|"
    r"steps? (?:back|forward|down|away|up)|foot|points?|floors?|exercises?|moves?|movements?|things?|"
    r"stations?|rounds?|sets?|"
    r"centimetres?|cm|inches|inch|at a time|after the other|after another|or the other|"
    r"more|of you|of us|left|at most|thing|kinds?|types?|forms?|parts?|halves|"
    r"straight line|line|"
    r"(?:\w+ )?(?:jugs?|carriers?|bags?|tins?|bottles?|chairs?|cans?|books|dumbbells?|cushions?|"
    r"towels?|bands??|stairs|steps up|and (?:a )?half)|"
    r"on \d+ off|up(?! to)|down)\b)"
)
_LIMBS = re.compile(r"^(?:legs?|arms?|hands?|feet|foot|knees?|fingers?|elbows?|heels?|toes?)\b(?! each)")
_DENIED = re.compile(
    r"\b(?:not(?! more)|dont|cant|said|wrote|instead of|was|had|he did|she did|they did) (?:\w+ )?$"
)
_ASIDE = re.compile(
    r"(?<!see )\b(?:if|unless)\b.*\b(?:do|then|try|just|make|takes? you|get|is|"
    r"only)\b(?: \w+){0,3} $|\b(?:or else|could|should|(?<!for )those who|anybody|used to|"
    r"last (?:time|week)|remember|easier|harder|"
    r"he|she|they|uncle|sister|neighbour|ago|was)\b"
)
_SINCE = re.compile(r"^.*\b(?:so|okay|ok|now|alright|and) (?!if\b)")
"""Where nobody marks sentences, words like these begin one."""

_THIS_TIME = re.compile(r"^.*\b(?:this (?:week|time)|today|now|so now)\b")
_TOO_MUCH = re.compile(
    r"^(?!what )(?:\w+ ){0,2}?(?:too (?:much|many|hard|easy)|is a lot|last time|on the sheet|"
    r"in the car|and not|then do)\b"
)
_OF_ALL = re.compile(
    r"^(?:for |of |on |at )?(?:everything|every thing|every (?:1|exercise|move|station)|each (?:1|"
    r"exercise|move|station)|all (?:of (?:them|these)|the exercises))\b"
)
_ALL = re.compile(
    r"\b(?:everything|every (?:exercise|move|station)|each (?:exercise|move|station)|"
    r"all (?:of (?:them|these)|the exercises))(?: \w+){0,4} $"
)
_ONE_SIDE = re.compile(r"^(?:[a-z]+ ){0,4}?(?:left|right|1 \w+|front|back|forwards?|backwards?|each)\b")
_OTHER_SIDE = re.compile(r"^(?:\w+ ){0,3}?(?:left|right|other|front|back|forwards?|backwards?)\b")
_AFTERTHOUGHT = re.compile(rf"^(?:each|per|every) {_PLACE}\b")
_SWITCH = re.compile(
    r"^(?:[a-z]+ ){0,4}?(?:(?:change|switch|swap) (?:feet|sides?|legs?|arms?|hands?)(?! (?:every|"
    r"each) (?:set|round))|(?:then|and|on|for) (?:do )?(?:the )?other (?:side|leg|arm|hand|foot))\b"
    r"|^(?:[a-z]+ ){0,7}?same (?:on|with|for|to) the other\b"
)


def amounts_of(stream: Stream) -> Amounts:
    """All doses, sets and times of a recording."""
    talk = Talk(stream)
    sets = list(sets_said(talk))
    finder = _Finder(talk, {index for said in sets for index in range(said.first, said.last + 1)})
    return Amounts(sorted(finder.all(), key=lambda amount: amount.first), sets, list(times_said(talk)))


def sides_after(talk: Talk, last: int) -> int | None:
    """Last token of "on each side" and the like after a token; None where nothing of the kind follows."""
    match = _SIDES.match(talk.after(last, 7))
    return last + len(match[0].split()) if match else None


class _Finder:
    """Finds doses, the plainest forms first, each number once."""

    def __init__(self, talk: Talk, taken: set[int]) -> None:
        self.talk = talk
        self.counting = frozenset(counting(talk.stream))
        self.taken = taken | self.counting

    def all(self) -> Iterator[Amount]:
        for pattern, make in (
            (TIME, self._time),
            (_MOST, self._most),
            (_UNIT, self._counted),
            (_BETWEEN, self._counted),
            (_TWICE, self._each),
            (_RESERVE, self._reserve),
            (_ASKED, self._asked),
            (_ALONE, self._number),
        ):
            for match in pattern.finditer(self.talk.stream.text):
                first, last = self._span(match)
                if not self.taken.isdisjoint(range(first, last + 1)) or not self.talk.unbroken(first, last):
                    continue
                if amount := make(match):
                    self.taken |= set(range(amount.first, amount.last + 1))
                    yield amount

    def _span(self, match: re.Match[str]) -> tuple[int, int]:
        """First and last token from the number on."""
        first, last = self.talk.span(match)
        number = match.start("n") if match.groupdict().get("n") else match.start()
        return max(first, self.talk.token(number)), last

    def _each(self, match: re.Match[str]) -> Amount | None:
        """ "Ten and ten": one for each side."""
        first, last = self.talk.span(match)
        number = int(match["n"])
        if re.search(r"\b(?:rounds|sets) ", self.talk.before(first, 3)):
            return None  # "Three rounds, eight and eight" tells the doses of two exercises.
        return self._amount(first, last, Dose(kind="count", low=number, high=number, per_side=True), 3)

    def _time(self, match: re.Match[str]) -> Amount | None:
        first, last = self.talk.span(match)
        length = length_of(match)
        if time_kind(self.talk, first, last, length) != "dose":
            self.taken |= set(range(first, last + 1))
            return None
        return self._amount(first, last, Dose(kind="time", low=length.low, high=length.high), 3)

    def _most(self, match: re.Match[str]) -> Amount | None:
        first, last = self.talk.span(match)
        spare = _SPARE.search(self.talk.after(last, 9))
        reserve = (int(spare[1]), int(spare[1])) if spare else None
        return self._amount(first, last, Dose(kind="max", reserve=reserve), 3)

    def _reserve(self, match: re.Match[str]) -> Amount | None:
        first, last = self.talk.span(match)
        left = int(match["n"])
        return self._amount(first, last, Dose(kind="max", reserve=(left, left)), 1)

    def _counted(self, match: re.Match[str]) -> Amount | None:
        bounds = self._bounds(match)
        unit = match.groupdict().get("unit") or ""
        if bounds is None or (not unit.startswith(_SURE_UNITS) and self._named(match)):
            return None
        kind = "breaths" if unit.startswith("breath") else "steps" if unit == "steps" else "reps"
        first, last = self.talk.span(match)
        return self._amount(first, last, Dose(kind="count", low=bounds[0], high=bounds[1], unit=kind), 3)

    def _asked(self, match: re.Match[str]) -> Amount | None:
        return self._number(match, 2)

    def _number(self, match: re.Match[str], plain: int | None = None) -> Amount | None:
        bounds = self._bounds(match)
        if bounds is None or self._named(match) or self._thing(match):
            return None
        first = self.talk.token(match.start("n"))
        last = self.talk.token((match.end("m") if match["m"] else match.end("n")) - 1)
        if plain is None:
            plain = 1 if self.talk.alone(first, last) else 0
        return self._amount(first, last, Dose(kind="count", low=bounds[0], high=bounds[1]), plain)

    def _bounds(self, match: re.Match[str]) -> tuple[int, int] | None:
        low = int(match["n"])
        high = int(match["m"] or low)
        return (low, max(low, high)) if 2 <= low <= MOST_REPS else None

    def _named(self, match: re.Match[str]) -> bool:
        """Whether the number says which one, as in "exercise two"."""
        first = self.talk.token(match.start("n"))
        return bool(_NAMED.search(self.talk.before(first, 4, CLAUSE)))

    def _thing(self, match: re.Match[str]) -> bool:
        """Whether it counts things, as in "two carriers"."""
        last = self.talk.token((match.end("m") if match["m"] else match.end("n")) - 1)
        after = self.talk.after(last, 4, CLAUSE)
        return bool(_THING.match(after) or (int(match["n"]) <= 4 and _LIMBS.match(after)))

    def _amount(self, first: int, last: int, dose: Dose, plain: int) -> Amount | None:
        aside = self._aside(first, last, plain)
        end = self._last_of_sides(last, dose)
        if end is not None:
            dose, last, plain = replace(dose, per_side=True), end, 3
        if dose.kind == "count" and dose.low < _FEWEST[plain]:
            return None
        each = end is not None and self.talk.tokens[last].text == "each"
        for_all = bool(_OF_ALL.match(self.talk.after(last, 5)) or _ALL.search(self.talk.before(first, 7)))
        return Amount(
            first=first,
            last=last,
            dose=dose,
            plain=plain,
            aside=aside,
            changed=changed(self.talk, first),
            each=each,
            for_all=for_all,
        )

    def _aside(self, first: int, last: int, plain: int) -> bool:
        before = _THIS_TIME.sub("", self.talk.before(first, 8))
        if _DENIED.search(before) or _TOO_MUCH.match(self.talk.after(last, 6)):
            return True
        if self.talk.stream.punctuated:
            return bool(_ASIDE.search(before))
        # A number on its own may begin a sentence that nobody marked.
        return plain > 1 and bool(_ASIDE.search(_SINCE.sub("", before)))

    def _last_of_sides(self, last: int, dose: Dose) -> int | None:
        """Last token of what says that a dose is for each side; None where nothing does."""
        if (end := sides_after(self.talk, last)) is not None:
            return end
        if _SWITCH.match(self.talk.words(last + 1, last + 11)) or _AFTERTHOUGHT.match(
            self.talk.words(last + 1, last + 3)
        ):
            return last
        return self._same_again(last, dose) if dose.kind == "count" else None

    def _same_again(self, last: int, dose: Dose) -> int | None:
        """The token of the same number for the other side: "six with the right, six with the left"."""
        tokens = self.talk.tokens
        if not _ONE_SIDE.match(self.talk.after(last, 5)):
            return None
        for index in range(last + 1, self.talk.end(last, 13) + 1):
            if tokens[index].value == dose.low and index not in self.counting:
                return index if _OTHER_SIDE.match(self.talk.after(index, 6)) else None
        return None
