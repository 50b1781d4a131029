"""Which movement of a piece something is usually done in place of: a ring row is a pull-up's, singles are double unders'. Common practice."""

from __future__ import annotations

import re

from tracker.prescription.sheet.piece import Movement

_ENGINE = r"(?:run|row|ski|bike|swim|air bike|shuttle run|any machine|machine)"
# What is done, and what it may be done in place of: the first that the piece has
_TABLE: tuple[tuple[str, tuple[str, ...]], ...] = (
    (r"single under|line hop|plate hop|penguin jump|dub attempt", ("double under", "jump rope", _ENGINE)),
    (r"jumping jack|jump rope|high knees|fast feet|march on the spot", (r"double under", "row|bike|ski|air bike", "jump rope", _ENGINE)),
    (r"(?:ring|band|banded|table|towel|body|inverted|backpack|bent over|dumbbell|single arm dumbbell|one arm|chair)(?: \w+)? row|jumping pull-up|banded pull-up|assisted pull-up|jumping chest to bar pull-up|lat pulldown|banded lat pull-down|band pull-apart|kipping pull-up|strict pull-up|chin-up|pull-up|negative pull-up",
     (r"(?:\w+ )*(?:pull-up|chin-up)", r"(?:\w+ )*muscle-up", "rope climb", "toes to bar", "ring row", "bent over row", "row")),
    (r"chest to bar pull-up|low ring transition|ring transition|jumping muscle-up", (r"(?:\w+ )*muscle-up", "rope climb", "pull-up")),
    (r"pike push-up|box handstand push-up|seated dumbbell press|dumbbell (?:strict |shoulder )?press|piked? (?:handstand )?push-up|wall walk|wall climb",
     (r"(?:\w+ )*handstand push-up", "handstand walk", "wall walk", r"(?:\w+ )*push press", r"(?:\w+ )*push-up")),
    (r"(?:(?:single |two |double )?(?:arm )?(?:dumbbell|kettlebell) )?(?:push press|push jerk|shoulder to overhead|overhead press|shoulder press)", ("shoulder to overhead", "push jerk", "push press", r"(?:\w+ )*jerk", "ground to overhead")),
    (r"hanging knee raise|hanging leg raise|knees to elbow|v-up|tuck-up|sit-up|knee raise|knee tuck|lying leg raise|leg raise",
     ("toes to bar", "knees to elbow", "ghd sit-up", "v-up", "hanging knee raise", "l-sit", "sit-up")),
    (r"dumbbell hop over|(?:box |stair |chair |bench )?step-(?:up|over)|jump squat|broad jump|tuck jump|stair climb step-up|chair step-up", (r"(?:burpee )?box jump over", r"(?:\w+ )*box jump", r"box step-over", r"box step-up", "step-up", "burpee box jump over")),
    (r"(?:\w+ )?lunge|split squat|(?:\w+ )?step-up|air squat|assisted pistol|pistol to box|box pistol", ("pistol", r"(?:\w+ )*lunge", r"(?:\w+ )*squat", "wall ball")),
    (r"(?:knee|incline|wall|bench|box|elevated) push-up", (r"(?:hand-release |ring |deficit )?push-up", r"(?:\w+ )*handstand push-up", "dip", "ring dip")),
    (r"push-up|bench dip|box dip|banded dip|close grip push-up", (r"(?:ring |bar |weighted )?dip", r"(?:\w+ )*handstand push-up", "bench press", r"(?:\w+ )*push-up", "wall walk")),
    (r"inchworm", ("wall walk", "wall climb", "handstand walk")),
    (r"up-down|sprawl|squat thrust", (r"(?:\w+ )*burpee(?: .*)?",)),
    (r"dumbbell swing|single dumbbell swing|backpack swing|(?:sumo |dumbbell |backpack )?deadlift", ("kettlebell swing", r"(?:\w+ )*deadlift")),
    (r"(?:dumbbell|kettlebell|backpack|goblet|single arm dumbbell) (?:thruster|squat)|thruster", ("thruster", "wall ball", r"(?:\w+ )*squat", "cluster")),
    (r"stair climb|hill sprint|walk|shuttle run|run|sprint", ("run", _ENGINE)),
    (r"row|ski|bike|air bike|swim", ("run", _ENGINE)),
)  # fmt: skip
_RULES = tuple(
    (re.compile(rf"(?:{name})$"), tuple(re.compile(rf"(?:{each})$") for each in mains)) for name, mains in _TABLE
)


def usually_for(option: Movement, moves: list[Movement]) -> int | None:
    """Return the place of the movement that this is usually done in place of; None where the table says nothing."""
    for name, mains in _RULES:
        if not name.match(option.name):
            continue
        for main in mains:
            for place, move in enumerate(moves):
                if main.match(move.name) and move.name != option.name:
                    return place
    return None
