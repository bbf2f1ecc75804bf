"""Is an exercise that is named being shown now, or only mentioned?"""

import re
from dataclasses import dataclass, replace

from sitegen.draft.amounts import Amount, Amounts
from sitegen.draft.doses import sides_after
from sitegen.draft.find import Naming
from sitegen.draft.talk import Talk

_ORDINAL = r"(?:first|second|third|fourth|fifth|sixth|last|final|next)"
_STRONG = re.compile(
    rf"\b{_ORDINAL} (?:exercise|move|movement|1|one|thing|up|of|in|here|is|station|partner|and) "
    rf"|\b(?:the|a|our|is|your) {_ORDINAL} |^{_ORDINAL} |\b{_ORDINAL} $"
    r"|\b(?:exercise|excise|move|movement|number|station) (?:number )?\d{1,2} "
    r"|\b(?:next|coming) up |\bup next |\bmoving on |\bcalled (?:a |the )?$|\bwhat we call (?:a |"
    r"the )?$|\bfollowed by "
    r"|\b(?:start|starting|starts|begin|beginning|begins|open|opening|finish|finishing|end|ending|"
    r"close|closing|kick|kicking|continue) "
    r"(?:us |you |it |off |out |up |again |today |here )*(?:on the \w+ )?(?:with|by|on) |\bend (?:it )?with "
    r"|\bto (?:start|begin|finish) (?:with )?$|\bpair (?:that|it|this) with |\bto (?:that|this) we add "
)
_MEDIUM = re.compile(
    r"\b(?:lets|let us|well|we will|were|we are|we|ill|im|you|youre|i want you to|id like you to|"
    r"going to|gonna|please|now|then|also|and) "
    r"(?:all |now |just |then |also |both |going to |gonna |will )*"
    r"(?:do|doing|go|going|have|got|get|take|taking|make|making|start|begin|try|add|use|show|look|"
    r"move|come|need|march|finish) "
    r"(?:a |the |some |our |your |on |to |into |onto |for |with |it |in |few |easy |through |"
    r"straight |back |over |at |down |together |another |1 |more |of |little |do )*$"
    r"|\b(?:this|that|here|heres|its|it|thats|theres|there) (?:is )?(?:now |just |also |called |"
    r"our old friend |my favourite )*(?:a |the |an |our |some |another |just )*$"
    r"|\bis (?:called |now |just )*(?:a |an |the |our )+$"
    r"|\b(?:onto|over to|switch to|from there|after that|move (?:on )?to|straight to|straight into|"
    r"go to|time for|ready for|comes?|roll over|turn over|add|adding|down for|for) (?:a |the |some |"
    r"our |your |into |to )*$"
    r"|\b(?:do|doing|show) (?:the|a|an|some|these|those|your) $"
    r"|\bwith (?:that|it|this) go(?:es)? |\bpartner (?:is|exercise) |\btogether with "
)
_WEAK = re.compile(
    r"\b(?:now|then|and|okay|ok|so|alright|right|good|great|also|plus|again) (?:the |a |some |your |"
    r"it |its )*$"
)
_OTHER_TIME = re.compile(
    r"\b(?:last|next) (?:week|time|session|month|year|class|lesson|video|workout)\b|\btomorrow\b|"
    r"\byesterday\b|\b(?:mon|tues|wednes|thurs|fri|satur|sun)day (?:is|its|well|we)\b"
    r"|\bin (?:number|session|episode|workout|week|lesson) \d+\b|\bsession \d+\b|\blesson \d+\b|"
    r"\bused to\b|\bremember\b|\bemails?\b|\byears? ago\b|\bmorning he\b|\bwe(?:ve)? had\b|"
    r"\bsee you\b|\bin the car\b|\b(?:first|second|third|fourth|fifth) session\b"
    r"|\blast 1 and i\b|\bwe did\b|\byour last\b|\bfirst week i\b|\bfor (?:the )?day in between\b"
)
_COMING = re.compile(r"\b(?:next (?:week|time|session|month|class|video)|tomorrow)\b")
_NARRATED = re.compile(
    r"\b(?:he|she|they|uncle|sister|husband|neighbour|grandmother|somebody|someone|lady|lad|people|"
    r"coach|mother|father|said|says|did|was|wasnt|were not|couldnt|always|when i do|i can still|saw)\b"
)
_COMPARED = re.compile(
    r"\b(?:not|no|isnt|never|than|like|unlike|as in|same as|just as|instead of|rather than|without|"
    r"less|more|many|asked for|"
    r"too many|hate|same|after|about|from|during|between|every|dont) "
    r"(?:a |an |the |any |in |doing |for |with |such |much |your |our |those |these )*$"
)
_NOUN = re.compile(
    r"\b(?:a|an|the|your|our|my|this|that|is|are|its|called|of|with|for|do|doing|some|into|first|"
    r"second|third|fourth|next|last|number|exercise|"
    r"by|have|got|add|each|every|move|\d+) $"
)
_PARTICLE = re.compile(r"(?:in|out|off|up|down|through|it|away|deeply|into|with)\b")
_LET = re.compile(r"\blet (?:\w+ ){0,3}$")
_CONDITION = re.compile(
    r"\b(?:if|unless|should|anybody|those|who|whoever|anyone)\b.*\b(?:do|try|use|take|choose|go|have|"
    r"swap|make|makes|pick|stay|put|keep|press|skip|switch|change|start|then)\b"
    r"|\b(?:or|otherwise|alternatively|rather|instead) (?:a |the |some |do |doing |just |else |"
    r"maybe |even |your )*$|\b(?:could|can|may|might) (?:also |just |always )?(?:do|use|take|try|"
    r"swap|make|go|add) (?:\w+ ){0,3}$"
    r"|\b(?:skip|choose)\b|\bor (?:do|try|use|take|go|put|have)\b"
)
_COMPLAINT = re.compile(
    r"\b(?:hurts?|pain|painful|problems?|sore|bad|bothers?|bugs|trouble|tender|pinch(?:es)?|"
    r"complains?|isnt for you|"
    r"(?:doesnt|dont|wont|arent|isnt|not) (?:like|happy|ready|comfortable)|say no|too (?:hard|easy|"
    r"much|heavy|many))\b"
)
_INSTEAD = re.compile(r"^(?:\w+ ){0,5}?(?:instead|in its place|as an alternative|if you prefer)\b")
_CLOSING = re.compile(
    r"\bthats (?:it|all|your lot|the lot|class|everything|a wrap)\b|\bthank(?:s|"
    r" you)(?: \w+){0,3} (?:for|everybody|everyone)\b|\bsee you (?:on|at|next|tomorrow|then|there|"
    r"soon|in the)\b"
    r"|\bbye\b|\bdone for today\b|\bthe session is complete\b|\bhave a good (?:day|evening|week|1)\b"
)
_OF = re.compile(r"^(?:of|in|for) (?:the |a |some |these |those |your |our )?$")
_GREETING = re.compile(r"^good morning\b")
_TAKEN_BACK = re.compile(
    r"^(?:\w+ ){0,5}?(?:no|wait|sorry|hang on|scratch that|forget that|i mean|not that|in a minute|"
    r"later|ignore)\b"
)
_RECAP = re.compile(
    r"\b(?:so thats|so that is|thats|again thats|so were doing|numbers|so you do|in total|so again)\b"
)


@dataclass(slots=True)
class Mention:
    """A naming with what speaks for its being shown."""

    naming: Naming
    score: float
    """Above :data:`SHOWN` it is taken to be shown."""
    conditional: bool
    """Offered in place of another, or under a condition."""
    elsewhere: bool
    """Told about another time or by somebody else."""
    opened: bool
    """Whether words such as "the second exercise" open it."""
    dose: Amount | None
    """A dose said together with the name."""


SHOWN = 0.8
"""Score from which on a mention is taken to show its exercise."""

_NARRATED_REACH = 6
"""Words before a name in which somebody else may be spoken of, where nobody marks sentences."""

_VERB = 1.5
"""What it takes away that a name may as well be a verb: "and breathe"."""

_PREVIEW = 1.0
"""What it takes away that the first block was not opened yet; twice so much where the exercise is spoken
of again.
"""

_REACH, _SHORT_REACH = 14, 9
"""Words of a sentence that are looked at before a name; fewer where nobody marks sentences."""
_FIRST = 0.8
"""What it adds that an exercise was not spoken of before."""


def mentions_of(talk: Talk, namings: list[Naming], amounts: Amounts, opening: int) -> list[Mention]:
    """Every naming judged by the words around it; ``opening`` is the token at which the first block is
    opened.
    """
    closing = _closing(talk)
    mentions = [_judge(talk, namings, index, amounts, closing) for index in range(len(namings))]
    last = {m.naming.exercise: m.naming.first for m in mentions if m.score > 0}
    met: set[str] = set()
    for mention in mentions:
        naming = mention.naming
        if naming.first < opening and mention.dose is None:
            mention.score -= _PREVIEW * (2 if last.get(naming.exercise, 0) > opening else 1)
        if mention.score > 0 and naming.exercise not in met:
            mention.score += _FIRST
            if naming.exercise:
                met.add(naming.exercise)
    return mentions


def _closing(talk: Talk) -> int:
    """Token from which on goodbye is said."""
    offsets = talk.stream.offsets
    late = max(0, len(offsets) - 70)
    match = _CLOSING.search(talk.stream.text, offsets[late]) if offsets else None
    return talk.token(match.start()) if match else len(offsets)


def _judge(talk: Talk, namings: list[Naming], index: int, amounts: Amounts, closing: int) -> Mention:
    naming = namings[index]
    left = talk.before(naming.first, _REACH if talk.stream.punctuated else _SHORT_REACH)
    begin = naming.first - len(left.split())
    right = talk.after(naming.last, 10)
    dose = _dose_with(talk, amounts, namings, index)
    near = _after_opening(left)
    conditional = bool(_CONDITION.search(near) or _COMPLAINT.search(near) or _INSTEAD.match(right))
    elsewhere = _elsewhere(talk, naming, near, closing)
    denied = bool(_COMPARED.search(left) or _LET.search(left)) or (
        dose is None and bool(_TAKEN_BACK.match(talk.words(naming.last + 1, naming.last + 8)))
    )
    score = _opening(left, _lead(talk, begin) + left, naming.first - begin, talk.tokens[begin].pause_before)
    score += 1.2 * (naming.score - 0.8) - _listed(namings, index)
    score += 1.0 if dose else 0.0
    score -= 0.0 if naming.exact else 0.3
    if naming.verb or _as_verb(talk, naming, left):
        with_dose = dose is not None and dose.first <= naming.last + len(right.split())
        score -= _VERB / 3 if with_dose else _VERB + (1.0 if dose else 0.0)
    if not naming.exercise and not naming.announced:
        score -= 1.2
    if conditional or elsewhere or denied:
        score = min(0.0, score - 3.0)
    opened = bool(_STRONG.search(left) or _STRONG.search(_lead(talk, begin)))
    return Mention(
        naming=naming, score=score, conditional=conditional, elsewhere=elsewhere, opened=opened, dose=dose
    )


def _as_verb(talk: Talk, naming: Naming, left: str) -> bool:
    """Whether a movement's bare name may as well be the verb: "and push up through the heel"."""
    if naming.thin and _PARTICLE.match(talk.after(naming.last, 1)):
        return True
    if (
        naming.matched > naming.head
        or talk.tokens[naming.last].text.endswith(("s", "ing"))
        or naming.announced
    ):
        return False
    return not (talk.alone(naming.first, naming.last) or _NOUN.search(left))


def _elsewhere(talk: Talk, naming: Naming, near: str, closing: int) -> bool:
    """Whether it is told about another time, by or about somebody else, or is a greeting."""
    before = talk.before(naming.first, 16)
    after = talk.after(naming.last, 10) if talk.stream.punctuated else ""
    if not talk.stream.punctuated and not _STRONG.search(before):
        after = talk.after(naming.last, 3)
    if talk.stream.punctuated:
        lead = _lead(talk, naming.first - len(before.split()))
        before = (lead if _COMING.search(lead) else "") + before
    else:
        before = _after_opening(before)
    if naming.first >= closing or _OTHER_TIME.search(before + talk.words(naming.first, naming.last) + after):
        return True
    if naming.first < 3 and _GREETING.match(talk.words(naming.first, naming.last)):
        return True
    if not talk.stream.punctuated:
        near = " ".join(near.split()[-_NARRATED_REACH:])
    return bool(_NARRATED.search(near))


def opens(words: str) -> bool:
    """Whether words, with a space behind each, open an exercise: "the second exercise is"."""
    return bool(_STRONG.search(words))


def _after_opening(left: str) -> str:
    """What is said since the last phrase that opens something new."""
    end = max((match.end() for match in _STRONG.finditer(left)), default=0)
    return left[end:]


def _lead(talk: Talk, begin: int) -> str:
    """The short sentence before, such as "Number one.", belongs to what follows."""
    if begin == 0 or talk.tokens[begin].pause_before > 3:
        return ""
    words = talk.before(begin - 1, 5) + talk.tokens[begin - 1].text + " "
    return words if len(words.split()) <= 5 else ""


def _opening(left: str, lead: str, distance: int, pause: float) -> float:
    """What the words and the silence before a name say for its being shown."""
    score = 0.0
    if _STRONG.search(left) or _STRONG.search(lead):
        score += 2.0
    if _MEDIUM.search(left):
        score += 1.3
    elif _WEAK.search(left):
        score += 0.6
    if distance <= 3:
        score += 0.9
    if pause >= 3 and distance <= 12:
        score += 0.7
    return score


def _dose_with(talk: Talk, amounts: Amounts, namings: list[Naming], index: int) -> Amount | None:
    """The dose said soon after a name, or right before it ("twelve squats each side")."""
    naming = namings[index]
    next_name = namings[index + 1].first - 1 if index + 1 < len(namings) else len(talk.tokens)
    last = min(naming.last + 8, next_name)
    beside = next((a for a in amounts.doses if a.first == naming.last + 1 <= last and not a.aside), None)
    before = next((a for a in amounts.doses if _leads_to(talk, a, naming)), None)
    if (
        before
        and beside
        and index
        and before.first == namings[index - 1].last + 1
        and _runs_on(talk, before, beside)
    ):
        # "Squats ten, rows twelve": every number follows its name.
        before = None
    if before:
        end = sides_after(talk, naming.last)
        if end is None or before.dose.per_side:
            return replace(before, plain=max(before.plain, 2))
        return replace(before, last=end, plain=3, dose=replace(before.dose, per_side=True))
    return beside or amounts.first_dose(naming.last + 1, last)


def _runs_on(talk: Talk, before: Amount, beside: Amount) -> bool:
    """Whether no sentence begins with the first of two numbers; or one begins with the second."""
    return talk.tokens[before.first].break_before < 2 and talk.tokens[beside.first].break_before < 2


def _leads_to(talk: Talk, amount: Amount, naming: Naming) -> bool:
    """Whether a dose is said right before a name, or with it ("five slow breaths")."""
    if amount.aside or not naming.first - 4 <= amount.last <= naming.last:
        return False
    if amount.last >= naming.first:
        return amount.first <= naming.first
    if any(t.break_before for t in talk.tokens[amount.last + 1 : naming.first + 1]):
        return False
    between = talk.words(amount.last + 1, naming.first - 1)
    return (not between and amount.dose.kind == "count") or bool(_OF.match(between))


def _listed(namings: list[Naming], index: int) -> float:
    """Penalty for a name in a list of names: a preview or a recap."""
    naming = namings[index]
    near = [
        other
        for other in (*namings[max(0, index - 2) : index], *namings[index + 1 : index + 3])
        if other.exercise != naming.exercise
        and other.score >= 0.9
        and other.exact
        and min(abs(other.first - naming.last), abs(naming.first - other.last)) <= 4
    ]
    return 1.2 * min(2, len(near))
