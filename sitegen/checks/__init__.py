"""Checks that a careful editor would make on a series that reads well: warnings, never stops.

Each check is a function ``(Material) -> Iterable[Problem]`` in a module of its topic; add it to
:data:`CHECKS`. A check can be silenced in the file it speaks of, under ``silence:``, with a reason.
"""

from pathlib import Path

from sitegen.checks import (
    consistency,
    coverage,
    demands,
    doses,
    limits,
    loads,
    moved,
    named_needs,
    names,
    need_promises,
    own_demands,
    placeholders,
    poses,
    recording,
    recovery,
    shared_library,
    stepping,
    stop_signs,
    timing,
    unshown_demands,
    untold_demands,
    unusual_amounts,
    video,
    volume,
    when_to_stop,
)
from sitegen.checks.filmed_lengths import stated_lengths
from sitegen.checks.material import Check, Material
from sitegen.checks.own_pictures import heavy_pictures
from sitegen.checks.unused_files import unused_files
from sitegen.model import Details, Episode, Exercise, Series
from sitegen.problems import Problem, in_order
from sitegen.reading.folder import take_inventory
from sitegen.reading.reader import Content, locate_all

CHECKS: tuple[Check, ...] = (
    video.check_missing,
    video.check_length,
    video.check_forms,
    video.check_chapter_list,
    video.check_captions,
    video.check_alternatives,
    timing.check_announced_time,
    timing.check_doses_fit,
    timing.check_along,
    stepping.check_stepping,
    stepping.check_stepping_tempo,
    volume.check_week,
    volume.check_rise,
    volume.check_standstill,
    recovery.check_calendar,
    recovery.check_recorded,
    recovery.check_release_days,
    moved.check_moved,
    coverage.check_gaps,
    coverage.check_own_choices,
    coverage.check_choices_agree,
    limits.check_limits,
    named_needs.check_named_needs,
    named_needs.check_meant_forms,
    need_promises.check_promises,
    need_promises.check_holds,
    consistency.check_regressions,
    consistency.check_unused,
    consistency.check_cautions,
    consistency.check_cautions_in_doubt,
    stop_signs.check_stop_signs,
    loads.check_mass_in_container,
    loads.check_untold_loads,
    doses.check_inherited_doses,
    doses.check_near_doses,
    unusual_amounts.check_unusual_amounts,
    demands.check_words,
    demands.check_cues_left_out,
    untold_demands.check_untold,
    unshown_demands.check_unshown,
    own_demands.check_own_demands,
    own_demands.check_spared_nothing,
    poses.check_sound,
    poses.check_demands,
    poses.check_ladder,
    when_to_stop.check_when_to_stop,
    when_to_stop.check_ask_first,
    when_to_stop.check_emergency_number,
    placeholders.check_starter_texts,
    placeholders.check_starter_sessions,
    placeholders.check_dose_of_one,
    names.check_file_numbers,
    names.check_same_names,
    names.check_same_content,
    names.check_spellings,
    recording.check_recordings,
    shared_library.check_version,
    shared_library.check_own_instead,
)


def check_read(content: Content, folder: Path) -> list[Problem]:
    """Every problem and warning of content that was read from the folder, in the order of files and lines."""
    problems = list(content.problems)
    if content.series is not None and not any(p.severity == "problem" for p in problems):
        problems += warnings(Material(content.series, content.cues), folder)
    return in_order(locate_all(problems, lambda file: (folder / file).read_bytes()))


NEVER_PUBLISHED = frozenset({"placeholder", "never-stop"})
"""Warnings about what must not go out."""
ASKED_BEFORE_PUBLISHING = frozenset(
    {"question", "dose-of-one", "too-much", "to-failure", "length-differs", "no-video"}
    | {"stop-unsaid", "caution-unsaid", "no-emergency-number"}
    | {"undeclared-demand", "caution-in-doubt", "goes-on", "choice-limits"}
)
"""Warnings that ``publish`` shows in full before it asks: clients would train by what they are about."""
_NEVER_SILENT = frozenset({"never-stop"})
"""Warnings that no reason silences: a client's safety hangs on what they are about."""


def warnings(material: Material, folder: Path) -> list[Problem]:
    """What the checks find in a series read from the folder, without what is silenced."""
    silenced = _silenced(material.series)
    # What several sessions share is told once.
    found = list(dict.fromkeys(problem for check in CHECKS for problem in check(material)))
    inventory = take_inventory(folder)
    found += stated_lengths(material.series, inventory)
    found += unused_files(material.series, inventory)
    found += heavy_pictures(material.series, inventory)
    return [
        problem
        for problem in found
        if problem.check in _NEVER_SILENT or (problem.file, problem.check) not in silenced
    ]


def _silenced(series: Series) -> set[tuple[str, str]]:
    owners: list[Details | Episode | Exercise] = [
        series.details,
        *series.episodes,
        *series.exercises.values(),
    ]
    return {(owner.location.file, check) for owner in owners for check in owner.silence}
