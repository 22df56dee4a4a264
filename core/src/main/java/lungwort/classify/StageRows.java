package lungwort.classify;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** Rows being gathered for one stage; each counts alike. */
final class StageRows {
    private final List<float[]> x = new ArrayList<>();
    private final List<Integer> y = new ArrayList<>();

    void add(float[] features, int label) {
        x.add(features);
        y.add(label);
    }

    /** Length of the rows; zero without any. */
    int inputs() {
        return x.isEmpty() ? 0 : x.get(0).length;
    }

    boolean isEmpty() {
        return x.isEmpty();
    }

    Blend fit(int classes, int[] columns, BlendSettings s, long seed) {
        double[] weight = new double[x.size()];
        Arrays.fill(weight, 1);
        int[] labels = y.stream().mapToInt(Integer::intValue).toArray();
        return Blend.fit(x.toArray(float[][]::new), labels, weight, classes, columns, s, seed);
    }
}
