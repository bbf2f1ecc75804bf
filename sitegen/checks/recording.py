"""Do published episodes agree with what is said in their recordings?"""

from collections.abc import Iterator

from sitegen.checks.material import Material
from sitegen.drafting import compare_recording
from sitegen.problems import Problem
from sitegen.reading.captions.cues import Captions


def check_recordings(material: Material) -> Iterator[Problem]:
    """Chapters more than 10 s off and doses that differ from what is said, by the captions."""
    for episode in material.series.episodes:
        cues = material.cues.get(episode.captions or "", ())
        if cues:
            captions = Captions(cues=cues, problems=[])
            yield from compare_recording(episode, captions, material.series)
