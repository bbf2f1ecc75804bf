"""Words by which a name, a summary or a cue asks for a demand, by language. Only what leaves little doubt is
listed: a word too many is a false warning on every cue that has it."""

_DOWN = r"(?:down )?(?:on|to) the (?:floor|mat|ground)"  # where one gets down to
# How one lies; "lie down" alone is as often about a rest.
_LYING = r"(?:down|flat|face down|face up|on (?:your|the) (?:back|belly|stomach|front))"
# What is picked up: a hand that is lifted is no load.
_HELD = (
    r"(?:it|them|(?:your |the |both |an? |one |two )?(?:full |heavy |loaded |filled )?"
    r"(?:carriers?|tins?|backpack|bags?|weights?|load|buckets?|bottles?|box|crate|dumb-?bells?|kettle-?bells?))"
)

DEMAND_WORDS: dict[str, dict[str, str]] = {
    "en": {
        "jumping": r"jump\w*|hop(?:s|ping|ped)?|leap\w*|skipping|burpees?|(?:run|running) on the spot",
        "arms overhead": r"overhead|(?:above|over) (?:your |the )?head|beside (?:your |the )?ears",
        "kneeling": r"kneel\w*|all fours|hands and knees",
        "getting to the floor": rf"(?:lie|lying|sit|sitting|get) {_DOWN}|all fours|hands and knees",
        "deep knee bend": r"deep squat|squat deep|below parallel|(?:seat|hips?) to (?:the |your )?heels",
        "balance on one leg": r"(?:stand|balance|stay|hop)\w* on one (?:leg|foot)|one-legged",
        "rounding the spine": r"round(?:s|ing)? (?:your |the )?(?:upper |lower )?(?:back|spine)",
        "sustained bending": r"stay (?:bent|folded)",
        "grip": r"grip\w*|grasp\w*|clench\w*",
        "weight on the wrists": r"weight on(?:to)? (?:your |the |both )?(?:hands|palms|wrists)",
        "lying flat": rf"(?:lie|lying) {_LYING}",
        "straining": r"strain\w*|hold(?:s|ing)? (?:your|the) breath|as hard as you can|all-out",
        "standing": r"stand(?:s|ing)? (?:up|tall|upright)|(?:while|when) standing",
        "speed": r"as fast as you can|explosive\w*|explode|sprint\w*",
        "stairs and steps": r"(?:up|down|climb\w*) (?:the |each |every )?stairs?|onto the (?:step|stair)",
        "lifting from the floor": rf"(?:lift|pick|take)\w* {_HELD} (?:up )?(?:from|off) the (?:floor|ground)",
        "head low": r"(?:let|leave) (?:your |the )?head hang",
        "leaning on the arms": r"lean\w* on(?:to)? (?:your |the |both )?(?:hands|palms|fists|forearms|arms)",
    }
}
"""Regular expressions of whole words, by demand; demands that no plain word tells are left out."""

DENIALS = {
    "en": r"no|not|never|don['’]t|without|instead of|rather than|avoid|nothing|nor|than|before|"
    r"as if|like|imagine"
}
"""Words shortly before a demand that take it back."""
