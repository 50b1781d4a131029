"""Movements of a piece from facts: how many, of what, at which load, in the ways that coaches type them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from tests.prescription.sheet.hands.pieces.hand import Hand
from tests.prescription.sheet.hands.pieces.names import FOREIGN, KINDS, Kind, right

REPS = (5, 6, 8, 9, 10, 12, 14, 15, 16, 18, 20, 24, 25, 30, 40, 50)
CALS = (8, 10, 12, 14, 15, 16, 18, 20, 25, 30, 40)
METRES = (100, 150, 200, 250, 300, 400, 500, 600, 800, 1000, 1200, 1500, 2000)
SHORT = (10, 15, 20, 25, 30)
SECONDS = (20, 30, 40, 45, 60)
KILOS = {
    "bar": ((40, 30), (43, 30), (50, 35), (60, 40), (60, 42.5), (42.5, 30), (70, 50), (80, 55), (100, 70), (61, 43)),
    "dumbbells": ((22.5, 15), (20, 12.5), (15, 10), (17.5, 12.5)), "dumbbell": ((22.5, 15), (20, 12.5), (15, 10)),
    "kettlebell": ((24, 16), (32, 24), (16, 12)), "kettlebells": ((24, 16), (32, 24)), "ball": ((9, 6), (10, 7)),
}  # fmt: skip
POUNDS = {
    "bar": ((95, 65), (115, 75), (135, 95), (185, 125), (225, 155), (155, 105)), "dumbbells": ((50, 35), (35, 25)), "dumbbell": ((50, 35), (35, 25)),
    "kettlebell": ((53, 35), (70, 53)), "kettlebells": ((53, 35),), "ball": ((20, 14),),
}  # fmt: skip
NUMBERS = {5: "five", 6: "six", 8: "eight", 9: "nine", 10: "ten", 12: "twelve", 14: "fourteen", 15: "fifteen", 16: "sixteen", 18: "eighteen", 20: "twenty",
           24: "twenty four", 25: "twenty five", 30: "thirty", 40: "forty", 50: "fifty", 100: "one hundred", 200: "two hundred", 400: "four hundred", 500: "five hundred",
           2: "two", 3: "three", 4: "four", 7: "seven", 1: "one", 11: "eleven", 13: "thirteen", 21: "twenty one", 45: "forty five", 60: "sixty"}  # fmt: skip


@dataclass
class Move:
    """A movement's facts; `count` is None where the piece's list counts it."""

    kind: Kind
    typed: str
    count: int | None = None
    pair: tuple[int, int] | None = None
    each_side: bool = False
    most: bool = False
    load: tuple[float, ...] = ()
    unit: str = "kg"
    instead: Kind | None = None

    def gold(self) -> dict[str, Any]:
        found: dict[str, Any] = {"name": right(self.kind.name)}
        if self.count is not None:
            found["first"] = self.count
        if self.pair is not None:
            found["sides"] = list(self.pair)
        if self.kind.measure != "reps" and (self.count or self.pair or self.most):
            found["measure"] = self.kind.measure
        if self.each_side:
            found["each_side"] = True
        if self.load:
            words = [plain(each) for each in self.load]
            found |= {"load": words[0] if len(words) == 1 else words, "unit": self.unit}
        if self.instead is not None:
            found["options"] = [{"name": right(self.instead.name)}]
        return found


def plain(number: float) -> str:
    return str(int(number)) if number == int(number) else str(number)


def facts(hand: Hand, *, counted: bool = True, kinds: tuple[Kind, ...] = KINDS, loads: bool = True) -> Move:
    """Take a movement with an amount that the trade would ask."""
    language = hand.chosen.get("language", "en")
    kind = hand.any(FOREIGN[language] if language in FOREIGN and hand.rng.random() < 0.6 else kinds)
    move = Move(kind, hand.any(kind.typed))
    if counted:
        if kind.measure == "cal":
            move.count = hand.any(CALS)
            if hand.rng.random() < 0.3:
                move.pair, move.count = (
                    hand.any(((12, 9), (15, 12), (20, 16), (10, 8), (50, 40), (18, 14), (14, 12))),
                    None,
                )
        elif kind.measure == "m":
            move.count = hand.any(METRES if kind.name in ("row", "run", "ski") else SHORT)
        elif kind.measure == "s":
            move.count = hand.any(SECONDS)
        else:
            move.count = hand.any(REPS)
            if not kind.load and kind.name in ("pistol", "lunge", "air squat", "v-up") and hand.rng.random() < 0.2:
                move.each_side = kind.name != "air squat"
    if kind.load and loads and hand.rng.random() < 0.75:
        pounds = hand.same("unit", ("kg", "kg", "kg", "lb")) == "lb"
        both = hand.any((POUNDS if pounds else KILOS)[kind.load])
        move.unit = "lb" if pounds else "kg"
        move.load = both if hand.rng.random() < 0.75 else both[:1]
    return move


def number(hand: Hand, value: int) -> str:
    """Write a whole number, in words where the hand speaks."""
    if hand.chosen.get("layout") == "spoken" and value in NUMBERS:
        return NUMBERS[value]
    return str(value)


def load_words(hand: Hand, move: Move) -> str:
    """Write a load or a pair of them, with a sign before it."""
    first = [plain(each) for each in move.load]
    if hand.same("decimal sign", (".", ".", ",")) == ",":
        first = [each.replace(".", ",") for each in first]
    unit = (
        hand.same("unit style", (" kg", "kg", "kg", "", "both"))
        if move.unit == "kg"
        else hand.same("pound style", (" lb", "#", "lbs", "lb"))
    )
    if len(first) == 1:
        unit = unit if unit not in ("", "both") else "kg"
        words = f"{first[0]}{unit}"
    else:
        sign = hand.same("pair sign", ("/", "/", "/", " / ")) if unit else "/"
        words = f"{first[0]}kg{sign}{first[1]}kg" if unit == "both" else f"{first[0]}{sign}{first[1]}{unit}"
    if len(first) == 2 and unit not in ("", "both") and " / " not in words:
        style = hand.same(
            "two loads",
            ("a/b",) * 5
            + (
                "a or b",
                "a men b women",
                "a (b women)",
                "men a, women b",
                "a for the men, b for the women",
                "a for the guys and b for the girls",
                "(a men, b women)",
            ),
        )
        if style != "a/b":
            one, two, u = first[0], first[1], unit.strip()
            said = {
                "a or b": "{a} or {b} {u}",
                "a men b women": "{a}{u} men {b}{u} women",
                "a (b women)": "{a}{u} ({b}{u} women)",
                "men a, women b": "men {a}{u}, women {b}{u}",
                "a for the men, b for the women": "{a}{u} for the men, {b} for the women",
                "a for the guys and b for the girls": "{a} {u} for the guys and {b} for the girls",
                "(a men, b women)": "({a}{u} men, {b}{u} women)",
            }[style]
            return said.format(a=one, b=two, u=u)
    if (
        move.kind.load in ("dumbbells", "kettlebells")
        and hand.rng.random() < 0.4
        and " / " not in words
        and unit != "both"
    ):
        words = "2x" + (
            words.replace("/", "/2x")
            if hand.pick("two of them", ("2x", "2x", "2x a / 2x b")) == "2x a / 2x b"
            else words
        )
    return words


def amount(hand: Hand, move: Move) -> str:
    """Write how many, without the name."""
    measure = move.kind.measure
    if move.most:
        return {
            "cal": "max cal",
            "m": "max",
            "s": "max",
            "reps": hand.pick("most", ("max", "max reps", "max rep", "AMRAP")),
        }[measure]
    if move.pair is not None:
        return (
            f"{move.pair[0]}/{move.pair[1]}{hand.same('cal', (' cal', 'cal', ' cals', ' calories', ' Cal', ' kcal'))}"
        )
    if move.count is None:
        return "cal" if measure == "cal" else ""
    value = number(hand, move.count)
    if measure == "cal":
        return value + (
            " calories"
            if hand.chosen.get("layout") == "spoken"
            else hand.same("cal", (" cal", "cal", " cals", " calories", " Cal", " kcal"))
        )
    if measure == "m":
        if hand.chosen.get("layout") == "spoken":
            return f"{value} {hand.same('metres', ('meter', 'metres', 'meters', 'm'))}"
        if move.count >= 1000:
            style = hand.same("kilometres", ("m", " m", "k", "km", " km"))
            return f"{move.count}{style}" if style.strip() == "m" else f"{plain(move.count / 1000)}{style}"
        return f"{move.count}{hand.same('metres', ('m', ' m', 'm', ' metres', 'mtr', ' meter'))}"
    if measure == "s":
        style = (
            hand.same("seconds", ("s", " s", " sec", "sec", '"', ":", " seconds", "''"))
            if hand.chosen.get("layout") != "spoken"
            else " seconds"
        )
        if move.count == 60 and style in (" seconds", " sec"):
            return hand.pick("a minute", ("1 min", "1 minute"))
        return f":{move.count}" if style == ":" else f"{value}{style}"
    if move.each_side:
        style = hand.same("each side", ("n/n", "each side", "per leg", "/side", "e/s", "each leg"))
        return f"{move.count}/{move.count}" if style == "n/n" else f"{move.count}{style}" if style == "/side" else value
    return value


def words(hand: Hand, move: Move, *, alone: bool = True) -> str:
    """Write a whole movement; `alone` where nothing else stands on its line."""
    much, name = amount(hand, move), move.typed
    spoken = hand.chosen.get("layout") == "spoken"
    order = (
        "amount name"
        if spoken or not much or move.most or move.pair
        else hand.same(
            "order",
            ("amount name",) * 6
            + (
                ("name amount", "name x amount", "amount x name", "amount of name", "name - amount", "name: amount")
                if alone
                else ("amount x name", "name amount")
            ),
        )
    )
    if order in ("name x amount", "amount x name") and move.kind.measure != "reps":
        order = "amount name"
    if move.each_side and order != "amount name":
        order = "amount name"
    if order == "amount of name" and move.kind.measure == "reps":
        order = "amount reps name"
    said = {
        "amount name": f"{much} {name}".strip(), "name amount": f"{name} {much}", "name x amount": f"{name} x {much}" if hand.rng.random() < 0.5 else f"{name} x{much}",
        "amount x name": f"{much}x {name}" if hand.rng.random() < 0.5 else f"{much} x {name}", "amount of name": f"{much} {name}", "name - amount": f"{name} - {much}",
        "name: amount": f"{name}: {much}", "amount reps name": f"{much} reps {name}",
    }[order]  # fmt: skip
    side = hand.chosen.get("each side", "")
    if move.each_side and side not in ("n/n", "/side"):
        said += f" {side}"
    if move.pair is not None and not spoken:
        style = hand.same("two amounts", ("a/b", "a/b", "a/b", "a (b women)", "a (b ladies)", "a (women b)", "a / b"))
        if style != "a/b":
            much = f"{move.pair[0]}{hand.same('cal', (' cal', 'cal', ' cals', ' calories', ' Cal', ' kcal'))}"
            said = f"{much} {name} " + {
                "a (b women)": "({b} women)",
                "a (b ladies)": "({b} ladies)",
                "a (women b)": "(women {b})",
                "a / b": "/ {b}",
            }[style].format(b=move.pair[1])
    if move.load:
        load = load_words(hand, move)
        unitless = not any(letter.isalpha() or letter == "#" for letter in load.replace("x", ""))
        style = hand.same("load place", ("(load)", "@ load", "load", "load", ", load", "@load", "at load"))
        if unitless and style in ("at load", ", load"):
            style = "load"
        if spoken:
            style = "at load"
        said += {
            "(load)": f" ({load})",
            "@ load": f" @ {load}",
            "load": f" {load}",
            ", load": f", {load}",
            "@load": f" @{load}",
            "at load": f" at {load}",
        }[style]
    if move.instead is not None:
        other = hand.any(move.instead.typed)
        style = hand.same("or", ("(or x)", "or x", "or x"))
        said += f" (or {other})" if style == "(or x)" else f" or {other}"
    return said
