package lungwort.signal;

/**
 * Cepstral coefficients: the orthonormal type-II discrete cosine transform (Ahmed et al. 1974) of log band energies, as SciPy's
 * {@code dct(x, type=2, norm="ortho")}. Immutable, safe to share.
 */
public final class Cepstrum {
    private final double[][] basis;
    private final int bands;

    /**
     * @param bands number of log energies in
     * @param coefficients number of coefficients out, from the 0th, in [1, bands]
     */
    public Cepstrum(int bands, int coefficients) {
        if (coefficients < 1 || coefficients > bands) {
            throw new IllegalArgumentException("%d coefficients of %d bands".formatted(coefficients, bands));
        }
        this.bands = bands;
        basis = new double[coefficients][bands];
        for (int k = 0; k < coefficients; k++) {
            double scale = Math.sqrt((k == 0 ? 1.0 : 2.0) / bands);
            for (int n = 0; n < bands; n++) {
                basis[k][n] = scale * Math.cos(Math.PI * k * (2 * n + 1) / (2.0 * bands));
            }
        }
    }

    /** Number of coefficients. */
    public int coefficients() {
        return basis.length;
    }

    /**
     * The coefficients of one spectrum.
     *
     * @param logEnergies shape {@code [bands]}; only read
     * @param coefficients shape {@code [coefficients]}; receives the result
     */
    public void apply(double[] logEnergies, double[] coefficients) {
        if (logEnergies.length != bands || coefficients.length != basis.length) {
            throw new IllegalArgumentException("%d bands into %d coefficients, made for %d into %d"
                    .formatted(logEnergies.length, coefficients.length, bands, basis.length));
        }
        for (int k = 0; k < basis.length; k++) {
            double sum = 0;
            for (int n = 0; n < bands; n++) {
                sum += basis[k][n] * logEnergies[n];
            }
            coefficients[k] = sum;
        }
    }
}
