#!/usr/bin/python3
"""Rows of fuel-mix.tsv: NumPy 1.24.2 linalg.solve; shares in first, second, oil, and 2 l."""
import numpy

print(2000 * numpy.linalg.solve([[.16, .30], [1, 1]], [.25, 1]))
print([repr(x) for x in 2000 * numpy.linalg.solve([[.16, .30, 0], [.12, .10, 1], [1, 1, 1]], [.20, .18, 1])])
