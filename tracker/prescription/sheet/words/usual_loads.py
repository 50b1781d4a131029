"""What a whole text says of its loads: their unit, and whether they are kilograms, pounds or percentages."""

from __future__ import annotations

import re

# What percentages are of, also where none has its sign: "(1rm)", "off your tm"
NAMES_A_MAX = re.compile(
    r"[(=]\s*\d{1,2} ?rm\b|\b(?:of|off|from) (?:your |ur |the |yr )?(?:\d{1,2} ?-?rm|tm|training max|max)\b(?! (?:reps|cal))"
)
# Sets with a load in kilograms or pounds: then a load without a sign is rather one of these than a percentage
SETS_IN_MASS = re.compile(
    r"(?:\d ?[x×*] ?\d{1,2}\b(?! ?(?:kg|lb))[^\n\d/]{0,12}|\d ?(?:@|at) ?)\d{2,3}(?:[.,]\d+)?(?![\d/]) ?(?:kg|lb)|\d{2,3}(?:[.,]\d+)? ?(?:kg|lb) ?[x×*] ?\d"
)
LOAD_BEFORE_REPS = re.compile(
    r"(?<![\d/.,x])(?:[4-9]\d|100)(?:\.5)? ?[x×] ?\d{1,2}(?![\d.x×]| ?(?:[x×]|kg|lb|m\b|cal|sec|s\b))"
)
ALL_UNIT = re.compile(
    r"\b(?:all|everything)(?: is| are)?:? (?:in |(?:loads?|weights?|numbers?) (?:are )?in )?(?P<u>kilos?|kgs?|pounds?|lbs?)\b"
    r"|\b(?:loads?|weights?|numbers)(?: is| are)? (?:all )?in (?P<v>kilos?|kgs?|pounds?|lbs?)\b",
    re.IGNORECASE,
)
NAMES_UNIT = re.compile(r"\d\s*(?:kgs?|kilos?|lbs?|pounds?)\b|\d#", re.IGNORECASE)


def usual_unit(text: str) -> str:
    """The unit of loads that stand without one: that which the text names more often, else what its numbers are usual in."""
    lower = text.lower()
    pounds = len(re.findall(r"\d\s*(?:lbs?\b|#|pounds?\b)", lower))
    kilos = len(re.findall(r"\d\s*(?:kgs?\b|kilos?\b)", lower))
    if pounds != kilos:
        return "lb" if pounds > kilos else "kg"
    usual_lb = len(
        re.findall(
            r"\b(?:95/65|135/95|115/75|155/105|185/125|185/135|205/145|225/155|275/185|315/205|70/53|53/35|20/14|45/25|50/35(?=\D*(?:snatch|db|$))|35/25|75/55|65/45|45/35|125/85|30/20(?= ?lb))\b",
            lower,
        )
    )
    if (
        not kilos
        and len(
            re.findall(r"(?<![\d.,/%:])(?:135|185|225|275|315|365|405|455|495)(?![\d.,%/]|\s*(?:m\b|cal|%))", lower)
        )
        > 1
    ):
        return "lb"  # what plates of 45 lb make, more than once
    american = len(re.findall(r"\bmiles?\b|\d\s?(?:ft|feet)\b|\d\s?\"|\binch", lower))
    return (
        "lb"
        if usual_lb and (american or usual_lb > 1 or re.search(r"\b(?:135/95|155/105|185/125|225/155|95/65)\b", lower))
        else ""
    )
