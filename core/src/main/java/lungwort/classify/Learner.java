package lungwort.classify;

import java.io.DataOutput;
import java.io.IOException;

/** A learnt function from a feature vector to class probabilities. Immutable, safe for many threads. */
sealed interface Learner permits BoostedTrees, CountForest, LinearSoftmax, Perceptron, KernelMachines {
    /** Number of classes, at least 2. */
    int classes();

    /**
     * Class probabilities.
     *
     * @param x feature vector in the order of the catalogue it was trained on
     * @return {@link #classes()} values in [0, 1] that sum to 1
     */
    double[] probabilities(float[] x);

    /** One word in the model file that tells which kind of learner follows. */
    String kind();

    /** Writes the learnt numbers. */
    void write(DataOutput out) throws IOException;
}
