"""Turbulent skin friction of smooth surfaces, by the ITTC-57 line."""

from math import log

_LN10 = 2.302585092994046
_LOWEST = 1.0e4
"""Reynolds number below which the line is continued by its tangent; the line itself is singular at 100."""


def friction_coefficient(reynolds: float) -> float:
    """Friction coefficient [-] of one wetted side, C_f = 0.075 / (log10 Re - 2)^2.

    reynolds: speed x length / kinematic viscosity [-]. Drag = q x wetted area x C_f. Source: 8th
    International Towing Tank Conference, Madrid 1957 (a model-ship correlation line, so a few per cent
    above a flat plate at Re below 1e6). Validity: 1e5 to 1e10, surface turbulent from the leading edge;
    laminar runs at Re around 1e5 can have half of it. Below Re 1e4 the tangent in Re at 1e4 is followed
    (C1; 0.0269 at rest), below 0 the value at rest: a guard, of no physical meaning.
    """
    if reynolds > _LOWEST:
        x = log(reynolds) / _LN10 - 2.0
        return 0.075 / (x * x)
    re = reynolds
    if re < 0.0:
        re = 0.0
    # value 0.075/4 and slope -2 * 0.075 / (2^3 ln(10) Re) at Re = 1e4
    return 0.01875 - 0.01875 / _LN10 * (re / _LOWEST - 1.0)
