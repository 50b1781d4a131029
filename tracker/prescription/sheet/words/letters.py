"""Letters of a typed line: what keyboards, phones and markings change is put into one form; the typed line itself is kept."""

from __future__ import annotations

import re
import unicodedata

_SAME = str.maketrans({
    "\t": "    ", "–": "-", "—": "-", "−": "-", "‐": "-", "‑": "-", "‒": "-", "×": "x", "✕": "x", "✖": "x", "✗": "x", "·": "•",
    "’": "'", "‘": "'", "′": "'", "´": "'", "`": " ", "“": '"', "”": '"', "„": '"', "″": '"', "«": '"', "»": '"', "…": "...",
    "→": ">", "➔": ">", "➡": ">", "⇒": ">", "≥": ">=", "≤": "<=", "½": ".5", "¼": ".25", "¾": ".75", "⁄": "/", "＋": "+",
    "‚": ",", "ˣ": "x", "\u00ad": "", "\u200b": " ", "\ufeff": " ", "│": "|", "┃": "|",
})  # fmt: skip
_KEYCAP = re.compile("([0-9])\ufe0f?\u20e3")
_TEN = re.compile("\U0001f51f")
_MARKS = re.compile(
    r"\*\*+|__+|~~+|(?<![\w*])\*(?=\w)|(?<=\w)\*(?![\w*\s])|(?<=\w)\*(?=\s+[^\d\s]|\s*$)|(?<!\w)_(?=\w)|(?<=\w)_(?!\w)"
)
_WHOLE_MARK = re.compile(r"^\s*(?:#{1,6}\s+|>\s+|={2,}\s*|~+\s*)|\s*={2,}\s*$|(?<=[^\d\s#])\s*#+\s*$")
SHOWN_ALONE = frozenset("€$£°")
MOST_IN_LINE = 2_000  # letters of one line that are looked at; more stays as the coach's words; design choice


def clean(raw: str) -> str:
    """Return a line in one plain form: digits, signs and quotes alike, without emoji and markings.

    What cannot be shown (control and direction signs) becomes a space; the typed line is kept elsewhere.
    """
    text = _TEN.sub(" 10) ", _KEYCAP.sub(r" \1) ", raw))
    if not text.isascii():
        text = unicodedata.normalize("NFKC", text.translate(_SAME)).translate(_SAME)
        text = "".join(_shown(sign) for sign in text)
    elif not text.isprintable():
        text = "".join(sign if sign.isprintable() else " " for sign in text.translate(_SAME))
    text = _MARKS.sub("", _WHOLE_MARK.sub("", text))
    return text.rstrip()


def _shown(sign: str) -> str:
    if sign.isascii():
        return sign if sign.isprintable() else " "
    kind = unicodedata.category(sign)
    if kind == "Nd":
        return str(unicodedata.decimal(sign))
    if kind in ("Mn", "Me", "Cf"):
        return ""
    return sign if kind[0] in "LNP" or sign in SHOWN_ALONE or sign == "•" else " "


def harmless(raw: str) -> str:
    """Return a line as typed, but for signs that cannot be shown, which become a space, and those that turn the writing round."""
    if raw.isprintable():
        return raw
    plain = "".join(" " if unicodedata.category(sign) in ("Cc", "Cs", "Zl", "Zp") else sign for sign in raw)
    return "".join(sign for sign in plain if not _turns(sign))


def _turns(sign: str) -> bool:
    return "\u202a" <= sign <= "\u202e" or "\u2066" <= sign <= "\u2069"
