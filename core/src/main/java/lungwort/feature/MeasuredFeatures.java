package lungwort.feature;

import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import lungwort.breath.Breathing;
import lungwort.sound.Burst;
import lungwort.sound.SoundSearch;
import lungwort.sound.Tone;

/**
 * The measured sounds of a stretch as features: bursts by how surely they stand out, by width, by fit to a mathematical crackle and by what stands at the same point of other breaths; tones by strength, length and pitch. They are what carries
 * over from device to device, since each is judged against the sound around it.
 */
final class MeasuredFeatures {
    private static final double[] SCORES = {8, 14, 20, 40, 80, 160};

    /** Largest deflections, in ms: fine crackles fill the first classes, coarse ones the middle, thuds the last. */
    private static final double[] WIDTHS_MS = {0.45, 0.7, 1.0, 1.4, 2.0, 3.5, 8};

    private static final double[] FITS = {0, 0.85, 0.92};
    private static final int RATES = SCORES.length + 2 * (WIDTHS_MS.length - 1) + FITS.length;

    /** A stretch's burst rates less those of the whole recording. */
    private final double[] whole;

    private final SoundSearch search;
    private final RecurrenceFeatures recurrence;
    private final List<Burst> bursts;
    private final double seconds;

    MeasuredFeatures(SoundSearch search, Breathing breathing) {
        this.search = search;
        this.bursts = search.bursts();
        this.seconds = search.views().durationSeconds();
        this.whole = rates(bursts, Math.max(SHORTEST, seconds));
        this.recurrence = new RecurrenceFeatures(bursts, breathing, seconds);
    }

    private static final double SHORTEST = 0.05;

    /** Of a time span. */
    void segment(double startSeconds, double endSeconds, FeatureWriter w) {
        double[] rates = write("", startSeconds, endSeconds, w);
        for (int i = 0; i < RATES; i++) {
            w.put(rateName("", i), "relative", "1/s", "less the recording's own", rates[i] - whole[i]);
        }
    }

    /** Of the whole recording. */
    void recording(FeatureWriter w) {
        write("recording.", 0, seconds, w);
        recurrence.agreement("recording.", w);
    }

    private double[] write(String prefix, double from, double to, FeatureWriter w) {
        double length = Math.max(SHORTEST, to - from);
        List<Burst> own = bursts.stream()
                .filter(b -> b.seconds() >= from && b.seconds() < to)
                .toList();
        double[] rates = rates(own, length);
        for (int i = 0; i < RATES; i++) {
            w.put(rateName(prefix, i), "", "1/s", rateFormula(i), rates[i]);
        }
        highest(prefix, own, w);
        shape(prefix, own, w);
        density(prefix, own, length, w);
        List<Tone> tones = search.tones().stream()
                .filter(t -> overlap(t, from, to) > TonesOfStretch.LEAST_OVERLAP)
                .toList();
        TonesOfStretch.write(prefix, tones, from, to, length, w);
        recurrence.write(prefix, from, to, length, w);
        return rates;
    }

    private static double[] rates(List<Burst> bursts, double length) {
        double[] rates = new double[RATES];
        for (Burst b : bursts) {
            int at = 0;
            for (double score : SCORES) {
                rates[at++] += b.score() >= score ? 1 / length : 0;
            }
            for (int k = 0; k + 1 < WIDTHS_MS.length; k++) {
                boolean in = b.shapedLikeCrackle() && b.largestMs() >= WIDTHS_MS[k] && b.largestMs() < WIDTHS_MS[k + 1];
                rates[at++] += in ? 1 / length : 0;
                rates[at++] += in ? (Math.log(b.score()) - 2) / length : 0;
            }
            for (double fit : FITS) {
                rates[at++] += b.crackle() && b.fit() > fit ? 1 / length : 0;
            }
        }
        return rates;
    }

    private static String rateName(String prefix, int i) {
        int width = i - SCORES.length;
        int fit = width - 2 * (WIDTHS_MS.length - 1);
        if (width < 0) {
            return prefix + "burst.score" + (int) SCORES[i] + ".rate";
        }
        if (fit < 0) {
            String name = prefix + "burst.width" + WIDTHS_MS[width / 2] + "ms";
            return name + (width % 2 == 0 ? ".rate" : ".weight");
        }
        return prefix + (fit == 0 ? "crackle.rate" : "crackle.fit" + FITS[fit] + ".rate");
    }

    private static String rateFormula(int i) {
        int width = i - SCORES.length;
        int fit = width - 2 * (WIDTHS_MS.length - 1);
        if (width < 0) {
            return "bursts a second of at least that log-likelihood ratio over the local noise";
        }
        if (fit < 0) {
            return width % 2 == 0
                    ? "bursts a second that are shaped like a crackle, largest deflection from that width to the next"
                    : "the same, each counted by the logarithm of its score less 2, a second";
        }
        return fit == 0
                ? "named crackles a second (CORSA)"
                : "the same, of a better correlation with a mathematical crackle";
    }

    private static void highest(String prefix, List<Burst> own, FeatureWriter w) {
        double[] scores =
                own.stream().mapToDouble(b -> Math.log(b.score() + 1)).sorted().toArray();
        double[] prominences = own.stream()
                .filter(Burst::crackle)
                .mapToDouble(b -> Math.min(40, b.prominenceDb()))
                .sorted()
                .toArray();
        for (int rank : new int[] {1, 2, 3, 5}) {
            w.put(prefix + "burst.score", "top" + rank, "1", "logarithm of the highest scores", top(scores, rank, 1.5));
        }
        for (int rank : new int[] {1, 2, 3, 5}) {
            w.put(
                    prefix + "crackle.prominence",
                    "top" + rank,
                    "dB",
                    "highest prominences of named crackles, 40 at most",
                    top(prominences, rank, 0));
        }
        double n = Math.max(1, own.size());
        String mean = "mean over the bursts, 0 without any";
        w.put(prefix + "burst.highShare", "", "1", mean, sum(own, Burst::highShare) / n);
        w.put(prefix + "burst.ringing", "", "1", mean, sum(own, Burst::ringing) / n);
        w.put(prefix + "burst.fit", "", "1", mean, sum(own, Burst::fit) / n);
    }

    private static double top(double[] sorted, int rank, double none) {
        return sorted.length >= rank ? sorted[sorted.length - rank] : none;
    }

    private static double sum(List<Burst> bursts, java.util.function.ToDoubleFunction<Burst> value) {
        return bursts.stream().mapToDouble(value).sum();
    }

    /** Widths of those shaped like a crackle, weighted by the logarithm of their score. */
    private static void shape(String prefix, List<Burst> own, FeatureWriter w) {
        List<Burst> shaped = own.stream().filter(Burst::shapedLikeCrackle).toList();
        double weight = sum(shaped, MeasuredFeatures::weight) + 1e-6;
        double mean = sum(shaped, b -> weight(b) * b.largestMs()) / weight;
        double variance = sum(shaped, b -> weight(b) * (b.largestMs() - mean) * (b.largestMs() - mean)) / weight;
        String formula = "of bursts shaped like a crackle, weighted by the logarithm of their score";
        w.put(prefix + "burst.largestWidth", "mean", "ms", formula, mean);
        w.put(prefix + "burst.largestWidth", "sd", "ms", formula, Math.sqrt(variance));
        w.put(prefix + "burst.twoCycles", "mean", "ms", formula, sum(shaped, b -> weight(b) * b.twoCycleMs()) / weight);
        w.put(prefix + "burst.initial", "mean", "ms", formula, sum(shaped, b -> weight(b) * b.initialMs()) / weight);
        w.put(prefix + "burst.shapedFit", "mean", "1", formula, sum(shaped, b -> weight(b) * b.fit()) / weight);
    }

    private static double weight(Burst b) {
        return Math.log(b.score() + 1);
    }

    private static void density(String prefix, List<Burst> own, double length, FeatureWriter w) {
        double[] at = own.stream()
                .filter(Burst::shapedLikeCrackle)
                .mapToDouble(Burst::seconds)
                .sorted()
                .toArray();
        for (double gap : new double[] {0.05, 0.1, 0.2}) {
            long near = IntStream.range(1, at.length)
                    .filter(i -> at[i] - at[i - 1] < gap)
                    .count();
            w.put(
                    prefix + "burst.within" + Math.round(gap * 1000) + "ms",
                    "",
                    "1/s",
                    "bursts shaped like a crackle that follow another one so soon, a second",
                    near / length);
        }
        for (double span : new double[] {0.3, 0.1}) {
            w.put(
                    prefix + "burst.densest" + Math.round(span * 1000) + "ms",
                    "",
                    "1",
                    "most bursts shaped like a crackle in so long a stretch",
                    densest(at, span));
        }
    }

    private static int densest(double[] at, double span) {
        int most = 0;
        for (int i = 0; i < at.length; i++) {
            int end = Arrays.binarySearch(at, at[i] + span);
            most = Math.max(most, (end >= 0 ? end : -end - 1) - i);
        }
        return most;
    }

    static double overlap(Tone tone, double from, double to) {
        return Math.min(to, tone.endSeconds()) - Math.max(from, tone.startSeconds());
    }
}
