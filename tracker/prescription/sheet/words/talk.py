"""Words of a coach that are no prescription: talk, greetings, questions, penalties, plain speech."""

from __future__ import annotations

import re

TALK = re.compile(
    r"\b(?:i|i'm|i'll|i've|thanks?|thank you|sorry|welcome|please (?:send|tell|write|post|bring|note)|send me|tell me|opens?|closed|price|euros?|birthday|cake|coffee|"
    r"see you|regards|wishes|hello|dear|who is|who's|door|code|parking|showers?|newsletter|holiday|needed|survived|limped|ordered|because|yesterday|"
    r"last year|last night|last saturday|neighbour|weather|meeting|dentist|poll|vote|sign(?:ed)? up)\b"
)
# What is owed for coming late and the like, and what who has no max may do: words, never sets or a piece of the day
PENALTY = re.compile(
    r"^\W*penalt(?:y|ies)\b|\b(?:for (?:each|every) (?:min(?:ute)?s? )?(?:late|missed|you'?re late)|per (?:min(?:ute)? )?late|(?:if|when) (?:you|u)(?:'re| are)? late|owes?\b|for (?:each|every) min(?:ute)?s? (?:you are |you're )?late)\b"
)
# What was noted of work that is done: "kept it all under 1:20 a round", "last two sets dropped to 65"
NOTED = re.compile(
    r"^\W*(?:kept|felt|finished|(?:my |the )?last (?:\w+ )?(?:sets?|rounds?) (?:dropped|were|felt|went))\b|^\W*no (?:lying|sitting|grinding|dropping|chatting)\b|^\W*(?:fast|target|goal|pace) ?= ?\d|^\W*if you'?re (?:past|over|slower|faster)\b"
)
NO_MAX = re.compile(
    r"(?:^|[.?!;,(]\s*)(?:if )?(?:you |u )?(?:don'?t|do not|no|without|haven'?t) (?:know |have |got |know your )?(?:a |an |your |any |tested )*(?:1 ?-?rm|one rep max|max|1|one|it|number)\b\s*[?,:-]"
)
GREETING = re.compile(r"\W*(?:thanks?|thank you|sorry|hello|dear|welcome|cheers|congrat\w*|happy)\b")
NO_KIT = re.compile(
    r"\b((?:no|can'?t|cannot) [\w' -]{1,34}|[\w' -]{2,34} (?:too (?:hard|heavy|much)|taken|busy|broken|not possible)|(?:your |own )?(?:kit|gear|equipment|stuff) at home|(?:(?:you |u )?(?:only|just) (?:have |got |own )?|got (?:only|just) )(?:two |a |some )?(?:dumbbells?|dbs?|kettlebells?|kbs?)(?: at home)?|at home|rain(?:ing)?|wet outside|icy|new here)\?",
    re.IGNORECASE,
)
# "Who has no bar at home makes ring rows", "if you dont have a bike do 30 singles": what is done where something lacks
LACKS = re.compile(
    r"(?P<sign>[,;.]? ?)\b(?:and |but )?(?:(?:those |people |everyone |whoever |anyone )?(?:who|that) (?:has|have|got) no|(?:if )?(?:you|u|someone|anyone) (?:do ?n['’]?t|do not|does ?n['’]?t|does not) (?:have|own|got)(?: got)?|(?:if )?(?:you|u) (?:have ?n['’]?t got|have no|got no|lack))"
    r" (?:an? |any |the |access to (?:an? )?)?(?P<kit>(?!time\b|max|1)[a-z][a-z-]{1,15}(?: (?:bike|erg|bar|ball|rope|machine|rower))?)(?: at home| there| yet)?,? (?:then |just |please )*(?:do|does|make|makes|use|uses|take|takes|go for|then) (?:an? |the )?(?=\w)",
    re.IGNORECASE,
)
# "Sore back? KB deadlift instead": words for these people, no movement for all
SORE = re.compile(
    r"\W*(?:if (?:you have |your |there is )?)?(?:an? )?(?:sore|bad|painful|injured|tweaked|cranky|angry|stiff|dodgy) (?:lower |low )?(?:backs?|shoulders?|knees?|wrists?|hips?|elbows?|ankles?|neck)\s*[?:]",
    re.IGNORECASE,
)
QUESTION = re.compile(r"\?\s*\W*(?:(?:no|nope|nein|non)\W*)?$")
# Words of plain speech; those that stand in prescriptions too, such as "for", "of" and "max", tell nothing
COMMON = frozenset({
    "the", "an", "you", "your", "we", "i", "it", "is", "are", "was", "were", "be", "that", "this", "there", "than", "as", "by", "do", "does",
    "not", "but", "so", "what", "who", "when", "have", "has", "had", "will", "would", "can", "could", "should", "please", "me", "my", "our",
    "us", "them", "they", "he", "she", "some", "any", "more", "take", "make", "after", "before", "because", "until", "it's", "don't", "today",
    "tonight", "tomorrow", "week", "next", "last", "just", "only", "those", "these", "from", "into", "out",
})  # fmt: skip


# "then as many burpees as possible in what is left": an amount, for all its plain words
MOST = re.compile(
    r"\bas many [a-z][a-z -]{2,30}? as (?:possible|(?:you|u) can)(?: (?:in|with|for|until|till) (?:the |what |all )*(?:time |rest |end )*(?:that |of )?(?:is |the )?(?:left|remains|remaining|time|end)?)?",
    re.IGNORECASE,
)

# what fills the rest of a time that is filled with as many as possible
FILLS = re.compile(
    r"(?:and )?then,? (?:as many (?!rounds?\b|reps? as\b|sets?\b)[a-z]|max(?:imum|imal)?\.? (?!effort|out\b|\d|rounds?\b)[a-z])",
    re.IGNORECASE,
)


def is_prose(text: str) -> bool:
    """Whether a line is written in sentences: many plain words beside few numbers and names."""
    words = re.findall(r"[A-Za-zÀ-ÿ']+", re.sub(r"\([^()]*\)", " ", MOST.sub("max", text)))
    if len(words) < 8:
        return False
    plain_words = sum(word.lower() in COMMON for word in words)
    return plain_words >= 3 and plain_words * 4 >= len(words)
