package lungwort.signal;

import java.util.concurrent.ConcurrentHashMap;
import org.jtransforms.fft.DoubleFFT_1D;
import org.jtransforms.utils.CommonUtils;

/** Discrete Fourier transforms of one length; immutable, safe to share between threads. */
public final class Fft {
    /** Longest transform whose tables are kept for the next caller: those of the short frames are asked for all the time. */
    private static final int MAX_KEPT_SIZE = 1 << 15;

    private static final ConcurrentHashMap<Integer, Fft> KEPT = new ConcurrentHashMap<>();

    static {
        // Results must not depend on the number of threads, and we work on several recordings at once anyway.
        CommonUtils.setThreadsBeginN_1D_FFT_2Threads(Long.MAX_VALUE);
        CommonUtils.setThreadsBeginN_1D_FFT_4Threads(Long.MAX_VALUE);
    }

    private final DoubleFFT_1D transform;
    private final int size;

    private Fft(int size) {
        this.size = size;
        this.transform = new DoubleFFT_1D(size);
    }

    /**
     * The transform of a length.
     *
     * @param size number of samples, at least 1; powers of two are fastest, others work
     */
    public static Fft of(int size) {
        if (size < 1) {
            throw new IllegalArgumentException("a transform needs 1 sample or more, not " + size);
        }
        boolean keep = size <= MAX_KEPT_SIZE && Integer.bitCount(size) == 1;
        return keep ? KEPT.computeIfAbsent(size, Fft::new) : new Fft(size);
    }

    /** Number of samples in. */
    public int size() {
        return size;
    }

    /** Number of bins of a real signal: {@code size / 2 + 1}. */
    public int bins() {
        return size / 2 + 1;
    }

    /**
     * |X[k]|^2 of real samples, unscaled.
     *
     * @param samples shape {@code [size]}; overwritten (it is the work space)
     * @param power shape {@code [bins]}; receives the result
     */
    public void powerInto(double[] samples, double[] power) {
        requireLength(samples.length, size);
        requireLength(power.length, bins());
        transform.realForward(samples);
        power[0] = samples[0] * samples[0];
        int whole = (size + 1) / 2;
        for (int k = 1; k < whole; k++) {
            double re = samples[2 * k];
            // For odd sizes JTransforms stores the imaginary part of the last bin in the second place.
            double im = 2 * k + 1 < size ? samples[2 * k + 1] : samples[1];
            power[k] = re * re + im * im;
        }
        if (size % 2 == 0) {
            power[size / 2] = samples[1] * samples[1];
        }
    }

    /** |X[k]|^2 of real samples, unscaled: shape {@code [x.length / 2 + 1]}. */
    public static double[] power(double[] x) {
        Fft fft = of(x.length);
        double[] power = new double[fft.bins()];
        fft.powerInto(x.clone(), power);
        return power;
    }

    /** In place, interleaved re, im: shape {@code [2 size]}. */
    public void forward(double[] complex) {
        requireLength(complex.length, 2 * size);
        transform.complexForward(complex);
    }

    /** In place, interleaved re, im, scaled by 1 / size: undoes {@link #forward}. */
    public void inverse(double[] complex) {
        requireLength(complex.length, 2 * size);
        transform.complexInverse(complex, true);
    }

    /**
     * The analytic signal x + i H(x) by leaving out negative frequencies (Marple 1999), as SciPy's {@code hilbert}.
     *
     * @param x real samples, not empty
     * @return interleaved re, im: shape {@code [2 x.length]}
     */
    public static double[] analytic(double[] x) {
        int n = x.length;
        Fft fft = of(n);
        double[] z = new double[2 * n];
        for (int i = 0; i < n; i++) {
            z[2 * i] = x[i];
        }
        fft.forward(z);
        int firstNegative = n / 2 + 1;
        int endOfPositive = (n + 1) / 2;
        for (int k = 1; k < endOfPositive; k++) {
            z[2 * k] *= 2;
            z[2 * k + 1] *= 2;
        }
        java.util.Arrays.fill(z, 2 * firstNegative, 2 * n, 0);
        fft.inverse(z);
        return z;
    }

    /** The smallest power of two that is at least {@code n} (n in [1, 2^30]). */
    public static int nextPowerOfTwo(int n) {
        if (n < 1 || n > 1 << 30) {
            throw new IllegalArgumentException("no power of two for " + n);
        }
        return n == 1 ? 1 : Integer.highestOneBit(n - 1) << 1;
    }

    private static void requireLength(int length, int wanted) {
        if (length != wanted) {
            throw new IllegalArgumentException("an array of %d where %d is needed".formatted(length, wanted));
        }
    }
}
