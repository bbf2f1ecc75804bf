"""Looking around a place in talk: the words before and after it, inside its sentence."""

import re
from bisect import bisect_right

from sitegen.draft.words import Stream

SENTENCE, CLAUSE = 2, 1
"""What a look stops at: a sentence end, or any mark."""


class Talk:
    """A stream with a few ways of looking at it."""

    def __init__(self, stream: Stream) -> None:
        self.stream = stream
        self.tokens = stream.tokens

    def words(self, first: int, last: int) -> str:
        """The words from one token to another, with a space behind each."""
        return "".join(f"{token.text} " for token in self.tokens[max(0, first) : last + 1])

    def before(self, index: int, most: int, stop: int = SENTENCE) -> str:
        """Up to ``most`` words before a token, not reaching across a break."""
        first = index
        while first > max(0, index - most) and self.tokens[first].break_before < stop:
            first -= 1
        return self.words(first, index - 1)

    def after(self, index: int, most: int, stop: int = SENTENCE) -> str:
        """Up to ``most`` words after a token, not reaching across a break."""
        return self.words(index + 1, self.end(index, most, stop))

    def end(self, index: int, most: int, stop: int = SENTENCE) -> int:
        """The last token that :meth:`after` reaches."""
        last = index
        top = min(len(self.tokens) - 1, index + most)
        while last < top and self.tokens[last + 1].break_before < stop:
            last += 1
        return last

    def unbroken(self, first: int, last: int) -> bool:
        """Whether no sentence ends between two tokens."""
        return all(token.break_before < SENTENCE for token in self.tokens[first + 1 : last + 1])

    def alone(self, first: int, last: int, least: int = CLAUSE) -> bool:
        """Whether a break of a strength (or a stronger one) stands on both sides, as around "Twelve."."""
        following = self.tokens[last + 1].break_before if last + 1 < len(self.tokens) else SENTENCE
        return self.tokens[first].break_before >= least and following >= least

    def span(self, match: re.Match[str]) -> tuple[int, int]:
        """First and last token of a match in the stream's text."""
        end = match.end() - 1 if match[0].endswith(" ") else match.end()
        return self.token(match.start()), self.token(max(match.start(), end - 1))

    def token(self, offset: int) -> int:
        """The token at an offset of the stream's text."""
        return bisect_right(self.stream.offsets, offset) - 1
