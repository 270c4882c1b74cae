"""Writes vectors/spectrum.json: transforms, windows, periodograms and Welch densities by numpy and scipy.

Run by hand with a Python that has scipy: python3 test/reference/make/spectrum.py
"""
import json
from pathlib import Path

import numpy as np
import scipy
from scipy import signal


def noise(n, seed):
    """Park and Miller's generator: whole numbers below 2**31, the same in any language."""
    out = np.empty(n)
    state = seed
    for i in range(n):
        state = (state * 16807) % 2147483647
        out[i] = state / 2147483647 - 0.5
    return out


def digits(values):
    return [float(f"{v:.14g}") for v in np.asarray(values).tolist()]


def pairs(z):
    return {"real": digits(z.real), "imaginary": digits(z.imag)}


real_all = [{"length": n, "seed": n, **pairs(np.fft.rfft(noise(n, n)))} for n in [1, 2, 3, 4, 5, 6, 7, 9, 11, 12, 13, 15, 17, 19, 23, 29, 31, 36, 45, 59, 73, 74]]
real_some = []
for n in [1009, 8640, 8760, 10007, 28800, 28801, 52560, 105120, 105121]:
    z = np.fft.rfft(noise(n, n))
    bins = sorted({0, 1, 2, 3, n // 365, n // 73, n // 11, n // 7, n // 5, n // 3, n // 2 - 1, n // 2})
    real_some.append({"length": n, "seed": n, "bins": bins, **pairs(z[bins])})
complex_all = []
for n in [1, 2, 8, 12, 25, 59, 73]:
    complex_all.append({"length": n, "seeds": [n, n + 1], **pairs(np.fft.fft(noise(n, n) + 1j * noise(n, n + 1)))})

names = {"rectangular": "boxcar", "Hann": "hann", "Hamming": "hamming", "triangle": "bartlett", "Blackman": "blackman", "Blackman-Harris": "blackmanharris"}
windows = [{"name": ours, "length": n, "weights": digits(signal.get_window(theirs, n, fftbins=True))} for ours, theirs in names.items() for n in [1, 8, 9]]

periodograms = []
for n in [48, 49]:
    x = noise(n, 77) + 0.02 * np.arange(n) + 860
    for ours, theirs in names.items():
        for ours_removed, detrend in {"nothing": False, "mean": "constant", "line": "linear"}.items():
            if ours not in ("Hann", "Blackman-Harris") and ours_removed != "mean":
                continue
            made = {s: signal.periodogram(x, fs=24, window=theirs, detrend=detrend, scaling=s)[1] for s in ("density", "spectrum")}
            periodograms.append({"length": n, "seed": 77, "slope": 0.02, "level": 860, "stepSeconds": 3600, "window": ours, "removed": ours_removed,
                                 "density": digits(made["density"]), "power": digits(made["spectrum"])})

welch = []
for n, segment, overlap, ours, removed in [(600, 64, 0.5, "Hann", "mean"), (601, 64, 0.75, "Blackman-Harris", "mean"), (600, 45, 0.5, "Hamming", "line"), (600, 60, 0, "rectangular", "nothing")]:
    x = np.cumsum(noise(n, 5)) * 0.3
    f, p = signal.welch(x, fs=144, window=names[ours], nperseg=segment, noverlap=int(segment * overlap), detrend={"mean": "constant", "line": "linear", "nothing": False}[removed])
    welch.append({"length": n, "seed": 5, "factor": 0.3, "stepSeconds": 600, "segmentSteps": segment, "overlap": overlap, "window": ours, "removed": removed, "cyclesPerDay": digits(f), "density": digits(p)})

factors = []
for nu in [2, 3.5, 4, 8, 15.2583, 100]:
    for level in [0.8, 0.95, 0.99]:
        t = (1 - level) / 2
        factors.append({"degreesOfFreedom": nu, "level": level, "low": float(nu / scipy.stats.chi2.ppf(1 - t, nu)), "high": float(nu / scipy.stats.chi2.ppf(t, nu))})

document = {
    "tool": "numpy, scipy",
    "version": f"{np.__version__}, {scipy.__version__}",
    "call": "numpy.fft.rfft, numpy.fft.fft, scipy.signal.get_window(fftbins=True), scipy.signal.periodogram(fs=24), scipy.signal.welch(fs=144), scipy.stats.chi2.ppf",
    "input": "Park-Miller noise, state = state*16807 mod (2^31-1), state/(2^31-1) - 0.5, started at seed; welch: its running sum times factor; periodogram: plus slope*i plus level",
    "realAll": real_all, "realSome": real_some, "complexAll": complex_all, "windows": windows, "periodograms": periodograms, "welch": welch, "limitFactors": factors,
}
target = Path(__file__).parent.parent / "vectors" / "spectrum.json"
target.write_text(json.dumps(document, separators=(",", ":")) + "\n")
print(target, target.stat().st_size)
