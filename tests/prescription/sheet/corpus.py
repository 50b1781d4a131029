"""Sheets to read and to damage: a whole wave, a home session in messages' typing, and a sheet of slips. All invented."""

from __future__ import annotations

WAVE = """\
Title: Millrace
Date: 2026-11-30
-- for the Tuesday group
Note: three weeks, one test

Week 1, day 1: Front squat
Warm-up: 500 m easy row, then
2 rounds of 10 air squats and 10 scapular pulls

Front squat, barbell, % of 3RM, rest 3:00
1 x 4 @ 72 %
1 x 4 @ 77 %
3 x 4 @ 82 % (stay tall)
or dumbbells, twice the repetitions
or goblet squat, kettlebell: 3 x 12 @ RPE 8
Note: elbows high

A1. Press, barbell, % of 5RM
3 x 5 @ 75 %, rest 90 s
A2. Pull-up, body
3 x 5 @ 2 in reserve, tempo 31X0

Power clean + front squat + push jerk, barbell, % of 1RM push jerk
5 x 1 + 2 + 1 @ 70 %

Piece: Lantern ladder
as many reps as possible in 12:00, 3 up by 3
kettlebell swing, 16 kg kettlebell, to eye height
box step-over, 50 cm high
hand-release push-up
or push-up from the knees
Note: breathe

Cool-down: walk, 5 minutes

Week 2
Front squat, barbell, % of 3RM
1 x 5+ @ 85 %
find a 3RM in 20 min

Week 3, day 2: Test
Piece: Mill wheel
4 rounds for time, cap 14:00
200 m run
12 wall ball shot, 6 kg ball, to 300 cm
"""

HOME = """\
On 30 November 2026: kitchen floor
Warm up: anything for 5 minutes

• Front squat, two dumbbells, each side: 3 x 8–12 @ RPE 7, rest 90 s; 1 x 12+ @ 2 in reserve (slow down)
• or goblet squat, one kettlebell: 4 x 15
superset with Push-up, body weight, tempo 3110
3 × 10
or ring row, other, the same reps

Piece: Stair well
EMOM 12 min, in turn, lowest counts
0:30 plank, elbows
12 cal row
5 lunge, each side, 2 x 12,5 kg dumbbells
or 10 air squat
On 2 Dec 2026
Deadlift, barbell
5 x 3 @ 140 lbs then 1 x 3+ @ 80 % of the 5RM trap bar deadlift
Piece: Long way round
as far as possible in 20 min, outdoors
run
"""
SLIPS = """\
Titel: Foo
Date: 12/01/2026
# Week 1
Front squat, barbel, % of 3RM
3x5@80
3/5/80%
3 x 5+ @ 85 %
Bench press barbell
Piece: Mill
21-15-9 for time, cap 9
10 swing + 10 push-up
Warm-up:
"""
CORPUS = (WAVE, HOME, SLIPS)
