package lungwort.score;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.IntStream;

/**
 * A confusion matrix: {@code counts.get(t).get(p)} items of class t were called p.
 *
 * @param classes names of the classes
 * @param counts one row for each true class, one column for each predicted one
 */
public record Confusion(List<String> classes, List<List<Integer>> counts) {
    public Confusion {
        classes = List.copyOf(classes);
        counts = counts.stream().map(List::copyOf).toList();
        int size = classes.size();
        if (counts.size() != size || counts.stream().anyMatch(row -> row.size() != size)) {
            throw new IllegalArgumentException("a matrix of " + size + " classes must be " + size + " by " + size);
        }
    }

    /**
     * @param classes names of the classes
     * @param truth class index of each item
     * @param predicted what it was called, same length
     */
    public static Confusion of(List<String> classes, int[] truth, int[] predicted) {
        if (truth.length != predicted.length) {
            throw new IllegalArgumentException(truth.length + " true but " + predicted.length + " predicted");
        }
        int[][] counts = new int[classes.size()][classes.size()];
        for (int i = 0; i < truth.length; i++) {
            counts[truth[i]][predicted[i]]++;
        }
        List<List<Integer>> rows = new ArrayList<>();
        for (int[] row : counts) {
            rows.add(IntStream.of(row).boxed().toList());
        }
        return new Confusion(classes, rows);
    }

    /** Number of items. */
    public int total() {
        return counts.stream().flatMap(List::stream).mapToInt(Integer::intValue).sum();
    }

    /** Share of a class's items that were called so; NaN if it has none. */
    public double recall(int classIndex) {
        int all = counts.get(classIndex).stream().mapToInt(Integer::intValue).sum();
        return all == 0 ? Double.NaN : (double) counts.get(classIndex).get(classIndex) / all;
    }

    /** Share of the items called so that are of the class; NaN if none was. */
    public double precision(int classIndex) {
        int all = counts.stream().mapToInt(row -> row.get(classIndex)).sum();
        return all == 0 ? Double.NaN : (double) counts.get(classIndex).get(classIndex) / all;
    }

    /** A table for people: rows are true classes, columns what they were called, then recall. */
    public String toText() {
        int first = classes.stream().mapToInt(String::length).max().orElse(0) + 2;
        StringBuilder text = new StringBuilder(pad("true \\ called", first));
        classes.forEach(name -> text.append(right(name, width(name))));
        text.append(right("recall", 9)).append('\n');
        for (int t = 0; t < classes.size(); t++) {
            text.append(pad(classes.get(t), Math.max(first, 13)));
            for (int p = 0; p < classes.size(); p++) {
                text.append(right(counts.get(t).get(p).toString(), width(classes.get(p))));
            }
            double recall = recall(t);
            text.append(right(Double.isNaN(recall) ? "-" : String.format(Locale.ROOT, "%.3f", recall), 9))
                    .append('\n');
        }
        return text.toString();
    }

    private static int width(String name) {
        return Math.max(7, name.length() + 2);
    }

    private static String pad(String text, int width) {
        return String.format(Locale.ROOT, "%-" + Math.max(width, 13) + "s", text);
    }

    private static String right(String text, int width) {
        return String.format(Locale.ROOT, "%" + width + "s", text);
    }
}
