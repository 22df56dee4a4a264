package lungwort.tests.breath;

import java.util.ArrayList;
import java.util.List;
import lungwort.breath.Breath;
import lungwort.breath.Breathing;
import lungwort.dataset.AnnotatedEvent;
import lungwort.dataset.AnnotatedRecording;
import lungwort.signal.Statistics;

/**
 * How well found breaths agree with ICBHI's annotated cycles.
 *
 * <p>An annotated recording begins and ends somewhere within a breath, and its first and last cycle are cut there. So the boundaries that count are those between two
 * cycles, found ones count from {@link #TOLERANCE_SECONDS} inside the annotated stretch, and the true rate is 60 over the mean length of the cycles that are neither first nor last.
 */
final class BreathScore {
    static final double TOLERANCE_SECONDS = 0.3;

    /** Error given where no rate was found: the whole range would be a guess. */
    private static final double NO_RATE_ERROR = 20;

    private final List<Double> rateErrors = new ArrayList<>();
    private int matched;
    private int annotated;
    private int found;
    private int covered;

    void add(AnnotatedRecording truth, Breathing breathing) {
        List<AnnotatedEvent> cycles = truth.events();
        List<Double> wanted =
                cycles.stream().skip(1).map(AnnotatedEvent::startSeconds).toList();
        double from = cycles.get(0).startSeconds() + TOLERANCE_SECONDS;
        double to = cycles.get(cycles.size() - 1).endSeconds() - TOLERANCE_SECONDS;
        List<Double> got = breathing.breaths().stream()
                .map(Breath::startSeconds)
                .filter(s -> s > from && s < to)
                .toList();
        matched += matches(wanted, got);
        annotated += wanted.size();
        found += got.size();
        double rate = trueRate(cycles);
        Breathing.Rate estimate = breathing.rate();
        rateErrors.add(estimate == null ? NO_RATE_ERROR : Math.abs(estimate.perMinute() - rate));
        covered += estimate != null && rate >= estimate.low() && rate <= estimate.high() ? 1 : 0;
    }

    static double trueRate(List<AnnotatedEvent> cycles) {
        return 60
                / cycles.subList(1, cycles.size() - 1).stream()
                        .mapToDouble(AnnotatedEvent::durationSeconds)
                        .average()
                        .orElseThrow();
    }

    double medianRateError() {
        return Statistics.median(
                rateErrors.stream().mapToDouble(Double::doubleValue).toArray());
    }

    double meanRateError() {
        return Statistics.mean(
                rateErrors.stream().mapToDouble(Double::doubleValue).toArray());
    }

    /** Share of recordings whose interval holds the annotated rate. */
    double coverage() {
        return (double) covered / rateErrors.size();
    }

    double boundaryF() {
        return 2.0 * matched / (annotated + found);
    }

    @Override
    public String toString() {
        return "rate error median %.2f mean %.2f /min, interval holds the rate in %.0f %%, boundary F %.3f (%d of %d annotated, %d found)"
                .formatted(
                        medianRateError(), meanRateError(), 100 * coverage(), boundaryF(), matched, annotated, found);
    }

    /** Pairs in order of time, each within the tolerance, none used twice. */
    static int matches(List<Double> wanted, List<Double> got) {
        int i = 0;
        int j = 0;
        int pairs = 0;
        while (i < wanted.size() && j < got.size()) {
            double apart = wanted.get(i) - got.get(j);
            if (Math.abs(apart) <= TOLERANCE_SECONDS) {
                pairs++;
                i++;
                j++;
            } else if (apart < 0) {
                i++;
            } else {
                j++;
            }
        }
        return pairs;
    }
}
