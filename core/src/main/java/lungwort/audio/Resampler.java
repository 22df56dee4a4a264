package lungwort.audio;

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
        long length = ((long) recording.length() * rateHz + from - 1) / from;
        double[] samples = resample(recording, (double) rateHz / from, Math.toIntExact(length));
        return Recording.owning(samples, rateHz, recording.origin(), recording.source());
    }

    private static double[] resample(Recording recording, double factor, int length) {
        float[] in = new float[recording.length()];
        for (int i = 0; i < in.length; i++) {
            in[i] = (float) recording.sample(i);
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
