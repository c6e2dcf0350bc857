"""The steps of feature extraction in NumPy and SciPy, over a whole recording at once: steps.py FOLDER

Reads float64 arrays pt (times of positions, s), pc (counts on a ring of 800), mt (times of meters, s), mc (currents, A)
and prints one line for each step: name, best of seven rounds or half a second in ms.
"""
import sys
import time
import numpy as np
import scipy
from scipy import stats

pt, pc, mt, mc = (np.fromfile("%s/%s" % (sys.argv[1], n)) for n in ("pt", "pc", "mt", "mc"))
print("NumPy %s, SciPy %s" % (np.__version__, scipy.__version__))


def best(name, f):
    least = 1e9
    rounds, first = 0, time.perf_counter()
    while rounds < 7 or time.perf_counter() - first < 0.5:
        rounds += 1
        begin = time.perf_counter()
        f()
        least = min(least, time.perf_counter() - begin)
    print("%s %.6f" % (name, 1e3 * least))


def unwrap():
    u = np.unwrap(pc, period=800)
    return u, np.flatnonzero(np.diff(u) > 0)


def sightings():
    c = pc.astype(np.int64)
    step = np.diff(u.astype(np.int64))
    passes = np.bincount(c[1:] - c[1:] % 1, minlength=800)
    edges = np.zeros(801)
    np.add.at(edges, c[:-1], 1)
    np.add.at(edges, c[1:], -1)
    rate = np.convolve(step, np.ones(12) / 12, "same")
    p = np.minimum(1 / np.maximum(rate, 1), 0.98)
    return passes, np.cumsum(edges), np.bincount(c[1:], weights=p, minlength=800), np.bincount(c[1:], weights=np.log1p(-p), minlength=800)


def angles():
    at = np.interp(mt, pt, u) % 800
    b = np.minimum((at / 10).astype(np.int64), 79)
    return np.bincount(b, weights=mc, minlength=80), np.bincount(b, weights=mc * mc, minlength=80), np.bincount(b, minlength=80)


u, _ = unwrap()
best("unwrap-and-segment", unwrap)
best("median", lambda: np.median(mc))
best("mean-and-deviation", lambda: (mc.mean(), mc.std(ddof=1)))
best("straight-line", lambda: stats.linregress(pt, u))
best("sightings", sightings)
best("means-by-angle", angles)
few, fy = pt[:2000], u[:2000] + mc[:2000]
best("theil-sen-2000", lambda: stats.theilslopes(fy, few))
best("kendall-2000", lambda: stats.kendalltau(few, fy))
