package lungwort.feature;

/** Frequency bands of the features, in Hz. All lie under 2 kHz, so that the narrowest device (4 kHz sampling) gives the same levels. */
final class Bands {
    /** Where continuous sounds are looked for: wheezes lie above 100 Hz (CORSA, Sovijarvi et al. 2000), few above 1.5 kHz. */
    static final double RIDGE_LOW_HZ = 100;

    static final double RIDGE_HIGH_HZ = 1500;

    /** Ridge bands: rhonchi lie in the first two (CORSA: below 300 Hz; ATS: below 200 Hz), wheezes in the upper ones. */
    static final double[] RIDGE_EDGES_HZ = {100, 250, 450, 800, 1500};

    static final String[] RIDGE_NAMES = {"100-250Hz", "250-450Hz", "450-800Hz", "800-1500Hz"};

    /** Envelope bands: coarse crackles about 350 Hz, fine crackles about 650 Hz (Bohadana et al. 2014). */
    static final double[][] ENVELOPE_HZ = {{100, 300}, {300, 700}, {700, 1400}, {1400, 1950}};

    static final String[] ENVELOPE_NAMES = {"100-300Hz", "300-700Hz", "700-1400Hz", "1400-1950Hz"};

    private Bands() {}
}
