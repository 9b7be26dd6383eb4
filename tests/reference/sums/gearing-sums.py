# Rows of gear-chart.tsv, tyre-swap.tsv, mesh.tsv, heat.tsv and gear-up.tsv.
# Python 3.11, NumPy 1.24.2, SciPy 1.10.1.
import numpy as np
from scipy.optimize import brentq
from scipy.stats import linregress
from scipy.integrate import quad

def rollout(tyre, pinion, spur, box=1.0):
    return np.pi * tyre * pinion / spur / box

print("gear-chart", [(p, "%.10f" % rollout(84, p, 81, 2.5)) for p in (18, 21, 24)])
print("tyre-swap")
now = rollout(84, 21, 81, 2.5)
pairs = sorted((abs(np.log(rollout(92, p, s, 2.5) / now)), p, s, rollout(92, p, s, 2.5))
               for p in (18, 19, 20, 21, 22) for s in (78, 81, 84) if abs(rollout(92, p, s, 2.5) / now - 1) <= 0.05)
for _, p, s, r in pairs:
    print("  %d/%d %.10f %+.8f heat %.8f" % (p, s, r, r / now - 1, (r / now)**2))

print("mesh")
inv = lambda a: np.tan(a) - a
# The involute's angle as an integral, d inv / da = tan^2 a, and the working angle as a root.
for m, z1, z2, open_ in (1, 20, 40, .05), (.6, 15, 45, .05), (25.4 / 48, 22, 87, .05), (1, 20, 40, .10):
    a0, a = np.radians(20), m * (z1 + z2) / 2
    aw = brentq(lambda w: (a + open_) * np.cos(w) - a * np.cos(a0), a0, 1, xtol=1e-15)
    play = 2 * (a + open_) * quad(lambda x: np.tan(x)**2, a0, aw, epsabs=0, epsrel=1e-13)[0]
    ra1, ra2, rb1, rb2 = z1 / 2 + 1, z2 / 2 + 1, z1 / 2 * np.cos(a0), z2 / 2 * np.cos(a0)
    ratio = (np.sqrt(ra1**2 - rb1**2) + np.sqrt(ra2**2 - rb2**2) - (z1 + z2) / 2 * np.sin(a0)) / (np.pi * np.cos(a0))
    print("  %g %d %d +%g: a %.10f play %.10f angle %.9f contact %.9f" % (m, z1, z2, open_, a, play, np.degrees(aw), ratio))

print("heat")
for r1, t1, r2, k in (.100, 20, .125, 234.5), (6.20, 22, 7.58, 234.5), (1, 25, 1.2, 234.5), (.1, 20, .125, 235):
    print("  %.9f" % brentq(lambda t: r1 * (k + t) / (k + t1) - r2, -200, 500, xtol=1e-12))

print("gear-up")
x, y = np.log([24., 25.5, 26, 27.5, 28]), np.log([33., 38, 41, 45.5, 48])
f = linregress(x, y)
q = 28.7 / 27.4
print("  exponent %.10f ± %.8f fitted %.8f floor %.8f" % (f.slope, f.stderr, 9 + 49 * q**f.slope, 9 + 49 * q**2))
