package lungwort.signal;

/**
 * Power spectral density over time: Hann-windowed frames, whole frames only; computed once, then shared and only read.
 *
 * <p>{@code power = c |X[k]|^2 / (rate sum(w^2))} in (unit of x)^2 / Hz, with c = 2 for all bins but 0 Hz and rate / 2 (one-sided). The same as SciPy's
 * {@code spectrogram(x, rate, get_window("hann", frame), noverlap=frame-hop, nfft=fft, detrend=False)}.
 */
public final class Spectrogram {
    private final double[][] power;
    private final int rateHz;
    private final int frameSamples;
    private final int hopSamples;
    private final int fftSize;

    private Spectrogram(double[][] power, int rateHz, int frameSamples, int hopSamples, int fftSize) {
        this.power = power;
        this.rateHz = rateHz;
        this.frameSamples = frameSamples;
        this.hopSamples = hopSamples;
        this.fftSize = fftSize;
    }

    /**
     * The spectrogram of a signal.
     *
     * @param x samples
     * @param rateHz samples a second
     * @param frameSamples window length, at least 2
     * @param hopSamples from one frame's start to the next one's, at least 1
     * @param fftSize length each frame is padded to with zeros, at least {@code frameSamples}
     * @return {@code 1 + (x.length - frameSamples) / hopSamples} frames; none if x is shorter than a frame
     */
    public static Spectrogram of(double[] x, int rateHz, int frameSamples, int hopSamples, int fftSize) {
        if (rateHz < 1 || frameSamples < 2 || hopSamples < 1 || fftSize < frameSamples) {
            throw new IllegalArgumentException("spectrogram of %d Hz, frame %d, hop %d, FFT %d"
                    .formatted(rateHz, frameSamples, hopSamples, fftSize));
        }
        int frames = x.length < frameSamples ? 0 : 1 + (x.length - frameSamples) / hopSamples;
        Fft fft = Fft.of(fftSize);
        double[] window = Window.hannPeriodic(frameSamples);
        double scale = 1 / (rateHz * sumOfSquares(window));
        double[][] power = new double[frames][fft.bins()];
        double[] work = new double[fftSize];
        for (int f = 0; f < frames; f++) {
            int start = f * hopSamples;
            for (int i = 0; i < frameSamples; i++) {
                work[i] = x[start + i] * window[i];
            }
            java.util.Arrays.fill(work, frameSamples, fftSize, 0);
            fft.powerInto(work, power[f]);
            scaleOneSided(power[f], scale, fftSize);
        }
        return new Spectrogram(power, rateHz, frameSamples, hopSamples, fftSize);
    }

    private static double sumOfSquares(double[] window) {
        double sum = 0;
        for (double w : window) {
            sum += w * w;
        }
        return sum;
    }

    private static void scaleOneSided(double[] row, double scale, int fftSize) {
        int last = row.length - 1;
        row[0] *= scale;
        for (int k = 1; k < last; k++) {
            row[k] *= 2 * scale;
        }
        if (last > 0) {
            row[last] *= fftSize % 2 == 0 ? scale : 2 * scale;
        }
    }

    /** Density at a frame in [0, {@link #frames()}) and a bin in [0, {@link #bins()}), in (unit of x)^2 / Hz. */
    public double power(int frame, int bin) {
        return power[frame][bin];
    }

    /** The spectrogram's own row of a frame, shape {@code [bins]}, not a copy: read it, never write to it. */
    public double[] row(int frame) {
        return power[frame];
    }

    /** Number of frames. */
    public int frames() {
        return power.length;
    }

    /** Number of bins, {@code fftSize / 2 + 1}. */
    public int bins() {
        return fftSize / 2 + 1;
    }

    /** Width of a bin in Hz. */
    public double binHz() {
        return (double) rateHz / fftSize;
    }

    /** Frequency of a bin in Hz. */
    public double hzOf(int bin) {
        return bin * binHz();
    }

    /** The bin nearest to a frequency, kept within [0, bins). */
    public int binOf(double hz) {
        return (int) Math.max(0, Math.min(bins() - 1, Math.round(hz / binHz())));
    }

    /** Time of the middle of a frame, in seconds from the first sample. */
    public double secondsOf(int frame) {
        return (frame * (double) hopSamples + frameSamples / 2.0) / rateHz;
    }

    /** The frame whose middle is nearest to a time, kept within [0, frames); -1 if there is no frame. */
    public int frameOf(double seconds) {
        long nearest = Math.round((seconds * rateHz - frameSamples / 2.0) / hopSamples);
        return (int) Math.max(Math.min(0, frames() - 1), Math.min(frames() - 1, nearest));
    }

    /** Power in a band: the density summed over bins from {@code lowHz} to {@code highHz} (bin centres, both inclusive) times {@link #binHz()}, in (unit of x)^2. */
    public double bandPower(int frame, double lowHz, double highHz) {
        int from = (int) Math.max(0, Math.ceil(lowHz / binHz() - 1e-9));
        int to = (int) Math.min(bins() - 1, Math.floor(highHz / binHz() + 1e-9));
        double[] row = power[frame];
        double sum = 0;
        for (int k = from; k <= to; k++) {
            sum += row[k];
        }
        return sum * binHz();
    }

    /** Length of a frame in seconds. */
    public double frameSeconds() {
        return (double) frameSamples / rateHz;
    }

    /** From one frame to the next, in seconds. */
    public double hopSeconds() {
        return (double) hopSamples / rateHz;
    }

    /** Length of a frame in samples. */
    public int frameSamples() {
        return frameSamples;
    }

    /** From one frame to the next, in samples. */
    public int hopSamples() {
        return hopSamples;
    }

    /** Samples a second. */
    public int rateHz() {
        return rateHz;
    }
}
