"""Type words of the house: what an array of numbers is called in signatures."""

import numpy as np
import numpy.typing as npt

Floats = npt.NDArray[np.float64]
"""An array of float64; its shape and units stand in the docstring of whoever takes it."""

Ints = npt.NDArray[np.int64]
"""An array of int64, for indices and codes."""
