"""Movements of the trade: their full name, how they are typed, what they are counted in, and what is usually lifted."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path


@dataclass(frozen=True)
class Kind:
    """A movement: `load` is bar, dumbbells, dumbbell, kettlebell, ball or nothing; `measure` is reps, cal, m or s."""

    name: str
    typed: tuple[str, ...]
    measure: str = "reps"
    load: str = ""


def _kinds(rows: str) -> tuple[Kind, ...]:
    found = []
    for row in rows.strip().splitlines():
        name, measure, load, typed = (part.strip() for part in row.split("|"))
        found.append(Kind(name, tuple(each.strip() for each in typed.split(",")), measure, load))
    return tuple(found)


def short_names() -> list[tuple[str, str]]:
    """Read the short and odd ways in which movements are typed, each with its full name."""
    text = (Path(__file__).parents[2] / "short_names.txt").read_text(encoding="utf-8")
    rows = [line.split("|") for line in text.splitlines() if "|" in line]
    return [(typed.strip(), name.strip()) for typed, name in rows]


KINDS = _kinds("""
thruster | reps | bar | thrusters, thruster, Thrusters
power clean | reps | bar | power cleans, power clean, PC, pwr cleans
hang power clean | reps | bar | hang power cleans, HPC, hang pwr cleans
hang clean | reps | bar | hang cleans, hang clean
clean and jerk | reps | bar | clean & jerks, C&J, clean and jerks, clean + jerk, clean & jerk
deadlift | reps | bar | deadlifts, deadlift, DL, dead lifts
power snatch | reps | bar | power snatches, power snatch, pwr snatch
overhead squat | reps | bar | overhead squats, OHS, OH squats
front squat | reps | bar | front squats, front squat, FS
push press | reps | bar | push presses, push press, push-press
push jerk | reps | bar | push jerks, push jerk
shoulder to overhead | reps | bar | shoulder to overhead, S2OH, STOH, S2O, shoulder-to-overhead
ground to overhead | reps | bar | ground to overhead, G2OH, GTO
sumo deadlift high pull | reps | bar | sumo deadlift high pulls, SDHP
hang power snatch | reps | bar | hang power snatches, hang power snatch
squat clean | reps | bar | squat cleans, squat clean
bent over row | reps | bar | bent over rows, barbell rows, bent-over rows
cluster | reps | bar | clusters
front rack lunge | reps | bar | front rack lunges, FR lunges
kettlebell swing | reps | kettlebell | KB swings, kettlebell swings, KBS, kb swing, swings, Russian KB swings
goblet squat | reps | kettlebell | goblet squats, goblet squat
kettlebell snatch | reps | kettlebell | KB snatches, kettlebell snatches
dumbbell snatch | reps | dumbbell | DB snatches, DB snatch, dumbbell snatches, alt DB snatch, alternating DB snatches
dumbbell thruster | reps | dumbbells | DB thrusters, dumbbell thrusters
dumbbell push press | reps | dumbbells | DB push press, dumbbell push presses
dumbbell hang clean and jerk | reps | dumbbells | DB hang clean & jerk, DB hang clean and jerks
devil press | reps | dumbbells | devil press, devils press, devil presses
renegade row | reps | dumbbells | renegade rows
wall ball | reps | ball | wall balls, wall ball, WB, wallballs, wall-balls, wall ball shots
medicine ball clean | reps | ball | med ball cleans, medball cleans
pull-up | reps | | pull-ups, pull ups, pullups, pull up
strict pull-up | reps | | strict pull-ups, strict pull ups, strict pullups
chest to bar pull-up | reps | | chest to bar, C2B, CTB, chest-to-bar pull-ups, C2B pull-ups
chin-up | reps | | chin-ups, chin ups, chins
toes to bar | reps | | toes to bar, T2B, TTB, toes-to-bar
knees to elbow | reps | | knees to elbows, K2E
hanging knee raise | reps | | hanging knee raises, knee raises
bar muscle-up | reps | | bar muscle-ups, BMU, bar MU
ring muscle-up | reps | | ring muscle-ups, RMU, ring MU
muscle-up | reps | | muscle-ups, muscle ups, MU
ring dip | reps | | ring dips
dip | reps | | dips, bar dips
ring row | reps | | ring rows, ring row
handstand push-up | reps | | handstand push-ups, HSPU, HSPUs, handstand push ups
strict handstand push-up | reps | | strict HSPU, strict handstand push-ups
push-up | reps | | push-ups, push ups, pushups, press-ups, press ups
hand-release push-up | reps | | hand-release push-ups, HR push-ups, hand release push ups
burpee | reps | | burpees, Burpees
bar facing burpee | reps | | bar facing burpees, bar-facing burpees, BFB
burpee over bar | reps | | burpees over the bar, burpees over bar, burpee over bar
lateral burpee | reps | | lateral burpees, lateral burpees over the bar
burpee box jump over | reps | | burpee box jump overs, BBJO, burpee box jump-overs
burpee pull-up | reps | | burpee pull-ups
burpee broad jump | reps | | burpee broad jumps
box jump | reps | | box jumps, box jump, BJ
box jump over | reps | | box jump overs, BJO, box jump-overs
box step-up | reps | | box step-ups, box step ups
box step-over | reps | | box step-overs, box step overs
air squat | reps | | air squats, squats, air squat
jump squat | reps | | jump squats, jumping squats
pistol | reps | | pistols, pistol squats
lunge | reps | | lunges
walking lunge | reps | | walking lunges, walking lunge
jumping lunge | reps | | jumping lunges
sit-up | reps | | sit-ups, sit ups, situps, abmat sit-ups
ghd sit-up | reps | | GHD sit-ups, GHD situps, GHDs
v-up | reps | | V-ups, v ups
hollow rock | reps | | hollow rocks
russian twist | reps | | russian twists, Russian twists
mountain climber | reps | | mountain climbers
double under | reps | | double unders, DU, DUs, double-unders, dubs
single under | reps | | single unders, singles, single-unders
rope climb | reps | | rope climbs, rope climb
wall walk | reps | | wall walks, wall walk
jumping jack | reps | | jumping jacks
broad jump | reps | | broad jumps
inchworm | reps | | inchworms
dead bug | reps | | dead bugs
plank | s | | plank, plank hold
hollow hold | s | | hollow hold, hollow body hold
wall sit | s | | wall sit
l-sit | s | | L-sit
dead hang | s | | dead hang, bar hang
handstand walk | m | | handstand walk, HS walk
bear crawl | m | | bear crawl
farmers carry | m | kettlebells | farmers carry, farmer's carry, farmers walk
sled push | m | | sled push
row | m | | row, Row, rowing
run | m | | run, Run, running
ski | m | | ski, ski erg, SkiErg
row | cal | | row, rower, Row
bike | cal | | bike, air bike, assault bike, bike erg, echo bike
ski | cal | | ski, ski erg
""")
KINDS = tuple(
    replace(kind, typed=(*kind.typed, *(typed for typed, name in short_names() if name == kind.name)))
    if kind.measure == "reps"
    else kind
    for kind in KINDS
)
FOREIGN = {
    "de": _kinds("""
push-up | reps | | Liegestütze
pull-up | reps | | Klimmzüge
air squat | reps | | Kniebeugen
lunge | reps | | Ausfallschritte
deadlift | reps | bar | Kreuzheben
row | m | | Rudern
run | m | | Laufen, Lauf
jumping jack | reps | | Hampelmänner
burpee | reps | | Burpees
"""),
    "fr": _kinds("""
push-up | reps | | pompes
pull-up | reps | | tractions
lunge | reps | | fentes
deadlift | reps | bar | soulevé de terre
row | cal | | rameur
row | m | | rameur, rame
run | m | | course
air squat | reps | | air squats
plank | s | | gainage
walking lunge | reps | | fentes marchées
bike | cal | | vélo
"""),
    "es": _kinds("""
push-up | reps | | flexiones
pull-up | reps | | dominadas
air squat | reps | | sentadillas
lunge | reps | | zancadas
deadlift | reps | bar | peso muerto
row | m | | remo
row | cal | | remo
run | m | | carrera
plank | s | | plancha
bike | cal | | bici
sit-up | reps | | abdominales
"""),
}
ALSO = {
    "plank": ["plank", "plank hold"],
    "dead hang": ["dead hang", "hang", "bar hang"],
    "hollow hold": ["hollow hold", "hollow body hold"],
    "farmers carry": ["farmers carry", "farmers walk", "farmer carry", "farmer's carry"],
    "single under": ["single under", "single"],
    "dumbbell snatch": ["dumbbell snatch", "alternating dumbbell snatch"],
    "kettlebell swing": ["kettlebell swing", "swing", "russian kettlebell swing"],
    "burpee over bar": ["burpee over bar", "burpee over the bar"],
    "lateral burpee": ["lateral burpee", "lateral burpee over bar", "lateral burpee over the bar"],
    "wall ball": ["wall ball", "wall ball shot"],
    "bent over row": ["bent over row", "barbell row"],
    "ski": ["ski", "ski erg"],
    "bike": ["bike", "air bike", "bike erg", "assault bike", "echo bike"],
    "pistol": ["pistol", "pistol squat"],
    "jump squat": ["jump squat", "jumping squat"],
    "sit-up": ["sit-up", "abmat sit-up"],
    "air squat": ["air squat", "squat"],
    "hang clean": ["hang clean"],
    "cluster": ["cluster", "squat clean thruster"],
    "dip": ["dip", "bar dip"],
}  # fmt: skip


def right(name: str) -> object:
    """Return what may be read for a name."""
    return {"any": ALSO[name]} if name in ALSO else name
