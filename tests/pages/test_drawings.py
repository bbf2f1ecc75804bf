"""Drawings of forms: what they weigh, what they say, and that one movement keeps one scene."""

import re
from pathlib import Path

import pytest

from sitegen.model import Series
from sitegen.pages.drawings import AsksWords, Drawings
from sitegen.pages.drawings.picture import pictures
from sitegen.pages.drawings.shapes import GROUND_LINE
from sitegen.pages.theme import Theme
from sitegen.study.body.movement import movement_of
from sitegen.study.forms import FormKey, forms_of
from tests.conftest import ROOT
from tests.study.body.posing import moved

THEME = Theme(Path(ROOT / "themes/tidewater"), "en")


@pytest.fixture(scope="module")
def drawn(demo_series: Series):
    """Every form of the demo, drawn."""
    drawings = Drawings(THEME.strings.drawings)
    return {key: drawings.of(form) for key, form in forms_of(demo_series.exercises).items()}


def test_every_form_of_the_demo_is_drawn(drawn):
    assert [key for key, one in drawn.items() if one is None] == []


def test_a_drawing_weighs_little(drawn):
    """2 to 4 KB before compression were planned; most need less than one."""
    macro = THEME.environment.get_template("drawings.html").module.drawing
    sizes = [len(macro(frame.picture, frame.words)) for one in drawn.values() for frame in one.frames]

    assert max(sizes) < 4096


def test_the_poses_of_a_movement_share_box_and_ground(drawn):
    for one in drawn.values():
        assert len({frame.picture.box for frame in one.frames}) == 1
        grounds = {shape.path for frame in one.frames for shape in frame.picture.shapes[-1:]}
        assert len(grounds) == 1


def test_no_limb_is_drawn_into_the_ground(drawn):
    """The lower edge of a stroke 7.5 broad, as the theme draws limbs, stays above the line of the ground."""
    for key, one in drawn.items():
        for frame in one.frames:
            for shape in frame.picture.shapes:
                if shape.kind in ("limb", "far"):
                    numbers = [float(text) for text in re.findall(r"-?[0-9.]+", shape.path)]
                    assert max(numbers[1::2]) + 7.5 / 2 <= GROUND_LINE - 1.4, key


@pytest.mark.parametrize("base", ["lying", "lying face down"])
def test_a_body_that_lies_is_drawn_on_the_ground(base):
    """Its trunk, the first curve, has no gap to the line of the ground that an eye would see."""
    (picture,) = pictures(moved(f"hold: {{base: {base}}}"))
    trunk = next(shape for shape in picture.shapes if shape.kind == "limb" and "Q" in shape.path)
    ends = [float(text) for text in re.findall(r"-?[0-9.]+", trunk.path)][1::4]

    assert max(ends) + 7.5 / 2 > GROUND_LINE - 1.5 - 2.0


def test_only_loads_are_drawn_as_loads(drawn, demo_series):
    """Rust means weight: no drawing without something heavy has a shape of that kind."""
    forms = forms_of(demo_series.exercises)
    for key, one in drawn.items():
        kinds = {shape.kind for frame in one.frames for shape in frame.picture.shapes}
        poses = (forms[key].poses.start, forms[key].poses.finish or {})
        held = {thing for pose in poses for thing in pose.get("holds", {})}
        heavy = held - {"towel", "broom", "cushion"}
        assert ("load" in kinds) == bool(heavy), key


def arrows(text: str) -> int:
    """How many arrows the first picture has: each is one path of a shaft and a head."""
    first = pictures(moved(text))[0]
    return sum(shape.kind == "arrow" and shape.path.count("M") == 2 for shape in first.shapes)


@pytest.mark.parametrize(
    ("poses", "drawn"),
    [
        ("hold: {base: seated, hands: thighs}", 0),
        ("hold: {base: seated, hands: thighs, presses: {hands: down}}", 1),  # the far one is hidden
        ("hold: {base: seated, hands: knees, presses: {knees: out}, view: front}", 2),
        ("hold: {base: seated, hands: knees, presses: {right knee: out}, view: front}", 1),
        ("hold: {base: seated, hands: knees, presses: {knees: ahead}, view: front}", 0),  # towards the eye
        ("start: {knees: 90}\nfinish: {knees: 3}", 1),
        ("start: {knees: 90, path: none}\nfinish: {knees: 3}", 0),
    ],
)
def test_arrows_for_what_moves_and_what_presses(poses, drawn):
    assert arrows(poses) == drawn


STRIDE = "start: {step: {right: 20, left: -24}}\nfinish: {step: {right: -24, left: 20}}"
MARCH = (
    "start: {hips: {right: 48}, knees: {right: 68}}\n"
    "finish: {feet: {right: floor}, hips: {left: 48}, knees: {left: 68, right: 3}}"
)


@pytest.mark.parametrize(
    ("poses", "marks"),
    [
        ("start: {knees: 90}\nfinish: {knees: 3}", [0, 0]),
        ("hold: {knees: 90}", [2]),  # the dial and the hands of a clock
        ("hold: {base: seated, hands: belly, marks: [breath]}", [4]),  # two waves with their heads
        ("hold: {base: seated, shoulders: 20, elbows: 90, circles: hands}", [0]),  # it moves, without an end
        ("start: {knees: 90}\nfinish: {knees: 3, marks: [hold]}", [0, 2]),
        (STRIDE, [0, 3]),  # two soles and an arrow
        (MARCH, [0, 0]),
    ],
)
def test_marks_for_what_a_pose_cannot_show(poses, marks):
    shown = pictures(moved(poses))
    assert [sum(shape.kind == "mark" for shape in one.shapes) for one in shown] == marks


def test_no_leg_passes_through_the_back_rest_that_both_hands_hold(demo_series):
    """It would read as a step up on the chair."""
    for key, form in forms_of(demo_series.exercises).items():
        movement = movement_of(form.poses)
        for figure in movement.figures if movement else ():
            if figure.pose.hands == ("chair back", "chair back") and not movement.front_view:
                far = max(max(leg.knee[0], leg.toe[0]) for leg in figure.legs)
                assert far < movement.things["chair back"], key


def test_what_changes_about_has_no_arrow():
    """The feet of a stride or a march go as far back as ahead."""
    assert (arrows(STRIDE), arrows(MARCH)) == (0, 0)


def test_a_press_is_said():
    says = Drawings(THEME.strings.drawings)._says
    held = moved("hold: {base: seated, hands: thighs, presses: {hands: down}}")

    assert says.start(held.start) == "Sitting on a chair, hands on the thighs, hands pressing down."


def test_from_three_quarters_a_bent_trunk_and_open_arms_are_both_seen():
    def breadth(view: str, kind: int) -> float:
        (picture,) = pictures(moved(f"hold: {{lean: 60, shoulders: 60, shoulders_out: 80, view: {view}}}"))
        limbs = [shape.path for shape in picture.shapes if shape.kind == "limb"]
        across = [float(text) for text in re.findall(r"-?[0-9.]+", limbs[kind])[::2]]
        return max(across) - min(across)

    trunk, arm = 2, -1
    assert breadth("side", arm) < 20 < breadth("three-quarter", arm)
    assert breadth("front", trunk) < 5 < 20 < breadth("three-quarter", trunk)


SENTENCES = {
    "carrier-deadlift": (
        "Standing, knees half bent, trunk tipped far forwards, a water carrier in each hand.",
        "Knees long, trunk upright.",
    ),
    "counter-push-up": (
        "Body in one line, hands on the counter, arms long.",
        "Elbows bent deeply, chest close to the hands.",
    ),
    "towel-row": (
        "Leaning back from the towel, body in one line, arms long, the towel in both hands.",
        "Elbows bent deeply, chest close to the hands.",
    ),
}


FINISHES = {
    "high-knee-march": "The same with the other side.",
    "sumo-squat": "Knees bent to about a right angle, trunk tipped a little forwards.",
    "towel-chop": "Knees a little bent, trunk tipped a little forwards.",  # no round back as a goal
    "standing-cat-camel": "Back rounded.",  # here it is the movement
    "side-lying-leg-raise": "Upper leg lifted.",
    "bird-dog": "One leg long behind, one arm long ahead.",
}


@pytest.mark.parametrize("exercise", FINISHES)
def test_the_finish_says_what_is_different_and_no_more(drawn, exercise):
    assert drawn[FormKey(exercise)].frames[-1].words == FINISHES[exercise]


def test_what_ends_where_it_began_is_known_by_what_is_furthest_from_it(drawn):
    """Two men who stand, side by side, would show nothing of a squat thrust."""
    thrust = drawn[FormKey("squat-thrust")]

    assert thrust.frames[-1].words == "Back at the start."
    assert thrust.key.words.startswith("Body in one line")


def test_a_body_on_its_forearms_is_said_to_be(drawn):
    assert drawn[FormKey("front-plank")].frames[0].words == "Body in one line, leaning on the forearms."


def test_what_a_trainer_writes_of_the_movement_stands_in_the_text_alternative_too(drawn):
    march = drawn[FormKey("high-knee-march")]

    assert march.move == "Lift one knee to hip height, set the foot down, then lift the other knee."
    assert march.words == (
        "Standing, one knee lifted to hip height, one arm ahead and one behind. "
        f"{march.move} Finish: The same with the other side."
    )


def test_every_exercise_of_the_demo_that_moves_says_what(drawn, demo_series):
    """And no sentence measures: centimetres of an estimate teach nobody."""
    moving = {key: one for key, one in drawn.items() if len(one.frames) > 1}

    assert [key for key, one in moving.items() if not one.move] == []
    assert [one.move for one in moving.values() if re.search(r"[0-9]", one.move)] == []


@pytest.mark.parametrize("exercise", SENTENCES)
def test_start_and_finish_in_words(drawn, exercise):
    frames = drawn[FormKey(exercise)].frames

    assert (frames[0].words, frames[-1].words) == SENTENCES[exercise]


def test_no_sentence_has_a_gap(drawn):
    """A word that the theme lacks would show as a brace, a doubled comma or an empty sentence."""
    for one in drawn.values():
        for text in (one.words, one.move, *(frame.words for frame in one.frames)):
            assert not re.search(r"[{}]|, ,|,\.|^\.", text), text


def test_own_sentences_replace_those_from_the_poses():
    drawings = Drawings(THEME.strings.drawings)
    assert drawings._says.start(moved("hold: {hands: hips}").start) == "Standing, hands on the hips."


def test_what_a_version_asks_against_the_filmed_form(demo_series):
    forms = forms_of(demo_series.exercises)
    words = AsksWords(THEME.strings.drawings)
    main = forms[FormKey("counter-push-up")]

    floor, wall = (forms[FormKey("counter-push-up", one)] for one in ("floor-push-up", "wall-push-up"))
    assert words.compared(floor, main, 2) == "Harder on the hips, the lower back and the arms."
    assert words.compared(wall, main, -1) == "Easier on the hips and the lower back."
    assert words.compared(main, main) == ""


def test_a_drawing_is_the_same_every_time():
    text = "start: {knees: 60, lean: 60, holds: {carrier: each hand}}\nfinish: {knees: 3, lean: 0}"

    assert pictures(moved(text)) == pictures(moved(text))
