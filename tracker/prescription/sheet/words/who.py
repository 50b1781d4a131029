"""For whom something is said, at the start of a sentence: those at home, beginners, whoever lacks what it needs."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal

_HOME = r"(?:home|casa|garage|online|remote|zoom|hotel|living room)"
_GOT = r"(?:(?:your |own )?(?:kit|gear|equipment|stuff|training) )?"
_ALL = r"(?:for |alone |solo )?(?:(?:the|those|people|folks|everyone|everybody|anyone|anybody|whoever|all|our|my|you|wer|die|ceux|los|las|quien|ppl|guys|athletes|members|and|or|but) )*(?:of (?:you|us) )?(?:(?:who|that|qui|que) )?(?:(?:are|is|train|trains|training|entrenan|entrena|entrenas|entrenáis|sont|est|trainiert|trainieren|stuck|staying|working out|do it) )*(?:(?:at|from|in|en|in der|in the|à la) )?"
_WHO = re.compile(
    r"^\W*(?:"
    rf"(?P<h>{_GOT}{_ALL}{_HOME}\b(?: (?:kit|gear|equipment|set-?up|ppl|people|folks|crew|gang|athletes|members|option|version|workout|team|heroes|trainers|trainiert|trainieren|gym|gymmers))?(?: (?:who|that) (?:have|has) (?:only )?)?"
    rf"|(?:and |but )?(?:if|when|wenn|si) (?:you|u|ur|anyone|anybody|someone|somebody|du|ihr|tu|vous|on|te)?(?:(?:'| )?(?:re|s|are|is|bist|seid|êtes|es|estás|train|training|have to train|stuck|entrenas|entrenáis|t'entraînes|trainierst) ?)*(?:(?:at|from|in|zu) )?{_HOME}\b)"
    r"|(?P<s>scal(?:ed?|ing|es)(?: (?:options?|version))?(?: (?:is|are))?|sc\b\.?|easier|lighter|level \d|l\d\b|niveau \d|nivel \d|stufe \d|beg(?:inn?ers?|s)?\b\.?(?=\s*[:=]| do\b| use\b)|beginners?|newbies|rookies|novices?|(?:the )?new(?:er)? (?:people|ones|members|here|folks|guys|athletes)|(?:if )?(?:you(?:'| a)re )?new(?: here)?(?=\?)|intermediate|foundation|fitness(?= ?:)|masters)\b"
    r")"
)
_KIT = re.compile(
    r"^\W*(?:(?:and|but|who|that|have|has|got) )*(?P<o>without|with no|no|ohne|sans|sin|(?:and )?(?:don'?t|do not) (?:have|own))(?: (?:an?|any|the|eine?n?|un|une|una|de))? (?P<no>[^\W\d_][\w-]*(?: (?!do\b|use\b|take\b|then\b|just\b)[^\W\d_][\w-]*){0,2}?)(?P<end>\s*[:=,?-]+\s*|\s+(?=\d)|\s+(?:do|use|take|then|just do)\s+)"
)
_WITH = re.compile(
    r"^\W*(?:and |who |have |has |got )*(?:with |mit |avec |con )?(?:just |only )?(?:an? |the |one |single |1 |2 |two |some )*(?P<k>dumbbells?|dbs?|kettlebells?|kbs?|barbells?|backpack|band|sandbag)(?:\s*[:=,-]\s*|\s+(?=do\b))"
)
_DO = re.compile(
    r"^\W*(?:(?:can|could|may|should|please|just|then|we|you|they|will|to) )*(?:do|does|use|take|go for|try|make|is|are|have)\b(?! (?:not|half)\b)\s*(?:the )?"
)


@dataclass(frozen=True, slots=True)
class Who:
    """For whom; what they lack or have, in the coach's words; and what they do."""

    section: Literal["scaled", "home"]
    lacks: str
    has: str
    rest: str
    signed: bool  # a colon or the like stands behind them: what follows is a list


def who_of(text: str) -> Who | None:
    """Read for whom a sentence in lower case is meant; None where it does not begin so."""
    found = _WHO.match(text)
    if found is None:
        return None
    rest = text[found.end() :]
    if rest[:1].isalnum() or (rest.strip()[:1] in (".", "!") and not found["s"]):
        return None
    signed = rest.lstrip()[:1] in (":", "=", "-", ",") and "new" not in found[0]
    lacks = has = ""
    if kit := _KIT.match(rest):
        lacks, rest = kit["no"].strip(), rest[kit.end() :]
    elif kit := _WITH.match(rest):
        has, rest = kit["k"], rest[kit.end() :]
    rest = rest.lstrip(" ,:-=?.").removeprefix("to ") if found["s"] else rest.lstrip(" ,:-=?.")
    rest = _DO.sub("", rest, count=1)
    return Who("scaled" if found["s"] else "home", lacks, has, rest.strip(), signed)
