"""Sentences from poses: what the start and the finish look like, and what moves. The theme has the words."""

from collections.abc import Iterable, Iterator
from typing import Any

from sitegen.pages.drawings.features import STAYED, features
from sitegen.study.body.figure import Figure
from sitegen.study.body.movement import Movement, legs_swapped
from sitegen.study.body.subject import subject_of
from sitegen.study.body.vectors import Vec, distance


class PoseWords:
    """Says in the theme's words what figures do."""

    def __init__(self, strings: Any) -> None:
        self._words = strings

    def start(self, figure: Figure, *, alone: bool = False) -> str:
        """The first pose as a sentence; ``alone`` where it is held, so that all there is to say is in it."""
        return self._sentence(
            [
                self._base(figure),
                *(self._text(f) for f in features(figure, alone=alone)),
                *self._held(figure),
                *self._presses(figure),
                *self._marks(figure),
            ]
        )

    def finish(self, figure: Figure, before: Figure) -> str:
        """What is different in a later pose; empty where the words have nothing for it."""
        held = [text for text in self._held(figure) if text not in self._held(before)]
        held += [text for text in self._presses(figure) if text not in self._presses(before)]
        held += [text for text in self._marks(figure) if text not in self._marks(before)]
        if _mirrors(figure, before):
            return self._sentence([self._words.other_side, *held])
        parts = [self._base(figure)] if self._base(figure) != self._base(before) else []
        known = {self._text(f) for f in features(before)}
        parts += [text for text in map(self._text, features(figure, before)) if text not in known]
        return self._sentence([*parts, *held]) if parts or held else ""

    def move(self, movement: Movement) -> str:
        """What moves; empty where that is not certain."""
        subject = subject_of(movement)
        said = subject and self._words.moves[subject.word].get(subject.sides)
        return self._sentence([said]) if said else ""

    def _base(self, figure: Figure) -> str:
        pose = figure.pose
        base = self._words.bases[pose.base]
        leaning = self._words.leaning.get(pose.base)
        if leaning is not None:
            on_floor = set(pose.hands) <= {"floor", "free"} or pose.base == "all fours"
            how = "elsewhere" if not on_floor else "forearms" if all(pose.forearms) else "hands"
            base = leaning[how]
        if pose.base == "seated" or (pose.base in ("lying", "bridge") and pose.seat == "bed"):
            base = self._words.seats.get(pose.seat, base)
        return str(base)

    def _text(self, feature: tuple[str, str]) -> str:
        kind, word = feature
        if kind in ("hands", "hand"):
            table = self._words[kind]
            return str(
                table.get(word) or self._words[f"{kind}_on"].format(thing=self._words.things.get(word, word))
            )
        if kind in ("forearms", "forearm"):
            return str(self._words[f"{kind}_on"].format(thing=self._words.things.get(word, word)))
        return str(self._words.features[kind].format(thing=self._words.things.get(word, word)))

    def _held(self, figure: Figure) -> Iterator[str]:
        for thing, where in figure.pose.holds.items():
            special = self._words.held_at.get(where)
            own = special.get(thing) if special is not None else None
            yield own or self._words.holds[where].format(thing=self._words.held[thing])

    def _presses(self, figure: Figure) -> Iterator[str]:
        words = self._words.presses
        for part, way in figure.pose.presses.items():
            yield words.whole.get(f"{part} {way}") or words.text.format(
                part=words.parts[part], way=words.ways[way]
            )

    def _marks(self, figure: Figure) -> Iterator[str]:
        yield from filter(None, (self._words.marks.get(mark) for mark in figure.pose.marks))

    def _sentence(self, parts: Iterable[str]) -> str:
        text = self._words.separator.join(dict.fromkeys(part for part in parts if part))
        return str(self._words.sentence.format(text=text[:1].upper() + text[1:]))


def _mirrors(figure: Figure, before: Figure) -> bool:
    """Whether each side does now what the other did."""
    if legs_swapped(before, figure):
        return True
    a, b = before.pose, figure.pose
    hands = [_across(before.arms[1 - side].hand) for side in (0, 1)]
    moved = max(distance(before.arms[side].hand, figure.arms[side].hand) for side in (0, 1))
    there = max(distance(hands[side], figure.arms[side].hand) for side in (0, 1))
    # Twice what stays: a hand that rests on the body goes along with what it rests on.
    swings = min(abs(a.turn), abs(a.side)) < STAYED < max(abs(a.turn), abs(a.side))
    other_way = abs(a.turn + b.turn) < STAYED and abs(a.side + b.side) < STAYED
    same_legs = all(
        distance(p.ankle, q.ankle) < STAYED for p, q in zip(before.legs, figure.legs, strict=True)
    )
    return other_way and same_legs and there < 2 * STAYED and (swings or moved > 2 * STAYED)


def _across(point: Vec) -> Vec:
    return point[0], point[1], -point[2]
