"""What the trade calls things: movement names, words that tell them apart, names that mean the same.

Common practice, no published source: these are the words coaches use in talk. A series' own library always
comes first; this only helps where somebody says "star jumps" and the library has "Jumping jack".
"""


def words_in(text: str) -> frozenset[str]:
    """The words of a text: a readable way to write a set of words."""
    return frozenset(text.split())


STRONG_BASES = (
    "dead lift|push up|pull up|chin up|sit up|step up|step down|pull down|pull apart|pull over|kick back|"
    "hip thrust|squat thrust|mountain climber|jumping jack|star jump|walk out|squat|lunge|row|curl|"
    "shrug|crunch|"
    "plank|dip|bridge|burpee|hinge|press up"
)
"""Movements whose bare name already says what is done."""

WEAK_BASES = (
    "press|raise|extension|twist|rotation|hold|walk|carry|march|jump|hop|circle|roll|stretch|reach|"
    "bend|lift|tap|"
    "punch|step|stand|pose|chop|rock|opener|tilt|slide|swing|kick|knee|run|sprint|crawl|turn|flick|"
    "fly|pull|push|"
    "climb|skater|sit|jack|squeeze|breathing|skipping"
)
"""Movements whose bare name is also an ordinary verb: another word must say which."""

SAME_WORDS = {
    "lateral": "side",
    "sideways": "side",
    "single": "1",
    "backward": "reverse",
    "quadriceps": "quad",
    "bum": "butt",
    "bottom": "butt",
    "flye": "fly",
}
"""Words that tell exercises apart in the same way."""

SAME_NAMES = (
    "push up|press up",
    "jumping jack|star jump|jacks",
    "inchworm|walk out",
    "butt kick|heel flick|heel kick|bum kick",
    "overhead press|shoulder press|military press",
    "side raise|side lateral raise|side shoulder raise",
    "calf raise|heel raise",
    "glute bridge|hip bridge|bridge",
    "biceps curl|arm curl|curl",
    "triceps dip|bench dip|chair dip|dip",
    "triceps extension|overhead extension|overhead triceps extension",
    "front plank|plank|forearm plank",
    "march in place|march on the spot|marching|march",
    "reverse fly|rear fly|rear delt fly|bent over fly",
    "split squat|static lunge|stationary lunge",
    "rear foot elevated split squat|bulgarian split squat|bulgarian",
    "romanian dead lift|stiff leg dead lift|rdl",
    "sit to stand|chair stand",
    "farmers walk|farmers carry|loaded carry",
    "wall sit|wall chair",
    "cat cow|cat camel|cats and cows",
    "quad stretch|thigh stretch",
    "childs pose|child pose|prayer stretch",
    "leg raise|leg lower",
    "bent over row|bent row",
    "reverse lunge|step back lunge",
    "sumo squat|wide squat|plie squat",
    "squat jump|jump squat",
    "mountain climber|climber",
    "bicycle crunch|bicycle",
    "clamshell|clam",
    "crunch|abdominal crunch|ab crunch",
    "knee push up|push up on the knees|kneeling push up",
    "incline push up|hands elevated push up",
    "decline push up|feet elevated push up",
    "high knees|knee raise run",
    "slow breathing|breathing|deep breathing|belly breathing|deep breath",
    "squat|body weight squat|air squat",
    "suitcase carry|one sided carry",
    "skipping|rope skipping|jump rope",
)
"""Names of the same exercise, in groups."""

TELLING_WORDS = words_in(
    "sumo goblet bulgarian split side reverse walking curtsy pike incline decline wall close wide "
    "diamond hammer "
    "upright overhead romanian jump pulse cossack pistol box leg arm knee front rear narrow spider "
    "hindu zercher "
    "bicycle chest triceps calf heel toe shoulder donkey seated lying standing kneeling crab bear "
    "mountain russian"
)
"""Words that make another exercise of the movement they stand before."""

ORDINARY_TELLING = [
    "split",
    "side",
    "reverse",
    "walking",
    "incline",
    "decline",
    "wall",
    "close",
    "wide",
    "upright",
    "overhead",
    "pulse",
    "leg",
    "arm",
    "knee",
    "front",
    "rear",
    "narrow",
    "chest",
    "heel",
    "toe",
    "shoulder",
    "mountain",
    "ankle",
    "hand",
    "foot",
    "band",
    "circle",
    "elbow",
    "wrist",
    "neck",
    "back",
    "trunk",
    "body",
    "weight",
    "static",
    "double",
    "rotation",
    "jumping",
    "high",
    "slow",
    "deep",
    "figure",
    "doorway",
    "counter",
    "inner",
    "outer",
    "opposite",
    "place",
    "seated",
    "standing",
    "forward",
    "step",
    "straight",
    "stair",
    "floor",
    "face",
    "box",
    "bag",
    "rope",
    "hill",
    "elevated",
    "raised",
    "lower",
    "loaded",
    "hands",
    "feet",
    "jump",
    "stiff",
]
"""Telling words that are said for other reasons as well: none of them is a name on its own."""

KIT_WORDS = {
    "carrier": "jug bottle container canister gallon weight jerrycan",
    "jug": "bottle carrier container gallon weight milk",
    "bottle": "jug tin can weight",
    "tin": "can bottle weight dumbbell",
    "backpack": "bag rucksack pack",
    "bag": "backpack rucksack pack",
    "step": "stair stairs",
    "stairs": "step stair",
    "bench": "seat",
    "band": "elastic loop",
    "broom": "stick pole handle",
    "towel": "cloth",
    "chair": "seat sofa couch",
    "mat": "floor carpet",
}
"""What else people call a piece of kit."""

COMMON_WORDS = words_in(
    "a about after again all also always am an and another any are as at away back be because been "
    "before behind being "
    "better big bit both but by call came can cant come could day did didnt do does doing done dont "
    "down each easy end even "
    "every feel feet few find first for from front full get give go going good got great had hand "
    "hands happy hard has have he "
    "heavy her here high him his hold hope how i if im in into is isnt it its just keep kind know "
    "last left let lets light like "
    "line list little live long look lot lots love low made make many may me mean might mine more "
    "most much must my name near "
    "need never new next nice no not nothing now of off okay old on once one only onto or other our "
    "out over own part pass place "
    "plan plans plant please pull push put quick quite race ready real really rest right rise rose "
    "round run said same say see "
    "set she should show side sit slow small so some something soon sort stand start stay still stop "
    "such sure take talk tell ten "
    "than thank that thats the their them then there these they thing things think this those though "
    "three through time times to "
    "today together too top tried try turn two under until up us use very wait walk want was watch "
    "way we week well went were "
    "what when where which while who whole why will with without work would yes yet you your youre youve"
)
"""Words so ordinary that they are no sign of an exercise only because they sound like one."""
