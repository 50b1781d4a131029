"""Names of lifts with a slip in them, in front of their sets."""

from __future__ import annotations

from tracker.prescription.sheet.tokens.tokens import Token
from tracker.prescription.sheet.words.names import Found, full_name


def slips_as_names(tokens: list[Token]) -> list[Token]:
    """Words in front of sets that are a lift's name with a slip in them become its name: `bakc sqaut 5x3`, `strict pres: 6 @ 80 %`."""
    found = list(tokens)
    place = 1
    while place < len(found):
        last = place - 1
        if last and found[last].kind == "sep" and found[last].text in (":", "-", ","):
            last -= 1
        if found[last].kind == "word" and _sets_begin(found, place):
            first = last + 1
            while first and found[first - 1].kind == "word" and found[first - 1].text.isalpha() and last - first < 2:
                first -= 1
            for start in range(first, last + 1):
                typed = " ".join(each.text for each in found[start : last + 1])
                name, entry = full_name(typed, lift=True)
                if entry is not None and len(typed) > 3 and found[start].text not in _NO_SLIPS:
                    made = Found(found[start].start, found[last].end, name, entry, typed)
                    found[start : last + 1] = [Token("name", made, made.start, made.end, typed)]
                    place = start + 1
                    break
        place += 1
    return found


def _sets_begin(tokens: list[Token], place: int) -> bool:
    """Whether sets of a lift begin at a place: so many of so many, or a number with its share."""
    kind = tokens[place].kind
    after = [token.kind for token in tokens[place + 1 : place + 3]]
    return kind in ("setsx", "sets", "pct") or (
        kind in ("num", "reps", "plus", "list") and bool({"pct", "atx"} & set(after))
    )


_NO_SLIPS = frozenset(
    {
        "then",
        "that",
        "with",
        "plus",
        "and",
        "for",
        "the",
        "main",
        "work",
        "back",
        "top",
        "last",
        "heavy",
        "light",
        "single",
        "singles",
        "double",
        "triple",
    }
)
