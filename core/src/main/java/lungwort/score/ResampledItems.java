package lungwort.score;

import java.util.List;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.function.ToDoubleFunction;
import java.util.stream.IntStream;

/** Scored items with the means to resample them by patient. */
record ResampledItems<T>(List<T> items, PatientBootstrap bootstrap) {
    /** A task's score with the interval of each of its parts. */
    TaskFigures task(Function<List<T>, TaskScore> task) {
        // A single item's score says all it adds to SE and SP: 1 right, 0 wrong, NaN not counted there.
        List<TaskScore> single =
                items.stream().map(item -> task.apply(List.of(item))).toList();
        double[] adventitious =
                single.stream().mapToDouble(TaskScore::sensitivity).toArray();
        double[] normal = single.stream().mapToDouble(TaskScore::specificity).toArray();
        List<Interval> ci95 = bootstrap.intervals(
                5, drawn -> parts(new TaskScore(meanDefined(adventitious, drawn), meanDefined(normal, drawn))));
        return new TaskFigures(task.apply(items), ci95.get(0), ci95.get(1), ci95.get(2), ci95.get(3), ci95.get(4));
    }

    private static double[] parts(TaskScore score) {
        return new double[] {
            score.sensitivity(), score.specificity(), score.averageScore(), score.harmonicScore(), score.score()
        };
    }

    private static double meanDefined(double[] values, int[] drawn) {
        double sum = 0;
        int count = 0;
        for (int i : drawn) {
            if (!Double.isNaN(values[i])) {
                sum += values[i];
                count++;
            }
        }
        return count == 0 ? Double.NaN : sum / count;
    }

    /** ROC area of a score for a yes-or-no truth. */
    Figure auc(ToDoubleFunction<T> score, Predicate<T> positive) {
        RankedScores ranked = new RankedScores(scores(items, score), truths(items, positive));
        Interval ci95 = bootstrap.interval(ranked::auc);
        return new Figure(ranked.auc(IntStream.range(0, items.size()).toArray()), ci95);
    }

    /** The share of those that hold one thing which hold another too; NaN if none holds the first. */
    Figure share(Predicate<T> among, Predicate<T> what) {
        boolean[] counted = truths(items, among);
        boolean[] hits = truths(items, among.and(what));
        Interval ci95 = bootstrap.interval(drawn -> share(counted, hits, drawn));
        return new Figure(
                share(counted, hits, IntStream.range(0, counted.length).toArray()), ci95);
    }

    private static double share(boolean[] counted, boolean[] hits, int[] drawn) {
        int all = 0;
        int hit = 0;
        for (int i : drawn) {
            all += counted[i] ? 1 : 0;
            hit += hits[i] ? 1 : 0;
        }
        return all == 0 ? Double.NaN : (double) hit / all;
    }

    /** Some of the items, resampled in the same way. */
    ResampledItems<T> only(Predicate<T> kept, Function<T, String> patient) {
        List<T> some = items.stream().filter(kept).toList();
        return new ResampledItems<>(
                some, bootstrap.with(some.stream().map(patient).toList()));
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
}
