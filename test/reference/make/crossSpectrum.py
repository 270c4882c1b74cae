"""Writes vectors/crossSpectrum.json: cross spectra, coherence and squared coherence by scipy.

Run by hand with a Python that has scipy: python3 test/reference/make/crossSpectrum.py
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


cases = []
for n, segment, overlap, window, removed in [
    (512, 64, 0.5, "hann", "mean"),
    (720, 120, 0.75, "hann", "line"),
    (601, 75, 0.5, "hann", "mean"),
    (300, 100, 0.0, "boxcar", "nothing"),
]:
    x = noise(n, 7 + n)
    # A system with memory: y follows x and has noise of its own.
    y = signal.lfilter([0.3], [1, -0.7], x) + 0.3 * noise(n, 8 + n) + 2
    detrend = {"mean": "constant", "line": "linear", "nothing": False}[removed]
    options = dict(fs=24.0, window=window, nperseg=segment, noverlap=int(segment * overlap), detrend=detrend)
    f, cross = signal.csd(x, y, **options)
    _, density = signal.welch(x, **options)
    _, coherence = signal.coherence(x, y, **options)
    cases.append({
        "n": n, "segment": segment, "overlap": overlap, "window": window, "removed": removed,
        "x": digits(x), "y": digits(y), "cyclesPerDay": digits(f),
        "real": digits(cross.real), "imaginary": digits(cross.imag), "densityX": digits(density), "coherence": digits(coherence),
    })

out = {
    "tool": f"scipy {scipy.__version__}, numpy {np.__version__}",
    "call": "signal.csd, signal.welch, signal.coherence; fs = 24 steps a day",
    "made": "test/reference/make/crossSpectrum.py",
    "cases": cases,
}
Path(__file__).parent.parent.joinpath("vectors", "crossSpectrum.json").write_text(json.dumps(out))
