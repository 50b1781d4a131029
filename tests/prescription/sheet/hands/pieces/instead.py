"""What is done instead, by level, at home, in the rain: in brackets behind a movement, or on a line of its own."""

from __future__ import annotations

from typing import Any

from tests.prescription.sheet.hands.pieces.hand import Hand
from tests.prescription.sheet.hands.pieces.heads import Head
from tests.prescription.sheet.hands.pieces.moves import Move
from tests.prescription.sheet.hands.pieces.names import right

# What is usually done in place of what, as it is typed, with its full name: common practice
USUAL: dict[str, tuple[tuple[str, str], ...]] = {
    "pull-up": (("ring rows", "ring row"), ("jumping pull-ups", "jumping pull-up"), ("banded pull-ups", "banded pull-up")),
    "chest to bar pull-up": (("ring rows", "ring row"), ("jumping pull-ups", "jumping pull-up"), ("pull-ups", "pull-up")),
    "strict pull-up": (("ring rows", "ring row"), ("banded pull-ups", "banded pull-up")),
    "handstand push-up": (("pike push-ups", "pike push-up"), ("push-ups", "push-up")),
    "strict handstand push-up": (("pike push-ups", "pike push-up"), ("DB presses", "dumbbell press")),
    "toes to bar": (("hanging knee raises", "hanging knee raise"), ("V-ups", "v-up"), ("knee raises", "hanging knee raise"), ("sit-ups", "sit-up")),
    "double under": (("single unders", "single under"), ("singles", "single under"), ("SU", "single under"), ("jumping jacks", "jumping jack")),
    "box jump": (("step-ups", "step-up"), ("step ups", "step-up"), ("jump squats", "jump squat")),
    "push-up": (("knee push-ups", "knee push-up"), ("push-ups on knees", "knee push-up"), ("incline push-ups", "incline push-up")),
    "pistol": (("lunges", "lunge"), ("air squats", "air squat")),
    "wall walk": (("inchworms", "inchworm"),),
    "rope climb": (("ring rows", "ring row"), ("strict pull-ups", "strict pull-up")),
    "muscle-up": (("pull-ups", "pull-up"), ("C2B", "chest to bar pull-up")),
    "burpee": (("up-downs", "up-down"),),
}  # fmt: skip
BRACKETS = (
    "(sc: {x})", "(sc {x})", "(scaled: {x})", "(scaled {x})", "(home: {n} {x})", "({n} {x})", "(or {n} {x})", "(beginners: {x})", "(easier: {x})", "[or {x}]",
    "(home {n} {x})", "(sc. {x})", "(at home: {x})", "(scale: {x})", "(sub {n} {x})", "(or {x})", "(alternative: {x})", "(if needed: {x})", "(level 1: {x})", "(new people: {x})",
)  # fmt: skip
LINES = (
    "people at home do {n} {x} instead of {y}", "if you're at home do {n} {x} instead of {y}", "no {y}? {x}", "Can't do {y}? {n} {x}.", "beginners do {x} instead of {y}", "home: swap {y} for {n} {x}",
    "at home {n} {x} for the {y}", "Home people: {n} {x} instead of {y}", "If you are at home, {n} {x} for {y}.", "those without {y} yet: {x}", "Home version: {y} = {n} {x}", "home folks: {y} -> {x}",
    "the new people do {x} instead of {y}", "New here? {x} instead of {y}", "can't do {y}: {x}", "swap {y} for {x} if you need to", "if {y} hurt: {x}", "Anybody without {y}: {n} {x}.", "{y} too hard? {n} {x}",
    "Sub for {y}: {n} {x}", "scaling: {y} to {x}", "{x} if you don't have {y}", "{n} {x} if no {y}", "{n} {x} at home instead of {y}", "Scaled = {x} for {y}", "No kip? Scale {y} to {n} {x}", "beg: {n} {x} for {y}", "Newer folks: {x} instead of {y}", "home: {y} = {n} {x}", "home: {y} >> {n} {x}", "and if you are home do {n} {x} instead of {y}", "RX {y}, scaled {x}", "{y} scaled: {x}", "Home - {x} in place of {y}",
)  # fmt: skip
RUN = (
    "if it rains: {x}", "If it rains {x}", "rain? {x}", "if it's raining we swap the run for {x}", "In the rain: {x} instead of the run", "no running? {x}", "can't run? {x}", "no run: {x}",
    "if it rains we do {x} instead", "run not possible: {x}", "bad weather: {x}", "wet outside? {x}", "icy? {x}",
)  # fmt: skip
TWICE = (
    "no {y}? {x} x2", "no {y}: {x} x 2", "{y} = {x} x2", "scaled {x} x2", "No {y}? Times two {x}.", "{x} x2 for {y}", "No {y}: double the number of {x}", "Scaled: {x}, double the reps", "no {y} yet = 2x {x}",
)  # fmt: skip


def other_ways(hand: Hand, head: Head, kind: str, said: list[str], piece: dict[str, Any], moves: list[Move]) -> None:
    """Add what is done instead of one movement, in brackets behind it or on a line of its own."""
    if len(piece["movement"]) != len(moves) or any("options" in each for each in piece["movement"]):
        return
    if hand.chosen.get("language", "en") != "en" or any(move.instead for move in moves):
        return
    places = [
        place for place, move in enumerate(moves) if move.kind.name in USUAL and not move.load and not move.each_side
    ]
    runs = [place for place, move in enumerate(moves) if move.kind.name == "run"]
    draw = hand.rng.random()
    if runs and draw < 0.5:
        x, gold = hand.any(
            (
                ("row 250 m", {"name": "row", "first": 250, "measure": "m"}),
                ("15 cal bike", {"name": right("bike"), "first": 15, "measure": "cal"}),
                ("40 jumping jacks", {"name": "jumping jack", "first": 40}),
                ("500 m row", {"name": "row", "first": 500, "measure": "m"}),
            )
        )
        head.below.append(hand.pick("instead of a run", RUN).format(x=x))
        piece["movement"][runs[0]]["options"] = [gold]
        return
    if not places:
        return
    place = hand.any(places)
    move = moves[place]
    names = {each.kind.name for each in moves}
    found = [each for each in USUAL[move.kind.name] if each[1] not in names]
    if not found:
        return
    typed, name = hand.any(found)
    count = hand.any((8, 10, 12, 15, 20, 30, 40))
    if move.kind.name == "double under" and move.count and "single" in name and draw < 0.4:
        head.below.append(hand.pick("twice as many", TWICE).format(x=typed, y=move.typed))
        piece["movement"][place]["options"] = [{"name": right(name), "first": move.count * 2}]
        return
    if draw < 0.5:
        form = hand.pick("bracket option", BRACKETS)
        if head.scheme:
            form = form.replace("{n} ", "") if form != "({n} {x})" else "(or {x})"
        said[place] += " " + form.format(n=count, x=typed)
    else:
        form = hand.pick("instead line", LINES)
        head.below.append(form.format(n=count, x=typed, y=move.typed))
    option: dict[str, Any] = {"name": right(name)}
    if "{n}" in form:
        option["first"] = count
    piece["movement"][place]["options"] = [option]
