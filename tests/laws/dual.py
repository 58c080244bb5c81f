"""Dual numbers: a value with its derivative, carried through the plain text of the physics.

The referee for every derivative: exact to rounding, with no step to choose. Only tests use it.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import numpy as np

from foilwright.compiled import rebuilt


class Dual:
    """A value and its derivative with respect to one number; comparisons look at the value."""

    __slots__ = ("slope", "value")

    def __init__(self, value: float, slope: float = 0.0) -> None:
        self.value = value
        self.slope = slope

    def __add__(self, other: Any) -> Dual:
        return Dual(self.value + value_of(other), self.slope + slope_of(other))

    __radd__ = __add__

    def __sub__(self, other: Any) -> Dual:
        return Dual(self.value - value_of(other), self.slope - slope_of(other))

    def __rsub__(self, other: Any) -> Dual:
        return Dual(value_of(other) - self.value, slope_of(other) - self.slope)

    def __mul__(self, other: Any) -> Dual:
        b = value_of(other)
        return Dual(self.value * b, self.slope * b + self.value * slope_of(other))

    __rmul__ = __mul__

    def __truediv__(self, other: Any) -> Dual:
        b = value_of(other)
        return Dual(self.value / b, (self.slope - self.value / b * slope_of(other)) / b)

    def __rtruediv__(self, other: Any) -> Dual:
        return Dual(value_of(other), slope_of(other)) / self

    def __pow__(self, power: float) -> Dual:
        return Dual(self.value**power, power * self.value ** (power - 1.0) * self.slope)

    def __neg__(self) -> Dual:
        return Dual(-self.value, -self.slope)

    def __lt__(self, other: Any) -> bool:
        return self.value < value_of(other)

    def __le__(self, other: Any) -> bool:
        return self.value <= value_of(other)

    def __gt__(self, other: Any) -> bool:
        return self.value > value_of(other)

    def __ge__(self, other: Any) -> bool:
        return self.value >= value_of(other)

    def __eq__(self, other: object) -> bool:
        return bool(self.value == value_of(other))

    def __ne__(self, other: object) -> bool:
        return bool(self.value != value_of(other))

    __hash__ = None  # type: ignore[assignment]


def value_of(x: Any) -> float:
    return x.value if isinstance(x, Dual) else x


def slope_of(x: Any) -> float:
    return x.slope if isinstance(x, Dual) else 0.0


def lifted(function: Callable[[float], float], derivative: Callable[[float], float]) -> Callable[[Any], Any]:
    """A function of `math` that takes dual numbers too."""

    def of(x: Any) -> Any:
        if not isinstance(x, Dual):
            return function(x)
        return Dual(function(x.value), derivative(x.value) * x.slope)

    return of


def dual_atan2(y: Any, x: Any) -> Any:
    if not isinstance(y, Dual) and not isinstance(x, Dual):
        return math.atan2(y, x)
    a, b = value_of(y), value_of(x)
    return Dual(math.atan2(a, b), (b * slope_of(y) - a * slope_of(x)) / (a * a + b * b))


SWAPS: dict[Any, Any] = {
    math.sin: lifted(math.sin, math.cos),
    math.cos: lifted(math.cos, lambda x: -math.sin(x)),
    math.tan: lifted(math.tan, lambda x: 1.0 + math.tan(x) ** 2),
    math.asin: lifted(math.asin, lambda x: 1.0 / math.sqrt(1.0 - x * x)),
    math.acos: lifted(math.acos, lambda x: -1.0 / math.sqrt(1.0 - x * x)),
    math.atan: lifted(math.atan, lambda x: 1.0 / (1.0 + x * x)),
    math.atan2: dual_atan2,
    math.sqrt: lifted(math.sqrt, lambda x: 0.5 / math.sqrt(x)),
    math.exp: lifted(math.exp, math.exp),
    math.log: lifted(math.log, lambda x: 1.0 / x),
    math.tanh: lifted(math.tanh, lambda x: 1.0 - math.tanh(x) ** 2),
    math.fabs: lifted(math.fabs, lambda x: math.copysign(1.0, x)),
    math.floor: lambda x: math.floor(value_of(x)),
}


def for_duals(function: Any, done: dict[Any, Any]) -> Any:
    """A copy of a kernel, and of all below it, that takes dual numbers; `done` is shared between copies."""
    return rebuilt(function, lambda copy: copy, SWAPS, done)


def dual_array(shape: tuple[int, ...] | int) -> Any:
    """Scratch that can hold dual numbers."""
    scratch = np.empty(shape, dtype=object)
    scratch.fill(0.0)
    return scratch
