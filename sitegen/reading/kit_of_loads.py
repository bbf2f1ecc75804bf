"""The load of an item finds its piece of kit: what is ambiguous, overfull or without a piece is a problem."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from sitegen.model import Kit
from sitegen.notation import Load, LoadPart
from sitegen.reading.suggestions import nearest
from sitegen.study.forms import Form
from sitegen.study.vessels import fits, heaviest, takers, takes


@dataclass(frozen=True, slots=True)
class LoadComplaint:
    """What is wrong with a load."""

    check: str
    piece: str | None
    """The key of the load that it is about; None for the load as a whole."""
    message: str
    advice: str


def placed(load: Load, form: Form, kit: Mapping[str, Kit]) -> tuple[Load, list[LoadComplaint]]:
    """The load with the piece of each part settled, and what is wrong with it.

    ``form`` is the one that is filmed, ``kit`` the kit of the series by id.
    """
    if load.sets:
        settled_sets = [placed(one, form, kit) for one in load.sets]
        told = dict.fromkeys(complaint for _, some in settled_sets for complaint in some)
        return Load.of_sets([one for one, _ in settled_sets]), list(told)
    pieces = [kit[piece] for piece in form.kit if piece in kit]
    parts: list[LoadPart] = []
    complaints: list[LoadComplaint] = []
    for part in load.parts:
        settled, wrong = _named(part, form, kit) if part.piece else _settled(part, load, form, pieces)
        parts.append(settled)
        complaints += wrong
    # The same words twice say nothing new: 2 x 9 l in a carrier of 5 l is one mistake.
    return Load(tuple(parts)), list(dict.fromkeys(complaints))


def _named(part: LoadPart, form: Form, kit: Mapping[str, Kit]) -> tuple[LoadPart, list[LoadComplaint]]:
    piece = part.piece or ""
    if piece not in kit:
        near = nearest(piece, kit)
        advice = f"did you mean {near!r}?" if near else f"known: {', '.join(sorted(kit)) or 'none yet'}"
        return part, [LoadComplaint("unknown-kit", piece, f"there is no kit {piece!r}", advice)]
    if piece not in form.kit:
        message = f"the load is in {piece!r}, which {form.name!r} does not use"
        uses = f"its kit is {', '.join(form.kit)}" if form.kit else "it has no kit"
        advice = f"{uses}: add {piece} to the kit of {form.key.exercise}, or name another piece"
        return part, [LoadComplaint("load-kit", piece, message, advice)]
    return part, list(_size(part, kit[piece], piece))


def _settled(
    part: LoadPart, load: Load, form: Form, pieces: list[Kit]
) -> tuple[LoadPart, list[LoadComplaint]]:
    able = takers(part, pieces)
    if not able:
        return part, [_nothing_takes(part, form)]
    if len(able) > 1:
        return part, [_ambiguous(load, form, able)]
    return replace(part, piece=able[0].id), list(_size(part, able[0], None))


def _nothing_takes(part: LoadPart, form: Form) -> LoadComplaint:
    if not form.kit:
        message = f"{form.name!r} has a load of {part}, but no kit to hold"
        advice = f"add what holds it to the kit of {form.key.exercise}, or leave the load out"
        return LoadComplaint("load-kit", None, message, advice)
    message = f"nothing that {form.name!r} uses takes a load of {part}: {', '.join(form.kit)}"
    instead = "add what holds it to its kit, choose a version that uses such a piece"
    advice = f"{instead}, or {_declare(form.kit[0], part)}"
    return LoadComplaint("load-kit", None, message, advice)


def _declare(piece: str, part: LoadPart) -> str:
    """How the series says that a piece takes a load."""
    if part.quantity.kind == "volume":
        return f"in series.yaml write how much it holds, such as holds: 5 l under {piece}"
    return f"in series.yaml write holds: 15 kg (a bag) or weighs: {part} (a weight) under {piece}"


def _ambiguous(load: Load, form: Form, able: list[Kit]) -> LoadComplaint:
    names = " or ".join(piece.id for piece in able)
    message = f"the load {str(load)!r} of {form.name!r} does not say what it is in: {names}"
    # One part in each piece where there are two, else all of it in the first.
    ids = [piece.id for piece in able]
    if len(load.parts) == 1:
        written = f"{ids[0]}: {load}"
    else:
        written = ", ".join(f"{piece}: {part}" for piece, part in zip(ids, load.parts, strict=False))
    return LoadComplaint("load-kit", None, message, f"write for example load: {{{written}}}")


def _size(part: LoadPart, piece: Kit, key: str | None) -> Iterator[LoadComplaint]:
    if not takes(part, piece):
        message = f"{piece.name!r} ({piece.id}) holds nothing, but has a load of {part}"
        if piece.weighs:
            message = f"{piece.name!r} ({piece.id}) is a weight and holds no {part.fill}"
        yield LoadComplaint("load-kit", key, message, _declare(piece.id, part))
    elif not fits(part, piece):
        if piece.weighs and piece.holds is None:
            weights = " or ".join(map(str, piece.weighs))
            message = f"{piece.name!r} ({piece.id}) weighs {weights}, not {part}"
            yield LoadComplaint("load-too-large", key, message, "write one of these, or add it under weighs:")
        else:
            message = f"{part} is more than {piece.name!r} ({piece.id}) holds: {piece.holds}"
            advice = "write a smaller load, or correct holds: in series.yaml"
            if part.fill is None and piece.holds is not None and piece.holds.kind == "volume":
                advice = f"filled with sand it weighs {heaviest(piece):.3g} kg at most: {advice}"
            yield LoadComplaint("load-too-large", key, message, advice)
