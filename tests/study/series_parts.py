"""Pieces of a series in the trainer's short forms, for the tests of the study package."""

from sitegen.model import (
    Block,
    Details,
    Episode,
    Exercise,
    Item,
    Muscles,
    Need,
    Rest,
    Trainer,
    Variant,
    Video,
    VideoFile,
)
from sitegen.notation import Count, Dose, DoseChange, Duration, Effort, Load, Quantity, Tempo
from sitegen.problems import Location
from sitegen.study.forms import FormKey, FormShelf, forms_of

HERE = Location("test.yaml")


def details(**more):
    """Tempo 2-0-1-0 (3 s a repetition), changeover 10 s, viewers of 50 to 100 kg."""
    words = {"title": "Galley", "summary": "", "address": "https://movement.example/"}
    return Details(**words, trainer=Trainer(name="Robin Vale"), **more)


def exercise(name, *variants, pattern="pull horizontal", prime=(), assist=(), tempo=None, **more):
    return Exercise(
        id=name,
        name=name,
        pattern=pattern,
        muscles=Muscles(prime=tuple(prime), assist=tuple(assist)),
        tempo=Tempo.parse(tempo) if tempo else None,
        variants=variants,
        location=HERE,
        **more,
    )


def variant(name, dose=None, change="regression", **more):
    changed = DoseChange.parse(dose) if dose else None
    return Variant(id=name, name=name, change=change, dose=changed, location=HERE, **more)


def forms(*exercises) -> FormShelf:
    return forms_of({one.id: one for one in exercises})


def item(text, *, effort=None, load=None, variant=None, versions=None):
    """``row 8 each side @3-1-1-0``: exercise, dose (may be left out) and tempo (may be left out)."""
    written, _, tempo = text.partition(" @")
    name, _, dose = written.partition(" ")
    return Item(
        exercise=name,
        variant=variant,
        dose=Dose.parse(dose) if dose else None,
        tempo=Tempo.parse(tempo) if tempo else None,
        effort=Effort.parse(effort) if effort else None,
        load=Load.parse(load) if load else None,
        versions=versions or {},
    )


def block(
    format,
    *items,
    kind="strength",
    sets="1",
    gap=None,
    rest=None,
    after=None,
    work=None,
    time=None,
    along=False,
):
    """``gap`` is the rest between exercises, ``rest`` that between sets."""

    def length(text):
        return Duration.parse(text) if text else None

    return Block(
        name=format,
        kind=kind,
        format=format,
        at=0,
        your_turn=None if along else 60,
        sets=Count.parse(sets),
        rest=Rest(between_exercises=length(gap), between_sets=length(rest), after=length(after)),
        work=length(work),
        time=length(time),
        items=tuple(item(one) if isinstance(one, str) else one for one in items),
        location=HERE,
    )


def episode(number, *blocks, video=None, released=None):
    film = Video(files=(VideoFile(file="media/x.webm"),), length=video) if video is not None else None
    return Episode(
        slug=f"episode-{number}",
        number=number,
        title=f"Episode {number}",
        released=released,
        video=film,
        blocks=blocks,
        location=HERE,
    )


def need(name, *avoids):
    return Need(id=name, name=name, avoids=avoids)


def kilograms(low, high):
    return Quantity(low, "kg"), Quantity(high, "kg")


__all__ = [
    "FormKey",
    "block",
    "details",
    "episode",
    "exercise",
    "forms",
    "item",
    "kilograms",
    "need",
    "variant",
]
