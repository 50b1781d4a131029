"""Sets of a plan, foretold weeks ahead on invented athletes, go as they were said to: a small sample of the command's table."""

from __future__ import annotations

import numpy as np

from tracker.study.planned import planned, rows


def test_what_is_foretold_of_a_plan_happens_as_often():
    """Few athletes, so wide bounds; the command's table has the figures. The chance holds slips that these athletes don't make."""
    found = planned(22, 4417)
    told, made = np.array([each.foretold for each in found]), np.array([each.made for each in found])
    athletes = len({each.athlete for each in found})
    assert athletes >= 18
    assert abs(made.mean() - told.mean()) < 0.06
    assert made[told >= 0.9].mean() > 0.9
    assert made[told < 0.4].mean() < 0.6 < told[told >= 0.4].mean()
    assert max(each.ahead for each in found) > 49
    table = list(rows(found))
    assert table[1].startswith("all")
    assert f"{len(found):>7}{athletes:>9}" in table[1]
