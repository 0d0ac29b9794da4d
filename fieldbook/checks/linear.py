"""Small systems of linear equations: a dozen unknowns at most, for which no library of matrices is needed."""

from __future__ import annotations

from collections.abc import Sequence

from ..errors import UnsuitableShape

Matrix = Sequence[Sequence[float]]


def solved(matrix: Matrix, right: Matrix) -> list[list[float]]:
    """The unknowns of a square system, one column for each column on the right.

    matrix   rows of coefficients, without unit
    right    rows of what they come to, as many as the matrix has
    returns  rows of the unknowns

    Source: Gaussian elimination with partial pivoting, Golub and Van Loan, Matrix Computations (4th ed. 2013), 3.4.
    Raises UnsuitableShape where the rows say too little: a pivot is nothing beside the largest coefficient.

    >>> solved([[2, 1], [1, 3]], [[5], [10]])
    [[1.0], [3.0]]
    """
    size = len(matrix)
    rows = [[float(entry) for entry in (*left, *of)] for left, of in zip(matrix, right, strict=True)]
    least = 1e-14 * max((abs(entry) for row in matrix for entry in row), default=0.0)
    for place in range(size):
        best = max(range(place, size), key=lambda other: abs(rows[other][place]))
        if not abs(rows[best][place]) > least:
            raise UnsuitableShape("The equations do not settle the unknowns.", "Give more, or others.", field="marks")
        rows[place], rows[best] = rows[best], rows[place]
        pivot = rows[place]
        for row in rows[place + 1 :]:
            share = row[place] / pivot[place]
            row[place:] = [entry - share * above for entry, above in zip(row[place:], pivot[place:], strict=True)]
    for place in reversed(range(size)):
        row = rows[place]
        for column in range(size, len(row)):
            known = sum(row[other] * rows[other][column] for other in range(place + 1, size))
            row[column] = (row[column] - known) / row[place]
    return [row[size:] for row in rows]


def least_squares(rows: Matrix, right: Matrix) -> tuple[list[list[float]], list[list[float]]]:
    """The unknowns that miss a system of more equations than unknowns by the least sum of squares.

    rows     coefficients of each equation, each divided by its standard error, without unit
    right    rows of what they come to, divided likewise
    returns  rows of the unknowns, and their covariance

    Source: normal equations, Golub and Van Loan, Matrix Computations (4th ed. 2013), 5.3.
    Raises UnsuitableShape where the equations do not settle the unknowns.

    >>> least_squares([[1], [1]], [[2], [4]])
    ([[3.0]], [[0.5]])
    """
    size = len(rows[0])
    normal = [[sum(row[i] * row[j] for row in rows) for j in range(size)] for i in range(size)]
    turned = [
        [sum(row[i] * of[column] for row, of in zip(rows, right, strict=True)) for column in range(len(right[0]))]
        for i in range(size)
    ]
    whole = [[*of, *(float(i == j) for j in range(size))] for i, of in enumerate(turned)]
    found = solved(normal, whole)
    columns = len(right[0])
    return [row[:columns] for row in found], [row[columns:] for row in found]
