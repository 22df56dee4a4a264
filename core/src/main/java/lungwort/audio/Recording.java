package lungwort.audio;

import java.util.Arrays;
import java.util.Objects;
import java.util.function.Consumer;
import lungwort.BadInput;

/** A mono recording: immutable samples, nominally in [-1, 1], their rate in Hz, and where they came from. */
public final class Recording {
    /** Lowest sample rate that is accepted, in Hz: the narrowest stethoscope in public databases gives 4000. */
    public static final int MIN_RATE_HZ = 1_000;

    /** Highest sample rate that is accepted, in Hz. */
    public static final int MAX_RATE_HZ = 384_000;

    private static final int BLOCK_SAMPLES = 1 << 16;

    private final double[] samples;
    private final int sampleRateHz;
    private final String origin;
    private final SourceFormat source;

    /**
     * @param samples mono samples, copied; every one must be finite
     * @param sampleRateHz in [{@value #MIN_RATE_HZ}, {@value #MAX_RATE_HZ}]
     * @param origin name for people: a file name or what made it; line ends and other control characters become question marks
     * @param source how it was stored
     * @throws BadInput if the rate is out of range or a sample is not a finite number
     */
    public Recording(double[] samples, int sampleRateHz, String origin, SourceFormat source) {
        this(samples.clone(), sampleRateHz, origin, source, true);
    }

    /** Samples made in memory. */
    public Recording(double[] samples, int sampleRateHz, String origin) {
        this(samples, sampleRateHz, origin, SourceFormat.memory(sampleRateHz));
    }

    private Recording(double[] owned, int sampleRateHz, String origin, SourceFormat source, boolean check) {
        requireRate(sampleRateHz, origin);
        if (check) {
            requireFinite(owned, sampleRateHz, origin);
        }
        this.samples = owned;
        this.sampleRateHz = sampleRateHz;
        this.origin = BadInput.onOneLine(origin);
        this.source = Objects.requireNonNull(source);
    }

    /** Samples that nobody else holds, so that a long recording is not in memory twice. */
    static Recording owning(double[] owned, int sampleRateHz, String origin, SourceFormat source) {
        return new Recording(owned, sampleRateHz, origin, source, true);
    }

    /** The same samples under another name for people. */
    public Recording withOrigin(String newOrigin) {
        return new Recording(samples, sampleRateHz, newOrigin, source, false);
    }

    /** The same samples, said to have been stored otherwise. */
    public Recording withSource(SourceFormat newSource) {
        return new Recording(samples, sampleRateHz, origin, newSource, false);
    }

    static void requireRate(int sampleRateHz, String origin) {
        if (sampleRateHz < MIN_RATE_HZ || sampleRateHz > MAX_RATE_HZ) {
            throw BadInput.of(
                    "%s: its sample rate of %d Hz is outside %d to %d Hz; record at 4000 Hz or more.",
                    origin, sampleRateHz, MIN_RATE_HZ, MAX_RATE_HZ);
        }
    }

    static void requireFinite(double[] samples, int rateHz, String origin) {
        for (int i = 0; i < samples.length; i++) {
            if (!Double.isFinite(samples[i])) {
                throw BadInput.of(
                        "%s: the sample at %.3f s is not a number; the file is damaged, record again.",
                        origin, (double) i / rateHz);
            }
        }
    }

    /** A copy of the samples, length {@link #length()}. */
    public double[] samples() {
        return samples.clone();
    }

    /** Hands the samples on in order, in arrays of their own: for what takes blocks of any length, so that a long recording is not copied whole. */
    public void inBlocks(Consumer<double[]> sink) {
        for (int from = 0; from < samples.length; from += BLOCK_SAMPLES) {
            sink.accept(Arrays.copyOfRange(samples, from, Math.min(samples.length, from + BLOCK_SAMPLES)));
        }
    }

    /** The sample at an index in [0, {@link #length()}). */
    public double sample(int index) {
        return samples[index];
    }

    /** Number of samples. */
    public int length() {
        return samples.length;
    }

    /** Samples a second, in Hz. */
    public int sampleRateHz() {
        return sampleRateHz;
    }

    /** Length in seconds. */
    public double durationSeconds() {
        return (double) samples.length / sampleRateHz;
    }

    /** Name for people. */
    public String origin() {
        return origin;
    }

    /** How it was stored. */
    public SourceFormat source() {
        return source;
    }

    /** The same origin and source with other samples at another rate, as filters and resamplers make them. */
    public Recording with(double[] newSamples, int newRateHz) {
        return new Recording(newSamples, newRateHz, origin, source);
    }

    /**
     * The part from {@code startSeconds} (inclusive) to {@code endSeconds} (exclusive), both clamped to the recording.
     *
     * @throws IllegalArgumentException if the end lies before the start
     */
    public Recording slice(double startSeconds, double endSeconds) {
        if (endSeconds < startSeconds) {
            throw new IllegalArgumentException(
                    "slice ends before it starts: %s to %s s".formatted(startSeconds, endSeconds));
        }
        int from = clampIndex(startSeconds);
        int to = clampIndex(endSeconds);
        return new Recording(Arrays.copyOfRange(samples, from, to), sampleRateHz, origin, source, false);
    }

    private int clampIndex(double seconds) {
        return (int) Math.max(0, Math.min(samples.length, Math.round(seconds * sampleRateHz)));
    }
}
