package lungwort.cli;

import java.util.List;
import java.util.function.Function;
import java.util.stream.IntStream;
import me.tongfei.progressbar.ProgressBar;
import me.tongfei.progressbar.ProgressBarBuilder;
import me.tongfei.progressbar.ProgressBarStyle;

/** Long work over many items: in parallel, results in order, progress on stderr when a person watches. */
final class Work {
    private static final int BAR_FROM = 4;

    private Work() {}

    /** Applies {@code step} to every item on all cores; the result's order is that of the items. */
    static <T, R> List<R> inOrder(List<T> items, String task, Function<T, R> step) {
        if (items.size() < BAR_FROM || System.console() == null) {
            return parallel(items, step);
        }
        ProgressBarBuilder builder = new ProgressBarBuilder()
                .setTaskName(task)
                .setInitialMax(items.size())
                .setStyle(ProgressBarStyle.ASCII);
        try (ProgressBar bar = builder.build()) {
            return parallel(items, item -> {
                R result = step.apply(item);
                bar.step();
                return result;
            });
        }
    }

    private static <T, R> List<R> parallel(List<T> items, Function<T, R> step) {
        return IntStream.range(0, items.size())
                .parallel()
                .mapToObj(i -> step.apply(items.get(i)))
                .toList();
    }
}
