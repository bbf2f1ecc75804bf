"""From a caption file to a draft episode: what is shown when, with which dose, in which block.

``draft`` writes a new episode, ``fill_plan`` puts the times into a planned one and
``compare_recording`` checks a published one. All of it is text processing: no network, no model to
fetch, the same result every time. The README.md beside this file explains the method.
"""

from sitegen.drafting.draft import Draft as Draft
from sitegen.drafting.draft import draft as draft
from sitegen.drafting.findings import ExerciseStub as ExerciseStub
from sitegen.drafting.findings import FoundBlock as FoundBlock
from sitegen.drafting.findings import FoundItem as FoundItem
from sitegen.drafting.transcript.captions import read_transcript as read_transcript
from sitegen.drafting.writing.compare import compare_recording as compare_recording
from sitegen.drafting.writing.fill_plan import FilledPlan as FilledPlan
from sitegen.drafting.writing.fill_plan import fill_plan as fill_plan
from sitegen.drafting.writing.film import name_film as name_film
