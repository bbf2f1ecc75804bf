"""Is an exercise that is named being shown now, or only mentioned?"""

from dataclasses import dataclass, replace

from sitegen.draft import phrases
from sitegen.draft.amounts import Amount, Amounts
from sitegen.draft.find import Naming
from sitegen.draft.named_doses import dose_with
from sitegen.draft.talk import Talk


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
    led: bool
    """Whether words lead to it at all, if only "and then"."""
    dose: Amount | None
    """A dose said together with the name."""


SHOWN = 0.8
"""Score from which on a mention is taken to show its exercise."""

_NARRATED_REACH = 6
"""Words before a name in which somebody else may be spoken of, where nobody marks sentences."""

_VERB = 1.5
"""What it takes away that a name may as well be a verb: "and breathe"."""

_IN_FULL = 0.99
_LIST_GAP = 3
"""Words at most between the names of a list."""

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
    opening = min([opening, *(m.naming.first for m in mentions if m.opened and m.score > 0)])
    _share_doses(mentions)
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


def _share_doses(mentions: list[Mention]) -> None:
    """ "Bridges, planks and climbers, forty seconds each" is a dose of all three, and not for each side."""
    for index, mention in enumerate(mentions):
        dose = mention.dose
        if dose is None or not dose.each:
            continue
        dose = replace(dose, dose=replace(dose.dose, per_side=False))
        listed = _list_before(mentions, index)
        for other in listed:
            other.dose = mention.dose = dose


def _list_before(mentions: list[Mention], index: int) -> list[Mention]:
    """The other exercises of a list that ends with a mention; empty where there is none."""
    listed: list[Mention] = []
    first = mentions[index].naming.first
    for other in reversed(mentions[:index]):
        if first - other.naming.last > _LIST_GAP or other.naming.thin or not other.naming.exact:
            break
        if other.dose is None or other.dose.first > mentions[index].naming.last:
            listed.append(other)
        first = other.naming.first
    return listed


def _closing(talk: Talk) -> int:
    """Token from which on goodbye is said."""
    offsets = talk.stream.offsets
    late = max(0, len(offsets) - 70)
    match = phrases.CLOSING.search(talk.stream.text, offsets[late]) if offsets else None
    return talk.token(match.start()) if match else len(offsets)


def _judge(talk: Talk, namings: list[Naming], index: int, amounts: Amounts, closing: int) -> Mention:
    naming = namings[index]
    left = talk.before(naming.first, _REACH if talk.stream.punctuated else _SHORT_REACH)
    begin = naming.first - len(left.split())
    right = talk.after(naming.last, 10)
    dose = dose_with(talk, amounts, namings, index)
    near = _after_opening(left)
    conditional = bool(
        phrases.CONDITION.search(near) or phrases.COMPLAINT.search(near) or phrases.INSTEAD.match(right)
    )
    elsewhere = _elsewhere(talk, naming, near, closing)
    denied = bool(phrases.COMPARED.search(left) or phrases.LET.search(left)) or (
        dose is None and bool(phrases.TAKEN_BACK.match(talk.words(naming.last + 1, naming.last + 8)))
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
    opened = bool(phrases.OPENS.search(left) or phrases.OPENS.search(_lead(talk, begin)))
    return Mention(
        naming=naming,
        score=score,
        conditional=conditional,
        elsewhere=elsewhere,
        opened=opened,
        led=opened or _is_led_to(naming, left),
        dose=dose,
    )


def _is_led_to(naming: Naming, left: str) -> bool:
    """Whether words lead to a name, or it begins its sentence in full."""
    if not left:
        return naming.score >= _IN_FULL
    return bool(phrases.SHOWS.search(left) or phrases.LEADS.search(left))


def _as_verb(talk: Talk, naming: Naming, left: str) -> bool:
    """Whether a movement's bare name may as well be the verb: "and push up through the heel"."""
    if naming.thin and phrases.PARTICLE.match(talk.after(naming.last, 1)):
        return True
    if (
        naming.matched > naming.head
        or talk.tokens[naming.last].text.endswith(("s", "ing"))
        or naming.announced
    ):
        return False
    return not (talk.alone(naming.first, naming.last) or phrases.NOUN.search(left))


def _elsewhere(talk: Talk, naming: Naming, near: str, closing: int) -> bool:
    """Whether it is told about another time, by or about somebody else, or is a greeting."""
    before = talk.before(naming.first, 16)
    after = talk.after(naming.last, 10) if talk.stream.punctuated else ""
    if not talk.stream.punctuated and not phrases.OPENS.search(before):
        after = talk.after(naming.last, 3)
    if talk.stream.punctuated:
        lead = _lead(talk, naming.first - len(before.split()))
        before = (lead if phrases.COMING.search(lead) else "") + before
    else:
        before = _after_opening(before)
    if naming.first >= closing or phrases.OTHER_TIME.search(
        before + talk.words(naming.first, naming.last) + after
    ):
        return True
    if naming.first < 3 and phrases.GREETING.match(talk.words(naming.first, naming.last)):
        return True
    if not talk.stream.punctuated:
        near = " ".join(near.split()[-_NARRATED_REACH:])
    return bool(phrases.NARRATED.search(near))


def opens(words: str) -> bool:
    """Whether words, with a space behind each, open an exercise: "the second exercise is"."""
    return bool(phrases.OPENS.search(words))


def _after_opening(left: str) -> str:
    """What is said since the last phrase that opens something new."""
    end = max((match.end() for match in phrases.OPENS.finditer(left)), default=0)
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
    if phrases.OPENS.search(left) or phrases.OPENS.search(lead):
        score += 2.0
    if phrases.SHOWS.search(left):
        score += 1.3
    elif phrases.LEADS.search(left):
        score += 0.6
    if distance <= 3:
        score += 0.9
    if pause >= 3 and distance <= 12:
        score += 0.7
    return score


def _listed(namings: list[Naming], index: int) -> float:
    """Penalty for a name in a list of names: a preview or a recap."""
    naming = namings[index]
    near = [
        other
        for other in (*namings[max(0, index - 2) : index], *namings[index + 1 : index + 3])
        if other.exercise != naming.exercise
        and other.score >= 0.9
        and other.exact
        and not other.thin
        and min(abs(other.first - naming.last), abs(naming.first - other.last)) <= 4
    ]
    return 1.2 * min(2, len(near))
