"""How the sets of a lift are typed: one expression, or a line for each."""

from __future__ import annotations

from tests.prescription.sheet.hands.lifts.hand import Hand
from tests.prescription.sheet.hands.lifts.signs import at, cross, digits, load_text, percent_text
from tests.prescription.sheet.hands.lifts.truth import Lift, Load, Sets

COUNTED = {1: ("single", "singles"), 2: ("double", "doubles"), 3: ("triple", "triples")}


def reps_text(hand: Hand, one: Sets) -> str:
    if len(one.reps) == 0:
        return ""
    if one.high:
        low, high = one.reps[0], one.high
        return {"8-10": f"{low}-{high}", "8–10": f"{low}–{high}", "8 to 10": f"{low} to {high}"}[
            hand.way("range of reps", "8-10", "8-10", "8–10", "8 to 10")
        ]
    if len(one.reps) > 1:
        joined = "+".join(str(each) for each in one.reps)
        return {"1+1": joined, "(1+1)": f"({joined})", "1 + 1": " + ".join(str(each) for each in one.reps)}[
            hand.way("complex", "1+1", "1+1", "(1+1)", "1 + 1")
        ]
    return f"{one.reps[0]}" + ("+" if one.out else "")


def straight(hand: Hand, one: Sets) -> str:
    """Sets of one kind: `5x5 @ 75%` in every order."""
    load, sets, reps = one.load, one.sets, reps_text(hand, one)
    simple = len(one.reps) == 1 and not one.high and not one.out
    if one.out and not one.reps:
        return max_sets(hand, one)
    percent = load is not None and load.kind == "percent"
    ways = ["sets x reps"] * 6 + ["sets of reps"] * 3 + ["sets of reps reps", "sets x reps reps"]
    if simple:
        ways += ["sets, reps", "reps x sets", "keyed", "sets of only"]
        if one.reps[0] in COUNTED:
            ways += ["doubles"]
    if load is not None and (percent or load.kind == "mass"):
        ways += ["load first", "load first colon", "load for"]
        if simple:
            ways += ["reps @ load x sets"]
            if load.high is None:
                ways += ["sets x reps x load"]
                if load.kind == "mass":
                    ways += ["load x reps x sets", "load reps sets words"]
    order = hand.way("order", *ways)
    x = cross(hand)
    if order == "sets of reps":
        text = f"{sets} sets of {reps}"
    elif order == "sets of reps reps":
        text = f"{sets} sets of {reps} reps"
    elif order == "sets x reps reps":
        text = f"{sets}{x}{reps} reps"
    elif order == "sets, reps":
        text = f"{sets} sets, {reps} reps"
    elif order == "reps x sets":
        text = f"{reps} reps x {sets} sets"
    elif order == "sets of only":
        text = f"{sets} sets x {reps}"
    elif order == "keyed":
        text = f"Sets: {sets}, Reps: {reps}"
    elif order == "doubles":
        text = f"{sets} {COUNTED[one.reps[0]][1 if sets > 1 else 0]}"
    elif order in ("load first", "load first colon", "load for"):
        assert load is not None
        lead = load_text(hand, load)
        return f"{'@' if hand.perhaps(0.3) else ''}{lead}{ {'load first': ' ', 'load first colon': ': ', 'load for': ' for '}[order] }{sets}{x}{reps}"
    elif order == "reps @ load x sets":
        assert load is not None
        tail = hand.way("sets behind", "x 4 sets", "x 4", "x4", "for 4 sets")
        return f"{reps} @ {load_text(hand, load)} {tail.replace('4', str(sets))}"
    elif order == "sets x reps x load":
        assert load is not None
        return f"{sets}{x}{reps}{x}{load_text(hand, load)}"
    elif order == "load x reps x sets":
        assert load is not None
        return f"{load_text(hand, load)}{x}{reps}{x}{sets}"
    elif order == "load reps sets words":
        assert load is not None
        return f"{load_text(hand, load)} x {reps} reps x {sets} sets"
    else:
        text = f"{sets}{x}{reps}"
    return text + (at(hand, load) if load is not None else "")


def max_sets(hand: Hand, one: Sets) -> str:
    sets = one.sets
    last = at(hand, one.load) if one.load is not None else ""
    if sets == 1:
        return hand.way("one max", "1xAMRAP{}", "AMRAP{}", "max reps{}", "1 set of max reps{}", "1 x max{}", "as many reps as possible{}", "1 set{}, as many as you can", "max set{}", "1 max effort set{}").replace("{}", last)  # fmt: skip
    return hand.way("max sets", "3 x max", "3 sets of max reps", "3 sets max", "3xmax", "3 x AMRAP", "3 sets AMRAP", "3 sets to failure", "3 max sets", "3 x max reps").replace("3", str(sets)) + last  # fmt: skip


def item(hand: Hand, one: Sets) -> str:
    """One set of a row: `5 @ 70%`."""
    load = one.load
    assert load is not None
    text, reps = load_text(hand, load), reps_text(hand, one)
    if one.out and not one.reps:
        return max_sets(hand, one)
    many = "" if one.sets == 1 else f"{one.sets}"
    x = cross(hand)
    if many:
        order = hand.way(
            "order of a row of sets",
            "2x5 @ 70%",
            "2x5 @70%",
            "2 sets of 5 @ 70%",
            "2 x 5 70%",
            "70% 2x5",
            "70%: 2x5",
            "70% - 2x5",
        )
        core = f"{many}{x}{reps}"
        return {
            "2x5 @ 70%": f"{core} @ {text}", "2x5 @70%": f"{core} @{text}", "2 sets of 5 @ 70%": f"{many} sets of {reps} @ {text}", "2 x 5 70%": f"{core} {text}",
            "70% 2x5": f"{text} {core}", "70%: 2x5": f"{text}: {core}", "70% - 2x5": f"{text} - {core}",
        }[order]  # fmt: skip
    order = hand.way("order of a row", "5 @ 70%", "5 @ 70%", "5@70%", "5 reps @ 70%", "5 at 70%", "70% x 5", "70% x 5", "70%x5", "1x5 @ 70%", "70% for 5", "5 reps at 70%", "70%: 5", "70% - 5", "5x70%", "70%, 5 reps", "5 x 70%", "@70% x 5", "70% x 5 reps", "70% (5)", "5 (70%)")  # fmt: skip
    if load.kind == "mass" and order in ("70%, 5 reps", "70% (5)"):
        order = "5 @ 70%"
    return {
        "5 @ 70%": f"{reps} @ {text}", "5@70%": f"{reps}@{text}", "5 reps @ 70%": f"{reps} reps @ {text}", "5 at 70%": f"{reps} at {text}", "70% x 5": f"{text} x {reps}",
        "70%x5": f"{text}x{reps}", "1x5 @ 70%": f"1{x}{reps} @ {text}", "70% for 5": f"{text} for {reps}", "5 reps at 70%": f"{reps} reps at {text}", "70%: 5": f"{text}: {reps}",
        "70% - 5": f"{text} - {reps}", "5x70%": f"{reps}x{text}", "70%, 5 reps": f"{text}, {reps} reps", "5 x 70%": f"{reps} x {text}", "@70% x 5": f"@{text} x {reps}",
        "70% x 5 reps": f"{text} x {reps} reps", "70% (5)": f"{text} ({reps})", "5 (70%)": f"{reps} ({text})",
    }[order]  # fmt: skip


def a_list(hand: Hand, numbers: list[str], name: str) -> str:
    return {"-": "-", "/": "/", ",": ",", ", ": ", ", " - ": " - "}[
        hand.way(name, "-", "-", "/", ",", ", ", " - ")
    ].join(numbers)


def loads_listed(hand: Hand, loads: list[Load]) -> str:
    """`70/75/80%`."""
    if hand.perhaps(0.25):
        return {", ": ", ", "/": "/", " / ": " / ", "-": "-", " > ": " > ", " → ": " → "}[hand.way("between loads with signs", ", ", "/", " / ", "-", " > ", " → ")].join(load_text(hand, each) for each in loads)  # fmt: skip
    plain = [digits(hand, each.amount) for each in loads]
    joined = {"/": "/", "-": "-", ", ": ", ", ",": ",", " - ": " - "}[
        hand.way("between loads", "/", "/", "-", ", ", ",", " - ")
    ]
    if joined == "," and any("," in each for each in plain):
        joined = "/"
    unit = "%" if loads[0].kind == "percent" else loads[0].unit
    return joined.join(plain) + (" " if hand.perhaps(0.3) else "") + unit


def lines_of(hand: Hand, lift: Lift) -> list[str]:
    """The sets of a lift, each of which may be a line of its own."""
    scheme, sets = lift.scheme, lift.sets
    if scheme in ("straight", "accessory", "complex", "max sets"):
        return [straight(hand, sets[0])]
    if scheme == "wave":
        return [item(hand, each) for each in sets]
    if scheme in ("list", "climb list"):
        text = a_list(hand, [str(each.reps[0]) for each in sets], "list of reps")
        loads = [each.load for each in sets]
        if loads[0] is None:
            return [text]
        if len(set(loads)) == 1:
            return [text + at(hand, loads[0])]
        return [f"{text} @ {loads_listed(hand, [each for each in loads if each])}"]
    if scheme == "each load":
        loads = loads_listed(hand, [each.load for each in sets if each.load])
        count, reps, x = len(sets), sets[0].reps[0], cross(hand)
        return [hand.way("each its load", "3x5 @ 70/75/80", "3x5 (70/75/80)", "3 sets of 5 @ 70/75/80", "3x5: 70/75/80", "3x5 70/75/80", "3 x 5 at 70/75/80")
                .replace("70/75/80", "LOADS").replace("3x5", f"{count}{x}{reps}").replace("3 sets of 5", f"{count} sets of {reps}").replace("3 x 5", f"{count}{x}{reps}")
                .replace("LOADS", loads)]  # fmt: skip
    if scheme in ("heavy", "build"):
        return [to_heavy(hand, sets[0])]
    if scheme == "heavy and drop":
        drop, down = f"{100 - sets[1].load.amount:g}", f"{sets[1].sets}{cross(hand)}{sets[1].reps[0]}"  # type: ignore[union-attr]
        left = percent_text(hand, sets[1].load)  # type: ignore[arg-type]
        way = hand.way("drop", "then -10% 3x3", "then -10% for 3x3", "drop 10%, 3x3", "then drop 10% and do 3x3", "back-off 3x3 @ -10%", "then 3x3 @ 90% of that", "then 3x3 at 90% of it",
                       "take 10% off, 3x3", "3x3 @ 90% of today's heavy", "drop 10% for 3x3", "3x3 with 10% less", "then 3x3 -10%", "minus 10%: 3x3", "Backoff: 3x3 @ 90% of top set")  # fmt: skip
        down = (
            way.replace("10%", "DROP")
            .replace("90%", "LEFT")
            .replace("3x3", down)
            .replace("DROP", f"{drop}%")
            .replace("LEFT", left)
        )
        return [to_heavy(hand, sets[0]), down]
    if scheme == "rep-out":
        text = straight(hand, sets[0])
        if sets[0].load is None:
            return [text]
        last = max_sets(hand, sets[1])
        return [text, {"plain": last, "then": f"then {last}", "last": f"then one last set{at(hand, sets[1].load)}, max reps" if sets[1].load else last}[hand.way("before a rep-out", "plain", "then", "last")]]  # fmt: skip
    if scheme == "numbered":
        return numbered(hand, sets)
    if scheme == "clock":
        return [on_clock(hand, lift)]
    raise AssertionError(scheme)


def to_heavy(hand: Hand, one: Sets) -> str:
    number = one.reps[0]
    word = COUNTED.get(number, (f"set of {number}", ""))[0]
    within = hand.way("within", "", "", "", " in 15 min", " (15 min)", " in 20'")
    if one.find == "test":
        return hand.way("test", "3RM", "find 3RM", "find your 3RM", "build to a 3RM", "3RM test", "test 3RM", "work up to 3RM", "new 3RM", "find a new 3RM", "establish a 3RM", "test your 3RM").replace("3", str(number)) + within  # fmt: skip
    return hand.way("heavy", "heavy 3", "build to a heavy triple", "work up to a heavy triple", "heavy triple", "find a heavy triple", "up to a heavy triple", "build to heavy triple", "build up to a heavy 3",
                    "heavy triple of the day", "hit a heavy triple", "climb to a heavy triple", "3RM for the day", "work to a heavy triple for today", "top triple", "build to 3RM for the day", "ramp up to a heavy triple",
                    "top set of 3").replace("set of 3", "SET").replace("triple", word).replace("SET", "set of 3").replace("3", str(number)) + within  # fmt: skip


def numbered(hand: Hand, sets: list[Sets]) -> list[str]:
    """Sets told by their number."""
    same = len({each.reps for each in sets}) == 1
    count, at_set, found = sum(each.sets for each in sets), 1, []
    way = hand.way("numbered", "Set 1: 5 @ 70%", "set 1 - 5 reps @ 70%", "1) 5 @ 70%", "Set 1: 5 reps at 70 %", "sets 1-2 @ 70%", "70% (1-2)", "70% (sets 1-2)", "70% for sets 1-2", "#1: 5 @ 70%")  # fmt: skip
    if not same or (len(sets) == count and way == "1) 5 @ 70%"):
        way = "Set 1: 5 @ 70%"
    for each in sets:
        assert each.load is not None
        last = at_set + each.sets - 1
        span = f"{at_set}" if last == at_set else f"{at_set}-{last}"
        if each.sets == 3 and way.startswith("Set") and hand.perhaps(0.4):
            span = f"{at_set}, {at_set + 1} and {last}"
        text, reps = load_text(hand, each.load), each.reps[0]
        plural = "s" if last != at_set else ""
        found.append({
            "Set 1: 5 @ 70%": f"Set{plural} {span}: {reps} @ {text}", "set 1 - 5 reps @ 70%": f"set{plural} {span} - {reps} reps @ {text}", "1) 5 @ 70%": f"{span}) {reps} @ {text}",
            "Set 1: 5 reps at 70 %": f"Set{plural} {span}: {reps} reps at {text}", "sets 1-2 @ 70%": f"set{plural} {span} @ {text}", "70% (1-2)": f"{text} ({span})",
            "70% (sets 1-2)": f"{text} (set{plural} {span})", "70% for sets 1-2": f"{text} for set{plural} {span}", "#1: 5 @ 70%": f"#{span}: {reps} @ {text}",
        }[way])  # fmt: skip
        at_set = last + 1
    if way in ("sets 1-2 @ 70%", "70% (1-2)", "70% (sets 1-2)", "70% for sets 1-2"):
        return [f"{count}{cross(hand)}{sets[0].reps[0]}{hand.one(', ', ': ', ' - ')}{', '.join(found)}"]
    return found


def on_clock(hand: Hand, lift: Lift) -> str:
    """Sets on a clock."""
    one, every = lift.sets[0], lift.every or 60
    assert one.load is not None
    minutes, over = divmod(every, 60)
    total = every * one.sets
    length = f"{minutes}:{over:02d}"
    spoken = f"{every} sec" if every % 60 else f"{minutes} min"
    ways = [
        "every 2:00 x 5",
        "every 2 min x 5",
        "every 2:00 for 5 sets",
        "every 2 min for 5 sets",
        "5 sets, every 2:00",
        "every 2' x 5",
    ]
    if total % 60 == 0:
        ways += ["every 2:00 for 10:00", "every 2 min for 10 min"]
    if every == 60:
        ways = ["EMOM 10", "10 min EMOM", "EMOM 10'", "EMOM x 10", "every minute for 10 min", "EMOM 10 min", "E1MOM 10"]
    elif not over:
        ways += ["E2MOM x 5", "E2MOM 10 min (5 sets)"]
    way = hand.way("clock" + (" of a minute" if every == 60 else ""), *ways)
    clock = (way.replace("(5 sets)", f"({one.sets} SETS)").replace("10:00", "LONG").replace("E2MOM", f"E{minutes}MOM").replace("2:00", length)
             .replace("2 min", spoken).replace("2'", f"{minutes}'" if not over else f'{every}"')
             .replace("x 5", f"x {one.sets}").replace("5 sets", f"{one.sets} sets").replace("LONG", f"{total // 60}:{total % 60:02d}").replace("SETS", "sets"))  # fmt: skip
    if every == 60 or "for 10 min" in way or "10 min" in way:
        clock = (
            clock.replace("10 min", f"{total // 60} min")
            .replace("10'", f"{total // 60}'")
            .replace("EMOM 10", f"EMOM {total // 60}")
            .replace("EMOM x 10", f"EMOM x {total // 60}")
            .replace("1MOM 10", f"1MOM {total // 60}")
        )
    reps, load = one.reps[0], one.load
    plural = "reps" if reps > 1 else "rep"
    sets = {
        "3 @ 75%": f"{reps} @ {load_text(hand, load)}", "3 reps @ 75%": f"{reps} {plural} @ {load_text(hand, load)}", "3 NAME @ 75%": f"{reps} NAME @ {load_text(hand, load)}",
        "3 reps at 75%": f"{reps} {plural} at {load_text(hand, load)}",
    }[hand.way("sets on a clock", "3 @ 75%", "3 reps @ 75%", "3 NAME @ 75%", "3 reps at 75%")]  # fmt: skip
    return (
        clock
        + {": ": ": ", ", ": ", ", " - ": " - ", " — ": " — "}[
            hand.way("behind a clock", ": ", ": ", ", ", " - ", " — ")
        ]
        + sets
    )
