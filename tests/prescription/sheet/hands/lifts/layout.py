"""How lifts stand on a page: name and sets, lines, lists, tables, sentences; and what stands around them."""

from __future__ import annotations

from typing import Any

from tests.prescription.sheet.hands.lifts.hand import Hand
from tests.prescription.sheet.hands.lifts.sets_typed import lines_of
from tests.prescription.sheet.hands.lifts.signs import load_text, rest_text, tempo_text
from tests.prescription.sheet.hands.lifts.truth import Lift, Name, a_lift

_BULLETS = {"none": "", "- ": "- ", "* ": "* ", "• ": "• ", "▪️ ": "▪️ ", "✅ ": "✅ ", "🔹 ": "🔹 ", "– ": "– ", "→ ": "→ ", "o ": "o ", "> ": "> ", "[ ] ": "[ ] ", "+ ": "+ ", "- [ ] ": "- [ ] "}  # fmt: skip
_AROUND = (
    "nice and easy today", "focus on speed", "stay tight", "film your last set", "no grinding please", "coffee after", "chest up!", "let's go",
    "bring your belt", "quality over load", "same as the whiteboard", "ask me if unsure", "have fun", "keep your heels down", "smile :)", "breathe",
    "bar stays close", "no missed reps", "lights off at 8", "remember your shoes", "good week everyone", "rather light than ugly",
)  # fmt: skip
_HELLO = ("Hi all", "hey team,", "morning!", "Hello everybody, here is today:", "guys", "Good evening.", "ok, plan for today", "tomorrow:", "Today", "LET'S GO 💪", "strength only today")  # fmt: skip
DAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_FOREIGN = {
    "de": ("Montag", "Dienstag", "Mittwoch", "Donnerstag", "Freitag", "Samstag", "Sonntag"), "fr": ("Lundi", "Mardi", "Mercredi", "Jeudi", "Vendredi", "Samedi", "Dimanche"),
    "es": ("Lunes", "Martes", "Miércoles", "Jueves", "Viernes", "Sábado", "Domingo"), "es1": ("L", "M", "X", "J", "V", "S", "D"), "de2": ("Mo", "Di", "Mi", "Do", "Fr", "Sa", "So"),
}  # fmt: skip


def cased(hand: Hand, text: str) -> str:
    way = hand.way("letters", "as is", "first", "first", "UPPER", "lower", "Title")
    if way == "first":
        return text[:1].upper() + text[1:]
    return (
        {"as is": text, "UPPER": text.upper(), "lower": text.lower(), "Title": text.title()}[way]
        if not any(c in text for c in "&'")
        else text
    )


def name_text(hand: Hand, names: list[Name]) -> str:
    typed = [
        hand.one(*each.typed) if hand.way("spelling", "usual", "usual", "any") == "any" else each.typed[0]
        for each in names
    ]
    joined = hand.way("complex joined by", " + ", "+", " + ").join(typed)
    text = cased(hand, joined)
    marks = hand.way("name's marks", "none", "none", "none", "none", "**", "__", "`", "*")
    return text if marks == "none" else f"{marks}{text}{marks}"


def of_text(hand: Hand, of: dict[str, Any]) -> str:
    if of.get("percent"):
        return hand.way("of a training max", "of TM", "TM", "of your TM", "of training max", "of the training max")
    if of["reps"] == 1:
        return hand.way(
            "of 1RM",
            "of 1RM",
            "1RM",
            "of your 1RM",
            "of max",
            "of your max",
            "of 1 RM",
            "of 1-RM",
            "of your one rep max",
            "of best",
        )
    return hand.way("of nRM", "of 5RM", "of your 5RM", "of 5 RM").replace("5", str(of["reps"]))


def _with_of(hand: Hand, lines: list[str], lift: Lift) -> tuple[list[str], str]:
    """Say what percentages are of: behind the first one, or as words of their own."""
    if not lift.of or "of" not in lift.typed:
        return lines, ""
    text = of_text(hand, lift.of)
    signs = ("%", "percent", "per cent", "pct")
    if len(lines) == 1 and lines[0].endswith(signs) and hand.way("where of", "behind", "behind", "apart") == "behind":
        return [f"{lines[0]} {text}"], ""
    plain = text if text.startswith("of ") else f"of {text}"
    return lines, hand.way("of apart", f"(% {plain})", f"% {plain}", f"all % {plain}")


def typed_lift(hand: Hand, lift: Lift) -> list[str]:
    """A lift on one or several lines, the first of which begins with its name or has it."""
    lines = lines_of(hand, lift)
    name = name_text(hand, lift.names)
    if any("NAME" in each for each in lines):
        lift.of = {"reps": 1}
        return [each.replace("NAME", name) for each in lines]
    lines, of = _with_of(hand, lines, lift)
    tail: list[str] = []
    if lift.sided:
        lines[-1] += hand.way(
            "each side",
            " each side",
            "/side",
            " per leg",
            " each leg",
            "/leg",
            " each arm",
            " e/s",
            " (each side)",
            " per side",
        )
    if lift.tempo:
        tail.append(tempo_text(hand, lift.tempo))
    if of:
        tail.append(of)
    if lift.rest:
        tail.append(rest_text(hand, lift.rest))
    if hand.perhaps(0.15):
        tail.append(hand.one(*_AROUND))
    several = len(lines) > 1
    place = (
        hand.way("place of several", "below", "below", "one line", "one line")
        if several
        else hand.way("place", "same", "same", "same", "same", "below", "sets first")
    )
    tail_at = hand.way("tail", ", ", ", ", " - ", " (", ". ", "; ", "line")
    bullet = (
        _BULLETS[hand.way("bullets of sets", "none", "none", "- ", "• ", "* ", "→ ", "▪️ ")]
        if several or place == "below"
        else ""
    )
    between = {" ": " ", ": ": ": ", " - ": " - ", " – ": " – ", ", ": ", ", " — ": " — ", ":": ": ", " | ": " | ", " = ": " = ", ". ": ". "}[hand.way("name, then", " ", " ", " ", ": ", ": ", " - ", " – ", ", ", " — ", " | ", ". ")]  # fmt: skip
    if place == "below":
        head = name + hand.way("name's end", "", "", ":", ".", " -")
        found = [head, *(bullet + each for each in lines)]
    elif place == "one line":
        joined = {", ": ", ", " / ": " / ", "; ": "; ", " then ": " then ", " - ": " - ", " > ": " > ", ". ": ". ", " + ": " + ", " & ": " & "}[hand.way("between sets", ", ", ", ", ", ", " / ", "; ", " then ", " > ", " & ")]  # fmt: skip
        lines = [each.removeprefix("then ") if joined == " then " else each for each in lines]
        found = [name + between + joined.join(lines)]
    elif (
        place == "sets first"
        and lift.scheme in ("straight", "accessory", "complex", "max sets")
        and not lines[0].startswith("Sets")
    ):
        found = [f"{lines[0]} {name}"]
        if lift.scheme == "straight" and lift.sets[0].load is not None and " @ " in lines[0] and hand.perhaps(0.6):
            sets, _, load = lines[0].partition(" @ ")
            found = [f"{sets} {name} @ {load}"]
    else:
        found = [name + between + lines[0]]
    if tail:
        if tail_at == "line":
            found += tail
        elif tail_at == " (":
            found[-1] += "".join(f" ({each.strip('()')})" for each in tail)
        else:
            found[-1] += "".join(tail_at + each for each in tail)
    return found


_DASHED = "| --- | --- | --- | --- | --- |"


def in_table(hand: Hand, lifts: list[Lift]) -> list[str]:
    """Straight sets in a table of columns."""
    head = hand.way("table's heads", "Exercise|Sets|Reps|Load|Rest", "Lift|Sets|Reps|%|Rest", "Exercise|Sets x Reps|Load", "Movement|Sets|Reps|Intensity|Rest", "Exercise|Sets|Reps|Weight|Rest|Notes").split("|")  # fmt: skip
    rows = []
    for lift in lifts:
        one = lift.sets[0]
        lift.tempo, lift.sided = "", False
        reps = f"{one.reps[0]}-{one.high}" if one.high else f"{one.reps[0]}"
        load = load_text(hand, one.load) if one.load else hand.one("", "-", "BW")
        if one.load and one.load.kind == "percent" and lift.of and "of" in lift.typed:
            load += f" {of_text(hand, lift.of)}"
        rest = (rest_text(hand, lift.rest).replace("rest", "").strip() if False else "") or ""
        if lift.rest:
            minutes, over = divmod(lift.rest, 60)
            rest = hand.way("rest in a table", "2:00", "2 min", "90s").replace("2:00", f"{minutes}:{over:02d}").replace("2 min", f"{minutes} min" if not over else f"{lift.rest} s").replace("90s", f"{lift.rest}s")  # fmt: skip
        cells = {
            "Sets": str(one.sets),
            "Reps": reps,
            "Sets x Reps": f"{one.sets}x{reps}",
            "Rest": rest,
            "Notes": hand.one("", "", *_AROUND),
        }
        name = name_text(hand, lift.names)
        rows.append([name if at == 0 else cells.get(column, load) for at, column in enumerate(head)])
        if "Rest" not in head:
            lift.rest = None
    kind = hand.way("table", "pipes", "pipes", "bare pipes", "tabs", "spaces")
    if kind == "pipes":
        return [f"| {' | '.join(head)} |", "|" + "---|" * len(head), *(f"| {' | '.join(row)} |" for row in rows)]
    if kind == "bare pipes":
        return [" | ".join(head), *(" | ".join(row) for row in rows)]
    if kind == "tabs":
        return ["\t".join(head), *("\t".join(row) for row in rows)]
    wide = [max(len(row[at]) for row in [head, *rows]) + 4 for at in range(len(head))]
    return ["".join(cell.ljust(width) for cell, width in zip(row, wide, strict=True)).rstrip() for row in [head, *rows]]


def others(lifts: list[Lift]) -> list[Lift]:
    """Only the first of two lifts of one name: twice the same would be more sets of it."""
    return [
        lift
        for at, lift in enumerate(lifts)
        if all(set(lift.names[0].right).isdisjoint(each.names[0].right) for each in lifts[:at])
    ]


def a_session(hand: Hand, count: int = 0) -> tuple[list[str], list[Lift]]:
    """The lines of a session, and its lifts."""
    count = count or hand.random.choice((1, 2, 2, 3, 3))
    kind = hand.way("layout", "lines", "lines", "lines", "lines", "lines", "table") if count > 1 else "lines"
    if kind == "table":
        lifts = others([a_lift(hand, hand.one("straight", "accessory")) for _ in range(count)])
        return in_table(hand, lifts), lifts
    lifts = others([a_lift(hand) for _ in range(count)])
    label = hand.way("labels", "none", "none", "A.", "A)", "1.", "1)", "A:", "(A)", "1️⃣", "A -")
    bullet = (
        _BULLETS[
            hand.way(
                "bullets",
                "none",
                "none",
                "none",
                "none",
                "- ",
                "* ",
                "• ",
                "▪️ ",
                "✅ ",
                "🔹 ",
                "– ",
                "→ ",
                "[ ] ",
                "+ ",
                "- [ ] ",
            )
        ]
        if label == "none"
        else ""
    )
    gap = hand.way("between lifts", "blank", "none", "none")
    found: list[str] = []
    for place, lift in enumerate(lifts):
        if place and hand.perhaps(0.15) and label == "none" and lift.scheme in ("straight", "accessory", "max sets"):
            lift.joined = True
            found.append(
                hand.way(
                    "superset", "superset with", "SS with", "superset with:", "+ superset with", "supersetted with"
                )
            )
        lines = typed_lift(hand, lift)
        if label != "none":
            mark = label.replace("A", "ABCDEFG"[place]).replace("1️⃣", f"{place + 1}️⃣").replace("1", f"{place + 1}")
            lines[0] = f"{mark} {lines[0]}"
        elif bullet and lines[0][:1] not in "-•*":
            lines[0] = bullet + lines[0]
        if place and gap == "blank" and not lift.joined:
            found.append("")
        found += lines
        if hand.perhaps(0.06):
            found.append(hand.one(*_AROUND))
    return found, lifts


def day_text(hand: Hand, day: int) -> str:
    """A heading of a weekday."""
    tongue = hand.habits.setdefault("tongue of days", hand.one("en", "en", "en", "en", "de", "fr", "es"))
    way = hand.way(
        "day",
        "Monday",
        "Monday:",
        "MONDAY",
        "Mon",
        "Mon:",
        "Monday -",
        "**Monday**",
        "## Monday",
        "monday",
        "Mon –",
        "Monday 12 Oct",
        "== Monday ==",
        "Monday (lower)",
        "📅 Monday",
        "Day: Monday",
        "[Monday]",
        "MON",
        "Monday.",
        "Monday, week 3",
    )
    name = DAYS[day].capitalize()
    if tongue != "en":
        name = _FOREIGN[tongue][day]
    short = name[:3]
    return (
        way.replace("Monday", name)
        .replace("MONDAY", name.upper())
        .replace("monday", name.lower())
        .replace("MON", short.upper())
        .replace("Mon", short)
    )


def a_text(hand: Hand, sessions: int = 1) -> tuple[str, dict[str, Any]]:
    """A text and its facts."""
    lines: list[str] = []
    gold: list[dict[str, Any]] = []
    if hand.perhaps(0.25) and sessions == 1:
        lines.append(hand.one(*_HELLO))
    first = hand.random.randrange(0, 4)
    for place in range(sessions):
        session: dict[str, Any] = {"day": None}
        if sessions > 1 or hand.perhaps(0.3):
            day = first + place
            lines.append(day_text(hand, day))
            session["day"] = DAYS[day]
        elif hand.perhaps(0.2):
            lines.append(
                hand.way(
                    "heading",
                    "STRENGTH",
                    "Strength:",
                    "Strength",
                    "**Strength**",
                    "## Strength",
                    "💪 STRENGTH",
                    "Lift",
                    "Strength -",
                )
            )
        if hand.perhaps(0.2) and lines:
            lines.append("")
        typed, lifts = a_session(hand)
        lines += typed
        session["items"] = [each.gold() for each in lifts]
        gold.append(session)
        if place < sessions - 1 and hand.way("between days", "blank", "blank", "none") == "blank":
            lines.append("")
    if hand.perhaps(0.15):
        lines += [
            "",
            hand.one("see you there", "questions? ask me", "coach", "Have a good one!", "don't be late", "bring water"),
        ]
    return "\n".join(lines) + "\n", {"sessions": gold, "asks": []}
