"""Signs of danger in what a client wrote freely: plain words for them, and the series' own signs.

The lists are of plain words (common practice, no source). A word too many costs the trainer a look; one too
few hides chest pain among remarks about the neighbours. So what is in doubt counts as said.
"""

import re
from collections.abc import Iterator

from sitegen.model import Details

DANGER_WORDS: dict[str, tuple[str, ...]] = {
    "en": (
        # people spell dizziness in many ways, "diziness" and "dizzyness" among them
        r"diz+[iy]\w*|light-?\s?headed\w*|woozy|giddy|giddiness|vertigo",
        r"(?:head|room)(?: was| is)? (?:spun|spins|spinning)",
        r"faint\w*|pass(?:ed|es|ing)? out|black(?:ed|ing)? ?out|collaps\w*|unconscious\w*",
        r"(?:went|goes|was|everything|all) (?:went |was )?black|black (?:before|in front of)",
        r"(?:saw|see|sees|seeing|had) (?:some |little )?(?:stars|spots|flashes)",
        r"blur\w*|double vision|seeing double|slurr\w*|droop\w*",
        r"chest\w*|pressure|palpitations?|short(?:ness)? of (?:breath|air)|out of breath|breathless\w*",
        r"(?:can(?:no|['’])?t|could(?: not|n['’]?t)) "
        r"(?:breathe|see|speak|feel|move|get (?:any |my |enough )?(?:air|breath))",
        r"heart(?: \w+){0,4}? (?:rac|stumbl|skip|flutter|pound|hammer|jump|thump)\w*",
        r"(?:rac|stumbl|skip|flutter|pound)\w* (?:of )?(?:my )?heart|heart ?beat\w*",
        r"head ?-?ache\w*|migraines?|nause\w*|(?:was|felt|feel|got) sick|vomit\w*|bleed\w*|blood",
        r"numb\w*|tingl\w*|pins and needles|(?:sudden\w*|very|one side) weak\w*",
        # "fell asleep" and "fell behind" are no falls
        r"fell(?! asleep| behind| short| into)|fall(?:en|ing)? (?:over|down)|had a fall|tripped",
        # a backpack has a buckle
        r"(?:gave|give|gives|giving) (?:way|out)|(?:knees?|legs?|ankles?|it) (?:\w+ )?buckl\w*",
        r"pain|pains|pained|painful\w*|hurt\w*|aches?|ached|aching",
    )
}
"""Regular expressions of whole words, by language."""

_DENIALS: dict[str, tuple[str, str, str]] = {
    "en": (
        # "never" is not among them: "never had pain like this". "Not without" is no denial.
        r"no|not|nor|(?<!not )without|(?:did|do|does|was|is|has|have|had|are|were|would)n['’]?t",
        r"any|at all|feel|feeling|felt|get|getting|got|have|had|having|be|been|really|or|nor|a|even|the",
        r"until|till|at first|at the (?:start|beginning)|except|apart from|unless|only|other than|like|as",
    )
}
"""By language: what denies, the words that may stand between it and the sign, and those that limit a denial
(``no pain until the last set``). Nothing else may stand between: ``not well, dizzy`` is dizzy."""

_LEAST_LETTERS = 4
"""Of a word of a sign; shorter ones (of, or, the) stand everywhere."""
_STEM = 5
"""Letters in which two words agree that say the same: faint and faintness, stumbles and stumbled."""
_EMPTY = frozenset(["that", "this", "with", "even", "from", "when", "your", "than", "more", "side", "does"])


class SignReader:
    """Finds signs of danger in the texts of a client."""

    def __init__(self, details: Details) -> None:
        language = details.language.split("-")[0]
        patterns = DANGER_WORDS.get(language, ())
        self.knows_language = bool(patterns)
        """Whether there is a list of words; without one only the series' own signs are found."""
        self._plain = re.compile(rf"\b(?:{'|'.join(patterns)})\b", re.I) if patterns else None
        self._denied = self._limits = None
        if language in _DENIALS:
            denial, between, limits = _DENIALS[language]
            signs = "|".join(patterns)
            filler = rf"(?:{between}|{signs})"
            self._denied = re.compile(rf"(?:^|[\s(“\"'])(?:{denial})\s+(?:{filler}\s+)*$", re.I)
            self._limits = re.compile(rf"\b(?:{limits})\b", re.I)
        self._signs = [
            (sign, stems) for sign in (*details.call_if, *details.stop_if) if (stems := _stems(sign))
        ]

    def signs(self, text: str) -> tuple[str, ...]:
        """The words by which a text speaks of danger and does not deny it."""
        found = [*self._plain_words(text), *self._own_signs(text)]
        return tuple(dict.fromkeys(word.casefold() for word in found))

    def _plain_words(self, text: str) -> Iterator[str]:
        for match in self._plain.finditer(text) if self._plain else ():
            if not self._is_denied(text, match.start(), match.end()):
                yield match[0]

    def _is_denied(self, text: str, start: int, end: int) -> bool:
        if self._denied is None or self._limits is None:
            return False
        rest = re.split(r"[.;!?\n]", text[end:])[0]
        return bool(self._denied.search(text[:start])) and not self._limits.search(rest)

    def _own_signs(self, text: str) -> Iterator[str]:
        """Signs of the series of which one sentence has two words, or the only one.

        What the plain words of the language find, denied or not, is left to them.
        """
        if self._plain:
            text = self._plain.sub(" ", text)
        for sentence in re.split(r"[.;!?\n]", text):
            said = _stems(sentence)
            for sign, stems in self._signs:
                if len(said & stems) >= min(2, len(stems)):
                    yield sign


def _stems(text: str) -> frozenset[str]:
    words = re.findall(r"[^\W\d_]+", text.casefold())
    return frozenset(word[:_STEM] for word in words if len(word) >= _LEAST_LETTERS and word not in _EMPTY)
