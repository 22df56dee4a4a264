package lungwort.quality;

/**
 * Finds the row of harmonics of a soft or muffled voice in one frame: of all pitches, the one at whose multiples the level stands highest over the level halfway between them (harmonic comb on
 * the logarithmic spectrum, in the manner of Noll's harmonic product spectrum, 1969). Levels are compared with their neighbours only, so what colour a wall or a chest gave the voice does not matter.
 */
final class HarmonicComb {
    /** Pitches that are tried lie so far apart, in octaves. */
    private static final double STEP = 0.03;

    /** Highest frequency that any comb looks at, in Hz. */
    static final double TOP_HZ = 2000;

    private static final int MAX_HARMONICS = 6;

    /** With fewer harmonics in range than this the row is worth less, by the square root of their share. */
    private static final int FULL_HARMONICS = 5;

    /** One harmonic counts for no more and no less than this, in dB. */
    private static final double MAX_DB = 25;

    private static final double MIN_DB = -10;

    /** A harmonic stands out from here, in dB. */
    private static final double STANDS_DB = 6;

    private final double binHz;
    private final double topHz;
    private final double[] pitches;

    /**
     * The best row of a frame.
     *
     * @param salienceDb mean height of its harmonics over the gaps between them, in dB; noise gives up to about 11
     * @param pitchHz distance of the harmonics
     * @param harmonics how many of the first {@value #MAX_HARMONICS} stand out
     */
    record Row(double salienceDb, double pitchHz, int harmonics) {}

    private HarmonicComb(double binHz, double fromHz, double toHz, double topHz) {
        this.binHz = binHz;
        this.topHz = topHz;
        this.pitches = new double[(int) Math.ceil(Math.log(toHz / fromHz) / Math.log(2) / STEP) + 1];
        for (int i = 0; i < pitches.length; i++) {
            pitches[i] = fromHz * Math.pow(toHz / fromHz, (double) i / (pitches.length - 1));
        }
    }

    /**
     * For a voice that talks: pitch from 75 to 500 Hz, harmonics up to 1200 Hz, for heard through a wall or a chest it has little above.
     *
     * @param binHz distance of the bins, about 8 Hz or less
     */
    static HarmonicComb talk(double binHz) {
        return new HarmonicComb(binHz, 75, 500, 1200);
    }

    /** For a child that cries, close by: pitch from 280 to 650 Hz, harmonics up to 2000 Hz. */
    static HarmonicComb cry(double binHz) {
        return new HarmonicComb(binHz, 280, 650, TOP_HZ);
    }

    /** @param levelsDb level per bin, at least up to {@value #TOP_HZ} Hz */
    Row of(double[] levelsDb) {
        Row best = new Row(Double.NEGATIVE_INFINITY, pitches[0], 0);
        for (double pitch : pitches) {
            Row row = row(levelsDb, pitch);
            best = row.salienceDb > best.salienceDb ? row : best;
        }
        return best;
    }

    private Row row(double[] levelsDb, double pitch) {
        double sum = 0;
        int n = 0;
        int standing = 0;
        while (n < MAX_HARMONICS && (n + 1.5) * pitch <= topHz) {
            n++;
            double gaps = (at(levelsDb, (n - 0.5) * pitch) + at(levelsDb, (n + 0.5) * pitch)) / 2;
            double over = at(levelsDb, n * pitch) - gaps;
            standing += over > STANDS_DB ? 1 : 0;
            sum += Math.max(MIN_DB, Math.min(MAX_DB, over));
        }
        if (n < 2) {
            return new Row(Double.NEGATIVE_INFINITY, pitch, 0);
        }
        double worth = Math.sqrt(Math.min(1, (double) n / FULL_HARMONICS));
        return new Row(worth * sum / n, pitch, standing);
    }

    /** Level between two bins, along a straight line. */
    private double at(double[] levelsDb, double hz) {
        double position = hz / binHz;
        int bin = Math.min(levelsDb.length - 2, (int) position);
        double part = Math.min(1, position - bin);
        return levelsDb[bin] * (1 - part) + levelsDb[bin + 1] * part;
    }
}
