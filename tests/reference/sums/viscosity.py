#!/usr/bin/python3
"""Rows of viscosity.tsv of the kind computed: the line through two points by NumPy 1.24.2 linalg.solve."""
import numpy

x = numpy.log10(numpy.array([40, 100]) + 273.15)
y = numpy.log10(numpy.log10(numpy.array([32, 5.4]) + 0.7))
a, b = numpy.linalg.solve(numpy.column_stack([[1, 1], -x]), y)
print("a, b", repr(a), repr(b))
for t in (80, 20, 0):
    print(t, repr(10 ** 10 ** (a - b * numpy.log10(t + 273.15)) - 0.7))
