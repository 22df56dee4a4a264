package lungwort.signal;

import java.util.Arrays;

/** A cascade of second-order sections {@code (b0 + b1 z^-1 + b2 z^-2) / (1 + a1 z^-1 + a2 z^-2)}; immutable, safe to share. */
public final class SosFilter {
    private final double[][] sections;
    private final int rateHz;

    /**
     * @param sections shape {@code [sections][6]}: b0, b1, b2, 1, a1, a2; copied
     * @param rateHz sample rate the filter is made for, in Hz
     * @throws IllegalArgumentException if there is no section, or one is not six numbers with 1 as the fourth
     */
    public SosFilter(double[][] sections, int rateHz) {
        if (sections.length == 0) {
            throw new IllegalArgumentException("a filter needs a section");
        }
        this.sections = new double[sections.length][];
        for (int i = 0; i < sections.length; i++) {
            if (sections[i].length != 6 || sections[i][3] != 1) {
                throw new IllegalArgumentException("section %d is not b0, b1, b2, 1, a1, a2".formatted(i));
            }
            this.sections[i] = sections[i].clone();
        }
        this.rateHz = rateHz;
    }

    /** A copy of the sections, shape {@code [sections][6]}. */
    public double[][] sections() {
        double[][] copy = new double[sections.length][];
        for (int i = 0; i < copy.length; i++) {
            copy[i] = sections[i].clone();
        }
        return copy;
    }

    /** Sample rate the filter is made for, in Hz. */
    public int rateHz() {
        return rateHz;
    }

    /** Gain (not in dB) of one forward pass at a frequency in [0, rateHz / 2]; {@link #filtFilt} has its square. */
    public double gainAt(double hz) {
        double radians = 2 * Math.PI * hz / rateHz;
        double gain = 1;
        for (double[] s : sections) {
            gain *= magnitude(new double[] {s[0], s[1], s[2]}, radians)
                    / magnitude(new double[] {s[3], s[4], s[5]}, radians);
        }
        return gain;
    }

    /** One causal pass from rest. Returns a new array of the same length. */
    public double[] filter(double[] x) {
        double[] y = x.clone();
        for (double[] section : sections) {
            run(section, y, 0, 0);
        }
        return y;
    }

    /**
     * Forward and backward, so without delay and with the gain squared; each end is extended by its odd reflection, as SciPy's {@code sosfiltfilt} does.
     *
     * <p>The extension is {@code 3 (2 sections + 1)} samples as in SciPy (less 3 for a first-order section), or all there is in a shorter signal, where SciPy refuses.
     *
     * @return a new array of the same length; an empty one for an empty one
     */
    public double[] filtFilt(double[] x) {
        if (x.length == 0) {
            return new double[0];
        }
        int pad = Math.min(padSamples(), x.length - 1);
        double[] y = oddExtension(x, pad);
        settledPass(y);
        reverse(y);
        settledPass(y);
        reverse(y);
        return Arrays.copyOfRange(y, pad, pad + x.length);
    }

    private int padSamples() {
        int shortNumerators = 0;
        int shortDenominators = 0;
        for (double[] s : sections) {
            shortNumerators += s[2] == 0 ? 1 : 0;
            shortDenominators += s[5] == 0 ? 1 : 0;
        }
        return 3 * (2 * sections.length + 1 - Math.min(shortNumerators, shortDenominators));
    }

    private static double[] oddExtension(double[] x, int pad) {
        double[] y = new double[x.length + 2 * pad];
        System.arraycopy(x, 0, y, pad, x.length);
        double first = x[0];
        double last = x[x.length - 1];
        for (int i = 1; i <= pad; i++) {
            y[pad - i] = 2 * first - x[i];
            y[pad + x.length - 1 + i] = 2 * last - x[x.length - 1 - i];
        }
        return y;
    }

    /** Each section starts in the state it would have after an endless constant equal to the first sample. */
    private void settledPass(double[] y) {
        double level = y[0];
        for (double[] s : sections) {
            double gain = (s[0] + s[1] + s[2]) / (1 + s[4] + s[5]);
            run(s, y, level * (gain - s[0]), level * (s[2] - s[5] * gain));
            level *= gain;
        }
    }

    /** Direct form II transposed, in place. */
    private static void run(double[] s, double[] y, double state1, double state2) {
        double b0 = s[0];
        double b1 = s[1];
        double b2 = s[2];
        double a1 = s[4];
        double a2 = s[5];
        double z1 = state1;
        double z2 = state2;
        for (int i = 0; i < y.length; i++) {
            double in = y[i];
            double out = b0 * in + z1;
            z1 = b1 * in - a1 * out + z2;
            z2 = b2 * in - a2 * out;
            y[i] = out;
        }
    }

    private static void reverse(double[] y) {
        for (int i = 0, j = y.length - 1; i < j; i++, j--) {
            double swap = y[i];
            y[i] = y[j];
            y[j] = swap;
        }
    }

    /** Magnitude of c0 + c1 e^-iw + c2 e^-2iw. */
    static double magnitude(double[] c, double radians) {
        double re = c[0] + c[1] * Math.cos(radians) + c[2] * Math.cos(2 * radians);
        double im = c[1] * Math.sin(radians) + c[2] * Math.sin(2 * radians);
        return Math.hypot(re, im);
    }
}
