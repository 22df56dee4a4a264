package lungwort.classify;

import java.util.Arrays;
import java.util.stream.IntStream;
import smile.base.svm.KernelMachine;
import smile.classification.SVM;
import smile.math.MathEx;
import smile.math.kernel.GaussianKernel;

/** Trains {@link KernelMachines} with Smile, one class at a time on a thread of its own seed, so that the result does not depend on the number of threads. */
final class SmileMachines {
    private static final double TOLERANCE = 1e-3;

    private SmileMachines() {}

    /**
     * How to train.
     *
     * @param penalty of margin violations (C)
     * @param width of the kernel as a multiple of the root of the number of features
     * @param seed of every draw
     */
    record Settings(double penalty, double width, long seed) {}

    static KernelMachines fit(float[][] x, int[] y, int classes, Settings s) {
        RankNormal scale = RankNormal.of(x);
        double[][] z =
                Arrays.stream(x).map(scale::apply).map(SmileForests::doubles).toArray(double[][]::new);
        double width = s.width * Math.sqrt(x[0].length);
        KernelMachines.Machine[] machines = IntStream.range(0, classes)
                .parallel()
                .mapToObj(c -> machine(z, y, c, width, s))
                .toArray(KernelMachines.Machine[]::new);
        return new KernelMachines(scale, width, machines);
    }

    private static KernelMachines.Machine machine(double[][] z, int[] y, int c, double width, Settings s) {
        int[] sign = Arrays.stream(y).map(label -> label == c ? 1 : -1).toArray();
        long positives = Arrays.stream(sign).filter(v -> v > 0).count();
        if (positives == 0 || positives == sign.length) {
            return new KernelMachines.Machine(new float[0][], new float[0], positives == 0 ? -1 : 1);
        }
        MathEx.setSeed(s.seed * 31 + c + 2);
        KernelMachine<double[]> trained = SVM.fit(z, sign, new GaussianKernel(width), s.penalty, TOLERANCE);
        double[][] vectors = trained.vectors();
        float[][] kept = new float[vectors.length][];
        for (int i = 0; i < kept.length; i++) {
            kept[i] = floats(vectors[i]);
        }
        return new KernelMachines.Machine(kept, floats(trained.weights()), (float) trained.intercept());
    }

    private static float[] floats(double[] values) {
        float[] f = new float[values.length];
        for (int i = 0; i < f.length; i++) {
            f[i] = (float) values[i];
        }
        return f;
    }
}
