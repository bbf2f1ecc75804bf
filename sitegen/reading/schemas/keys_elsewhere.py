"""Keys that people write by habit where they do not belong, and what to write instead."""

from collections.abc import Mapping

ITEM: Mapping[str, str] = {
    "reps": "write dose: with the number, such as dose: 10",
    "repetitions": "write dose: with the number, such as dose: 10",
    "amount": "write dose:",
    "time": "write dose: with the time, such as dose: 30 s",
    "duration": "write dose: with the time, such as dose: 30 s",
    "hold": "write dose: with the time, such as dose: 30 s",
    "sets": "sets belong to the block: write sets: beside format:; for a dose of its own in each set write "
    "dose: [12, 10, 8]",
    "rounds": "rounds belong to the block: write rounds: beside format:, above items:",
    "rest": "rests belong to the block: write rest: {between_sets: 60 s} beside format:, above items:",
    "name": "write exercise: with the id of an exercise",
    "weight": "write load: such as 12 kg or 5 l water",
    "kg": "write load: such as 12 kg",
    "rpe": "write effort: such as RPE 7",
    "rir": "write effort: such as 2 in reserve",
    "reserve": "write effort: such as 2 in reserve",
    "start": "write at: with the time in the video",
    "cue": "write note:; cues stand in the exercise's file",
    "cues": "write note:; cues stand in the exercise's file",
    "your_turn": "your turn belongs to the block: write your_turn: beside format:, above items:",
}
"""What people write in an item by habit, and what to write instead."""

BLOCK: Mapping[str, str] = {
    "exercises": "write items:",
    "type": "write kind: (warm-up, strength …) or format: (circuit, superset …)",
    "reps": "the dose belongs to an item: write dose: beside exercise:",
    "dose": "the dose belongs to an item: write dose: beside exercise:",
    "exercise": "write it under items:, such as - {exercise: towel-row, dose: 8-12}",
    "tempo": "the tempo belongs to an item: write tempo: beside exercise:",
    "effort": "the effort belongs to an item: write effort: beside exercise:",
    "load": "the load belongs to an item: write load: beside exercise:",
    "title": "write name:",
    "start": "write at: with the time in the video",
    "duration": "write time: (of the whole block) or work: (of one interval)",
    "cap": "write time:",
    "rests": "write rest: {between_exercises: 15 s, between_sets: 60 s}",
    "between_sets": "write it under rest:, such as rest: {between_sets: 60 s}",
    "between_exercises": "write it under rest:, such as rest: {between_exercises: 15 s}",
}
"""The same of a block."""

REST: Mapping[str, str] = {
    "between_items": "write between_exercises:",
    "between_intervals": "write between_exercises:",
    "between": "write between_exercises: or between_sets:",
    "between_blocks": "write after:",
}
"""The same of the rests of a block."""

EPISODE: Mapping[str, str] = {
    "date": "write released: with the day it comes out",
    "day": "write released: with the day it comes out",
    "release": "write released:",
    "description": "write summary: (one or two sentences) or notes: (below the video)",
    "name": "write title:",
    "duration": "write lasts: such as 35-40 min",
    "length": 'write it under video:, such as video: {file: media/03.webm, length: "9:40"}; what you '
    "announce is lasts:",
    "warm-up": "write it as the first of the blocks:",
    "items": "write blocks:, each with its items:",
    "exercises": "write blocks:, each with its items:",
}
"""The same of an episode."""

VARIANT: Mapping[str, str] = {
    "reps": "write dose: with a change such as half, -2 or a new dose",
    "easier": "write change: regression",
    "harder": "write change: progression",
    "description": "write note: for whom it is",
}
"""The same of a variant."""
SAYS: Mapping[str, str] = {"move": "write move: beside poses:, with what moves in one short sentence"}
"""The same of the sentences of poses."""

EXERCISE: Mapping[str, str] = {
    "id": "leave it out: the file's name is the id",
    "title": "write name:",
    "equipment": "write kit: with ids from series.yaml",
    "description": "write summary:",
    "dose": "the dose stands in the episode, with the item",
    "reps": "the dose stands in the episode, with the item",
    "sets": "the sets stand in the episode, with the block",
    "progressions": "write them under variants:, each with change: progression",
    "regressions": "write them under variants:, each with change: regression",
    "easier": "write it under variants:, with change: regression",
    "harder": "write it under variants:, with change: progression",
    "mistakes": "write faults: with see: and fix:",
    "prime": "write muscles: {prime: […], assist: […]}",
    "assist": "write muscles: {prime: […], assist: […]}",
}
"""The same of an exercise."""

ROUTINE: Mapping[str, str] = {
    **BLOCK,
    "at": "leave it out: the episode says when the routine starts",
    "your_turn": "leave it out: the episode says when the viewer's turn is",
}
"""The same of a routine."""

VIDEO: Mapping[str, str] = {
    "url": "write host: and id: (hosts: in series.yaml says where videos are)",
    "link": "write host: and id: (hosts: in series.yaml says where videos are)",
    "path": "write file:",
    "duration": "write length:",
}
"""The same of a video."""
