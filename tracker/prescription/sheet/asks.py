"""What can be read in two ways: which reading was taken, which others there are, and how an answer is remembered.

An ask has a key that says its cause, not its place: the same coach's next sheet has the same key where the same habit of
writing comes again. Answers are pairs of such a key and the code of a reading; `Answers.taken` is asked before each
reading is chosen, so that an answer changes what is read and the ask is gone.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace


@dataclass(frozen=True, slots=True)
class Choice:
    """One reading: its code, which is kept as an answer, and its words."""

    code: str
    words: str


@dataclass(frozen=True, slots=True)
class Ask:
    """One thing that can be read in two ways and matters to a load or a score.

    `line` is the first line that it concerns and `lines` all of them; `text` is that line as typed. `taken` is the reading
    that stands until somebody answers, `others` the other ones.
    """

    key: str
    line: int
    text: str
    question: str
    taken: Choice
    others: tuple[Choice, ...]
    lines: tuple[int, ...] = ()


@dataclass
class Asker:
    """Gathers asks of one text, each cause once, and knows what was answered before."""

    answers: Mapping[str, str] = field(default_factory=dict[str, str])
    asks: dict[str, Ask] = field(default_factory=dict[str, Ask])
    answered: dict[str, str] = field(default_factory=dict[str, str])

    def choose(self, key: str, line: int, text: str, question: str, choices: tuple[Choice, ...]) -> str:
        """Return the code of the reading to take: the answered one, else the first of `choices`, which is then asked."""
        answer = self.answers.get(key)
        codes = [choice.code for choice in choices]
        if answer in codes:
            self.answered[key] = str(answer)
            return str(answer)
        if known := self.asks.get(key):
            if line not in known.lines:
                self.asks[key] = replace(known, lines=(*known.lines, line))
            return known.taken.code
        self.asks[key] = Ask(key, line, text, question, choices[0], choices[1:], (line,))
        return choices[0].code

    def known(self, key: str) -> str | None:
        """Return the answer to a key, if there is one."""
        answer = self.answers.get(key)
        if answer is not None:
            self.answered[key] = answer
        return answer
