package lungwort.breath;

import java.util.ArrayList;
import java.util.List;
import lungwort.breath.BreathTracker.Explanation;
import lungwort.breath.Breathing.Rate;
import lungwort.signal.Statistics;
import org.jspecify.annotations.Nullable;

/** Reads breaths, phases and rate off decoded explanations: the best one speaks, the others say how sure it is. */
final class PhaseReading {
    /** A phase of which less than this weight of explanations is convinced is unknown. */
    private static final double MIN_PHASE_CONFIDENCE = 0.6;

    /** Where the explanations agree less than this on the rate, no rate and no phase is told. */
    private static final double MIN_RATE_CONFIDENCE = 0.4;

    /** Steady noise without breath has band levels that spread by 2.0 to 2.2 dB, and explanations that agree by 0.1 to 0.55: there more agreement is asked for. */
    private static final double NOISE_SPREAD_DB = 2.8;

    private static final double MIN_RATE_CONFIDENCE_IN_NOISE = 0.6;

    /** Differences of score are divided by this before they become weights: decoded frames are not independent evidence. */
    private static final double TEMPERATURE = 3;

    /** An explanation of at least this share of the best one's weight widens the interval of the rate. */
    private static final double LIKELY_SHARE = 0.05;

    /** The normal distribution's 97.5 % quantile. */
    private static final double Z95 = 1.96;

    /** No breath is timed better than this, in seconds. */
    private static final double MIN_PERIOD_SD = 0.1;

    /** Slower breathing is not doubled: expiration that is like inspiration is likelier than such a rate. */
    private static final double MIN_DOUBLED_RATE = 21;

    /** From this confidence on the half is believed all the same. */
    private static final double SURE_OF_HALF = 0.78;

    private static final double DOUBLE_TOLERANCE = 0.1;
    private static final double MAX_AMBIGUOUS_CONFIDENCE = 0.5;

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

    /**
     * @param explanations best first, at least one
     * @param flow what was decoded
     */
    static Breathing read(
            List<Explanation> explanations, BandFlow flow, double firstSeconds, double frameSeconds, double duration) {
        PhaseReading reading = new PhaseReading(explanations, firstSeconds, frameSeconds, duration);
        Rate rate = reading.rate();
        double least = flow.strengthDb() < NOISE_SPREAD_DB ? MIN_RATE_CONFIDENCE_IN_NOISE : MIN_RATE_CONFIDENCE;
        if (rate != null && rate.confidence() < least) {
            return new Breathing(unknown(reading.breaths(), rate.confidence()), null);
        }
        Likeness likeness = Likeness.of(reading.best, flow);
        if (rate == null || !likeness.alike()) {
            return new Breathing(reading.breaths(), rate);
        }
        return reading.ambiguous(rate, likeness);
    }

    /** Inspiration and expiration are alike: no phase is told, and the rate may be the double. */
    private Breathing ambiguous(Rate rate, Likeness likeness) {
        double confidence = Math.min(MAX_AMBIGUOUS_CONFIDENCE, rate.confidence());
        PhaseReading twice = rate.perMinute() >= MIN_DOUBLED_RATE ? twiceAsFast(rate.perMinute()) : null;
        Rate fast = twice == null ? null : twice.rate();
        if (twice == null || fast == null) {
            return new Breathing(unknown(breaths(), confidence), rate);
        }
        boolean doubled = likeness.same() && rate.confidence() < SURE_OF_HALF;
        double perMinute = doubled ? fast.perMinute() : rate.perMinute();
        Rate either = new Rate(perMinute, rate.low(), Math.max(rate.high(), fast.high()), confidence);
        return new Breathing(unknown(doubled ? twice.breaths() : breaths(), confidence), either);
    }

    /** The best explanation at about twice a rate; null where none is. */
    private @Nullable PhaseReading twiceAsFast(double perMinute) {
        for (int i = 0; i < explanations.size(); i++) {
            double[] periods = periods(explanations.get(i).path().states());
            double other = periods.length == 0 ? 0 : 60 / Statistics.mean(periods);
            if (Math.abs(other - 2 * perMinute) <= DOUBLE_TOLERANCE * 2 * perMinute) {
                List<Explanation> order = new ArrayList<>(explanations);
                order.add(0, order.remove(i));
                return new PhaseReading(order, firstSeconds, frameSeconds, durationSeconds);
            }
        }
        return null;
    }

    /** Breaths of which nothing is claimed but that they may be there. */
    private static List<Breath> unknown(List<Breath> breaths, double confidence) {
        List<Breath> doubtful = new ArrayList<>();
        for (Breath b : breaths) {
            double least = Math.min(confidence, b.confidence());
            PhaseSpan span = new PhaseSpan(b.startSeconds(), b.endSeconds(), BreathPhase.UNKNOWN, least);
            doubtful.add(new Breath(b.startSeconds(), b.endSeconds(), List.of(span), least));
        }
        return doubtful;
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

    /** Breaths from start to start; what lies before the first start and after the last are parts of breaths, cut by the ends of the recording. */
    private List<Breath> breaths() {
        List<Integer> cuts = new ArrayList<>(starts(best));
        if (cuts.isEmpty() || cuts.get(0) > 0) {
            cuts.add(0, 0);
        }
        cuts.add(best.length);
        List<Breath> breaths = new ArrayList<>();
        for (int i = 0; i + 1 < cuts.size(); i++) {
            breaths.add(breath(cuts.get(i), cuts.get(i + 1)));
        }
        return breaths;
    }

    /** Frames at which inspiration begins after something else. */
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
        if (frame == 0) {
            return 0;
        }
        return frame == best.length ? durationSeconds : firstSeconds + (frame - 0.5) * frameSeconds;
    }

    private @Nullable Rate rate() {
        double[] own = periods(best);
        if (own.length == 0) {
            return null;
        }
        double perMinute = 60 / Statistics.mean(own);
        double error = Z95 * Math.max(Statistics.standardDeviation(own), MIN_PERIOD_SD) / Math.sqrt(own.length);
        double low = 60 / (Statistics.mean(own) + error);
        double high = 60 / Math.max(Statistics.mean(own) - error, 60 / BreathTracker.MAX_RATE);
        double near = 0;
        double known = 0;
        for (int i = 0; i < weights.length; i++) {
            double[] periods = periods(explanations.get(i).path().states());
            if (periods.length == 0) {
                continue;
            }
            double other = 60 / Statistics.mean(periods);
            known += weights[i];
            near += Math.abs(other - perMinute) <= Math.max(2, 0.1 * perMinute) ? weights[i] : 0;
            if (weights[i] > LIKELY_SHARE * weights[0]) {
                low = Math.min(low, other);
                high = Math.max(high, other);
            }
        }
        return new Rate(perMinute, Math.min(low, perMinute), Math.max(high, perMinute), Math.min(1, near / known));
    }

    /** Lengths of the whole breaths, in seconds. */
    private double[] periods(byte[] path) {
        List<Integer> starts = starts(path);
        double[] periods = new double[Math.max(0, starts.size() - 1)];
        for (int i = 0; i < periods.length; i++) {
            periods[i] = (starts.get(i + 1) - starts.get(i)) * frameSeconds;
        }
        return periods;
    }
}
