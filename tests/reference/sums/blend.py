#!/usr/bin/python3
"""Rows of blend.tsv: NumPy 1.24.2, the rules written out, the shares by SciPy 1.10.1 brentq."""
import numpy
from scipy.optimize import brentq

ASTM = (lambda v: numpy.log10(numpy.log10(v + 0.7)), lambda h: 10 ** 10 ** h - 0.7)
LOG = (numpy.log, numpy.exp)


def blend(rule, first, second, share):
    there, back = rule
    return back(numpy.interp(share, [0, 1], [there(first), there(second)]))


for first, second, share in [(100, 1000, .5), (100, 1000, .75), (100, 1000, .25), (350, 500, .5),
                             (10000, 60000, .6), (30, 60, .5)]:
    print(first, second, share, repr(blend(LOG, first, second, share)), repr(blend(ASTM, first, second, share)))
print(repr(brentq(lambda x: blend(LOG, 5000, 10000, x) - 7000, 0, 1, xtol=1e-14)),
      repr(brentq(lambda x: blend(ASTM, 5000, 10000, x) - 7000, 0, 1, xtol=1e-14)))
