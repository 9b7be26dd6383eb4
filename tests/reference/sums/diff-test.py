#!/usr/bin/python3
"""Rows of diff-test.tsv: SciPy 1.10.1, linregress for the line, solve_ivp for the lever."""
import numpy
from scipy.integrate import solve_ivp
from scipy.stats import linregress

g = 9.80665
mass, time = numpy.array([.05, .1, .2]), numpy.array([6.2, 2.9, 1.4])
fit = linregress(1 / time, mass * g * .042)
print("thread", repr(fit.slope), repr(fit.slope / 4), repr(fit.intercept))

# A lever of 50 mm with 40 g sinks from 30 degrees above to 30 below, against 0.03 N.m.s: how long?
damping, half = .03, numpy.radians(30)
end = lambda t, y: y[0] + half
end.terminal = True
done = solve_ivp(lambda t, y: [-.04 * g * .05 * numpy.cos(y[0]) / damping], (0, 100), [half], events=end,
                 rtol=1e-12, atol=1e-14)
print("lever", repr(done.t_events[0][0]), repr(damping * 2 * numpy.pi))
