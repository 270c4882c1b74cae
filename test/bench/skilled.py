#!/usr/bin/python3
"""The other side of the bench: what a skilled person writes with pandas, scipy and statsmodels for the same job.

Call: skilled.py CARD JOB   with JOB one of check, tides, indoors, report; CARD as yearOfMinutes.mjs writes it. General-purpose libraries only.

It reads the card, cleans it, makes hourly means, and then
- check:  counts, coverage and gaps, out-of-range and stuck readings, spikes against a rolling median, level shifts against the other
          place, the clocks' offset by cross-correlation, agreement of the places, the tide's crest;
- tides:  mean, slope, S1 to S4 by generalized least squares with autoregressive errors (GLSAR, order 2, ten turns), intervals with
          HAC standard errors beside them, and each calendar month by itself;
- indoors: factor and lag of the daily wave day by day, the coherence of inside and outside, the lag of the largest correlation, the
          mean difference with HAC standard errors, and the excess of water vapor by class of the outdoor temperature;
- report: all three, the multi-day band, the spectrum and its first-order background, days and months, and eight pictures drawn with matplotlib where it is installed.

It claims less than airtides does: no fitted white noise, no noise measured beside the lines, no p-value of a beat from drawn
records. That is in its favor. Its processor time and peak memory are told at the end of standard error as `used SECONDS KILOBYTES`, as the other side does.
"""
import json
import resource
import sys

import numpy as np
import pandas as pd
import scipy.signal
import statsmodels.api as sm

LONGITUDE, OFFSET = 110.2, pd.Timedelta(hours=7)
QUANTITIES = {"t": (-60, 60), "rh": (0, 100.5), "p": (500, 1100)}


def read(path):
    """One frame a place, indexed by UTC."""
    table = pd.read_csv(path, header=None, names=["date", "time", "who", "t", "rh", "p"], dtype={"who": "category", "t": float, "rh": float, "p": float})
    table.index = pd.to_datetime(table["date"] + " " + table["time"], format="%Y-%m-%d %H:%M:%S") - OFFSET
    places = {str(who): part[["t", "rh", "p"]] for who, part in table.groupby("who", observed=True)}
    return {who: part[~part.index.duplicated()].sort_index() for who, part in places.items()}


def clean(frame):
    """Out of range, stuck for two hours, and spikes become NaN; counts of each."""
    frame = frame.copy()
    counts = {}
    for name, (low, high) in QUANTITIES.items():
        x = frame[name]
        out = (x < low) | (x > high)
        run = (x.diff() != 0).cumsum()
        stuck = run.map(run.value_counts()) >= 120
        middle = x.rolling(11, center=True, min_periods=5).median()
        away = (x - middle).abs()
        spike = away > 8 * 1.4826 * away[away > 0].median() + 1e-9
        counts[name] = {"range": int(out.sum()), "stuck": int(stuck.sum()), "spike": int(spike.sum())}
        frame.loc[out | stuck | spike, name] = np.nan
    return frame, counts


def hourly(frame):
    """Means of hours, at their mean instant (the middle less half a minute), short gaps bridged."""
    return frame.resample("1h").mean().interpolate(limit=1, limit_area="inside")


def design(index, lines=(1, 2, 3, 4)):
    days = (index - index[0].normalize()).total_seconds().to_numpy() / 86400 + 29.5 / 1440
    columns = [np.ones(len(days)), (days - days.mean()) / max(days.max(), 1e-9)]
    for k in lines:
        columns += [np.cos(2 * np.pi * k * days), np.sin(2 * np.pi * k * days)]
    return np.column_stack(columns)


def tide(hours, months=True):
    """Amplitude, its 95 % interval and hour of the maximum of S1, S2, S3, by GLSAR, with HAC errors beside."""
    y = hours["p"].dropna()
    X = design(y.index)
    fit = sm.GLSAR(y.to_numpy(), X, rho=2).iterative_fit(10)
    plain = sm.OLS(y.to_numpy(), X).fit(cov_type="HAC", cov_kwds={"maxlags": 72})
    answer = {}
    for k in (1, 2, 3):
        a, b = fit.params[2 * k], fit.params[2 * k + 1]
        size = float(np.hypot(a, b))
        u = np.array([a, b]) / size
        error = float(np.sqrt(u @ fit.cov_params()[2 * k : 2 * k + 2, 2 * k : 2 * k + 2] @ u))
        hac = float(np.sqrt(u @ plain.cov_params()[2 * k : 2 * k + 2, 2 * k : 2 * k + 2] @ u))
        at = (np.arctan2(b, a) / (2 * np.pi * k) * 24 + LONGITUDE / 15) % (24 / k)
        answer[f"S{k}"] = {"amplitude": size, "low": size - 1.96 * error, "high": size + 1.96 * error, "hac": 1.96 * hac, "maximumAt": float(at)}
    if months:
        local = y.index + pd.Timedelta(hours=LONGITUDE / 15)
        answer["months"] = {int(m): tide(hours.loc[part.index], months=False) for m, part in y.groupby(local.month)}
    return answer


def coverage(frame):
    step = frame.index.to_series().diff().dt.total_seconds()
    usual = float(step.median())
    return {"step": usual, "gaps": int((step > 2.5 * usual).sum()), "coverage": {q: float(frame[q].notna().sum() * usual / ((frame.index[-1] - frame.index[0]).total_seconds() + usual)) for q in frame}}


def check(places, cleaned, counts, hours):
    first, second = list(cleaned)[:2]
    a, b = cleaned[first]["p"].align(cleaned[second]["p"], join="inner")
    difference = (a - b).resample("1h").median()
    shift = (difference.rolling(24).median() - difference.rolling(24).median().shift(24)).abs()
    fast = [s.resample("5min").mean().interpolate().to_numpy() for s in (a, b)]
    fast = [s - pd.Series(s).rolling(288, center=True, min_periods=1).mean().to_numpy() for s in fast]
    lags = scipy.signal.correlation_lags(len(fast[0]), len(fast[1]))
    correlation = scipy.signal.correlate(fast[0], fast[1], method="fft")
    temperature = (cleaned[first]["t"] - cleaned[second]["t"]).resample("1h").mean()
    fit = sm.OLS(temperature.dropna().to_numpy(), sm.add_constant(np.arange(temperature.count()))).fit(cov_type="HAC", cov_kwds={"maxlags": 48})
    return {
        "flags": counts,
        "coverage": {who: coverage(frame) for who, frame in places.items()},
        "shifts": int((shift > 6 * 1.4826 * shift.median()).sum()),
        "clockMinutes": float(5 * lags[np.argmax(correlation)]),
        "bias": [float(fit.params[0]), float(fit.bse[0])],
        "limits": [float(x) for x in np.percentile(temperature.dropna(), [2.5, 97.5])],
        "tide": tide(hours[first], months=False),
    }


def vapor(hours):
    """Water vapor, g/m³ (Magnus)."""
    t = hours["t"]
    return 216.68 * hours["rh"] / 100 * 6.112 * np.exp(17.62 * t / (243.12 + t)) / (273.15 + t)


def indoors(hours):
    outside, inside = hours["V"].align(hours["L"], join="inner")
    waves = []
    for _, day in inside["t"].groupby(inside.index.floor("D")):
        pair = [s.reindex(day.index).to_numpy() for s in (inside["t"], outside["t"])]
        if len(day) == 24 and not any(np.isnan(x).any() for x in pair):
            a, b = (np.fft.rfft(scipy.signal.detrend(x))[1] for x in pair)
            waves.append((abs(a) / abs(b), (np.angle(b) - np.angle(a)) / (2 * np.pi) * 24))
    waves = np.array(waves)
    a, b = (x["t"].interpolate().bfill().to_numpy() for x in (inside, outside))
    frequency, coherent = scipy.signal.coherence(a, b, fs=24, nperseg=24 * 10)
    lags = scipy.signal.correlation_lags(len(a), len(b))
    correlation = scipy.signal.correlate(a - a.mean(), b - b.mean(), method="fft")
    difference = (inside["t"] - outside["t"]).dropna()
    fit = sm.OLS(difference.to_numpy(), np.ones(len(difference))).fit(cov_type="HAC", cov_kwds={"maxlags": 72})
    excess = (vapor(inside) - vapor(outside)).groupby((outside["t"] // 5) * 5).agg(["mean", "sem", "count"])
    return {
        "factor": [float(x) for x in np.percentile(waves[:, 0], [2.5, 50, 97.5])],
        "lagHours": [float(x) for x in np.percentile(waves[:, 1], [2.5, 50, 97.5])],
        "coherence": float(np.interp(1, frequency, coherent)),
        "largestAt": int(lags[np.argmax(correlation)]),
        "difference": [float(fit.params[0]), float(fit.bse[0])],
        "excess": excess.round(3).to_numpy().tolist(),
    }


def report(places, cleaned, counts, hours):
    answer = {"check": check(places, cleaned, counts, hours), "tides": {who: tide(h) for who, h in hours.items()}}
    for who, h in hours.items():
        p = h["p"].interpolate()
        free = p - p.groupby(p.index.hour).transform("mean")
        band = scipy.signal.sosfiltfilt(scipy.signal.butter(3, [2 / 15 / 24, 2 / 2 / 24], "bandpass", output="sos"), free - free.mean())
        frequency, density = scipy.signal.welch(free.to_numpy(), fs=24, nperseg=24 * 60)
        phi = free.autocorr(6)
        background = (1 - phi**2) / (1 - 2 * phi * np.cos(np.pi * frequency / 2) + phi**2)
        answer[who] = {"band": float(band.std()), "peak": float(frequency[1:][np.argmax((density / background)[1:])]), "lows": int(len(scipy.signal.find_peaks(-band, prominence=1)[0]))}
        civil = cleaned[who].copy()
        civil.index = civil.index + OFFSET
        days = civil.resample("1D").agg(["min", "mean", "max"])
        answer[who]["days"] = days.round(3).to_numpy().tolist()
        answer[who]["months"] = days.resample("MS").mean().round(3).to_numpy().tolist()
    answer["house"] = indoors(hours)
    answer["pictures"] = pictures(cleaned, hours)
    return answer


def pictures(cleaned, hours):
    try:
        import matplotlib
    except ImportError:
        return "matplotlib is not installed: nothing drawn"
    matplotlib.use("svg")
    import io

    import matplotlib.pyplot as plt

    drawn = 0
    for who, frame in cleaned.items():
        for name in QUANTITIES:
            figure, axes = plt.subplots(figsize=(9, 3))
            days = frame[name].resample("1D").agg(["min", "mean", "max"])
            axes.fill_between(days.index, days["min"], days["max"], alpha=0.3)
            axes.plot(days.index, days["mean"])
            drawn += bytes_of(figure, io, plt)
        figure, axes = plt.subplots(figsize=(6, 3))
        axes.plot(hours[who]["p"].groupby(hours[who].index.hour).mean())
        drawn += bytes_of(figure, io, plt)
    return f"{drawn} bytes of SVG"


def bytes_of(figure, io, plt):
    out = io.BytesIO()
    figure.savefig(out, format="svg")
    plt.close(figure)
    return len(out.getvalue())


def main(path, job):
    places = read(path)
    pairs = {who: clean(frame) for who, frame in places.items()}
    cleaned = {who: frame for who, (frame, _) in pairs.items()}
    counts = {who: c for who, (_, c) in pairs.items()}
    hours = {who: hourly(frame) for who, frame in cleaned.items()}
    if job == "tides":
        answer = {who: tide(h) for who, h in hours.items()}
    elif job == "check":
        answer = check(places, cleaned, counts, hours)
    elif job == "indoors":
        answer = indoors(hours)
    elif job == "report":
        answer = report(places, cleaned, counts, hours)
    else:
        raise SystemExit(f"JOB must be check, tides, indoors or report (got {job})")
    json.dump(answer, sys.stdout)
    usage = resource.getrusage(resource.RUSAGE_SELF)
    print(f"\nused {usage.ru_utime + usage.ru_stime:.3f} {usage.ru_maxrss}", file=sys.stderr)


if __name__ == "__main__":
    main(*sys.argv[1:3])
