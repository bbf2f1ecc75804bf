"""Volume and balance of the series: sets by muscle and week, pairs, minutes by intensity, progress."""

from sitegen.pages.balance.facts import POINTS, TRAINING, points_fact, training_fact
from sitegen.pages.balance.pages import balance_pages

__all__ = ["POINTS", "TRAINING", "balance_pages", "points_fact", "training_fact"]
