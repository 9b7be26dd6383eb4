#!/usr/bin/python3
"""Rows of torque.tsv of the kind computed: NumPy 1.24.2, the preload as the root of the combined stress by
SciPy 1.10.1 brentq."""
import numpy
from scipy.optimize import brentq

SIZES = {"M3": (3, .5, 4.57, 3.4), "M4": (4, .7, 5.88, 4.5), "M5": (5, .8, 6.88, 5.5), "M6": (6, 1, 8.88, 6.6)}
YIELD = {"8.8": 640, "10.9": 940, "12.9": 1100, "stainless-70": 450}
for size, (d, P, dw, dh) in SIZES.items():
    H = numpy.sqrt(3) / 2 * P
    d2, d3 = d - .75 * H, d - 17 / 12 * H
    d0 = (d2 + d3) / 2
    area = numpy.pi / 4 * d0 ** 2
    for grade, rp in YIELD.items():
        for mu in (.10, .12, .14):
            def stress(F):
                torque = F * d2 / 2 * (P / numpy.pi / d2 + 1.155 * mu)
                return numpy.hypot(F / area, numpy.sqrt(3) * torque / (numpy.pi * d0 ** 3 / 12)) - .9 * rp
            F = brentq(stress, 1, 1e5, xtol=1e-9)
            T = F * (.16 * P + .58 * d2 * mu + mu * (dw + dh) / 4) / 1e3
            print(size, grade, mu, "area %.6f preload %.4f torque %.6f" % (area, F, T))
