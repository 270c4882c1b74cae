"""Writes test/reference/vectors/gridRoutines.json: detrending, moving means, band filters and lagged correlation by numpy, scipy and pandas.

Run with a Python that has them: python3 test/reference/make/gridRoutines.py
"""

import json
import pathlib

import numpy as np
import pandas as pd
import scipy
from scipy import signal, stats

rng = np.random.default_rng(20261126)
n = 600
hours = np.arange(n)
a = np.round(20 + hours / 200 + 3 * np.cos(2 * np.pi * hours / 24) + np.cumsum(rng.standard_normal(n)) * 0.2, 4)
b = np.round(0.5 * np.roll(a, 6) + rng.standard_normal(n), 4)
gappy = a.copy()
gappy[rng.choice(n, 60, replace=False)] = np.nan
gappy[200:230] = np.nan
days = hours / 24
there = ~np.isnan(gappy)


def rounded(values):
    return [None if np.isnan(v) else float("%.12g" % v) for v in np.asarray(values, dtype=float)]


def polynomial(degree):
    # About the middle, so that powers stay small.
    p = np.polynomial.Polynomial.fit(days[there], gappy[there], degree)
    return gappy - p(days)


def lanczos(cut_days, reach):
    half = round(reach * cut_days * 24)
    k = np.arange(-half, half + 1)
    taps = signal.firwin(2 * half + 1, 2 / (24 * cut_days), window="boxcar", scale=False) * np.sinc(k / (half + 1))
    return taps / taps.sum()


def low_passed(values, cut_days, reach=1.5):
    taps = lanczos(cut_days, reach)
    half = len(taps) // 2
    decay = np.exp(-np.arange(1, half + 1) / 48)
    mean = values.mean()
    long = np.concatenate([(mean + (values[0] - mean) * decay)[::-1], values, mean + (values[-1] - mean) * decay])
    return signal.fftconvolve(long - 20, taps, mode="valid") + 20


def response(cut_days, period, reach=1.5):
    taps = lanczos(cut_days, reach)
    w = 2 * np.pi / 24 / period
    _, h = signal.freqz(taps, worN=[w])
    return float((h[0] * np.exp(1j * w * (len(taps) // 2))).real)


periods = [0.5, 1, 2, 3, 5, 8, 12, 30]
series = pd.Series(gappy)
lags = [-4, 0, 3, 6, 9]
out = {
    "tool": "numpy, scipy, pandas",
    "version": f"{np.__version__}, {scipy.__version__}, {pd.__version__}",
    "call": "Polynomial.fit, signal.detrend, Series.rolling(center).mean, signal.firwin, fftconvolve, freqz, stats.pearsonr",
    "seed": 20261126,
    "a": [float(v) for v in a],
    "b": [float(v) for v in b],
    "gappy": rounded(gappy),
    "constant": rounded(signal.detrend(a, type="constant")),
    "line": rounded(signal.detrend(a, type="linear")),
    "cubic": rounded(polynomial(3)),
    "rolling": rounded(series.rolling(25, center=True, min_periods=1).mean()),
    "rollingHalf": rounded(series.rolling(25, center=True, min_periods=13).mean()),
    "low": rounded(low_passed(a, 1)),
    "high": rounded(a - low_passed(a, 2)),
    "band": rounded(low_passed(a, 1) - low_passed(a, 4)),
    "periods": periods,
    "bandResponse": rounded([response(1, p) - response(4, p) for p in periods]),
    "lags": lags,
    "pearson": rounded([stats.pearsonr(a[max(0, -k) : n - max(0, k)], b[max(0, k) : n - max(0, -k)])[0] for k in lags]),
}
path = pathlib.Path(__file__).parent.parent / "vectors" / "gridRoutines.json"
path.write_text(json.dumps(out) + "\n")
