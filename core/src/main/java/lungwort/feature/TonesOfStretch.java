package lungwort.feature;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.ToDoubleFunction;
import lungwort.sound.SoundSearch;
import lungwort.sound.Tone;

/** The searched tones ({@link SoundSearch#tones()}) of a stretch as features. */
final class TonesOfStretch {
    /** Seconds that a tone and the stretch must share. */
    static final double LEAST_OVERLAP = 0.03;

    private static final double[] LIMITS_HZ = {80, 160, 250, 400, 700, 1800};
    private static final double[] STRENGTHS = {1, 2, 4};

    /** Keeps the logarithm of no strength finite. */
    private static final double NONE = 0.1;

    private TonesOfStretch() {}

    static void write(String prefix, List<Tone> tones, double from, double to, double length, FeatureWriter w) {
        String name = prefix + "ridgeTone";
        w.put(name, "strength", "1", "logarithm of the strongest tone's strength", logOf(most(tones, Tone::strength)));
        for (double least : new double[] {0, 0.1, 0.25}) {
            double prominence =
                    most(tones.stream().filter(t -> t.lengthSeconds() > least).toList(), Tone::prominenceDb);
            w.put(
                    name,
                    "prominence" + Math.round(least * 1000) + "ms",
                    "dB",
                    "highest median prominence of a tone longer than that",
                    prominence);
        }
        w.put(name, "longest", "s", "length of the longest tone", most(tones, Tone::lengthSeconds));
        shares(name, tones, from, to, length, w);
        double logs = tones.stream().mapToDouble(t -> Math.log1p(t.strength())).sum();
        w.put(name, "strengths", "1", "sum of the logarithms of strengths plus 1", logs);
        for (double least : STRENGTHS) {
            long n = tones.stream().filter(t -> t.strength() >= least).count();
            w.put(
                    name,
                    "strength" + (int) least + ".rate",
                    "1/s",
                    "tones of at least that strength a second",
                    n / length);
        }
        strongest(name, tones, from, to, length, w);
        for (int k = 0; k + 1 < LIMITS_HZ.length; k++) {
            int band = k;
            List<Tone> inBand = tones.stream()
                    .filter(t -> t.medianHz() >= LIMITS_HZ[band] && t.medianHz() < LIMITS_HZ[band + 1])
                    .toList();
            w.put(
                    name,
                    "from" + (int) LIMITS_HZ[k] + "Hz",
                    "1",
                    "logarithm of the strength of the strongest tone from that pitch to the next",
                    logOf(most(inBand, Tone::strength)));
        }
    }

    private static void shares(String name, List<Tone> tones, double from, double to, double length, FeatureWriter w) {
        double sure = 0;
        double all = 0;
        double weighted = 0;
        for (Tone t : tones) {
            double overlap = MeasuredFeatures.overlap(t, from, to);
            sure += t.strength() >= 1 ? overlap : 0;
            all += overlap;
            weighted += overlap * t.prominenceDb();
        }
        w.put(name, "sureShare", "1", "summed length of tones that are hardly noise over the stretch's", sure / length);
        w.put(name, "share", "1", "summed length of all tones over that of the stretch", all / length);
        w.put(name, "weight", "dB", "summed length times prominence over that of the stretch", weighted / length);
    }

    private static void strongest(
            String name, List<Tone> tones, double from, double to, double length, FeatureWriter w) {
        Optional<Tone> strongest = tones.stream().max(Comparator.comparingDouble(Tone::strength));
        w.put(name, "hz", "Hz", "frequency of the strongest tone", of(strongest, Tone::medianHz));
        w.put(
                name,
                "strongestShare",
                "1",
                "share of the stretch that the strongest tone fills",
                of(strongest, t -> MeasuredFeatures.overlap(t, from, to)) / length);
        w.put(name, "continuity", "1", "of the strongest tone", of(strongest, Tone::continuity));
        w.put(name, "strongestLength", "s", "of the strongest tone", of(strongest, Tone::lengthSeconds));
    }

    private static double of(Optional<Tone> tone, ToDoubleFunction<Tone> value) {
        return tone.map(value::applyAsDouble).orElse(0.0);
    }

    private static double most(List<Tone> tones, ToDoubleFunction<Tone> value) {
        return tones.stream().mapToDouble(value).max().orElse(0);
    }

    private static double logOf(double strength) {
        return Math.log(strength + NONE);
    }
}
