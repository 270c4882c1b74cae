"""Writes vectors/lombScargle.json by astropy and scipy.

Run by hand with a Python that has astropy: python3 test/reference/make/lombScargle.py
"""
import json
from pathlib import Path

import astropy
import numpy as np
import scipy
from astropy.timeseries import LombScargle
from scipy.signal import lombscargle


def noise(n, seed):
    out = np.empty(n)
    state = seed
    for i in range(n):
        state = (state * 16807) % 2147483647
        out[i] = state / 2147483647 - 0.5
    return out


def digits(values):
    return [float(f"{v:.13g}") for v in np.asarray(values).tolist()]


def record(n, seed, span):
    t = np.sort((noise(n, seed) + 0.5) * span)
    y = 1.16 * np.sin(4 * np.pi * t + np.radians(158)) + 0.3 * np.cos(2 * np.pi * t) + 0.8 * noise(n, seed + 1) + 3
    return t, y


cases = []
for n, seed, span in [(16, 3, 3.5), (80, 11, 30.0)]:
    t, y = record(n, seed, span)
    f = np.concatenate([np.arange(1, 13) * 0.25, [7.31, 23.9]])
    made = []
    for constant, options in {"fitted": {"fit_mean": True, "center_data": True}, "removed": {"fit_mean": False, "center_data": True}, "none": {"fit_mean": False, "center_data": False}}.items():
        for normalization in ("standard", "model", "log", "psd"):
            p = LombScargle(t, y, **options).power(f, method="slow", normalization=normalization, assume_regular_frequency=False)
            made.append({"constant": constant, "normalization": normalization, "power": digits(p)})
    s = lombscargle(t, y - y.mean(), 2 * np.pi * f, precenter=False, normalize=True)
    u = lombscargle(t, y - y.mean(), 2 * np.pi * f, precenter=False, normalize=False)
    cases.append({"days": [float(v) for v in t], "values": [float(v) for v in y], "cyclesPerDay": digits(f), "astropy": made, "scipyNormalized": digits(s), "scipyPlain": digits(u)})

document = {
    "tool": "astropy, scipy",
    "version": f"{astropy.__version__}, {scipy.__version__}",
    "call": "astropy.timeseries.LombScargle(t, y, fit_mean, center_data).power(f, method='slow', normalization); scipy.signal.lombscargle(t, y - mean, 2 pi f, normalize)",
    "cases": cases,
}
target = Path(__file__).parent.parent / "vectors" / "lombScargle.json"
target.write_text(json.dumps(document, separators=(",", ":")) + "\n")
print(target, target.stat().st_size)
