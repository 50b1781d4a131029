"""Headings of sections, such as warm-up, strength, conditioning or home."""

from __future__ import annotations

import re
from typing import Literal

Section = Literal[
    "", "warm-up", "cool-down", "strength", "conditioning", "accessory", "scaled", "home", "notes", "superset", "rest"
]
_SECTIONS: tuple[tuple[Section, str], ...] = (
    ("warm-up", r"(?:general |specific |full |dynamic |quick |short |team |partner |group )?(?:w[/.-]?u(?:p|\.)?|warm(?:(?:ing)?[ -]?ups?(?: and mobility)?(?: game)?|y|ie|er)?)|get(?:ting)? (?:warm|moving|loose|going)|wake[ -]?up|wakey(?:[ -]wakey)?|loosen(?:ing)?[ -]up|heat(?:ing)?[ -]up|starter|start(?= ?: ?(?:bike|row|run|rope|jog|easy|ski|skip|walk|mobility|\d{1,2} ?min))|prep|activation|aufwärmen|aufwaermen|(?:(?:wir )?(?:uns )?)warm (?:werden|machen)|[ée]chauffement|calentamiento|calentar|rozcvička|uppv|heating|entrada en calor|chauffe|primer|riscaldamento|opwarm(?:en|ing)|warming[ -]?up|aquecimento|aquec\.?|inwarmen|opvarmning|oppvarming|uppvärmning|opv|rozgrzewka|lämmittely|alkulämpö|alku|bemelegítés|attivazione"),
    ("cool-down", r"cool(?:ing)?[ -]?downs?|c/?d|stretch(?:ing|es)?|mobility|recovery work|abwärmen|retour au calme|vuelta a la calma|estiramientos|defaticamento|cooling|alongamento|stretching"),
    ("strength", r"(?:tonight'?s |today'?s |main )?strength(?: (?:work|piece|part|block|[a-d]\b))?|str|kraft(?:teil|training)?|styrke|styrka|siła|voima|erő|forza|kracht|força|forca|síla|lifts?|lifting|weightlifting|oly(?:mpic)?(?: lifting| lifts)?|force|fuerza|power|main lifts?|barbell(?: work)?|strength ?(?:/|&|and|\+) ?skill"),
    ("conditioning", r"(?:tonight'?s |today'?s |the |main )?(?:wod|w\.o\.d\.|met-?con|mc|conditioning|condi|workout(?: of the day)?|cardio|engine|kondition|kondi|cond\.?|treeni|ausdauer|hiit|endurance|kondycja|kondice|kondis|flås|finisher|circle training|circuit(?: training)?|zirkel(?:training)?|aerobic|anaerobic|burner|cash)(?: work| piece| part)?"),
    ("accessory", r"(?:accessor(?:y|ies)|assistance|extras?|extra credit|body ?building|pump|skills?(?: work| practice)?|gymnastics?|technique|core|midline|hypertrophy|isolation|zubehör|accesorios)(?: work| piece| part)?"),
    ("scaled", r"(?:sc|scaled?(?: version| option)?|scaling(?: options?)?|scales|lighter|beginners?|iniciantes|principiantes|principianti|débutants|anfänger|begs?|newbies|rookies|novices?|mods?|modified|modifications?|regressions?|easier|intermediate|fitness(?= ?:))"),
    ("home", r"(?:at |@ ?)?home(?: version| option| workout)?|(?:(?:those |people |folks |everyone )?(?:at|from) home)|home folks|(?:no|zero|without) (?:equipment|kit)(?: version| option)?|(?:zoom|online|remote) (?:people|folks|crew|ppl)|(?:home|garage) (?:people|folks|crew|ppl|gang)|ohne geräte|(?:option |version |[àa] la )?maison|(?:opción |opcion )?(?:en )?casa|zu ?hause|daheim"),
    ("notes", r"(?:coach(?:'?s|es)? )?notes?|goals?|stimulus|scor(?:e|es|ing)|targets?|intent(?:ion)?|focus|cues?|tips?|reminders?|remember|ps|p\.s\.?|nb|n\.b\.|info|ziel|hinweis|strategy|aim|purpose|equipment|bring|byo|important|attention|achtung|announcements?|news|standards?|points of performance|rules?|tie-?break"),
    ("superset", r"[+&]?\s*(?:as a )?super-?\s?set(?:s|ted)?(?: with)?|[+&]?\s*ss(?: with)?|[+&]?\s*pair(?:ed)? with"),
    ("rest", r"rest(?: day)?|off|day off|ruhetag|rest/off|pause|repos|descanso|active recovery|closed"),
)  # fmt: skip
_LENGTH = r"(?:\s+\d{1,2}(?::00|\s?min\w*|')(?=\s*[:|–-]))?"  # how long it has: "Strength 20:00 - back squat"
# how long or how often a warm-up is done, behind its heading: "W-up 8 min:", "WU - 3 rounds not for time"
_HOW_OFTEN = r"(?:[ ,-]*\(?(?:about |ca\.? |~ ?)?(?:\d{1,2}(?:-\d{1,2})? ?(?:x|min\w*\.?|'|r(?:oun)?ds?|rnds?|times|sets?)|e\d?mom \d{1,2}|amrap \d{1,2}|tabata)(?: (?:of|easy|each|nft|not for time|together|through|rounds))*\)?)?"
_BEHIND = {"strength": _LENGTH, "warm-up": _HOW_OFTEN}
_SECTION_RULES: tuple[tuple[Section, re.Pattern[str]], ...] = tuple(
    (
        section,
        re.compile(
            rf"(?:[a-h][.):]\s*)?(?:{pattern}){_BEHIND.get(section, '')}(?P<par>\s*\([^()]{{0,40}}\))?(?P<end>\s*[:|](?:\s|$)|\s{{2,}}(?=\S)|\s+[-=]+(?:\s|$)|[-=]+\s|\s*$|\s*\.\s*$)",
            re.IGNORECASE,
        ),
    )
    for section, pattern in _SECTIONS
)


def section_heading(text: str) -> tuple[Section, str, str] | None:
    """Read a section's heading at the start of a line: its section, the heading itself, and what follows it."""
    for section, pattern in _SECTION_RULES:
        if found := pattern.match(text):
            return section, text[: found.end()].strip(" :|-=."), text[found.end() :].strip()
    return None
