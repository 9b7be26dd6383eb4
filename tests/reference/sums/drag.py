# The computed rows of drag.tsv.  Debian 12: Python 3.11, SciPy 1.10.1, NumPy 1.24.2.
# Prints; the tests do not run it.
import numpy as np
from scipy.integrate import odeint
from scipy.optimize import brentq, least_squares
from scipy.stats import ttest_ind

# A rotor: J 2.5e-6 kg m2, dry 4e-5 N m, viscous 6e-8 N m s, 1200 rad/s; a tap every 150 turns.
J, Tc, b, w0 = 2.5e-6, 4e-5, 6e-8, 1200.0
def angle(t, w0, d, beta):
    return (w0 + d / beta) * -np.expm1(-beta * t) / beta - d / beta * t
taps = [brentq(lambda t: angle(t, w0, Tc / J, b / J) - 2 * np.pi * 150 * i, 0, 42.9, xtol=1e-14) for i in range(21)]
print("exact taps", ", ".join("%.10f s" % t for t in taps))
print("stop", J / b * np.log1p(w0 * b / Tc), "start rpm", w0 * 60 / 2 / np.pi)

# By hand, rounded to hundredths with a hand's scatter: least squares of the times themselves.
noise = np.random.default_rng(3).normal(0, 0.03, 21)
hand = np.round(np.array(taps) + 0.5 + noise - noise[0], 2)
print("hand taps", ", ".join("%.2f s" % t for t in hand))
marks = 2 * np.pi * 150 * np.arange(21)
def times(p):
    t0, w, d, beta = p
    out = []
    for m in marks:
        f = lambda t: angle(t, w, d, beta) - m
        top = np.log1p(w * beta / d) / beta
        out.append(brentq(f, -5, top, xtol=1e-13) + t0)
    return np.array(out)
x = np.array([0.5, w0, Tc / J, b / J])
fit = least_squares(lambda p: times(p * x) - hand, np.ones(4), xtol=1e-14, ftol=1e-14, gtol=1e-14)
p = fit.x * x
cov = np.linalg.inv(fit.jac.T @ fit.jac) * 2 * fit.cost / (21 - 4)
print("hand fit dry rpm/s", p[2] * 60 / 2 / np.pi, "rate", p[3], "time constant", 1 / p[3],
      "scatter ms", 1e3 * np.sqrt(2 * fit.cost / 17), "relative errors", np.sqrt(np.diag(cov)))

# Road load: 1.664 kg in motion, A 0.8, B 0.02, C 0.0045, from 15 m/s.
m = 1.664
t = np.arange(10.0)
both = odeint(lambda y, t: [y[1], -(0.8 + 0.02 * y[1] + 0.0045 * y[1] ** 2) / m], [0, 15], t, rtol=1e-13, atol=1e-13)
print("road speeds", ", ".join("%d s:%.10f m/s" % z for z in zip(t, both[:, 1])))
print("road ways", ", ".join("%d s:%.10f m" % z for z in zip(t, both[:, 0])))

print("coasts", ttest_ind([2.1, 2.0, 2.25], [2.9, 3.05, 2.8, 2.95]))
