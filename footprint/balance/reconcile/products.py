"""Balances of products, as flow times content of carbon."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from footprint.balance.reconcile.arrays import Array
from footprint.balance.reconcile.nonlinear import Equations


@dataclass(frozen=True, slots=True)
class Term:
    """Coefficient times one variable, or times the product of two.

    Variables are counted through: first the measured, then the unmeasured.

    Attributes:
        balance: place of the balance. [1]
        coefficient: what it is multiplied by, in = +, out = -. [any]
        first: place of a variable. [1]
        second: place of the other; none if the term is linear. [1]
    """

    balance: int
    coefficient: float
    first: int
    second: int | None = None


def equations_of(terms: Sequence[Term], right: Array) -> Equations:
    """Return balances that are sums of terms.

    Args:
        terms: of all balances. [terms]
        right: right side of the balances, shape (m,). [any]

    Source: bilinear balances, Crowe, AIChE J. 32:616 (1986) (first page seen)
    """
    sides = np.asarray(right, dtype=float)

    def miss(measured: Array, unmeasured: Array) -> Array:
        values = np.concatenate([measured, unmeasured])
        found = -sides
        for one in terms:
            other = 1.0 if one.second is None else values[one.second]
            found[one.balance] += one.coefficient * values[one.first] * other
        return found

    def slopes(measured: Array, unmeasured: Array) -> tuple[Array, Array]:
        values = np.concatenate([measured, unmeasured])
        table = np.zeros((sides.size, values.size))
        for one in terms:
            other = 1.0 if one.second is None else values[one.second]
            table[one.balance, one.first] += one.coefficient * other
            if one.second is not None:
                table[one.balance, one.second] += one.coefficient * values[one.first]
        return table[:, : measured.size], table[:, measured.size :]

    return Equations(miss, slopes)


def split_adjustment(
    values: tuple[Array, Array], sigmas: tuple[Array, Array], adjustment: Array
) -> tuple[Array, Array]:
    """Return how the adjustment of a product falls on its two parts, to first order.

    Args:
        values: measured values of the parts, such as flow and content. [any]
        sigmas: their standard uncertainties, independent of each other. [as the values]
        adjustment: of the product, measured less adjusted. [product of the values]

    Source: Simpson, Voller & Everett (1991); Crowe (1986) (both from memory)
    """
    first, second = (sigmas[0] * values[1]) ** 2, (sigmas[1] * values[0]) ** 2
    whole = np.where(first + second > 0, first + second, 1.0)
    return (
        sigmas[0] ** 2 * values[1] / whole * adjustment,
        sigmas[1] ** 2 * values[0] / whole * adjustment,
    )
