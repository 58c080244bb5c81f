"""The day's wind as a distribution: low, likely and high made into winds, the same every time.

Low is exceeded nine times in ten, likely every second time, high once in ten: straight lines between, and on
at the same slope beyond, down to a calm and up to twice the step from likely to high.
"""

from typing import NamedTuple

import numpy as np

from foilwright.measures import Floats

LOW_SHARE, HIGH_SHARE = 0.1, 0.9


class DayWind(NamedTuple):
    """Mean wind at 10 m over the day [m/s], and the strongest gust, where it is known."""

    low: float
    likely: float
    high: float
    gust: float | None = None


def wind_at(wind: DayWind, share: float) -> float:
    """The wind that this share of the day stays below [m/s]."""
    if share <= 0.5:
        slope = (wind.likely - wind.low) / (0.5 - LOW_SHARE)
    else:
        slope = (wind.high - wind.likely) / (HIGH_SHARE - 0.5)
    return max(wind.likely + slope * (share - 0.5), 0.0)


def share_below(wind: DayWind, at: float) -> float:
    """The share of the day with less wind than this, 0 to 1; a steady wind is below what it equals."""
    if at < wind.likely:
        slope = (wind.likely - wind.low) / (0.5 - LOW_SHARE)
        return max(0.5 - (wind.likely - at) / slope, 0.0) if slope > 0.0 else 0.0
    slope = (wind.high - wind.likely) / (HIGH_SHARE - 0.5)
    return min(0.5 + (at - wind.likely) / slope, 1.0) if slope > 0.0 else 1.0


def evenly(wind: DayWind, count: int) -> Floats:
    """As many winds [m/s], each standing for an equal share of the day: the middles of the shares."""
    return np.array([wind_at(wind, (i + 0.5) / count) for i in range(count)])
