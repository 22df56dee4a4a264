#!/usr/bin/python3
"""Computes some of the features of core/FEATURES.md with SciPy, from what core/FORMULAS.md says of them and nothing else.

    apt-get install python3-scipy
    /usr/bin/python3 tests/golden/make_features.py

Writes core/src/test/resources/golden/features.json. The sound is made by `sound` below, the same way in the test: no file of it is needed, and nothing is drawn from a
recording of a person.
"""

import json
import pathlib
import platform

import numpy as np
import scipy
import scipy.fft
import scipy.linalg
import scipy.ndimage as nd
import scipy.signal as sig
import scipy.stats

OUT = pathlib.Path(__file__).resolve().parents[2] / "core/src/test/resources/golden/features.json"
RATE = 8000
SECONDS = 4
FLOOR = 1e-6
DENSITY = FLOOR / 4000


def sound():
    """Noise that swells twice like breath (numbers of a linear congruential generator), a tone of 400 Hz from 1.0 to 1.6 s, three clicks."""
    n = RATE * SECONDS
    x = np.empty(n)
    state = 1
    for i in range(n):
        state = (state * 1103515245 + 12345) % 2**31
        t = i / RATE
        x[i] = 0.02 * (0.3 + abs(np.sin(np.pi * t / 2))) * (state / 2**30 - 1)
        if 1.0 <= t < 1.6:
            x[i] += 0.02 * np.sin(2 * np.pi * 400 * t)
        for click in (0.5, 1.25, 2.0):
            if t >= click:
                x[i] += 0.2 * np.exp(-(t - click) / 0.002) * np.sin(2 * np.pi * 600 * (t - click))
    return x


def median(x, width):
    return nd.median_filter(x, size=width, mode="nearest")


def mean(x, width):
    return nd.uniform_filter1d(x, width, mode="nearest")


def zero_phase(kind, order, edges, x):
    return sig.sosfiltfilt(sig.butter(order, edges, kind, fs=RATE, output="sos"), x)


def density(x, frame):
    """Frames centred on multiples of 128 samples, one row each."""
    _, _, p = sig.spectrogram(np.pad(x, frame // 2), RATE, "hann", frame, frame - 128, frame, detrend=False, scaling="density")
    return p.T


def mel_levels(p):
    edges = np.linspace(2595 * np.log10(1 + 60 / 700), 2595 * np.log10(1 + 1980 / 700), 42)
    edges = 700 * (10 ** (edges / 2595) - 1)
    hz = np.arange(p.shape[1]) * RATE / 512
    weights = np.array([np.interp(hz, edges[b:b + 3], [0, 1, 0], left=0, right=0) for b in range(40)])
    return 10 * np.log10(p @ weights.T + DENSITY)


def prominences(p):
    level = 10 * np.log10(p[:, :round(1990 / (RATE / 1024))] + DENSITY)
    base = np.array([mean(median(row, 31), 9) for row in level])
    over = np.clip(level - base, 0, 40)[:, LOW:HIGH]
    before, after = np.vstack([over[:1], over[:-1]]), np.vstack([over[1:], over[-1:]])
    return (before + over + after) / 3


LOW, HIGH = round(100 / (RATE / 1024)), round(1500 / (RATE / 1024))


def held(prominence, frames):
    return nd.minimum_filter1d(nd.maximum_filter1d(prominence, 3, axis=1, mode="nearest"), frames, axis=0, mode="nearest")


def envelope(x, low, high):
    y = zero_phase("bandpass", 2, [low, high], x) ** 2
    width = 25 if low >= 700 else 41
    level = 10 * np.log10(np.maximum(0, mean(y, width)[::8]) + FLOOR)
    base = mean(median(level[::2], 41), 5)
    return level, level - np.repeat(base, 2)[:len(level)]


def kurtosis(x):
    return scipy.stats.kurtosis(x, fisher=False)


def maxima(x, width, limit):
    return np.sum((x > limit) & (x >= nd.maximum_filter1d(x, width, mode="nearest")))


def residual(y):
    r = np.array([np.dot(y[k:], y[:len(y) - k]) for k in range(9)])
    diagonal = r[:8].copy()
    diagonal[0] = r[0] * 1.001 + 1e-12
    a = np.concatenate([[1], -scipy.linalg.solve_toeplitz(diagonal, r[1:])])
    return sig.lfilter(a, 1, y)


def modulation(level, low, high):
    n = len(level)
    size = max(1024, 1 << (n - 1).bit_length())
    power = np.abs(np.fft.rfft((level - level.mean()) * np.hanning(n), size)) ** 2
    bins = slice(int(np.ceil(low / (1000 / size))), int(np.ceil(high / (1000 / size))))
    return 10 * np.log10(power[bins].mean() / n + FLOOR)


def features(x, start, end):
    x = zero_phase("highpass", 2, 80, x - x.mean())
    x = scaled(x)
    f = slice(round(start * RATE / 128), round(end * RATE / 128))
    s = slice(round(start * 1000), round(end * 1000))
    out = {"duration": end - start}

    long = density(x, 1024)
    p = prominences(long)
    highest, hold = p[f].max(axis=1), held(p, 13)
    out["ridge.highest.mean"] = highest.mean()
    out["ridge.highest.sd"] = highest.std()
    out["ridge.highest.p25"] = np.percentile(highest, 25)
    out["ridge.highest.hz"] = (LOW + p[f][highest.argmax()].argmax()) * RATE / 1024
    out["ridge.held200ms.max"] = hold[f].max()
    out["ridge.held200ms.over5dB"] = (hold[f].max(axis=1) > 5).mean()
    out["ridge.held400ms.mean"] = held(p, 25)[f].max(axis=1).mean()
    out["ridge.highest.mean.relative"] = highest.mean() - np.median(p.max(axis=1))
    band = p[:, round(250 / (RATE / 1024)) - LOW: round(450 / (RATE / 1024)) - LOW]
    out["ridge.highest.250-450Hz.max"] = band[f].max()

    v = long[f, LOW:HIGH] + DENSITY
    share = v / v.sum(axis=1, keepdims=True)
    k = np.arange(v.shape[1])
    centre = share @ k
    out["spectrum.entropy.mean"] = -(share * np.log(share)).sum(axis=1).mean()
    out["spectrum.flatness.mean"] = (10 * (np.log10(v).mean(axis=1) - np.log10(v.mean(axis=1)))).mean()
    out["spectrum.centroid.mean"] = ((LOW + centre) * RATE / 1024).mean()
    width = np.sqrt((share * (k - centre[:, None]) ** 2).sum(axis=1)) * RATE / 1024
    out["spectrum.bandwidth.p75"] = np.percentile(width, 75)
    out["spectrum.peaks.mean"] = np.mean([maxima(row, 7, 8) for row in p[f]])

    mel = mel_levels(density(x, 512))
    average = mel[f].mean(axis=0)
    out["average.peak"] = (average - median(average, 9)).max()
    out["average.peakBand"] = (average - median(average, 9)).argmax()
    cepstrum = scipy.fft.dct(mel, norm="ortho", axis=1)
    c = cepstrum[f, 3]
    out["cepstrum.3.mean"] = c.mean()
    out["cepstrum.3.sd"] = c.std()
    out["cepstrum.3.step"] = np.abs(np.diff(c)).mean()
    out["cepstrum.3.relative"] = c.mean() - np.median(cepstrum[:, 3])
    out["melStep.2.sd"] = np.diff(mel[f, 10:15].mean(axis=1)).std()
    n = f.stop - f.start
    sixth = mel[f.start + n // 6: f.start + n * 2 // 6, 15:20] - np.median(mel, axis=0)[15:20]
    out["contour.1.3"] = sixth.mean()

    bands = [envelope(x, *edges) for edges in ((100, 300), (300, 700), (700, 1400), (1400, 1950))]
    level, rise = bands[1]
    out["rise.300-700Hz.p95"] = np.percentile(rise[s], 95)
    out["rise.300-700Hz.sd"] = rise[s].std()
    out["rise.300-700Hz.kurtosis"] = kurtosis(rise[s])
    out["rise.300-700Hz.over7dB"] = maxima(rise[s], 11, 7) / (end - start)
    out["level.300-700Hz.peakiness"] = 10 * np.log10((10 ** (level[s] / 10)).mean()) - level[s].mean()
    out["level.300-700Hz.crest"] = level[s].max() - np.median(level[s])
    out["level.300-700Hz.median.relative"] = np.median(level[s]) - np.median(level)
    out["rise.joint.p99"] = np.percentile(sum(r for _, r in bands[1:])[s], 99)
    out["rise.together.300-700Hz.700-1400Hz"] = np.corrcoef(bands[1][1][s], bands[2][1][s])[0, 1]
    out["modulation.300-700Hz.5-10Hz"] = modulation(level[s], 5, 10)

    y = zero_phase("bandpass", 2, [150, 1950], x)[s.start * 8: s.stop * 8]
    out["wave.kurtosis"] = kurtosis(y)
    out["wave.crest"] = np.abs(y).max() / y.std()
    out["wave.blockKurtosis.median"] = np.median([kurtosis(b) for b in y[: len(y) // 400 * 400].reshape(-1, 400)])
    out["residual.kurtosis"] = kurtosis(residual(y))
    crossings = np.flatnonzero(np.diff(y < 0)) + 1
    out["deflection.meanMs"] = np.diff(crossings).mean() / 8
    out["deflection.medianMs"] = np.median(np.diff(crossings)) / 8
    out["deflection.rate"] = len(crossings) / len(y)
    return out


def scaled(x):
    whole = x[: len(x) // 512 * 512].reshape(-1, 512)
    return x / np.median(np.sqrt((whole**2).mean(axis=1)))


def main():
    spans = [(0.8, 2.4), (0.0, 4.0)]
    cases = []
    for start, end in spans:
        values = {name: float(value) for name, value in features(sound(), start, end).items()}
        cases.append({"name": f"{start} to {end} s", "start": start, "end": end, "names": list(values), "values": list(values.values())})
    versions = {"scipy": scipy.__version__, "numpy": np.__version__, "python": platform.python_version()}
    body = {"madeWith": versions, "script": "tests/golden/make_features.py", "cases": cases}
    OUT.write_text(json.dumps(body, separators=(",", ":")).replace('{"name"', '\n{"name"') + "\n")
    print(f"{OUT.name}: {len(cases)} spans, {len(cases[0]['names'])} features")


if __name__ == "__main__":
    main()
