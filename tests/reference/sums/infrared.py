# Rows of infrared.tsv, without the law that the sum uses: Planck's law of radiation is
# integrated over all wavelengths, and the true temperature is found as a root.
# Python 3.11, SciPy 1.10.1.
import numpy as np
from scipy.integrate import quad
from scipy.optimize import brentq
from scipy.constants import h, c, k

C2 = h * c / k
def planck(wave, kelvin):
    x = C2 / (wave * kelvin)
    return 0 if x > 700 else 1e-16 / wave**5 / np.expm1(x)

def power(kelvin, low=None, high=None):
    if low is not None:
        return quad(planck, low, high, args=(kelvin,), epsrel=1e-13)[0]
    # Over x = C2 / (wave T), scaled by T^4: the same integral without a sharp peak.
    return kelvin**4 * quad(lambda x: x**3 / np.expm1(x), 0, 60, epsrel=1e-13)[0]

def true(reading, emissivity, setting=0.95, reflected=25.0, band=(None, None)):
    r, b = reading + 273.15, reflected + 273.15
    seen = setting * power(r, *band) + (1 - setting) * power(b, *band)
    return brentq(lambda t: emissivity * power(t, *band) + (1 - emissivity) * power(b, *band) - seen,
                  100, 3000, xtol=1e-11) - 273.15

for reading, emissivity in (39, .2), (46, .3), (57, .5), (78, .9), (59, .3), (60, .95), (15, .5):
    print("reading=%g emissivity=%g  %.9f   8 to 14 µm only: %.2f"
          % (reading, emissivity, true(reading, emissivity), true(reading, emissivity, band=(8e-6, 14e-6))))
print("%.9f" % true(70, 0.8, 1.0, -10))
