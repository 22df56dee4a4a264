package lungwort.signal;

/**
 * Triangular bands evenly spaced on the mel scale {@code 2595 log10(1 + hz / 700)} (O'Shaughnessy 1987, the formula of HTK), each with a peak of 1 at its centre and 0 at its
 * neighbours' centres. Immutable, safe to share.
 */
public final class MelBands {
    private final int[] firstBin;
    private final double[][] weights;
    private final double[] centresHz;
    private final int bins;

    private MelBands(int[] firstBin, double[][] weights, double[] centresHz, int bins) {
        this.firstBin = firstBin;
        this.weights = weights;
        this.centresHz = centresHz;
        this.bins = bins;
    }

    /**
     * Bands over the bins of a spectrum.
     *
     * @param bands number of bands, at least 1
     * @param lowHz where the first band starts, at least 0
     * @param highHz where the last band ends, above lowHz
     * @param bins number of bins of the spectrum the bands are laid on
     * @param binHz width of a bin
     * @throws IllegalArgumentException if a band would hold no bin (take fewer bands or a longer FFT), or the bands pass the last bin
     */
    public static MelBands of(int bands, double lowHz, double highHz, int bins, double binHz) {
        if (bands < 1 || !(lowHz >= 0) || !(highHz > lowHz) || highHz > (bins - 0.5) * binHz) {
            throw new IllegalArgumentException(
                    "%d mel bands from %s to %s Hz over %d bins of %s Hz".formatted(bands, lowHz, highHz, bins, binHz));
        }
        double[] edges = new double[bands + 2];
        double low = melOf(lowHz);
        double step = (melOf(highHz) - low) / (bands + 1);
        for (int i = 0; i < edges.length; i++) {
            edges[i] = hzOf(low + i * step);
        }
        int[] first = new int[bands];
        double[][] weights = new double[bands][];
        for (int b = 0; b < bands; b++) {
            first[b] = (int) Math.floor(edges[b] / binHz) + 1;
            int last = Math.min(bins - 1, (int) Math.ceil(edges[b + 2] / binHz) - 1);
            if (last < first[b]) {
                throw new IllegalArgumentException(
                        "mel band %d (%.1f to %.1f Hz) holds no bin of %s Hz; take fewer bands or a longer FFT"
                                .formatted(b, edges[b], edges[b + 2], binHz));
            }
            weights[b] = triangle(edges[b], edges[b + 1], edges[b + 2], first[b], last, binHz);
        }
        return new MelBands(first, weights, java.util.Arrays.copyOfRange(edges, 1, bands + 1), bins);
    }

    private static double[] triangle(double low, double centre, double high, int first, int last, double binHz) {
        double[] w = new double[last - first + 1];
        for (int i = 0; i < w.length; i++) {
            double hz = (first + i) * binHz;
            w[i] = Math.max(0, Math.min((hz - low) / (centre - low), (high - hz) / (high - centre)));
        }
        return w;
    }

    /** Mel of a frequency in Hz. */
    public static double melOf(double hz) {
        return 2595 * Math.log10(1 + hz / 700);
    }

    /** Frequency in Hz of a mel. */
    public static double hzOf(double mel) {
        return 700 * (Math.pow(10, mel / 2595) - 1);
    }

    /** Number of bands. */
    public int bands() {
        return weights.length;
    }

    /** Centre of a band in Hz. */
    public double centreHz(int band) {
        return centresHz[band];
    }

    /**
     * Weighted sums of a power spectrum.
     *
     * @param power shape {@code [bins]}; only read
     * @param energies shape {@code [bands]}; receives the result
     */
    public void apply(double[] power, double[] energies) {
        if (power.length != bins || energies.length != weights.length) {
            throw new IllegalArgumentException("%d bins into %d bands, made for %d into %d"
                    .formatted(power.length, energies.length, bins, weights.length));
        }
        for (int b = 0; b < weights.length; b++) {
            double[] w = weights[b];
            int first = firstBin[b];
            double sum = 0;
            for (int i = 0; i < w.length; i++) {
                sum += w[i] * power[first + i];
            }
            energies[b] = sum;
        }
    }
}
