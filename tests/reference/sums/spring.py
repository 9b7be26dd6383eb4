#!/usr/bin/python3
"""Rows of spring.tsv: the deflection of the coil by Castigliano, integrated with SciPy 1.10.1 quad, and the
frequency as an eigenvalue by SciPy 1.10.1 linalg."""
import numpy
from scipy.integrate import quad
from scipy.linalg import eigh

d, D, n, G = 1.2e-3, 12.8e-3, 6, 81.5e9
polar = numpy.pi * d ** 4 / 32
twist = quad(lambda angle: (D / 2) ** 2 * (D / 2) / (G * polar), 0, 2 * numpy.pi * n)[0]
rate = 1 / twist
print("rate, N/mm", repr(rate / 1e3))
wheel = rate * .7 ** 2
print("frequency, Hz", repr(numpy.sqrt(eigh([[wheel]], [[.42]], eigvals_only=True)[0]) / (2 * numpy.pi)))
