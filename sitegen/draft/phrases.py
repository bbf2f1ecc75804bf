"""Phrases around the name of an exercise, as patterns over words with a space behind each.

They are sorted by what they say of the name: that it is opened, only mentioned, offered in place of
another. Common practice of talk, no source.
"""

import re

_ORDINAL = r"(?:first|second|third|fourth|fifth|sixth|last|final|next)"
_BEGIN = (
    r"(?:start|starting|starts|begin|beginning|begins|open|opening|finish|finishing|end|ending|close|closing|"
    r"kick|kicking|continue)"
)
_WE = (
    r"(?:lets|let us|well|we will|were|we are|we|ill|im|you|youre|i want you to|id like you to|going to|"
    r"gonna|please|now|then|also|and)"
)
_DO = (
    r"(?:do|doing|go|going|have|got|get|take|taking|make|making|start|begin|try|add|use|show|look|move|come|"
    r"need|march|finish)"
)
_SMALL = (
    r"(?:a|the|some|our|your|on|to|into|onto|for|with|it|in|few|easy|through|straight|back|over|at|down|"
    r"together|another|1|more|of|little|do)"
)
_ARTICLE = r"(?:a|the|an|our|some|another|just|your)"

OPENS = re.compile(
    rf"\b{_ORDINAL} (?:exercise|move|movement|1|one|thing|up|of|in|here|is|station|partner|and) "
    rf"|\b(?:the|a|our|is|your) {_ORDINAL} |^{_ORDINAL} |\b{_ORDINAL} $"
    r"|\b(?:exercise|excise|move|movement|number|station) (?:number )?\d{1,2} "
    r"|\b(?:next|coming) up |\bup next |\bmoving on |\bfollowed by "
    r"|\b(?:called|what we call) (?:a |the )?$"
    rf"|\b{_BEGIN} (?:us |you |it |off |out |up |again |today |here )*(?:on the \w+ )?(?:with|by|on) "
    r"|\bto (?:start|begin|finish) (?:with )?$|\bto (?:that|this) we add "
)
"""Says that an exercise comes now."""

SHOWS = re.compile(
    rf"\b{_WE} (?:all |now |just |then |also |both |going to |gonna |will )*{_DO} (?:{_SMALL} )*$"
    rf"|\b(?:this|that|here|heres|its|it|thats|theres|there) (?:is )?(?:now |just |also |"
    rf"called )*(?:{_ARTICLE} )*$"
    r"|\bis (?:called |now |just )*(?:a |an |the |our )+$"
    r"|\b(?:onto|over to|switch to|from there|after that|move (?:on )?to|straight to|straight into|go to|"
    r"time for|ready for|comes?|roll over|turn over|add|adding|down for|for) (?:a |the |some |our |"
    r"your |into |to )*$"
    r"|\b(?:do|doing|show) (?:the|a|an|some|these|those|your) $"
    r"|\bpartner (?:is|exercise) |\btogether with "
)
"""Leads to a name as to something that is done."""

LEADS = re.compile(
    r"\b(?:now|then|and|okay|ok|so|alright|right|good|great|also|plus|again) (?:the |a |some |your |"
    r"it |its )*$"
    r"|^on the $"
)
"""Leads to a name, or to anything else."""

OTHER_TIME = re.compile(
    r"\b(?:last|next) (?:week|time|session|month|year|class|lesson|video|workout)\b|\btomorrow\b|"
    r"\byesterday\b"
    r"|\b(?:mon|tues|wednes|thurs|fri|satur|sun)day (?:is|its|well|we)\b"
    r"|\bin (?:number|session|episode|workout|week|lesson) \d+\b|\b(?:session|lesson) \d+\b"
    r"|\b(?:first|second|third|fourth|fifth) session\b|\bused to\b|\bremember\b|\byears? ago\b|"
    r"\bwe(?:ve)? had\b"
    r"|\bsee you\b"
)
"""Tells of another session."""

COMING = re.compile(r"\b(?:next (?:week|time|session|month|class|video)|tomorrow)\b")
"""Tells of a session to come."""

NARRATED = re.compile(
    r"\b(?:he|she|they|uncle|sister|brother|husband|wife|neighbour|grandmother|grandfather|somebody|"
    r"someone|lady|"
    r"people|coach|mother|father|said|says|did|was|wasnt|couldnt|always|saw)\b"
)
"""Tells of somebody else, or of the past."""

COMPARED = re.compile(
    r"\b(?:not|no|isnt|never|than|like|unlike|as in|same as|just as|instead of|rather than|without|"
    r"less|(?<!1 )more|"
    r"many|asked for|too many|hate|same|after|about|from|during|between|every|dont) "
    r"(?:a |an |the |any |in |doing |for |with |such |much |your |our |those |these )*$"
)
"""Denies, compares or counts."""

NOUN = re.compile(
    r"\b(?:a|an|the|your|our|my|this|that|is|are|its|called|of|with|for|do|doing|some|into|first|"
    r"second|third|"
    r"fourth|next|last|number|exercise|by|have|got|add|each|every|move|\d+) $"
)
"""What stands before a movement's name rather than before the verb."""

PARTICLE = re.compile(r"(?:in|out|off|up|down|through|it|away|deeply|into|with)\b")
"""What stands behind a verb rather than behind a name."""

LET = re.compile(r"\blet (?:\w+ ){0,3}$")
"""Leads to a verb."""

CONDITION = re.compile(
    r"\b(?:if|unless|should|anybody|those (?:who|for whom|with|of you)|who|whoever|"
    r"anyone)\b.*\b(?:do|try|use|take|choose|go|have|"
    r"swap|make|"
    r"makes|pick|stay|put|keep|press|skip|switch|change|start|then)\b"
    r"|\b(?:or|otherwise|alternatively|rather|instead) (?:a |the |some |do |doing |just |else |"
    r"maybe |even |your )*$"
    r"|\b(?:could|can|may|might) (?:also |just |always )?(?:do|use|take|try|swap|make|go|add) (?:\w+ ){0,3}$"
    r"|\b(?:skip|choose)\b|\bor (?:do|try|use|take|go|put|have)\b"
)
"""Offers something under a condition."""

COMPLAINT = re.compile(
    r"\b(?:hurts?|pain|painful|problems?|sore|bad|bothers?|bugs|trouble|tender|pinch(?:es)?|"
    r"complains?|isnt for you|"
    r"(?:doesnt|dont|wont|arent|isnt|not) (?:like|happy|ready|comfortable)|say no|too (?:hard|easy|"
    r"much|heavy|many))\b"
)
"""Says for whom something else is offered."""

INSTEAD = re.compile(r"^(?:\w+ ){0,5}?(?:instead|in its place|as an alternative|if you prefer)\b")
"""Behind a name: it was offered in place of another."""

TAKEN_BACK = re.compile(
    r"^(?:\w+ ){0,5}?(?:no|wait|sorry|hang on|scratch that|forget that|i mean|not that|in a minute|"
    r"later|ignore)\b"
)
"""Behind a name: it was said by mistake."""

CLOSING = re.compile(
    r"\bthats (?:it|all|your lot|the lot|class|everything)\b|\bthank(?:s| you)(?: \w+){0,3} (?:for|"
    r"everybody|everyone)\b"
    r"|\bsee you (?:on|at|next|tomorrow|then|there|soon|in the)\b|\bbye\b|\bdone for today\b"
    r"|\bhave a good (?:day|evening|week|1)\b"
)
"""Goodbye."""

OF = re.compile(r"^(?:of|in|for) (?:the |a |some |these |those |your |our )?$")
"""Between a dose and a name: "thirty seconds of plank"."""

GREETING = re.compile(r"^good morning\b")
"""A name of an exercise that is more often a greeting."""
