# Rows of warm-up.tsv.  Python 3.11, SciPy 1.10.1, NumPy 1.24.2.
import numpy as np
from scipy.optimize import curve_fit
from scipy.integrate import odeint

def curve(t, last, fall, tau):
    return last + fall * np.exp(-t / tau)

def fit(t, y, start):
    p, c = curve_fit(curve, t, y, p0=start, xtol=1e-15, ftol=1e-15, gtol=1e-15)
    e = np.sqrt(np.diag(c))
    jac = np.array([1, 1, 0])
    print("last %.10g ± %.6g  constant %.10g ± %.6g  first %.10g ± %.6g  scatter %.8g"
          % (p[0], e[0], p[2], e[2], p[0] + p[1], np.sqrt(jac @ c @ jac),
             np.sqrt(np.sum((y - curve(t, *p))**2) / (len(t) - 3))))

t = np.array([0, 60, 120, 180, 240, 300, 420, 600, 900, 1200.])
fit(t, np.array([78.0, 70.5, 64.1, 58.5, 53.6, 49.4, 42.6, 35.4, 28.6, 25.2]), [20, 60, 400])
t = np.array([0, 30, 60, 90, 120, 180, 240, 300.])
fit(t, np.array([20.0, 29.5, 37.0, 42.5, 47.5, 54.0, 58.5, 61.0]), [65, -45, 120])
# Newton's law integrated, not solved: 22 °C air, 78 °C, 420 s.
print(odeint(lambda T, t: -(T - 22) / 420, 78, [0, 300, 600, 900], rtol=1e-12, atol=1e-12).ravel())
