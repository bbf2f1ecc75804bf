"""What to write instead of a reference that leads nowhere: the id of what was meant."""

import re
from collections.abc import Iterable, Mapping

from slugify import slugify

from sitegen.model import Details, Exercise
from sitegen.reading.suggestions import listed, meanings, nearest, which


def meant_id(word: str, names: Mapping[str, Iterable[str]]) -> str:
    """The known id that has exactly this name, case and plurals apart; empty where none or two have it."""
    plain = name_words(word)
    having = [
        known
        for known, all_of in names.items()
        if plain and plain in (name_words(known), *map(name_words, all_of))
    ]
    return having[0] if len(having) == 1 else ""


def id_advice(word: str, names: Mapping[str, Iterable[str]], kind: str | None = None) -> str:
    """Advice for an unknown id: the known id that has this name, or one like it.

    ``names`` are the names of each known id; ``kind`` a heading of the table of common names.
    """
    by_name = {name_words(name): (known, name) for known, all_of in names.items() for name in all_of}
    by_name |= {name_words(known): (known, known) for known in names}
    by_name.pop((), None)
    if found := by_name.get(name_words(word)):
        return _write(*found)
    for meant in meanings(kind, word) if kind else ():
        if found := by_name.get(name_words(meant)):
            return _write(*found)
    said = set(name_words(word))
    holding = [known for name, (known, _) in by_name.items() if said and said <= set(name)]
    if len(set(holding)) == 1:
        return f"did you mean {holding[0]!r}?"
    near = nearest(" ".join(name_words(word)), [" ".join(name) for name in by_name])
    if near:
        known, name = by_name[tuple(near.split(" "))]
        return f"did you mean {known!r}?{_also(known, name)}".replace("?  (", "? (")
    return f"known: {listed(sorted(names)) or 'none yet'}"


def _write(known: str, name: str) -> str:
    return f"write its id, {known!r}{_also(known, name)}"


def _also(known: str, name: str) -> str:
    return "" if name_words(name) == name_words(known) else f" (also called {name!r})"


def name_words(name: str) -> tuple[str, ...]:
    """The words of a name or an id, in lower case and without the ``s`` of a plural."""
    return tuple(_singular(word) for word in re.findall(r"[^\W_]+", name.casefold()))


def _singular(word: str) -> str:
    return word[:-1] if len(word) > 2 and word.endswith("s") and not word.endswith("ss") else word


def exercise_advice(word: str, exercises: Mapping[str, Exercise], *, joined: bool = False) -> str:
    """Advice for an exercise that is not in the library; it may be called otherwise, or be a variant.

    ``joined``: where it stands, exercise and variant are written as one, ``chair-squat/hands-on-seat``.
    """
    for exercise in exercises.values():
        for variant in exercise.variants:
            if name_words(word) in (name_words(variant.id), name_words(variant.name)):
                if joined:
                    return f"it is a variant: write {exercise.id}/{variant.id}"
                return f"it is a variant: write exercise: {exercise.id} and variant: {variant.id}"
    advice = id_advice(word, exercise_names(exercises))
    if advice.startswith("known:"):
        return f"add it as exercises/{slugify(word) or 'its-name'}.yaml, or correct the id"
    return advice


def exercise_names(exercises: Mapping[str, Exercise]) -> Mapping[str, tuple[str, ...]]:
    """The names of each exercise."""
    return {exercise.id: (exercise.name, *exercise.also) for exercise in exercises.values()}


def kit_names(details: Details) -> Mapping[str, tuple[str, ...]]:
    """The name of each piece of kit."""
    return {piece.id: (piece.name,) for piece in details.kit.values()}


def need_names(details: Details) -> Mapping[str, tuple[str, ...]]:
    """The name of each need, and what clients say."""
    return {need.id: (need.name, need.says) for need in details.needs.values()}


def muscle_advice(word: str, known: Iterable[str]) -> str:
    """Advice for an unknown muscle: the trade's common names lead to the words of the files."""
    words = list(known)
    meant = [muscle for muscle in meanings("muscles", word) if muscle in words]
    if meant:
        return which(meant)
    near = nearest(word, words)
    return f"did you mean {near!r}?" if near else f"known: {listed(sorted(words))}"


def demand_advice(word: str, known: Mapping[str, str], *, suggest: bool = True) -> str:
    """Advice for an unknown demand; ``known`` are the demands of the series with their sentences."""
    meant = [demand for demand in meanings("demands", word) if demand in known]
    near = nearest(word, known) if suggest else None
    declare = f"declare it in series.yaml, under demands: with the sentence that says when {word!r} applies"
    if meant:
        told = "; ".join(f"{demand}: {known[demand]}" for demand in meant)
        return f"{which(meant)} ({told}); or {declare}"
    if near is None:
        return f"write one of {', '.join(known)}; or {declare}"
    return f"did you mean {near!r}? ({known[near]}) Or {declare}"
