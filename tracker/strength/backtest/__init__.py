"""Judging the estimator on invented athletes whose true level is known: `python -m tracker.strength.backtest`."""
