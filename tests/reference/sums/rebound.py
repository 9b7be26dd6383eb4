#!/usr/bin/python3
"""Rows of rebound.tsv: a damped bounce integrated with SciPy 1.10.1 solve_ivp; tops, and what was put in."""
import numpy
from scipy.integrate import solve_ivp

m, k, c = .42, 620, 3.1
top = lambda t, y: y[1]
top.direction = -1
run = solve_ivp(lambda t, y: [y[1], (-k * y[0] - c * y[1]) / m], (1e-9, 1.5), [.04, 0], events=top, rtol=1e-12,
                atol=1e-14)
tops = [.04] + [y[0] for t, y in zip(run.t_events[0], run.y_events[0]) if t > .01]
print("tops, mm", [repr(h * 1e3) for h in tops[:4]])
print("ratio", repr(c / 2 / numpy.sqrt(k * m)), "frequency", repr(numpy.sqrt(k / m) / 2 / numpy.pi))
times = [t for t in run.t_events[0] if t > .01]
print("period", repr(times[1] - times[0]))
