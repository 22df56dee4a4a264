package lungwort.classify;

import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;
import lungwort.BadInput;

/**
 * Which learner to train and how.
 *
 * @param kind {@code boosted-trees}, {@code forest}, {@code linear-softmax}, {@code perceptron} or {@code svm}
 * @param numbers its settings by name; those left out take the default, others are refused
 */
public record LearnerSettings(String kind, Map<String, Double> numbers) {
    private static final Map<String, Map<String, Double>> DEFAULTS = Map.of(
            BoostedTrees.KIND,
                    Map.of(
                            "rounds", 150.0,
                            "leaves", 16.0,
                            "learningRate", 0.08,
                            "columnShare", 0.2,
                            "rowShare", 0.7,
                            "minLeafRows", 5.0,
                            "l2", 5.0),
            CountForest.KIND,
                    Map.of("trees", 200.0, "columns", 0.0, "leaves", 2000.0, "minLeafRows", 2.0, "rowShare", 1.0),
            KernelMachines.KIND, Map.of("penalty", 3.0, "width", 1.0),
            LinearSoftmax.KIND, Map.of("ridge", 100.0, "iterations", 100.0),
            Perceptron.KIND,
                    Map.of(
                            "nets", 3.0,
                            "hidden", 96.0,
                            "epochs", 20.0,
                            "learningRate", 0.001,
                            "inputDropout", 0.1,
                            "hiddenDropout", 0.4,
                            "decay", 0.05));

    /** @throws BadInput if the kind or a setting is unknown */
    public LearnerSettings {
        Map<String, Double> defaults = DEFAULTS.get(kind);
        if (defaults == null) {
            throw BadInput.of(
                    "The recipe asks for a learner '%s'; use one of %s.",
                    kind, String.join(", ", new TreeSet<>(DEFAULTS.keySet())));
        }
        for (String name : numbers.keySet()) {
            if (!defaults.containsKey(name)) {
                throw BadInput.of(
                        "The recipe sets '%s' of a %s, which has only %s.",
                        name, kind, String.join(", ", new TreeSet<>(defaults.keySet())));
            }
        }
        Map<String, Double> all = new TreeMap<>(defaults);
        all.putAll(numbers);
        numbers = Map.copyOf(all);
    }

    private double number(String name) {
        Double value = numbers.get(name);
        if (value == null) {
            throw new IllegalStateException(kind + " has no setting " + name);
        }
        return value;
    }

    private int count(String name) {
        return (int) Math.round(number(name));
    }

    /** Trains it. */
    Learner fit(float[][] x, int[] y, double[] weight, int classes, long seed) {
        return switch (kind) {
            case BoostedTrees.KIND -> Boosting.fit(x, y, weight, classes, boosting(seed));
            case CountForest.KIND ->
                SmileForests.fit(
                        x,
                        y,
                        classes,
                        new SmileForests.Settings(
                                count("trees"),
                                count("columns"),
                                count("leaves"),
                                count("minLeafRows"),
                                number("rowShare"),
                                seed));
            case LinearSoftmax.KIND ->
                SoftmaxRegression.fit(
                        x, y, weight, classes, new SoftmaxRegression.Settings(number("ridge"), count("iterations")));
            case KernelMachines.KIND ->
                SmileMachines.fit(x, y, classes, new SmileMachines.Settings(number("penalty"), number("width"), seed));
            case Perceptron.KIND -> PerceptronTraining.fit(x, y, weight, classes, perceptron(seed));
            default -> throw new IllegalStateException(kind);
        };
    }

    /**
     * Trains boosted trees to give a number.
     *
     * @param near as {@link Boosting#fitNumber}
     * @throws IllegalStateException for another kind
     */
    BoostedTrees fitNumber(float[][] x, double[] y, double near, long seed) {
        if (!kind.equals(BoostedTrees.KIND)) {
            throw new IllegalStateException(kind);
        }
        return Boosting.fitNumber(x, y, near, boosting(seed));
    }

    private Boosting.Settings boosting(long seed) {
        return new Boosting.Settings(
                count("rounds"),
                count("leaves"),
                number("learningRate"),
                number("columnShare"),
                number("rowShare"),
                count("minLeafRows"),
                number("l2"),
                seed);
    }

    private PerceptronTraining.Settings perceptron(long seed) {
        return new PerceptronTraining.Settings(
                count("nets"),
                count("hidden"),
                count("epochs"),
                number("learningRate"),
                number("inputDropout"),
                number("hiddenDropout"),
                number("decay"),
                seed);
    }
}
