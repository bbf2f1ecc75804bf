"""Whether somebody should ask a doctor before training: the published screening as one small table.

After Riebe et al. 2015, "Updating ACSM's recommendations for exercise preparticipation health screening",
Medicine & Science in Sports & Exercise 47:2473-2479 (branches from memory, held against two restatements of
the algorithm, which agree in every branch). It asks for three things: whether one is active now (planned
activity of moderate intensity, 30 minutes on three days a week, for the last three months), whether a disease
of heart and vessels, of metabolism or of the kidneys is known, and whether there are signs or symptoms of
one. How hard one wants to work matters in one branch only.

A fifth question is this program's own (common practice, no source): whether something of a trainer's list of
who has to ask first is true of somebody. It can only make the advice more careful, and without it the first
four would acquit people whom the cautions beside them send to a doctor.

An answer that is not known counts as the careful one. The outcome is an advice, never a diagnosis.
"""

from itertools import product

GENTLY = "gently"
"""Nothing to clear; begin light to moderate and build up slowly."""
GO_ON = "go on"
"""Nothing to clear; go on as before."""
GO_ON_MODERATE = "go on moderate"
"""Go on at moderate intensity; ask before it gets harder."""
ASK = "ask"
"""Ask a doctor first; then begin light to moderate."""
STOP_AND_ASK = "stop and ask"
"""Stop training, and ask a doctor before going on."""

OUTCOMES = (GENTLY, GO_ON, GO_ON_MODERATE, ASK, STOP_AND_ASK)
ASKING = (ASK, STOP_AND_ASK)
"""Those after which nobody begins before a doctor has been asked."""
QUESTIONS = ("active", "disease", "signs", "vigorous", "listed")
"""In the order of the answers."""
CAREFUL = {"active": False, "disease": True, "signs": True, "vigorous": True, "listed": True}
"""What an answer counts as that somebody does not know."""


def advise(*, active: bool, disease: bool, signs: bool, vigorous: bool, listed: bool = False) -> str:
    """What the answers come to: one of :data:`OUTCOMES`."""
    if signs:
        return STOP_AND_ASK if active else ASK
    if listed:
        return ASK
    if disease:
        if not active:
            return ASK
        return ASK if vigorous else GO_ON_MODERATE
    return GO_ON if active else GENTLY


def table() -> dict[str, str]:
    """Every outcome by its answers, ``ynnyn`` in the order of :data:`QUESTIONS`: for a page's script."""
    answers = product((True, False), repeat=len(QUESTIONS))
    return {
        "".join("y" if one else "n" for one in some): advise(**dict(zip(QUESTIONS, some, strict=True)))
        for some in answers
    }
