"""Names of weekdays, in the languages that are read, and the weekday that a text names."""

from __future__ import annotations

import re

DAYS = (
    r"mon(?:days?|tags?)?|tue(?:s|sdays?)?|wed(?:s|nesdays?)?|thu(?:rs?|rsdays?)?|fri(?:days?)?|sat(?:urdays?)?|sun(?:days?)?"
    r"|montags?|dienstags?|mittwochs?|donnerstags?|freitags?|samstags?|sonnabends?|sonntags?|lundi|mardi|mercredi|jeudi|vendredi|samedi|dimanche"
    r"|lunes|martes|miércoles|miercoles|jueves|viernes|sábado|sabado|domingo"
)
# only where nothing else can be meant
SHORT_DAYS = (
    r"mo|di|mi|do|fr|sa|so|tu|we|th|su|die|mit|don|fre|sam|son|lun|mar|mer|jeu|ven|dim|mié|mie|jue|vie|sáb|sab|dom"
)
_FIRST = {"mon": 0, "lun": 0, "tue": 1, "die": 1, "mar": 1, "wed": 2, "mit": 2, "mer": 2, "mié": 2, "mie": 2, "thu": 3, "don": 3, "jeu": 3, "jue": 3,
          "fri": 4, "fre": 4, "ven": 4, "vie": 4, "sat": 5, "sam": 5, "son": 6, "sáb": 5, "sab": 5, "sun": 6, "dim": 6, "dom": 6}  # fmt: skip
SHORTS = {"die": 1, "mit": 2, "don": 3, "fre": 4, "sam": 5, "son": 6, "lun": 0, "mar": 1, "mer": 2, "jeu": 3, "ven": 4, "dim": 6,
          "mié": 2, "mie": 2, "jue": 3, "vie": 4, "sáb": 5, "sab": 5, "dom": 6, "mo": 0, "di": 1, "tu": 1, "mi": 2, "we": 2,
          "do": 3, "th": 3, "fr": 4, "sa": 5, "so": 6, "su": 6}  # fmt: skip


def weekday_of(word: str) -> int:
    """Return 0 for Monday to 6 for Sunday."""
    lower = word.lower()
    return SHORTS[lower] if lower in SHORTS else _FIRST[lower[:3]]


def any_weekday(text: str) -> int | None:
    """Return the one weekday that a title names, if it names one."""
    found = {
        weekday_of(each[1])
        for each in re.finditer(rf"\b({DAYS})\b", text, re.IGNORECASE)
        if each[1].lower() not in ("mar", "mars", "sat", "sun", "mon", "wed", "fri") or each[1][0].isupper()
    }
    return found.pop() if len(found) == 1 else None


_OTHER_DAY = re.compile(
    r"\b(?:clos\w+|shut|off|until|till|til|from|last|since|next|no|not|miss\w*|by|before|after|bis|seit|statt|geschlossen|cerrad\w+|cerramos|fermé|jusqu\w+|away|back|moved?|instead|opens?|due|sunday's|holiday)\b",
    re.IGNORECASE,
)


def day_of_sentence(text: str) -> int | None:
    """Return the one weekday on which a sentence says that something is done; None where it may be another day."""
    found: set[int] = set()
    for part in re.split(r"[.!?;]\s|\n|,\s(?=but|and|no\b)", text):
        day = any_weekday(part)
        for named in re.finditer(rf"\b(?:{DAYS})\b", part, re.IGNORECASE):
            if day is not None and not _OTHER_DAY.search(part[max(0, named.start() - 30) : named.end() + 25]):
                found.add(day)
    return found.pop() if len(found) == 1 else None
