"""What is heard in a recording before it is put together into blocks."""

from dataclasses import dataclass

from sitegen.draft.amounts import Amounts
from sitegen.draft.lexicon import Lexicon
from sitegen.draft.mentions import Mention
from sitegen.draft.signals import Signal
from sitegen.draft.talk import Talk
from sitegen.model import Series


@dataclass(frozen=True, slots=True, kw_only=True)
class Heard:
    """The talk with the phrases, amounts and mentions found in it, each in order."""

    series: Series
    lexicon: Lexicon
    talk: Talk
    signals: list[Signal]
    amounts: Amounts
    mentions: list[Mention]

    def time(self, token: int) -> float:
        """When a token is said, in seconds."""
        return self.talk.tokens[token].start
