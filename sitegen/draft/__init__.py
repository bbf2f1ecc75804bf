"""From a caption file to a draft episode: what is shown when, with which dose, in which block.

``draft`` writes a new episode, ``fill_plan`` puts the times into a planned one and
``compare_recording`` checks a published one. All of it is text processing: no network, no model to
fetch, the same result every time. The README.md beside this file explains the method.
"""

from sitegen.draft.compare import compare_recording
from sitegen.draft.draft import Draft, draft
from sitegen.draft.fill import Filled, fill_plan
from sitegen.draft.found import FoundBlock, FoundItem, Stub
from sitegen.draft.transcript import read_transcript

__all__ = [
    "Draft",
    "Filled",
    "FoundBlock",
    "FoundItem",
    "Stub",
    "compare_recording",
    "draft",
    "fill_plan",
    "read_transcript",
]
