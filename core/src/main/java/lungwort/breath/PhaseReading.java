package lungwort.breath;

import java.util.ArrayList;
import java.util.List;
import lungwort.breath.BreathTracker.Explanation;
import lungwort.breath.Breathing.Rate;

/** Reads breaths, phases and rate off decoded explanations: the best one speaks, the others say how sure it is. */
final class PhaseReading {
    /** A phase of which less than this weight of explanations is convinced is unknown. */
    private static final double MIN_PHASE_CONFIDENCE = 0.6;

    /** Differences of score are divided by this before they become weights: decoded frames are not independent evidence. */
    private static final double TEMPERATURE = 3;

    private final List<Explanation> explanations;
    private final double[] weights;
    private final double firstSeconds;
    private final double frameSeconds;
    private final double durationSeconds;
    private final byte[] best;

    private PhaseReading(List<Explanation> explanations, double first, double frame, double duration) {
        this.explanations = explanations;
        this.firstSeconds = first;
        this.frameSeconds = frame;
        this.durationSeconds = duration;
        this.best = explanations.get(0).path().states();
        this.weights = weights(explanations);
    }

    /** @param explanations best first, at least one */
    static Breathing read(List<Explanation> explanations, double firstSeconds, double frameSeconds, double duration) {
        PhaseReading reading = new PhaseReading(explanations, firstSeconds, frameSeconds, duration);
        List<Breath> breaths = reading.breaths();
        return new Breathing(breaths, reading.rate());
    }

    private static double[] weights(List<Explanation> explanations) {
        double[] weights = new double[explanations.size()];
        double sum = 0;
        for (int i = 0; i < weights.length; i++) {
            double behind = explanations.get(0).score() - explanations.get(i).score();
            weights[i] = Math.exp(-behind / TEMPERATURE);
            sum += weights[i];
        }
        for (int i = 0; i < weights.length; i++) {
            weights[i] /= sum;
        }
        return weights;
    }

    private List<Breath> breaths() {
        List<Integer> starts = starts(best);
        List<Breath> breaths = new ArrayList<>();
        for (int i = 0; i < starts.size(); i++) {
            int from = starts.get(i);
            int to = i + 1 < starts.size() ? starts.get(i + 1) : best.length;
            breaths.add(breath(from, to));
        }
        return breaths;
    }

    /** Frames at which inspiration begins; a recording that begins within inspiration has none at its first frame unless that frame is the start. */
    private static List<Integer> starts(byte[] path) {
        List<Integer> starts = new ArrayList<>();
        for (int t = 1; t < path.length; t++) {
            if (path[t] == PhaseHypothesis.INSPIRATION && path[t - 1] != PhaseHypothesis.INSPIRATION) {
                starts.add(t);
            }
        }
        return starts;
    }

    private Breath breath(int from, int to) {
        List<PhaseSpan> spans = new ArrayList<>();
        double sure = 0;
        int at = from;
        while (at < to) {
            int end = at + 1;
            while (end < to && best[end] == best[at]) {
                end++;
            }
            PhaseSpan span = span(at, end);
            spans.add(span);
            sure += span.confidence() * (end - at);
            at = end;
        }
        return new Breath(edge(from), edge(to), spans, sure / (to - from));
    }

    private PhaseSpan span(int from, int to) {
        double agree = 0;
        for (int i = 0; i < weights.length; i++) {
            byte[] other = explanations.get(i).path().states();
            int same = 0;
            for (int t = from; t < to; t++) {
                same += phase(other[t]) == phase(best[t]) ? 1 : 0;
            }
            agree += weights[i] * same / (to - from);
        }
        double confidence = Math.min(1, agree);
        BreathPhase phase = confidence < MIN_PHASE_CONFIDENCE ? BreathPhase.UNKNOWN : phase(best[from]);
        return new PhaseSpan(edge(from), edge(to), phase, confidence);
    }

    private static BreathPhase phase(int state) {
        return switch (state) {
            case PhaseHypothesis.INSPIRATION -> BreathPhase.INSPIRATION;
            case PhaseHypothesis.EXPIRATION -> BreathPhase.EXPIRATION;
            default -> BreathPhase.PAUSE;
        };
    }

    private double edge(int frame) {
        double seconds = firstSeconds + (frame - 0.5) * frameSeconds;
        return frame == best.length ? durationSeconds : Math.max(0, seconds);
    }

    private @org.jspecify.annotations.Nullable Rate rate() {
        double perMinute = rateOf(best);
        if (Double.isNaN(perMinute)) {
            return null;
        }
        double near = 0;
        double low = perMinute;
        double high = perMinute;
        double known = 0;
        for (int i = 0; i < weights.length; i++) {
            double other = rateOf(explanations.get(i).path().states());
            if (Double.isNaN(other)) {
                continue;
            }
            known += weights[i];
            near += Math.abs(other - perMinute) <= Math.max(2, 0.1 * perMinute) ? weights[i] : 0;
            if (weights[i] > 0.05 * weights[0]) {
                low = Math.min(low, other);
                high = Math.max(high, other);
            }
        }
        return new Rate(perMinute, low, high, Math.min(1, near / known));
    }

    /** 60 over the mean length of the whole breaths; NaN with fewer than two starts. */
    private double rateOf(byte[] path) {
        List<Integer> starts = starts(path);
        int n = starts.size();
        return n < 2 ? Double.NaN : 60 * (n - 1) / ((starts.get(n - 1) - starts.get(0)) * frameSeconds);
    }
}
