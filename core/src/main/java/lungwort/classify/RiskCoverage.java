package lungwort.classify;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;

/**
 * What is gained by saying "cannot tell": the share of wrong answers among those given (risk) against the share of items answered (coverage), as the least confident
 * are declined (El-Yaniv and Wiener, J Mach Learn Res 2010; [M]; Geifman and El-Yaniv, NeurIPS 2017 [P, abstract]).
 *
 * @param points highest threshold (least coverage) first; the last has coverage 1
 */
public record RiskCoverage(List<Point> points) {
    public RiskCoverage {
        points = List.copyOf(points);
    }

    /**
     * @param confidences of each item's answer, higher is surer
     * @param right whether the answer was right, same length
     */
    public static RiskCoverage of(double[] confidences, boolean[] right) {
        if (confidences.length != right.length) {
            throw new IllegalArgumentException(
                    "%d confidences but %d answers".formatted(confidences.length, right.length));
        }
        int[] order = IntStream.range(0, right.length)
                .boxed()
                .sorted(Comparator.comparingDouble(i -> -confidences[i]))
                .mapToInt(Integer::intValue)
                .toArray();
        List<Point> points = new ArrayList<>();
        int wrong = 0;
        for (int i = 0; i < order.length; i++) {
            wrong += right[order[i]] ? 0 : 1;
            boolean endOfTie = i + 1 == order.length || confidences[order[i + 1]] < confidences[order[i]];
            if (endOfTie) {
                points.add(new Point(confidences[order[i]], (i + 1.0) / order.length, (double) wrong / (i + 1)));
            }
        }
        return new RiskCoverage(points);
    }

    /** Area under the curve: the mean risk over coverages, each step at the risk of its end; NaN without items. */
    public double area() {
        double area = 0;
        double before = 0;
        for (Point point : points) {
            area += point.risk() * (point.coverage() - before);
            before = point.coverage();
        }
        return points.isEmpty() ? Double.NaN : area;
    }

    /** The risk of the first point that covers at least a share of the items; NaN without items. */
    public double riskAt(double coverage) {
        return points.stream()
                .filter(p -> p.coverage() >= coverage - 1e-9)
                .mapToDouble(Point::risk)
                .findFirst()
                .orElse(Double.NaN);
    }

    /** The same curve with one point at most for each of {@code steps} equal steps of coverage, the first that reaches it, for files. */
    public List<Point> thinned(int steps) {
        List<Point> kept = new ArrayList<>();
        for (Point point : points) {
            double before = kept.isEmpty() ? 0 : kept.get(kept.size() - 1).coverage();
            if (Math.floor(point.coverage() * steps + 1e-9) > Math.floor(before * steps + 1e-9)) {
                kept.add(point);
            }
        }
        return kept;
    }

    /** The point of greatest coverage whose risk is at most a limit; empty if none is that safe. */
    public Optional<Point> safest(double maxRisk) {
        return points.stream().filter(p -> p.risk() <= maxRisk).max(Comparator.comparingDouble(Point::coverage));
    }

    /**
     * One point of the curve.
     *
     * @param threshold lowest confidence that is answered
     * @param coverage share of items answered, in (0, 1]
     * @param risk share of wrong answers among them
     */
    public record Point(double threshold, double coverage, double risk) {}
}
