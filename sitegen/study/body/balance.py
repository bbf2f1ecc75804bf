"""The centre of mass of a figure, with what it holds."""

from collections.abc import Iterator

from sitegen.study.body.figure import CM, Figure
from sitegen.study.body.segment_tables import STANDARD
from sitegen.study.body.things import THINGS
from sitegen.study.body.vectors import Vec, add, along, between, scale, sub, unit

MASSES = STANDARD.masses


def segments(figure: Figure) -> Iterator[tuple[str, int | None, float, Vec]]:
    """Name, side, mass in kilograms and centre of mass of every segment."""
    body, masses = STANDARD.mass, MASSES
    head = along(figure.chest, (CM.ear, unit(sub(figure.head, figure.chest))))
    yield "head", None, masses.head.mass * body, head
    yield "trunk", None, masses.trunk.mass * body, between(figure.pelvis, figure.chest, masses.trunk.centre)
    for side, arm in enumerate(figure.arms):
        # The drawn forearm ends in the grip; its own length ends at the wrist.
        way = unit(sub(arm.hand, arm.elbow))
        wrist = along(arm.elbow, (CM.forearm, way))
        middle = between(arm.shoulder, arm.elbow, masses.upper_arm.centre)
        yield "upper_arm", side, masses.upper_arm.mass * body, middle
        yield "forearm", side, masses.forearm.mass * body, between(arm.elbow, wrist, masses.forearm.centre)
        yield "hand", side, masses.hand.mass * body, along(wrist, (masses.hand.centre * CM.hand, way))
    for side, leg in enumerate(figure.legs):
        yield "thigh", side, masses.thigh.mass * body, between(leg.hip, leg.knee, masses.thigh.centre)
        yield "shank", side, masses.shank.mass * body, between(leg.knee, leg.ankle, masses.shank.centre)
        yield "foot", side, masses.foot.mass * body, between(leg.heel, leg.toe, masses.foot.centre)


def loads(figure: Figure) -> Iterator[tuple[str, float, Vec]]:
    """Where each held thing is on the body (``left hand``, ``right hand``, ``trunk``), mass and centre."""
    for thing, where in figure.pose.holds.items():
        mass = THINGS[thing].mass
        if not mass:
            continue
        hands = [figure.arms[0].hand, figure.arms[1].hand]
        if where in ("each hand", "palms"):
            yield "left hand", mass, hands[0]
            yield "right hand", mass, hands[1]
        elif where == "left hand":
            yield "left hand", mass, hands[0]
        elif where in ("right hand", "right forearm"):
            yield "right hand", mass, hands[1]
        elif where in ("both hands", "forearms", "shoulders"):
            yield "left hand", mass / 2, hands[0]
            yield "right hand", mass / 2, hands[1]
        elif where in ("hips", "thighs"):
            yield "trunk", mass, figure.pelvis
        else:
            # The middle of a bag from the spine: half a trunk's depth and half its own; along the back it
            # lies flat. It hangs about two thirds up from the hips to the shoulders (our choice).
            ahead = {"back": -18.0, "along the back": -10.0}.get(where, 18.0)
            middle = between(figure.pelvis, figure.chest, 0.65)
            yield "trunk", mass, along(middle, (ahead, figure.chest_frame.front))


def centre_of_mass(figure: Figure) -> Vec:
    """The centre of mass of body and held things together, in centimetres."""
    total, sums = 0.0, (0.0, 0.0, 0.0)
    for _, _, mass, at in segments(figure):
        total, sums = total + mass, add(sums, scale(at, mass))
    for _, mass, at in loads(figure):
        total, sums = total + mass, add(sums, scale(at, mass))
    return scale(sums, 1 / total)
