#!/usr/bin/python3
"""Writes the small sound files that the readers and decoders are tested on, with an index of what each must hold.

    apt-get install python3-scipy ffmpeg flac
    /usr/bin/python3 tests/golden/make_sounds.py

All sound is computed here: in channel c, at time t (s), 0.4 sin(2 pi 350 t) + 0.2 sin(2 pi (600 + 500 c) t), under a Hann-shaped envelope over the whole length, so
that codecs have no edge to smear. The tests compute the same formula. Encoders: Debian's ffmpeg and flac, their versions are printed and stored in index.json.
"""

import json
import pathlib
import subprocess

import numpy as np

OUT = pathlib.Path(__file__).resolve().parent / "sounds"
INDEX = []


def sound(rate, channels, seconds):
    t = np.arange(int(rate * seconds)) / rate
    envelope = 0.5 - 0.5 * np.cos(2 * np.pi * t / seconds)
    return np.stack([(0.4 * np.sin(2 * np.pi * 350 * t) + 0.2 * np.sin(2 * np.pi * (600 + 500 * c) * t)) * envelope
                     for c in range(channels)], axis=1)


def samples(rate, channels, seconds, bits):
    """As little-endian 64-bit floats, already rounded to what the file will hold: converters differ in how they round."""
    x = sound(rate, channels, seconds)
    if 0 < bits <= 32:
        x = np.round(x * 2.0 ** (bits - 1)) / 2.0 ** (bits - 1)
    return x.astype("<f8").tobytes()


def run(command, data):
    done = subprocess.run(command, input=data, capture_output=True, check=True)
    return done.stdout


def ffmpeg(name, rate, channels, seconds, options, container, encoding, bits=0, exact=False):
    """Through ffmpeg, from 64-bit float samples on its standard input. `exact`: lossless but for rounding to `bits`."""
    path = OUT / name
    run(["ffmpeg", "-v", "error", "-y", "-f", "f64le", "-ar", str(rate), "-ac", str(channels), "-i", "-", "-fflags", "+bitexact",
         "-flags:a", "+bitexact", "-map_metadata", "-1", *options, str(path)], samples(rate, channels, seconds, bits if encoding != "float" else 0))
    note(path, rate, channels, seconds, container, encoding, bits, exact)


def piped(name, rate, channels, seconds, options, container, encoding, bits, exact):
    """As ffmpeg, but written to a pipe: the header cannot be mended afterwards, so lengths stay unknown."""
    data = run(["ffmpeg", "-v", "error", "-f", "f64le", "-ar", str(rate), "-ac", str(channels), "-i", "-", "-flags:a", "+bitexact",
                "-fflags", "+bitexact", *options, "-"], samples(rate, channels, seconds, bits))
    (OUT / name).write_bytes(data)
    note(OUT / name, rate, channels, seconds, container, encoding, bits, exact)


def flac(name, rate, channels, seconds, bits, options, shift=0):
    """Through the flac program from whole numbers; `shift` zero bits at the bottom make wasted bits."""
    scale = 2.0 ** (bits - 1 - shift)
    whole = np.round(sound(rate, channels, seconds) * scale).astype(np.int64) << shift
    raw = b"".join(int(v).to_bytes((bits + 7) // 8, "little", signed=True) for v in whole.ravel())
    run(["flac", "-s", "-f", "-o", str(OUT / name), "--force-raw-format", "--endian=little", "--sign=signed", f"--channels={channels}", f"--bps={bits}",
                f"--sample-rate={rate}", "--no-padding", "--no-seektable", *options, "-"], raw)
    note(OUT / name, rate, channels, seconds, "FLAC", "FLAC", bits, True, bits - shift)


def note(path, rate, channels, seconds, container, encoding, bits, exact, true_bits=None):
    INDEX.append({"file": path.name, "rateHz": rate, "channels": channels, "frames": int(rate * seconds), "container": container,
                  "encoding": encoding, "bits": bits, "exact": exact, "trueBits": true_bits or bits})
    print(f"{path.name}: {path.stat().st_size} bytes")


def wav_files():
    for codec, bits, encoding in [("pcm_u8", 8, "PCM"), ("pcm_s16le", 16, "PCM"), ("pcm_s24le", 24, "PCM"), ("pcm_s32le", 32, "PCM"),
                                  ("pcm_f32le", 32, "float"), ("pcm_f64le", 64, "float")]:
        ffmpeg(f"mono-{codec}.wav", 8000, 1, 0.1, ["-c:a", codec], "WAV", encoding, bits, True)
    ffmpeg("stereo-extensible.wav", 8000, 2, 0.1, ["-c:a", "pcm_s24le"], "WAV", "PCM", 24, True)
    ffmpeg("six-channels-extensible.wav", 8000, 6, 0.05, ["-c:a", "pcm_s16le"], "WAV", "PCM", 16, True)
    ffmpeg("mono-rf64.wav", 8000, 1, 0.1, ["-c:a", "pcm_s16le", "-rf64", "always"], "RF64", "PCM", 16, True)
    ffmpeg("mono-4000.wav", 4000, 1, 0.1, ["-c:a", "pcm_s16le"], "WAV", "PCM", 16, True)
    piped("mono-streamed.wav", 8000, 1, 0.1, ["-c:a", "pcm_s16le", "-f", "wav"], "WAV", "PCM", 16, True)


def flac_files():
    flac("mono-16-fast.flac", 8000, 1, 0.3, 16, ["-0"])
    flac("mono-16-best.flac", 8000, 1, 0.3, 16, ["-8", "-e", "-p"])
    flac("mono-8.flac", 4000, 1, 0.2, 8, [])
    flac("mono-24.flac", 44100, 1, 0.1, 24, [])
    flac("mono-32.flac", 8000, 1, 0.1, 32, [])
    flac("stereo-16-mid-side.flac", 44100, 2, 0.1, 16, ["-m", "-8"])
    flac("stereo-16-independent.flac", 8000, 2, 0.1, 16, ["--no-mid-side"])
    flac("stereo-16-fast.flac", 8000, 2, 0.2, 16, ["-1"])
    flac("three-channels.flac", 8000, 3, 0.1, 16, [])
    flac("wasted-bits.flac", 8000, 1, 0.1, 24, [], shift=9)
    flac("long-predictor.flac", 96000, 1, 0.05, 24, ["--lax", "-l", "32", "-b", "4608"])
    flac("short-blocks.flac", 8000, 1, 0.1, 16, ["--lax", "-b", "17"])
    piped("mono-streamed.flac", 8000, 1, 0.2, ["-c:a", "flac", "-sample_fmt", "s16", "-f", "flac"], "FLAC", "FLAC", 16, True)


def phone_files():
    """What phones and browsers write."""
    ffmpeg("phone.m4a", 44100, 1, 0.5, ["-c:a", "aac", "-b:a", "96k"], "MP4", "AAC")
    ffmpeg("phone-stereo.m4a", 48000, 2, 0.5, ["-c:a", "aac", "-b:a", "128k", "-movflags", "+faststart"], "MP4", "AAC")
    ffmpeg("phone-16000.m4a", 16000, 1, 0.5, ["-c:a", "aac", "-b:a", "48k"], "MP4", "AAC")
    ffmpeg("fragmented.mp4", 44100, 1, 0.5, ["-c:a", "aac", "-b:a", "96k", "-movflags", "frag_keyframe+empty_moov+default_base_moof",
                                             "-frag_duration", "100000"], "MP4", "AAC")
    ffmpeg("bare.aac", 44100, 1, 0.5, ["-c:a", "aac", "-b:a", "96k", "-f", "adts"], "ADTS", "AAC")
    ffmpeg("mono.mp3", 44100, 1, 0.5, ["-c:a", "libmp3lame", "-b:a", "64k"], "MP3", "MP3")
    ffmpeg("stereo-id3.mp3", 48000, 2, 0.5, ["-c:a", "libmp3lame", "-b:a", "96k", "-id3v2_version", "3", "-metadata", "title=tone"],
           "MP3", "MP3")
    ffmpeg("low-rate.mp3", 16000, 1, 0.5, ["-c:a", "libmp3lame", "-b:a", "32k"], "MP3", "MP3")
    ffmpeg("mono-vorbis.ogg", 44100, 1, 0.5, ["-c:a", "libvorbis", "-q:a", "4"], "Ogg", "Vorbis")
    ffmpeg("stereo-vorbis.ogg", 16000, 2, 0.5, ["-c:a", "libvorbis", "-q:a", "4"], "Ogg", "Vorbis")
    ffmpeg("mono.opus", 48000, 1, 0.5, ["-c:a", "libopus", "-b:a", "48k", "-f", "ogg"], "Ogg", "Opus")
    ffmpeg("stereo-opus.ogg", 48000, 2, 0.5, ["-c:a", "libopus", "-b:a", "64k", "-f", "ogg"], "Ogg", "Opus")
    ffmpeg("browser-opus.mp4", 48000, 1, 0.5, ["-c:a", "libopus", "-b:a", "48k"], "MP4", "Opus")
    ffmpeg("browser.webm", 48000, 1, 0.5, ["-c:a", "libopus", "-b:a", "48k", "-f", "webm"], "WebM", "Opus")
    piped("browser-live.webm", 48000, 1, 0.5, ["-c:a", "libopus", "-b:a", "48k", "-f", "webm", "-live", "1", "-cluster_time_limit", "100"],
          "WebM", "Opus", 0, False)
    ffmpeg("lossless.m4a", 8000, 1, 0.2, ["-c:a", "alac", "-sample_fmt", "s16p"], "ffmpeg", "ffmpeg", 0, False)
    ffmpeg("telephone-alaw.wav", 8000, 1, 0.2, ["-c:a", "pcm_alaw"], "ffmpeg", "ffmpeg", 0, False)
    ffmpeg("old.aiff", 8000, 1, 0.1, ["-c:a", "pcm_s16be"], "ffmpeg", "ffmpeg", 0, False)


if __name__ == "__main__":
    OUT.mkdir(exist_ok=True)
    for old in OUT.iterdir():
        old.unlink()
    wav_files()
    flac_files()
    phone_files()
    versions = [run([program, option], b"").decode().splitlines()[0] for program, option in [("ffmpeg", "-version"), ("flac", "--version")]]
    lines = ",\n".join(json.dumps(entry) for entry in INDEX)
    (OUT / "index.json").write_text('{"script": "tests/golden/make_sounds.py", "madeWith": ' + json.dumps(versions) + ',\n"files": [\n' + lines + "\n]}\n")
    print(versions)
