"""Type words of the house: what an array of numbers is called in signatures."""

from typing import Any

import numpy as np

# As numpy.typing spells them; loading that module costs a command 20 ms.
Floats = np.ndarray[tuple[Any, ...], np.dtype[np.float64]]
"""An array of float64; its shape and units stand in the docstring of whoever takes it."""

Ints = np.ndarray[tuple[Any, ...], np.dtype[np.int64]]
"""An array of int64, for indices and codes."""

Bools = np.ndarray[tuple[Any, ...], np.dtype[np.bool_]]
"""An array of yes and no."""
