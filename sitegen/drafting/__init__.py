"""From a caption file to a draft episode: what is shown when, with which dose, in which block.

``draft`` writes a new episode, ``fill_plan`` puts the times into a planned one and
``compare_recording`` checks a published one. All of it is text processing: no network, no model to
fetch, the same result every time. The README.md beside this file explains the method.
"""

from sitegen.drafting.draft import Draft, draft
from sitegen.drafting.found import ExerciseStub, FoundBlock, FoundItem, Unplaced
from sitegen.drafting.transcript.captions import read_transcript
from sitegen.drafting.writing.compare import compare_recording
from sitegen.drafting.writing.fill_plan import FilledPlan, fill_plan
from sitegen.drafting.writing.film import name_film

__all__ = [
    "Draft",
    "ExerciseStub",
    "FilledPlan",
    "FoundBlock",
    "FoundItem",
    "Unplaced",
    "compare_recording",
    "draft",
    "fill_plan",
    "name_film",
    "read_transcript",
]
