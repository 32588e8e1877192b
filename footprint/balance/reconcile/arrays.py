"""Linear algebra with the habits this package needs: ranks by pivots, scaling without rounding."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from scipy import linalg

Array = NDArray[np.float64]
Places = NDArray[np.intp]
Mask = NDArray[np.bool_]
RANK_TOLERANCE = 1e-10  # of the largest pivot: below it a balance depends on the others


def powers_of_two(sizes: Array) -> Array:
    """Return multipliers that bring sizes near 1 and change no digit of what they multiply.

    Args:
        sizes: lengths of rows or columns, none negative; 1 is returned for 0. [any]

    Source: common practice, no source; a power of two is exact in binary arithmetic
    """
    safe = np.where(sizes > 0, sizes, 1.0)
    found: Array = np.exp2(-np.round(np.log2(safe)))
    return found


def pivots(matrix: Array, tolerance: float = RANK_TOLERANCE) -> tuple[Places, int]:
    """Return an order of the columns, the most independent first, and the rank.

    Args:
        matrix: any matrix, columns of like size. [any]
        tolerance: smallest pivot that counts, as a share of the largest. [1]

    Source: Golub & Van Loan, Matrix Computations, QR with column pivoting (from memory)
    """
    if matrix.size == 0:
        return np.arange(matrix.shape[1]), 0
    triangle, order = linalg.qr(matrix, mode="r", pivoting=True)
    sizes = np.abs(np.diagonal(triangle))
    return np.asarray(order, dtype=np.intp), int(np.sum(sizes > tolerance * sizes[0]))


def first_independent(rows: Array) -> Places:
    """Return places of independent rows that span all, the earlier preferred to the later.

    Args:
        rows: rows near unit length. [any]

    Source: rank by QR with column pivoting; then Gram-Schmidt in the given order, done twice
        (Kahan, "twice is enough", as told by Parlett 1980; from memory)
    """
    order, rank = pivots(rows.T)
    if rank == rows.shape[0]:
        return np.arange(rank)
    kept: list[int] = []
    basis = np.zeros((0, rows.shape[1]))
    for place, row in enumerate(rows):
        rest = row - basis.T @ (basis @ row)
        rest = rest - basis.T @ (basis @ rest)
        length = np.linalg.norm(rest)
        if length > RANK_TOLERANCE and len(kept) < rank:
            kept.append(place)
            basis = np.vstack([basis, rest / length])
    return np.asarray(kept if len(kept) == rank else np.sort(order[:rank]), dtype=np.intp)


def solved(matrix: Array, right: Array) -> Array:
    """Return the solution of a square system, which may be empty.

    Args:
        matrix: square and regular. [any]
        right: right-hand sides, one a column. [any]

    Source: LU with partial pivoting, as in any textbook of linear algebra
    """
    if matrix.shape[0] == 0:
        return np.zeros((0, *right.shape[1:]))
    found: Array = linalg.solve(matrix, right)
    return found


def without_noise(sums: Array, terms: Array, share: float = RANK_TOLERANCE) -> Array:
    """Return sums with 0 for what is only the rounding left over by terms that cancel.

    Args:
        sums: sums of products. [any]
        terms: the same sums of the absolute values of the products. [any]
        share: what is rounding, as a share of the terms. [1]

    Source: common practice, no source
    """
    found: Array = np.where(np.abs(sums) <= share * terms, 0.0, sums)
    return found


def lengths(matrix: Array) -> Array:
    """Return the length of each row, right also where squares would overflow or vanish.

    Args:
        matrix: rows. [any]

    Source: the Euclidean norm
    """
    if matrix.shape[1] == 0:
        return np.zeros(matrix.shape[0])
    largest = np.max(np.abs(matrix), axis=1, keepdims=True)
    safe = np.where(largest > 0, largest, 1.0)
    found: Array = largest[:, 0] * np.linalg.norm(matrix / safe, axis=1)
    return found
