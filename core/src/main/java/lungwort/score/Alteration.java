package lungwort.score;

import java.util.SplittableRandom;
import lungwort.audio.Recording;
import lungwort.signal.Fft;

/**
 * Alters a recording as other devices and rooms would: a random colour, a narrower band, added noise. Used in training, so that the model does not learn one stethoscope's
 * sound by heart.
 *
 * <p>Colour: a gain curve drawn at octave centres, uniformly within +-10 dB, interpolated over the logarithm of frequency, without phase. Band: with probability 0.4 a
 * low-pass at 1 to 2 kHz (fourth-order roll-off). Noise: with probability 0.5 white noise at 10 to 30 dB below the recording's level.
 */
final class Alteration {
    private static final double LOWEST_HZ = 62.5;
    private static final int OCTAVES = 8;
    private static final double MOST_DB = 10;
    private static final double BAND_SHARE = 0.4;
    private static final double NOISE_SHARE = 0.5;

    private Alteration() {}

    /** The altered recording; the same for the same seed. */
    static Recording of(Recording recording, long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        double[] curve = curve(random);
        boolean narrow = random.nextDouble() < BAND_SHARE;
        double cutoffHz = narrow ? 1000 + 1000 * random.nextDouble() : Double.POSITIVE_INFINITY;
        double[] x = coloured(recording.samples(), recording.sampleRateHz(), curve, cutoffHz);
        if (random.nextDouble() < NOISE_SHARE) {
            addNoise(x, 10 + 20 * random.nextDouble(), random);
        }
        return recording.with(x, recording.sampleRateHz());
    }

    private static double[] curve(SplittableRandom random) {
        double[] curve = new double[OCTAVES];
        for (int i = 0; i < OCTAVES; i++) {
            curve[i] = (2 * random.nextDouble() - 1) * MOST_DB;
        }
        return curve;
    }

    /** Only the random colour. */
    static Recording equalised(Recording r, long seed) {
        double[] curve = curve(new SplittableRandom(seed));
        return r.with(coloured(r.samples(), r.sampleRateHz(), curve, Double.POSITIVE_INFINITY), r.sampleRateHz());
    }

    /** Only the low-pass. */
    static Recording lowPassed(Recording r, double cutoffHz) {
        return r.with(coloured(r.samples(), r.sampleRateHz(), new double[OCTAVES], cutoffHz), r.sampleRateHz());
    }

    /** Only the noise. */
    static Recording noisy(Recording r, double belowDb, long seed) {
        double[] x = r.samples();
        addNoise(x, belowDb, new SplittableRandom(seed));
        return r.with(x, r.sampleRateHz());
    }

    private static double[] coloured(double[] x, int rateHz, double[] curve, double cutoffHz) {
        Fft fft = Fft.of(Fft.nextPowerOfTwo(Math.max(2, x.length)));
        int n = fft.size();
        double[] z = new double[2 * n];
        for (int i = 0; i < x.length; i++) {
            z[2 * i] = x[i];
        }
        fft.forward(z);
        for (int k = 0; k < n; k++) {
            double hz = (double) Math.min(k, n - k) * rateHz / n;
            double gain = gain(hz, curve, cutoffHz);
            z[2 * k] *= gain;
            z[2 * k + 1] *= gain;
        }
        fft.inverse(z);
        double[] y = new double[x.length];
        for (int i = 0; i < y.length; i++) {
            y[i] = z[2 * i];
        }
        return y;
    }

    private static double gain(double hz, double[] curve, double cutoffHz) {
        double octave = Math.max(0, Math.min(curve.length - 1, Math.log(Math.max(1, hz) / LOWEST_HZ) / Math.log(2)));
        int low = Math.min(curve.length - 2, (int) octave);
        double db = curve[low] + (octave - low) * (curve[low + 1] - curve[low]);
        double ratio = hz / cutoffHz;
        return Math.pow(10, db / 20) / Math.sqrt(1 + Math.pow(ratio, 8));
    }

    private static void addNoise(double[] x, double belowDb, SplittableRandom random) {
        double sum = 0;
        for (double v : x) {
            sum += v * v;
        }
        double level = Math.sqrt(sum / Math.max(1, x.length)) * Math.pow(10, -belowDb / 20);
        for (int i = 0; i < x.length; i++) {
            x[i] += level * random.nextGaussian();
        }
    }
}
