package lungwort.audio;

import java.util.stream.IntStream;

/**
 * Change of sample rate by band-limited interpolation (J. O. Smith, "Digital audio resampling", the Kaiser-windowed sinc with 17 zero crossings each way that TarsosDSP carries).
 *
 * <p>No delay: sample 0 stays at time 0. What lies beyond the ends counts as silence. Flat to 0.39 of the lower rate, -6 dB at 0.45 of it.
 */
public final class Resampler {
    private Resampler() {}

    /**
     * The recording at another rate.
     *
     * @param recording any length, also empty
     * @param rateHz wanted rate, in [{@value Recording#MIN_RATE_HZ}, {@value Recording#MAX_RATE_HZ}]
     * @return the recording itself if it has that rate already; else one of {@code ceil(length rateHz / sampleRateHz)} samples
     */
    public static Recording toRate(Recording recording, int rateHz) {
        int from = recording.sampleRateHz();
        if (from == rateHz) {
            return recording;
        }
        return Recording.owning(resampled(recording, 0, rateHz), rateHz, recording.origin(), recording.source());
    }

    /**
     * The samples less their mean, at another rate: as {@link #toRate} gives them, without holding copies at the recording's own rate, which is what fills the memory
     * where a recording is long.
     *
     * @param recording any length, also empty
     * @param rateHz wanted rate, in [{@value Recording#MIN_RATE_HZ}, {@value Recording#MAX_RATE_HZ}]
     * @return a new array of {@code ceil(length rateHz / sampleRateHz)} samples
     * @throws lungwort.BadInput if samples are so large that they overflow
     */
    public static double[] withoutMean(Recording recording, int rateHz) {
        double mean = mean(recording);
        double[] x = recording.sampleRateHz() == rateHz
                ? IntStream.range(0, recording.length())
                        .mapToDouble(i -> recording.sample(i) - mean)
                        .toArray()
                : resampled(recording, mean, rateHz);
        Recording.requireFinite(x, rateHz, recording.origin());
        return x;
    }

    private static double mean(Recording recording) {
        double sum = 0;
        for (int i = 0; i < recording.length(); i++) {
            sum += recording.sample(i);
        }
        return recording.length() == 0 ? 0 : sum / recording.length();
    }

    private static double[] resampled(Recording recording, double offset, int rateHz) {
        int from = recording.sampleRateHz();
        int length = Math.toIntExact(((long) recording.length() * rateHz + from - 1) / from);
        double factor = (double) rateHz / from;
        float[] in = new float[recording.length()];
        for (int i = 0; i < in.length; i++) {
            in[i] = (float) (recording.sample(i) - offset);
        }
        float[] out = new float[length + 16];
        be.tarsos.dsp.resample.Resampler resampler = new be.tarsos.dsp.resample.Resampler(true, factor, factor);
        int consumed = 0;
        int made = 0;
        while (made < out.length) {
            var step =
                    resampler.process(factor, in, consumed, in.length - consumed, true, out, made, out.length - made);
            consumed += step.inputSamplesConsumed;
            made += step.outputSamplesGenerated;
            if (step.inputSamplesConsumed == 0 && step.outputSamplesGenerated == 0) {
                break;
            }
        }
        double[] samples = new double[length];
        for (int i = 0; i < Math.min(made, length); i++) {
            samples[i] = out[i];
        }
        return samples;
    }
}
