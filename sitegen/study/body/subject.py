"""What a movement is about, in one word of a list: the joint that turns furthest or the body that it moves.

Where hands rest or hold on they are no subject, and where two things happen at once of which no word says
both there is none: a sentence about the wrong part of the body teaches the wrong movement.
"""

from sitegen.study.body.arm_subjects import Subject, arms_subject
from sitegen.study.body.changes import (
    HELD_STILL,
    STAYS,
    STEPS,
    STRAIGHTENS,
    SWINGS,
    TURNS,
    arm_turns,
    count_of,
    elbow_bend,
    foot_way,
    growth,
    is_free,
    knee_bend,
    moved_feet,
    moving_arms,
    swinging,
    thigh_lift,
    thigh_out,
)
from sitegen.study.body.figure import LEFT, RIGHT, Figure
from sitegen.study.body.movement import Movement, legs_change_about, walks

_TRUNK, _SEATED_TRUNK, _WAIST = 20.0, 8.0, 8.0
"""Degrees: leans of somebody who stands, and who sits; side bends of both (our choice, by eye)."""
_KNEE_HIGH = 45
"""Degrees: a thigh lifted by half a right angle is a knee that is lifted, and not only a foot."""
_LEAN_PER_BEND = 0.9
"""Two joints share the way, the trunk by what it tips and the knees by what they bend: a hinge is what leans
by more than about as much as it bends (our choice)."""


def subject_of(movement: Movement) -> Subject | None:
    """What the movement is about; None where that is not certain."""
    start, finish = movement.start, movement.finish
    if start.pose.circles:
        return _circling(start)
    hops = any(figure.pose.lift > 0 for figure in movement.figures)
    if len(movement.figures) != 2 or hops:  # what happens on the way, or in the air, two ends do not tell
        return None
    if walks(movement):
        return Subject("walk", "turn")
    if legs_change_about(movement):
        return _changing_legs(start, finish)
    for find in (_spine, _whole_body, _by_base):
        found = find(start, finish)
        if found is not None:
            return found if found.word else None
    return None


def _circling(figure: Figure) -> Subject:
    what = figure.pose.circles
    free = [side for side in (LEFT, RIGHT) if is_free(figure, side)]
    if what == "hands" and free and max(elbow_bend(figure, side) for side in free) < 2 * STRAIGHTENS:
        return Subject("circle arms", count_of(free))
    return Subject(f"circle {what}")


_UNSURE = Subject("")
"""Says that something happens for which there is no word, so that nothing smaller is named instead."""

# --- both legs in turn, the spine, the body as a whole ---------------------------------------------


def _changing_legs(start: Figure, finish: Figure) -> Subject | None:
    high = max(thigh_lift(figure, side) for figure in (start, finish) for side in (LEFT, RIGHT))
    if start.pose.base == "seated":
        return (
            Subject("knee lifts", "turn")
            if max(map(abs, growth(thigh_lift, start, finish))) >= TURNS
            else None
        )
    if start.pose.base != "standing":
        return None
    return Subject("knee lifts" if high >= _KNEE_HIGH else "foot lifts", "turn")


def _spine(start: Figure, finish: Figure) -> Subject | None:
    """Turns, curls and side bends of a trunk that stays where it is, hands at rest."""
    a, b = start.pose, finish.pose
    if a.base != b.base:
        return None
    turn, curl, bend = b.turn - a.turn, b.round - a.round, b.side - a.side
    if a.base == "side plank":
        return Subject("side hips lift" if bend < 0 else "side hips sink") if abs(bend) >= _WAIST else None
    arms = moving_arms(start, finish)
    if arms:
        # A punch may turn the chest along; both arms, or an arm and a side bend, are more than one word says.
        both = abs(turn) >= TURNS and len(arms) == 2
        return _UNSURE if both or abs(bend) >= _WAIST else None
    if abs(b.lean - a.lean) >= _TRUNK or a.base in _ON_ARMS:
        return None
    if abs(turn) >= TURNS:
        return Subject("chest turns", "turn" if a.turn * b.turn < 0 else "one")
    if abs(curl) >= _WAIST:
        return Subject("back rounds" if b.round >= TURNS else "breastbone lifts")
    if abs(bend) >= _WAIST and a.base in ("standing", "seated"):
        return Subject("trunk bends aside", "turn" if a.side * b.side < 0 else "one")
    return None


def _whole_body(start: Figure, finish: Figure) -> Subject | None:
    """What carries the body from one base to another."""
    bases = (start.pose.base, finish.pose.base)
    if bases == ("lying", "bridge"):
        return Subject("hips lift", "one" if "lifted" in start.pose.feet else "both")
    known = {("standing", "seated"): "sits down", ("seated", "standing"): "stands up"}
    if bases in known:
        return Subject(known[bases])
    return _UNSURE if bases[0] != bases[1] else None


# --- by what the body rests on ---------------------------------------------------------------------


_ON_ARMS = ("plank", "knee plank", "hanging back", "dip")


def _by_base(start: Figure, finish: Figure) -> Subject | None:
    base = start.pose.base
    if base in _ON_ARMS:
        return _on_arms(start, finish)
    if base == "all fours":
        return _on_all_fours(start, finish)
    if base in ("standing", "back to the wall"):
        return _standing(start, finish)
    if base == "seated":
        return _seated(start, finish)
    if base in ("lying", "lying face down", "side lying"):
        return _lying(start, finish)
    if base == "bridge":
        return None
    return arms_subject(start, finish)


def _on_arms(start: Figure, finish: Figure) -> Subject | None:
    base = start.pose.base
    feet = moved_feet(start, finish, STEPS)
    elbows = [side for side in (LEFT, RIGHT) if abs(growth(elbow_bend, start, finish)[side]) >= STRAIGHTENS]
    if len(feet) == 1 and not elbows:
        ahead = foot_way(start, finish, feet[0])[0] > STEPS
        return Subject("knee draws in" if ahead else "leg lifts back", "one")
    if feet or not elbows:
        return None
    if base == "plank" and min(start.pose.hips) > SWINGS:
        return Subject("head sinks between the hands")
    if base == "hanging back":
        hanging = [side for side in (LEFT, RIGHT) if start.arms[side].on == "towel"]
        return Subject("pulls the chest in", count_of(hanging))
    return Subject("dips" if base == "dip" else "chest comes close")


def _on_all_fours(start: Figure, finish: Figure) -> Subject | None:
    legs = [side for side in (LEFT, RIGHT) if finish.pose.feet[side] == "lifted"]
    arms = moving_arms(start, finish)
    if len(legs) == 1 and not arms:
        return Subject("leg reaches back", "one")
    if len(legs) == len(arms) == 1 and legs != arms:
        return Subject("arm and leg reach", "one")
    return None


def _standing(start: Figure, finish: Figure) -> Subject | None:
    feet = moved_feet(start, finish, STAYS)
    onto = "step" in {*start.pose.feet, *finish.pose.feet} or "second step" in start.pose.feet
    if onto and start.pose.feet != finish.pose.feet:
        return _on_a_step(start, finish)
    if not feet:
        return _on_both_feet(start, finish)
    if len(feet) == 2 or swinging(start, finish):
        return None
    side = feet[0]
    lifted = [figure.pose.feet[side] == "lifted" for figure in (start, finish)]
    if lifted == [False, True]:
        return _lifts_a_leg(start, finish, side)
    if lifted == [True, True]:
        if abs(finish.pose.lean - start.pose.lean) >= _TRUNK:
            return None
        return Subject("leg swings", "one") if moved_feet(start, finish, 2 * STEPS) else None
    return _steps(start, finish, side) if lifted == [False, False] else None


def _on_a_step(start: Figure, finish: Figure) -> Subject | None:
    rise = finish.pelvis[1] - start.pelvis[1]
    if abs(rise) < STAYS or swinging(start, finish):
        return None
    return Subject("rises onto the step" if rise > 0 else "sinks from the step", "one")


def _on_both_feet(start: Figure, finish: Figure) -> Subject | None:
    knees = growth(knee_bend, start, finish)
    bend, lean = sum(knees) / 2, finish.pose.lean - start.pose.lean
    heels = [finish.legs[side].tipped - start.legs[side].tipped for side in (LEFT, RIGHT)]
    carrying = [side for side in (LEFT, RIGHT) if start.legs[side].carries]
    if carrying and all(heels[side] >= TURNS and abs(knees[side]) < STRAIGHTENS for side in carrying):
        return Subject("heels lift", count_of(carrying))
    if abs(finish.pelvis[2] - start.pelvis[2]) >= STEPS and max(knees) >= STRAIGHTENS:
        return Subject("shifts aside", "one")
    body = _body_over_feet(bend, lean)
    if body is None:
        return arms_subject(start, finish)
    # Arms that swing along, such as those held out while sitting down, are a detail; a lift is not.
    return body if not _loaded_arms(start, finish) else None


def _body_over_feet(bend: float, lean: float) -> Subject | None:
    if abs(lean) >= _TRUNK and abs(lean) > _LEAN_PER_BEND * abs(bend):
        return Subject("hinges" if lean > 0 else "rises from the hips")
    if abs(bend) >= TURNS:
        return Subject("knees bend" if bend > 0 else "knees straighten")
    return None


def _loaded_arms(start: Figure, finish: Figure) -> bool:
    holds = {*start.pose.holds.values(), *finish.pose.holds.values()}
    in_hands = bool(holds & {"each hand", "right hand", "left hand", "both hands", "palms"})
    return in_hands and swinging(start, finish)


def _lifts_a_leg(start: Figure, finish: Figure, side: int) -> Subject | None:
    if abs(finish.pose.lean - start.pose.lean) >= _TRUNK:
        return Subject("tips over one leg", "one")
    thigh, out = growth(thigh_lift, start, finish)[side], growth(thigh_out, start, finish)[side]
    if out >= TURNS and out > abs(thigh):
        return Subject("leg lifts aside", "one")
    if thigh >= HELD_STILL:
        return Subject("knee lifts", "one")
    if abs(thigh) < HELD_STILL and growth(knee_bend, start, finish)[side] >= STRAIGHTENS:
        return Subject("heel draws up", "one")
    return Subject("leg lifts back", "one") if thigh <= -TURNS else None


def _steps(start: Figure, finish: Figure, side: int) -> Subject | None:
    x, _, z = foot_way(start, finish, side)
    far = max(abs(x), abs(z))
    if far < STEPS:
        return None
    way = "aside" if abs(z) > abs(x) else "ahead" if x > 0 else "back"
    knees = growth(knee_bend, start, finish)
    bends = max(knees) >= 2 * STRAIGHTENS
    if bends and way != "aside" and min(knees) < TURNS:
        return None  # a leg that stays long while the other sits down takes no lunge
    return Subject(f"lunges {way}" if bends else f"steps {way}", "one")


def _seated(start: Figure, finish: Figure) -> Subject | None:
    feet = moved_feet(start, finish, STAYS)
    lean = finish.pose.lean - start.pose.lean
    arms = moving_arms(start, finish)
    if abs(lean) >= _SEATED_TRUNK:
        if feet or swinging(start, finish):
            return _UNSURE
        back = "leans back" if finish.pose.lean < 0 else "sits up"
        return Subject(back if lean < 0 else "trunk tips")
    if not feet:
        heels = [finish.legs[side].tipped - start.legs[side].tipped for side in (LEFT, RIGHT)]
        if min(heels) >= TURNS and not arms:
            return Subject("heels lift")
        return arms_subject(start, finish)
    return (
        _UNSURE
        if any(arm_turns(start, finish, side) >= SWINGS for side in arms)
        else _seated_legs(start, finish, feet)
    )


def _seated_legs(start: Figure, finish: Figure, feet: list[int]) -> Subject | None:
    side = feet[0]
    knee, thigh = growth(knee_bend, start, finish)[side], growth(thigh_lift, start, finish)[side]
    x, y, z = foot_way(start, finish, side)
    if finish.pose.feet[side] == "lifted":
        if knee <= -STRAIGHTENS:
            return Subject("knee straightens", count_of(feet))
        return Subject("knee lifts", count_of(feet)) if thigh >= _SEATED_TRUNK and y >= STAYS else None
    if finish.pose.feet[side] != start.pose.feet[side]:
        return None
    if abs(z) >= STAYS and abs(z) > abs(x):
        return Subject("foot goes aside", count_of(feet))
    return Subject("foot slides back", count_of(feet)) if x <= -STEPS and abs(y) < STAYS else None


def _lying(start: Figure, finish: Figure) -> Subject | None:
    feet = moved_feet(start, finish, STEPS)
    arms = moving_arms(start, finish)
    if not feet:
        return arms_subject(start, finish)
    if len(feet) == len(arms) == 1 and feet != arms and start.pose.base == "lying":
        return Subject("arm and leg sink", "one")
    if arms:
        return None
    rise = [foot_way(start, finish, side)[1] for side in feet]
    if min(rise) >= STEPS:
        return Subject(
            "upper leg lifts" if start.pose.base == "side lying" and len(feet) == 1 else "leg lifts",
            count_of(feet),
        )
    return Subject("foot sinks", count_of(feet)) if max(rise) <= -STEPS else None
