package lungwort.sound;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import lungwort.breath.Breath;
import lungwort.breath.Breathing;

/**
 * Whether bursts shaped like crackles stand at the same point of one breath after another. Each breath is cut into {@value #PARTS} parts, the bursts in each part are added up, and the breaths are
 * compared by correlation. A breath turned by a random part of its length has a correlation of 0 on average, so the mean over all pairs is held against the deviation that turning alone would
 * give it (a randomisation test by circular shifts, its variance worked out exactly instead of drawn).
 *
 * @param deviations mean correlation over the deviation that chance alone would give it, plus a little; about 0 for chance, 0 where fewer than three breaths can be compared
 * @param places where the bursts stand at the point that the breaths share most, in seconds, in order of time, at most three; empty where there are none
 */
public record BreathAgreement(double deviations, List<Double> places) {
    /** Nothing to compare. */
    public static final BreathAgreement NONE = new BreathAgreement(0, List.of());

    private static final int PARTS = 24;
    private static final int LEAST_BREATHS = 3;
    private static final int MOST_BREATHS = 100;
    private static final int CUT_BREATHS = 5;
    private static final double LEAST_SCORE = 20;
    private static final double FROM_MS = 0.6;
    private static final double TO_MS = 10;
    private static final int MOST_PLACES = 3;

    /** Added to the deviation, so that two bursts in three breaths do not look sure. */
    private static final double LEAST_DEVIATION = 0.02;

    /** How far from the shared point a burst may stand, in parts of a breath. */
    private static final double NEAR_PARTS = 1.5;

    public BreathAgreement {
        places = List.copyOf(places);
    }

    /**
     * @param bursts of a recording
     * @param breathing its breaths
     */
    public static BreathAgreement of(List<Burst> bursts, Breathing breathing) {
        List<Breath> breaths = compared(breathing.breaths());
        List<Burst> shaped = bursts.stream().filter(BreathAgreement::counts).toList();
        if (breaths.size() < LEAST_BREATHS || shaped.isEmpty()) {
            return NONE;
        }
        double[][] profiles = breaths.stream()
                .map(breath -> smoothed(profile(breath, shaped)))
                .toArray(double[][]::new);
        List<Double> places = places(breaths, shaped, highest(profiles));
        for (double[] profile : profiles) {
            normalise(profile);
        }
        return new BreathAgreement(deviations(profiles), places);
    }

    private static boolean counts(Burst b) {
        return b.score() >= LEAST_SCORE && b.largestMs() >= FROM_MS && b.largestMs() < TO_MS && b.shapedLikeCrackle();
    }

    /** Without those that the ends of the recording cut, if enough are left; of few, without the one that is cut for sure. */
    private static List<Breath> compared(List<Breath> all) {
        int n = all.size();
        if (n < LEAST_BREATHS) {
            return List.of();
        }
        if (n < CUT_BREATHS) {
            return all.get(0).startSeconds() == 0 ? all.subList(1, n) : all.subList(0, n - 1);
        }
        return all.subList(1, Math.min(n - 1, MOST_BREATHS + 1));
    }

    private static double part(Breath breath, Burst burst) {
        return (burst.seconds() - breath.startSeconds()) / (breath.endSeconds() - breath.startSeconds()) * PARTS;
    }

    private static boolean in(Breath breath, Burst burst) {
        return burst.seconds() >= breath.startSeconds() && burst.seconds() < breath.endSeconds();
    }

    private static double[] profile(Breath breath, List<Burst> bursts) {
        double[] profile = new double[PARTS];
        for (Burst burst : bursts) {
            if (in(breath, burst)) {
                profile[Math.min(PARTS - 1, (int) part(breath, burst))] += Recurrence.weight(burst);
            }
        }
        return profile;
    }

    /** Over the neighbouring parts, since no two breaths are alike. */
    private static double[] smoothed(double[] x) {
        double[] y = new double[PARTS];
        for (int i = 0; i < PARTS; i++) {
            y[i] = x[i] / 2 + (x[(i + 1) % PARTS] + x[(i + PARTS - 1) % PARTS]) / 4;
        }
        return y;
    }

    private static int highest(double[][] profiles) {
        int best = 0;
        double most = -1;
        for (int part = 0; part < PARTS; part++) {
            double sum = 0;
            for (double[] profile : profiles) {
                sum += profile[part];
            }
            if (sum > most) {
                most = sum;
                best = part;
            }
        }
        return best;
    }

    private static List<Double> places(List<Breath> breaths, List<Burst> bursts, int part) {
        List<Burst> near = new ArrayList<>();
        for (Breath breath : breaths) {
            bursts.stream()
                    .filter(b -> in(breath, b) && Math.abs(part(breath, b) - part - 0.5) <= NEAR_PARTS)
                    .max(Comparator.comparingDouble(Burst::score))
                    .ifPresent(near::add);
        }
        return near.stream()
                .sorted(Comparator.comparingDouble(Burst::score).reversed())
                .limit(MOST_PLACES)
                .map(Burst::seconds)
                .sorted()
                .toList();
    }

    /** To mean 0 and length 1; a breath without bursts stays 0 and agrees with none. */
    private static void normalise(double[] x) {
        double mean = 0;
        for (double v : x) {
            mean += v / PARTS;
        }
        double length = 0;
        for (int i = 0; i < PARTS; i++) {
            x[i] -= mean;
            length += x[i] * x[i];
        }
        double scale = length > 1e-18 ? 1 / Math.sqrt(length) : 0;
        for (int i = 0; i < PARTS; i++) {
            x[i] *= scale;
        }
    }

    private static double deviations(double[][] profiles) {
        double sum = 0;
        double variance = 0;
        int pairs = 0;
        for (int i = 0; i < profiles.length; i++) {
            for (int j = i + 1; j < profiles.length; j++) {
                for (int turn = 0; turn < PARTS; turn++) {
                    double correlation = turned(profiles[i], profiles[j], turn);
                    sum += turn == 0 ? correlation : 0;
                    variance += correlation * correlation / PARTS;
                }
                pairs++;
            }
        }
        return sum / pairs / (Math.sqrt(variance) / pairs + LEAST_DEVIATION);
    }

    private static double turned(double[] a, double[] b, int turn) {
        double sum = 0;
        for (int i = 0; i < PARTS; i++) {
            sum += a[i] * b[(i + turn) % PARTS];
        }
        return sum;
    }
}
