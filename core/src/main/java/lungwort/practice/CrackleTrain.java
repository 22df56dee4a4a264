package lungwort.practice;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;

/** Crackles in a row, as they come in a stretch of inspiration. */
public final class CrackleTrain {
    /** ATS 1977 fine crackle: IDW 0.7 ms, 2CD 5 ms (from memory [M]). */
    public static final double FINE_IDW_MS = 0.7;

    public static final double FINE_2CD_MS = 5;

    /** ATS 1977 coarse crackle: IDW 1.5 ms, 2CD 10 ms (from memory [M]); drawn longer here, so that 2CD lies clearly beyond CORSA's 10 ms. */
    public static final double COARSE_IDW_MS = 2.2;

    public static final double COARSE_2CD_MS = 15;

    private static final double SPREAD = 0.10;

    private CrackleTrain() {}

    /** Fine crackles, the peak level given in dB full scale. */
    public static List<AddedSound.SingleCrackle> fine(double from, double to, int count, double levelDb, long seed) {
        return train(from, to, count, FINE_IDW_MS, FINE_2CD_MS, levelDb, seed);
    }

    /** Coarse crackles, the peak level given in dB full scale. */
    public static List<AddedSound.SingleCrackle> coarse(double from, double to, int count, double levelDb, long seed) {
        return train(from, to, count, COARSE_IDW_MS, COARSE_2CD_MS, levelDb, seed);
    }

    /**
     * {@code count} crackles spread over [from, to] seconds without overlap; widths vary together by 10 %, levels by 2 dB (standard deviations).
     *
     * @throws IllegalArgumentException if they do not fit
     */
    public static List<AddedSound.SingleCrackle> train(
            double from, double to, int count, double idwMs, double twoCycleMs, double levelDb, long seed) {
        double slot = (to - from) / count;
        if (!(slot > 2 * twoCycleMs / 1000)) {
            throw new IllegalArgumentException("%d crackles of %s ms do not fit into %s s without touching"
                    .formatted(count, twoCycleMs, to - from));
        }
        Random random = Draws.stream(seed ^ Double.doubleToLongBits(from), Draws.TRAIN);
        List<AddedSound.SingleCrackle> out = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            double scale = 1 + SPREAD * clamp(random.nextGaussian());
            double room = slot - 1.5 * scale * twoCycleMs / 1000;
            double at = from + i * slot + random.nextDouble() * room;
            double level = levelDb + 2 * clamp(random.nextGaussian());
            out.add(new AddedSound.SingleCrackle(at, idwMs * scale, twoCycleMs * scale, level));
        }
        return out;
    }

    private static double clamp(double deviation) {
        return Math.max(-2, Math.min(2, deviation));
    }
}
