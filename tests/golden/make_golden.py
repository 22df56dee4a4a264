#!/usr/bin/python3
"""Writes the golden vectors that core's tests are held against, computed by SciPy and NumPy.

    apt-get install python3-scipy
    /usr/bin/python3 tests/golden/make_golden.py

Writes core/src/test/resources/golden/*.json; each file holds the versions it was made with. Every input is either stored in the file or made by
`noise` below, so the tests need no random generator of their own. Nothing here is drawn from a recording of a person.
"""

import json
import pathlib
import platform

import numpy as np
import scipy
import scipy.fft
import scipy.signal as sig
import scipy.stats

OUT = pathlib.Path(__file__).resolve().parents[2] / "core/src/test/resources/golden"
VERSIONS = {"scipy": scipy.__version__, "numpy": np.__version__, "python": platform.python_version()}


def noise(n, seed):
    """Normal noise with a slow tone and an offset; rounded so that the JSON file stays small and exact."""
    rng = np.random.default_rng(seed)
    x = rng.normal(size=n) + 0.5 * np.sin(2 * np.pi * 0.013 * np.arange(n)) + 0.3
    return np.round(x, 6)


def plain(value):
    if isinstance(value, np.ndarray):
        return value.tolist()
    if isinstance(value, np.generic):
        return value.item()
    return value


def write(name, cases):
    body = {"madeWith": VERSIONS, "script": "tests/golden/make_golden.py", "cases": cases}
    OUT.mkdir(parents=True, exist_ok=True)
    text = json.dumps(body, default=plain, separators=(",", ":")).replace('{"name"', '\n{"name"')
    (OUT / (name + ".json")).write_text(text + "\n")
    print(f"{name}.json: {len(cases)} cases, {len(text)} bytes")


FILTERS = [
    ("lowpass", 1, [900.0], 8000),
    ("lowpass", 4, [500.0], 4000),
    ("lowpass", 5, [1900.0], 4000),
    ("highpass", 2, [60.0], 8000),
    ("highpass", 3, [100.0], 44100),
    ("bandpass", 1, [100.0, 1000.0], 4000),
    ("bandpass", 2, [10.0, 1990.0], 4000),
    ("bandpass", 3, [200.0, 400.0], 8000),
    ("bandpass", 4, [60.0, 1900.0], 4000),
    ("bandpass", 6, [100.0, 3000.0], 8000),
]


def filters():
    cases = []
    for kind, order, edges, rate in FILTERS:
        sos = sig.butter(order, edges if len(edges) > 1 else edges[0], btype=kind, fs=rate, output="sos")
        x = noise(160, order)
        hz = np.linspace(1, rate / 2 - 1, 25)
        response = sig.sosfreqz(sos, worN=hz, fs=rate)[1]
        cases.append({
            "name": f"{kind} {order} {edges} {rate}", "kind": kind, "order": order, "edgesHz": edges, "rateHz": rate,
            "sos": sos, "hz": hz, "gain": np.abs(response), "x": x,
            "sosfilt": sig.sosfilt(sos, x), "sosfiltfilt": sig.sosfiltfilt(sos, x),
        })
    write("butterworth", cases)


def spectrograms():
    cases = []
    for rate, frame, hop, nfft, n in [(4000, 64, 16, 64, 300), (8000, 50, 25, 128, 201), (4000, 33, 11, 45, 120), (8000, 64, 64, 64, 64)]:
        x = noise(n, frame)
        f, t, p = sig.spectrogram(x, rate, window="hann", nperseg=frame, noverlap=frame - hop, nfft=nfft, detrend=False,
                                  scaling="density", mode="psd")
        cases.append({"name": f"{rate} {frame} {hop} {nfft}", "rateHz": rate, "frame": frame, "hop": hop, "fft": nfft, "x": x,
                      "hz": f, "seconds": t, "power": p.T})
    write("spectrogram", cases)


def mel_bands():
    """HTK's mel formula, unit-peak triangles: written out here from the definition, SciPy has none."""
    cases = []
    for bands, low, high, bins, bin_hz in [(20, 60.0, 1900.0, 129, 15.625), (8, 0.0, 2000.0, 65, 31.25), (40, 50.0, 3900.0, 513, 7.8125)]:
        mel = np.linspace(2595 * np.log10(1 + low / 700), 2595 * np.log10(1 + high / 700), bands + 2)
        edges = 700 * (10 ** (mel / 2595) - 1)
        hz = np.arange(bins) * bin_hz
        weights = np.array([np.interp(hz, edges[b:b + 3], [0, 1, 0], left=0, right=0) for b in range(bands)])
        x = noise(bins, bands) ** 2
        cases.append({"name": f"{bands} {low} {high}", "bands": bands, "lowHz": low, "highHz": high, "bins": bins, "binHz": bin_hz,
                      "power": x, "energies": weights @ x, "centresHz": edges[1:-1]})
    write("mel", cases)


def transforms():
    cases = []
    for n in [1, 2, 5, 16, 31, 40, 128]:
        x = noise(n, n)
        analytic = sig.hilbert(x)
        cases.append({"name": f"{n}", "x": x, "dct": scipy.fft.dct(x, type=2, norm="ortho"), "rfftPower": np.abs(np.fft.rfft(x)) ** 2,
                      "hilbertImag": analytic.imag, "envelope": np.abs(analytic)})
    write("transforms", cases)


def resampling():
    """Tones well inside the lower rate's band, so that two different band-limiting filters must agree."""
    cases = []
    for rate, to in [(44100, 4000), (10000, 8000), (4000, 8000), (8000, 4000), (48000, 8000), (22050, 8000)]:
        n = rate // 20
        t = np.arange(n) / rate
        low = min(rate, to)
        tones = [0.031, 0.11, 0.23, 0.34]
        # Fades at both ends: what a filter makes of a sudden edge is a matter of taste, not of truth.
        x = np.round(sum(np.sin(2 * np.pi * f * low * t + k) for k, f in enumerate(tones)) / 5 * sig.windows.tukey(n, 0.4), 7)
        g = np.gcd(rate, to)
        y = sig.resample_poly(x, to // g, rate // g, window=("kaiser", 9.0))
        cases.append({"name": f"{rate} to {to}", "rateHz": rate, "toHz": to, "tonesHz": [f * low for f in tones], "x": x, "y": y})
    write("resample", cases)


def statistics():
    cases = []
    arrays = {"noise odd": noise(101, 1), "noise even": noise(64, 2), "one": np.array([2.5]), "two": np.array([3.0, -1.0]),
              "ties": np.array([1.0, 1, 1, 2, 2, 5, 5, 5, 5]), "constant": np.full(7, 0.1), "outlier": np.append(noise(40, 3), 1e6),
              "descending": np.arange(50.0)[::-1]}
    percents = [0, 1, 5, 25, 33.3, 50, 75, 90, 97.5, 100]
    for name, x in arrays.items():
        flat = np.ptp(x) == 0
        cases.append({"name": name, "x": x, "mean": x.mean(), "standardDeviation": x.std(), "median": np.median(x),
                      "mad": scipy.stats.median_abs_deviation(x), "percents": percents, "percentiles": np.percentile(x, percents),
                      "skewness": 0 if flat else scipy.stats.skew(x), "kurtosis": 0 if flat else scipy.stats.kurtosis(x)})
    write("statistics", cases)


def autocorrelations():
    cases = []
    for n, lags in [(50, 20), (128, 127), (3, 2)]:
        x = noise(n, n)
        d = x - x.mean()
        full = np.correlate(d, d, mode="full")[n - 1:n + lags]
        cases.append({"name": f"{n}", "x": x, "maxLag": lags, "normalised": full / full[0]})
    write("autocorrelation", cases)


def mu_law():
    """G.711 by Python's audioop, which is Sun's public reference code; the module left Python with 3.13."""
    import audioop
    samples = np.arange(-32768, 32768, 4 * 37)
    sent = list(audioop.lin2ulaw(samples.astype("<i2").tobytes(), 2))
    heard = np.frombuffer(audioop.ulaw2lin(bytes(range(256)), 2), "<i2").astype(int)
    write("mu-law", [{"name": "encode", "samples": samples, "codes": sent}, {"name": "decode", "samples": heard, "codes": list(range(256))}])


if __name__ == "__main__":
    print("SciPy", scipy.__version__, "NumPy", np.__version__)
    filters()
    spectrograms()
    mel_bands()
    transforms()
    resampling()
    statistics()
    autocorrelations()
    mu_law()
