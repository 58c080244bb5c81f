"""Linear equations of a few unknowns, in place. A kernel."""

from math import fabs

from foilwright.measures import Floats


def eliminate(a: Floats, n: int, columns: int) -> float:
    """Solves n equations for several right-hand sides, Gauss with row exchange; returns the determinant.

    a [n, n + columns] holds the matrix and beside it the right-hand sides, which become the answers. Where
    the matrix is singular the determinant is 0 and the answers mean nothing.
    """
    determinant = 1.0
    for k in range(n):
        best = k
        for i in range(k + 1, n):
            if fabs(a[i, k]) > fabs(a[best, k]):
                best = i
        if best != k:
            determinant = -determinant
            for j in range(k, n + columns):
                kept = a[k, j]
                a[k, j] = a[best, j]
                a[best, j] = kept
        pivot = a[k, k]
        determinant = determinant * pivot
        if pivot * pivot < 1e-60:
            return 0.0
        for i in range(k + 1, n):
            factor = a[i, k] / pivot
            if factor != 0.0:
                for j in range(k + 1, n + columns):
                    a[i, j] = a[i, j] - factor * a[k, j]
    for c in range(n, n + columns):
        for i in range(n - 1, -1, -1):
            total = a[i, c]
            for j in range(i + 1, n):
                total = total - a[i, j] * a[j, c]
            a[i, c] = total / a[i, i]
    return determinant
