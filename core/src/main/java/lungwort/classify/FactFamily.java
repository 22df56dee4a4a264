package lungwort.classify;

import java.util.Locale;
import lungwort.feature.FeatureCatalogue;

/** Families of features that say one thing to a person, each with its sentence and the measured values it names. */
enum FactFamily {
    TONE("ridge.", "ridgeTone.") {
        @Override
        String words(float[] x) {
            return String.format(
                    Locale.ROOT,
                    "a tone near %.0f Hz stands %.0f dB out of the sound around it for at least a fifth of a second",
                    value(x, "ridge.held200ms.hz"),
                    value(x, "ridge.held200ms.max"));
        }
    },
    RECURRENCE("recurrence.") {
        @Override
        String words(float[] x) {
            return String.format(
                    Locale.ROOT,
                    "short bursts stand where other breaths hold them too (%.1f a second that half of them hold)",
                    value(x, "recurrence.sure.often"));
        }
    },
    BURSTS("rise.", "burst.", "crackle.") {
        @Override
        String words(float[] x) {
            return String.format(
                    Locale.ROOT,
                    "%.1f short bursts a second rise 12 dB or more over the sound around them (700 to 1400 Hz), the highest by %.0f dB",
                    value(x, "rise.700-1400Hz.over12dB"),
                    value(x, "rise.700-1400Hz.p99.5"));
        }
    },
    FLUTTER("modulation.") {
        @Override
        String words(float[] x) {
            return "its loudness comes and goes at the pace that goes with such sounds";
        }
    },
    SPIKES("wave.", "residual.") {
        @Override
        String words(float[] x) {
            return String.format(
                    Locale.ROOT,
                    "the waveform is %s (kurtosis %.1f; plain breath noise has about 3)",
                    value(x, "wave.kurtosis") > 4.5 ? "spiky" : "smooth",
                    value(x, "wave.kurtosis"));
        }
    },
    WIDTHS("deflection") {
        @Override
        String words(float[] x) {
            return String.format(
                    Locale.ROOT,
                    "its largest deflections last %.1f ms, two cycles %.1f ms",
                    value(x, "deflection.largest.medianMs"),
                    value(x, "deflection.largest.twoCyclesMs"));
        }
    },
    LOUDNESS("level.", "contour.") {
        @Override
        String words(float[] x) {
            return String.format(
                    Locale.ROOT,
                    "it is %+.0f dB louder than the rest of the recording at 300 to 700 Hz",
                    value(x, "level.300-700Hz.mean.relative"));
        }
    },
    PITCH_SHAPE("spectrum.", "average.") {
        @Override
        String words(float[] x) {
            return String.format(
                    Locale.ROOT, "%.0f %% of its sound lies at one pitch", 100 * value(x, "spectrum.peakShare.max"));
        }
    },
    TIMBRE("cepstrum.", "melStep.", "duration") {
        @Override
        String words(float[] x) {
            return "the balance of its low and high parts, and how it moves, resembles such sounds";
        }
    };

    private final String[] beginnings;

    FactFamily(String... beginnings) {
        this.beginnings = beginnings;
    }

    abstract String words(float[] x);

    static double value(float[] x, String feature) {
        return x[FeatureCatalogue.segment().indexOf(feature)];
    }

    /** The family of a feature. */
    static FactFamily of(String feature) {
        for (FactFamily family : values()) {
            for (String beginning : family.beginnings) {
                if (feature.startsWith(beginning)) {
                    return family;
                }
            }
        }
        throw new IllegalStateException("no family of facts holds the feature " + feature);
    }
}
