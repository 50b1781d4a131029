"""How numbers, loads, rests and efforts are typed."""

from __future__ import annotations

from tests.prescription.sheet.hands.lifts.hand import Hand
from tests.prescription.sheet.hands.lifts.truth import Load

_SMALL = (
    "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve", "thirteen", "fourteen", "fifteen",
    "sixteen", "seventeen", "eighteen", "nineteen",
)  # fmt: skip
_TENS = ("", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")


def said(number: float) -> str:
    """Say a number below 1,000 as people speak it."""
    whole = int(number)
    half = " and a half" if number - whole == 0.5 else ""
    if whole < 20:
        words = _SMALL[whole]
    elif whole < 100:
        words = _TENS[whole // 10] + (f" {_SMALL[whole % 10]}" if whole % 10 else "")
    else:
        first = "a hundred" if whole < 200 else f"{_SMALL[whole // 100]} hundred"
        words = first + (f" and {said(whole % 100)}" if whole % 100 else "")
    return words + half


def digits(hand: Hand, number: float) -> str:
    text = f"{number:g}"
    return (
        text.replace(".", ",") if "." in text and hand.way("decimals", "point", "point", "comma") == "comma" else text
    )


def cross(hand: Hand) -> str:
    return {"x": "x", " x ": " x ", "×": "×", " × ": " × ", "X": "X", "*": "*", "x ": "x "}[
        hand.way("cross", "x", "x", " x ", " x ", "×", " × ", "X", "*", "x ")
    ]


def percent_text(hand: Hand, load: Load) -> str:
    """A percentage without what leads to it."""
    if load.high is not None:
        low, high = digits(hand, load.amount), digits(hand, load.high)
        return {
            "70-75%": f"{low}-{high}%", "70–75 %": f"{low}–{high} %", "70 to 75%": f"{low} to {high}%", "70%-75%": f"{low}%-{high}%",
            "70 - 75 %": f"{low} - {high} %",
        }[hand.way("percent range", "70-75%", "70-75%", "70–75 %", "70 to 75%", "70%-75%", "70 - 75 %")]  # fmt: skip
    amount = digits(hand, load.amount)
    return (
        amount
        + {"75%": "%", "75 %": " %", "75 percent": " percent", "75 per cent": " per cent", "75pct": "pct"}[
            hand.way("percent sign", "75%", "75%", "75%", "75%", "75 %", "75 %", "75 percent", "75 per cent", "75pct")
        ]
    )


def effort_text(hand: Hand, load: Load) -> str:
    amount = digits(hand, load.amount)
    if load.kind == "rpe":
        return {
            "RPE 7": f"RPE {amount}", "RPE7": f"RPE{amount}", "rpe 7": f"rpe {amount}", "7 RPE": f"{amount} RPE", "RPE: 7": f"RPE: {amount}",
            "7/10": f"{amount}/10", "7 out of 10": f"{amount} out of 10", "RPE~7": f"RPE ~{amount}",
        }[hand.way("effort", "RPE 7", "RPE 7", "RPE7", "rpe 7", "7 RPE", "RPE: 7", "7/10", "7 out of 10", "RPE~7")]  # fmt: skip
    return {
        "2 RIR": f"{amount} RIR", "2RIR": f"{amount}RIR", "RIR 2": f"RIR {amount}", "RIR2": f"RIR{amount}", "2 in the tank": f"{amount} in the tank",
        "2 reps in reserve": f"{amount} reps in reserve", "leave 2 in the tank": f"leave {amount} in the tank", "2 reps left": f"{amount} reps left in the tank",
        "2 in reserve": f"{amount} in reserve",
    }[hand.way("reserve", "2 RIR", "2 RIR", "2RIR", "RIR 2", "RIR2", "2 in the tank", "2 reps in reserve", "leave 2 in the tank", "2 reps left", "2 in reserve")]  # fmt: skip


def unit_text(hand: Hand, unit: str) -> str:
    if unit == "kg":
        return {"60kg": "kg", "60 kg": " kg", "60 KG": " KG", "60 kilos": " kilos", "60Kg": "Kg"}[
            hand.way("kilograms", "60kg", "60kg", "60 kg", "60 kg", "60 KG", "60 kilos", "60Kg")
        ]
    return {"135lb": "lb", "135 lb": " lb", "135 lbs": " lbs", "135#": "#", "135 pounds": " pounds", "135lbs": "lbs"}[
        hand.way("pounds", "135lb", "135 lb", "135 lbs", "135#", "135 pounds", "135lbs")
    ]


def load_text(hand: Hand, load: Load) -> str:
    """A load without what leads to it."""
    if load.kind == "percent":
        return percent_text(hand, load)
    if load.kind == "mass":
        return digits(hand, load.amount) + unit_text(hand, load.unit)
    if load.kind == "pair":
        unit, low, high = unit_text(hand, load.unit), f"{load.high:g}", f"{load.amount:g}"
        if hand.habits.get("unit of the truth") == "lb":
            return f"{high}/{low}{unit}"  # without its unit it would be in pounds
        return {
            "60/40kg": f"{high}/{low}{unit}", "60/40": f"{high}/{low}", "60 kg / 40 kg": f"{high}{unit} / {low}{unit}",
            "60kg men, 40kg women": f"{high}{unit} men, {low}{unit} women",
        }[hand.way("pair", "60/40kg", "60/40kg", "60/40", "60 kg / 40 kg", "60kg men, 40kg women")]  # fmt: skip
    return effort_text(hand, load)


def at(hand: Hand, load: Load) -> str:
    """What leads to a load behind sets, with the load."""
    text = load_text(hand, load)
    if load.kind in ("rpe", "rir"):
        if load.kind == "rir" and text.startswith("leave"):
            return f", {text}" if hand.way("before a reserve", "comma", "none") == "comma" else f" {text}"
        worded = text[0].isdigit() and load.kind == "rpe" and "RPE" not in text
        return {
            "@": f" @ {text}", "@ close": f" @{text}", "space": f" at {text}" if worded else f" {text}", "bracket": f" ({'@ ' if worded else ''}{text})",
            "comma": f", {'at ' if worded else ''}{text}", "dash": f" - {'@ ' if worded else ''}{text}", "long dash": f" — {'@' if worded else ''}{text}", "at": f" at {text}",
            "slash": f" / {'@' if worded else ''}{text}",
        }[hand.way("before an effort", "@", "@ close", "space", "bracket", "comma", "dash", "long dash", "at", "slash")]  # fmt: skip
    return {
        "@": f" @ {text}", "@ close": f" @{text}", "@ closed": f"@{text}", "at": f" at {text}", "space": f" {text}", "bracket": f" ({text})",
        "comma": f", {text}", "dash": f" - {text}", "long dash": f" — {text}", "around": f" around {text}", "colon": f": {text}", "tilde": f" @ ~{text}",
        "with": f" with {text}", "@ bracket": f" (@ {text})", "about": f" at about {text}",
    }[hand.way("before a load", "@", "@", "@", "@", "@ close", "@ closed", "at", "at", "space", "bracket", "comma", "dash", "long dash", "around", "colon", "tilde", "with", "@ bracket", "about")]  # fmt: skip


def rest_text(hand: Hand, seconds: int) -> str:
    """A rest between sets."""
    minutes, over = divmod(seconds, 60)
    ways = ["seconds", "90s", '90"'] if seconds <= 90 else []
    ways += ["2 min", "2'", "2 minutes", "2min", "2m"] if not over else []
    ways += ["2:00"]
    kind = hand.way(f"length {'long' if seconds > 90 else 'short'} {'odd' if over else 'even'}", *ways)
    length = {
        "seconds": f"{seconds} sec", "90s": f"{seconds}s", '90"': f'{seconds}"', "2 min": f"{minutes} min", "2'": f"{minutes}'",
        "2 minutes": f"{minutes} minutes" if minutes > 1 else "1 minute", "2min": f"{minutes}min", "2m": f"{minutes}m", "2:00": f"{minutes}:{over:02d}",
    }[kind]  # fmt: skip
    return {
        "rest 2": f"rest {length}", "Rest: 2": f"Rest: {length}", "2 rest": f"{length} rest", "r 2": f"R {length}", "r=2": f"r={length}",
        "rest 2 between sets": f"rest {length} between sets", "2 between sets": f"{length} between sets", "2 rest btw": f"{length} rest btw sets",
        "take 2 between": f"take {length} between sets", "rest of 2": f"{length} of rest", "rest about": f"rest about {length}", "2 break": f"{length} break",
        "rest = 2": f"rest = {length}",
    }[hand.way("rest", "rest 2", "rest 2", "rest 2", "Rest: 2", "2 rest", "r 2", "r=2", "rest 2 between sets", "2 between sets", "2 rest btw", "take 2 between", "rest of 2", "rest about", "2 break", "rest = 2")]  # fmt: skip


def tempo_text(hand: Hand, tempo: str) -> str:
    dashed = "-".join(tempo)
    return {
        "tempo 31X1": f"tempo {tempo}", "@31X1": f"@{tempo}", "(31X1)": f"(tempo {tempo})", "31X1 tempo": f"{tempo} tempo", "tempo: 31X1": f"Tempo: {tempo}",
        "3-1-X-1": f"tempo {dashed}", "@ 31x1": f"@ {tempo.lower()}" if "X" in tempo else f"@ {tempo}",
    }[hand.way("tempo", "tempo 31X1", "@31X1", "(31X1)", "31X1 tempo", "tempo: 31X1", "3-1-X-1", "@ 31x1")]  # fmt: skip
