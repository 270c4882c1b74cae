"""Writes test/reference/vectors/filters.json: filters, prominences, spectra and rank tests by numpy, scipy and statsmodels.

Run with a Python that has numpy, scipy and statsmodels: python3 test/reference/make/filters.py
"""

import json
import pathlib

import numpy as np
import scipy
from scipy import fft, signal, stats

rng = np.random.default_rng(20261125)


def rounded(values, digits=12):
    return [float(f"%.{digits}g" % v) for v in np.asarray(values, dtype=float)]


def lanczos(cut_days, half):
    # firwin with a hand-made window: its own sinc, scaled to 1 at zero frequency.
    k = np.arange(-half, half + 1)
    taps = signal.firwin(2 * half + 1, 2 / (24 * cut_days), window="boxcar", scale=False) * np.sinc(k / (half + 1))
    return taps / taps.sum()


quick, slow = lanczos(2, 72), lanczos(15, 360)
periods = [0.5, 1, 1.5, 2, 2.5, 3, 5, 8, 10, 12, 15, 20, 30, 60]


def response(taps, period):
    # A symmetric filter turns no phase once its delay is taken out: the response is real and may be negative.
    w = 2 * np.pi / 24 / period
    _, h = signal.freqz(taps, worN=[w])
    return float((h[0] * np.exp(1j * w * (len(taps) // 2))).real)


# Forty days of hourly pressure: two poles of 20 h, and a slow part.
noise = rng.standard_normal(40 * 24 + 500)
a = np.exp(-1 / 20)
smooth = signal.lfilter([1], [1, -2 * a, a * a], noise)[500:]
smooth = np.round(1010 + 8 * smooth / smooth.std() + 3 * np.sin(np.arange(len(smooth)) / 120), 3)


def extended(values, half):
    k = np.arange(1, half + 1)
    decay = np.exp(-k / 48)
    mean = values.mean()
    return np.concatenate([(mean + (values[0] - mean) * decay)[::-1], values, mean + (values[-1] - mean) * decay])


def low_passed(values, taps):
    return signal.fftconvolve(extended(values - 1000, len(taps) // 2), taps, mode="valid") + 1000


band = low_passed(smooth, quick) - low_passed(smooth, slow)

peaks, _ = signal.find_peaks(band)
prominences, left, right = signal.peak_prominences(band, peaks)
dips, _ = signal.find_peaks(-band)
dip_prominences, _, _ = signal.peak_prominences(-band, dips)

six = smooth.reshape(-1, 6).mean(axis=1)[:157]
left_over = signal.detrend(six, type="linear")
n = len(six)
j = np.arange(1, n + 1)
spectra = [np.abs(fft.rfft(np.sqrt(2 / (n + 1)) * np.sin(np.pi * k * j / (n + 1)) * left_over)) ** 2 for k in (1, 2, 3)]

import statsmodels  # noqa: E402
import statsmodels.api as sm  # noqa: E402

# A background of 90 d of six-hourly values: bins 2…81 carry it, what stands elsewhere must not matter.
bins = np.arange(181)
log_f = np.log(np.maximum(bins, 0.5) / 90 / 0.2)
gamma_spectrum = np.exp(1 - 1.5 * log_f - 0.4 * log_f**2) * rng.chisquare(6, 181) / 6
used = slice(2, 82)
design = np.column_stack([np.ones_like(log_f), log_f, log_f**2])[used]
gamma_fit = sm.GLM(gamma_spectrum[used], design, family=sm.families.Gamma(link=sm.families.links.log())).fit(tol=1e-13, maxiter=500)

rank_cases = []
for size, ties in ((10, False), (25, False), (40, True), (17, True)):
    values = np.round(0.05 * np.arange(size) + rng.standard_normal(size), 0 if ties else 6)
    tau = stats.kendalltau(np.arange(size), values)
    slope = stats.theilslopes(values, np.arange(size), 0.95)
    rank_cases.append(
        {"values": [float(v) for v in values], "tau": float(tau.correlation), "slope": float(slope[0]), "low": float(slope[2]), "high": float(slope[3])}
    )

out = {
    "tool": "numpy, scipy, statsmodels",
    "version": f"{np.__version__}, {scipy.__version__}, {statsmodels.__version__}",
    "call": "signal.firwin, freqz, fftconvolve, find_peaks, peak_prominences; fft.rfft; GLM(Gamma, log); stats.kendalltau, theilslopes",
    "seed": 20261125,
    "response": {"periods": periods, "quick": rounded([response(quick, p) for p in periods]), "slow": rounded([response(slow, p) for p in periods])},
    "pressure": [float(v) for v in smooth],
    "quick": rounded(low_passed(smooth, quick)),
    "slow": rounded(low_passed(smooth, slow)),
    "highs": {"index": [int(v) for v in peaks], "prominence": rounded(prominences)},
    "lows": {"index": [int(v) for v in dips], "prominence": rounded(dip_prominences)},
    "sixHourly": rounded(six),
    "spectrum": rounded(np.mean(spectra, axis=0)),
    "gamma": {"spectrum": rounded(gamma_spectrum), "coefficients": rounded(gamma_fit.params, 9)},
    "ranks": rank_cases,
}
path = pathlib.Path(__file__).parent.parent / "vectors" / "filters.json"
path.write_text(json.dumps(out) + "\n")
