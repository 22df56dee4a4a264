package lungwort.score;

import java.util.Arrays;
import java.util.List;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.function.ToDoubleFunction;

/** Scored items with the means to resample them by patient. */
record ResampledItems<T>(List<T> items, PatientBootstrap bootstrap) {
    /** A task's score with the interval of each of its parts. */
    TaskFigures task(Function<List<T>, TaskScore> task) {
        List<Interval> ci95 = bootstrap.intervals(5, drawn -> parts(task.apply(pick(drawn))));
        return new TaskFigures(task.apply(items), ci95.get(0), ci95.get(1), ci95.get(2), ci95.get(3), ci95.get(4));
    }

    private static double[] parts(TaskScore score) {
        return new double[] {
            score.sensitivity(), score.specificity(), score.averageScore(), score.harmonicScore(), score.score()
        };
    }

    private List<T> pick(int[] drawn) {
        return Arrays.stream(drawn).mapToObj(items::get).toList();
    }

    /** ROC area of a score for a yes-or-no truth. */
    Figure auc(ToDoubleFunction<T> score, Predicate<T> positive) {
        double[] scores = scores(items, score);
        boolean[] truths = truths(items, positive);
        Interval ci95 = bootstrap.interval(drawn -> Roc.auc(pick(scores, drawn), pick(truths, drawn)));
        return new Figure(Roc.auc(scores, truths), ci95);
    }

    static <T> double[] scores(List<T> items, ToDoubleFunction<T> score) {
        return items.stream().mapToDouble(score).toArray();
    }

    static <T> boolean[] truths(List<T> items, Predicate<T> positive) {
        boolean[] truths = new boolean[items.size()];
        for (int i = 0; i < truths.length; i++) {
            truths[i] = positive.test(items.get(i));
        }
        return truths;
    }

    private static double[] pick(double[] values, int[] indices) {
        return Arrays.stream(indices).mapToDouble(i -> values[i]).toArray();
    }

    private static boolean[] pick(boolean[] values, int[] indices) {
        boolean[] picked = new boolean[indices.length];
        for (int i = 0; i < picked.length; i++) {
            picked[i] = values[indices[i]];
        }
        return picked;
    }
}
