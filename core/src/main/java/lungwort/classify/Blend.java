package lungwort.classify;

import java.io.DataInput;
import java.io.DataOutput;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;

/** The normalised geometric mean of several learners' probabilities over chosen features. */
final class Blend {
    /** Kept away from zero, so that one learner's certainty cannot silence the others. */
    private static final double LEAST = 1e-4;

    private static final int MAX_LEARNERS = 32;
    private static final int MAX_FEATURES = 20_000;

    private final int inputs;
    private final int[] columns;
    private final List<Learner> learners;

    Blend(int inputs, int[] columns, List<Learner> learners) {
        this.inputs = inputs;
        this.columns = columns;
        this.learners = List.copyOf(learners);
    }

    /** Trains each learner on the chosen columns. */
    static Blend fit(float[][] x, int[] y, double[] weight, int classes, int[] columns, BlendSettings s, long seed) {
        float[][] chosen = new float[x.length][];
        for (int i = 0; i < x.length; i++) {
            chosen[i] = choose(x[i], columns);
        }
        List<Learner> learners = new ArrayList<>();
        for (int i = 0; i < s.learners().size(); i++) {
            learners.add(s.learners().get(i).fit(chosen, y, weight, classes, seed * 31 + i));
        }
        return new Blend(x[0].length, columns, learners);
    }

    static float[] choose(float[] x, int[] columns) {
        float[] z = new float[columns.length];
        for (int j = 0; j < z.length; j++) {
            z[j] = x[columns[j]];
        }
        return z;
    }

    int inputs() {
        return inputs;
    }

    int classes() {
        return learners.get(0).classes();
    }

    int[] columns() {
        return columns.clone();
    }

    List<Learner> learners() {
        return learners;
    }

    double[] probabilities(float[] x) {
        float[] chosen = choose(x, columns);
        double[] logs = new double[classes()];
        for (Learner learner : learners) {
            double[] p = learner.probabilities(chosen);
            for (int c = 0; c < logs.length; c++) {
                logs[c] += Math.log(p[c] + LEAST) / learners.size();
            }
        }
        return Softmax.inPlace(logs);
    }

    double[][] probabilities(float[][] x) {
        double[][] p = new double[x.length][];
        java.util.stream.IntStream.range(0, x.length).parallel().forEach(i -> p[i] = probabilities(x[i]));
        return p;
    }

    void write(DataOutput out) throws IOException {
        out.writeInt(inputs);
        out.writeInt(columns.length);
        for (int c : columns) {
            out.writeShort(c);
        }
        out.writeInt(learners.size());
        for (Learner learner : learners) {
            out.writeUTF(learner.kind());
            learner.write(out);
        }
    }

    static Blend read(DataInput in, int expectedInputs, int expectedClasses) throws IOException {
        int inputs = in.readInt();
        if (inputs != expectedInputs) {
            throw Numbers.damaged("made for %d inputs, %d expected", inputs, expectedInputs);
        }
        int[] columns = new int[Numbers.readCount(in, "chosen features", 1, MAX_FEATURES)];
        for (int i = 0; i < columns.length; i++) {
            columns[i] = in.readUnsignedShort();
            if (columns[i] >= inputs) {
                throw Numbers.damaged("feature %d chosen of %d", columns[i], inputs);
            }
        }
        int n = Numbers.readCount(in, "learners", 1, MAX_LEARNERS);
        List<Learner> learners = new ArrayList<>();
        for (int i = 0; i < n; i++) {
            Learner learner = readLearner(in.readUTF(), in, columns.length);
            if (learner.classes() != expectedClasses) {
                throw Numbers.damaged("%d classes, %d expected", learner.classes(), expectedClasses);
            }
            learners.add(learner);
        }
        return new Blend(inputs, columns, learners);
    }

    private static Learner readLearner(String kind, DataInput in, int features) throws IOException {
        return switch (kind) {
            case BoostedTrees.KIND -> BoostedTrees.read(in, features);
            case CountForest.KIND -> CountForest.read(in, features);
            case LinearSoftmax.KIND -> LinearSoftmax.read(in, features);
            case Perceptron.KIND -> Perceptron.read(in, features);
            case KernelMachines.KIND -> KernelMachines.read(in, features);
            default -> throw Numbers.damaged("it holds a learner that this version does not know");
        };
    }
}
