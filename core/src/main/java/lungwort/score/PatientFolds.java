package lungwort.score;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;

/** Folds for cross-validation that never split a patient and hold each class in about equal shares. */
public final class PatientFolds {
    private PatientFolds() {}

    /**
     * Assigns items to folds. Patients with the most uneven classes are placed first, each into the fold that then has the most even shares of every class; ties go to
     * the fold with the fewest items. Patients alike in that are taken in an order drawn from the seed.
     *
     * @param patients the patient of each item
     * @param classes the class of each item, 0 or greater; only used for balance
     * @param folds at least 2, at most the number of patients
     * @param seed of the order of patients
     * @return the fold of each item, in [0, folds); the same for a patient's items whatever the order of the items
     */
    public static int[] assign(List<String> patients, int[] classes, int folds, long seed) {
        int classCount = Arrays.stream(classes).max().orElse(0) + 1;
        TreeMap<String, int[]> countsOfPatient = new TreeMap<>();
        for (int i = 0; i < classes.length; i++) {
            countsOfPatient.computeIfAbsent(patients.get(i), p -> new int[classCount])[classes[i]]++;
        }
        if (folds < 2 || folds > countsOfPatient.size()) {
            throw new IllegalArgumentException(folds + " folds of " + countsOfPatient.size()
                    + " patients; 2 to the number of patients are possible");
        }
        List<PatientCounts> order = new ArrayList<>();
        countsOfPatient.forEach((patient, counts) -> order.add(new PatientCounts(patient, counts)));
        Map<String, Integer> foldOfPatient = place(order, classCount, folds, seed);
        return patients.stream().mapToInt(foldOfPatient::get).toArray();
    }

    private static Map<String, Integer> place(List<PatientCounts> order, int classCount, int folds, long seed) {
        Collections.shuffle(order, new Random(seed));
        order.sort(Comparator.comparingDouble(p -> -spread(p.counts())));
        int[] totals = new int[classCount];
        order.forEach(p -> add(totals, p.counts()));
        int[][] inFold = new int[folds][classCount];
        Map<String, Integer> placed = new HashMap<>();
        for (PatientCounts patient : order) {
            int best = bestFold(inFold, patient.counts(), totals);
            add(inFold[best], patient.counts());
            placed.put(patient.patient(), best);
        }
        return placed;
    }

    private static int bestFold(int[][] inFold, int[] counts, int[] totals) {
        int best = 0;
        double bestUnevenness = Double.POSITIVE_INFINITY;
        int bestItems = Integer.MAX_VALUE;
        for (int fold = 0; fold < inFold.length; fold++) {
            double unevenness = unevennessWith(inFold, fold, counts, totals);
            int items = Arrays.stream(inFold[fold]).sum();
            boolean tie = Math.abs(unevenness - bestUnevenness) < 1e-12;
            if (tie ? items < bestItems : unevenness < bestUnevenness) {
                best = fold;
                bestUnevenness = unevenness;
                bestItems = items;
            }
        }
        return best;
    }

    /** Mean over the classes of the standard deviation over the folds of a class's shares, had the patient been placed in the fold. */
    private static double unevennessWith(int[][] inFold, int fold, int[] counts, int[] totals) {
        double sum = 0;
        for (int c = 0; c < totals.length; c++) {
            double[] shares = new double[inFold.length];
            for (int f = 0; f < shares.length; f++) {
                int count = inFold[f][c] + (f == fold ? counts[c] : 0);
                shares[f] = totals[c] == 0 ? 0 : (double) count / totals[c];
            }
            sum += standardDeviation(shares);
        }
        return sum / totals.length;
    }

    private static double spread(int[] counts) {
        return standardDeviation(Arrays.stream(counts).asDoubleStream().toArray());
    }

    private static double standardDeviation(double[] values) {
        double mean = Arrays.stream(values).average().orElse(0);
        return Math.sqrt(Arrays.stream(values)
                .map(v -> (v - mean) * (v - mean))
                .average()
                .orElse(0));
    }

    private static void add(int[] sum, int[] counts) {
        for (int i = 0; i < sum.length; i++) {
            sum[i] += counts[i];
        }
    }

    @SuppressWarnings("ArrayRecordComponent") // private, short-lived and never compared
    private record PatientCounts(String patient, int[] counts) {}
}
