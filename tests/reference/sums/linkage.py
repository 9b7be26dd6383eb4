# The rows of linkage.tsv that are computed: closure of the bars by a general root finder.
# Debian 12: Python 3.11, SciPy 1.10.1, NumPy 1.24.2.  Prints; the tests do not run it.
import numpy as np
from scipy.optimize import fsolve, brentq

# Four-bar 40, 120, 80, 100: both angles from the vector loop.
def four_bar(theta, guess):
    f = lambda x: [40 * np.cos(theta) + 120 * np.cos(x[0]) - 100 - 80 * np.cos(x[1]),
                   40 * np.sin(theta) + 120 * np.sin(x[0]) - 80 * np.sin(x[1])]
    return np.degrees(fsolve(f, guess, xtol=1e-14))

for theta, guess in ((40, (.3, 1)), (60, (.3, 1)), (90, (.3, 1.4)), (0, (.6, 1.1))):
    print("four-bar", theta, four_bar(np.radians(theta), guess))

# Trapezoid 160 between the kingpins, arms 30 at atan(80/260): outer for inner.
beta = np.arctan2(80, 260)
tie = 160 - 60 * np.sin(beta)
print("tie", tie, "beta", np.degrees(beta))

def outer(inner):
    # Left knuckle turned right by -inner (it is the inner wheel of a left turn).
    left = np.array([-80 + 30 * np.sin(beta + inner), -30 * np.cos(beta + inner)])
    f = lambda d: np.hypot(80 - 30 * np.sin(beta - d) - left[0], -30 * np.cos(beta - d) - left[1]) - tie
    return brentq(f, 0, inner * 1.2, xtol=1e-15)

for deg in (5, 10, 15, 20, 25, 30):
    i = np.radians(deg)
    o = outer(i)
    ideal = np.arctan(1 / (1 / np.tan(i) + 160 / 260))
    print("trapezoid", deg, np.degrees(o), np.degrees(ideal), (i - o) / (i - ideal))

# Bellcranks 60 apart, 40 behind, arms of 20 straight ahead; knuckles 150 apart, arms 22 at 14 degrees
# from straight back; drag arm 18 straight back, servo lying 12 above, 35 to the right, 40 behind.
def loop(share):
    r = np.radians
    a = r(180 - 45 * share)                       # horn from straight down to the right; clockwise takes off
    D0 = np.array([-30, -40, 0]) + 18 * np.array([0, -1, 0])
    S = np.array([35, -58, 12])
    ball = lambda ang: S + 14 * np.array([np.sin(ang), 0, -np.cos(ang)])
    link = np.linalg.norm(ball(r(180)) - D0)
    def arm(pivot, length, ang, turn):            # ang from straight back towards +x, turn anticlockwise
        return np.array([pivot[0] + length * np.sin(ang + turn), pivot[1] - length * np.cos(ang + turn), 0])
    body = fsolve(lambda t: np.linalg.norm(arm((-30, -40), 18, 0, t[0]) - ball(a)) - link, [0.], xtol=1e-14)[0]
    tie = np.linalg.norm(arm((-30, -40), 20, np.pi, 0) - arm((-75, 0), 22, r(14), 0))
    left = fsolve(lambda t: np.linalg.norm(arm((-30, -40), 20, np.pi, body) - arm((-75, 0), 22, r(14), t[0])) - tie,
                  [0.], xtol=1e-14)[0]
    right = fsolve(lambda t: np.linalg.norm(arm((30, -40), 20, np.pi, body) - arm((75, 0), 22, -r(14), t[0])) - tie,
                   [0.], xtol=1e-14)[0]
    return link, tie, -np.degrees(left), -np.degrees(right)

for share in (-.5, .5, 1):
    print("bellcranks", share, loop(share))
