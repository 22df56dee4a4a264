package lungwort.feature;

import java.util.List;
import lungwort.breath.Breathing;
import lungwort.sound.BreathAgreement;
import lungwort.sound.Burst;
import lungwort.sound.Recurrence;

/** How much of what bursts in a stretch comes back at the same point of the other breaths ({@link Recurrence}), for several kinds of bursts. */
final class RecurrenceFeatures {
    /**
     * A kind of bursts.
     *
     * @param name in feature names
     * @param score least score
     * @param fromMs least width of the largest deflection
     * @param toMs width under which it lies
     */
    private record Kind(String name, int score, double fromMs, double toMs) {
        boolean holds(Burst b) {
            return b.score() >= score && b.largestMs() >= fromMs && b.largestMs() < toMs;
        }

        String words() {
            return "bursts of a score of at least " + score + ", largest deflection " + fromMs + " to " + toMs + " ms";
        }
    }

    private static final List<Kind> KINDS = List.of(
            new Kind("any", 8, 0.4, 10),
            new Kind("sure", 20, 0.6, 10),
            new Kind("surest", 40, 0.6, 10),
            new Kind("narrow", 20, 0.6, 3.5),
            new Kind("wide", 20, 2, 10));

    private static final double OFTEN = 0.5;

    private final List<List<Recurrence.Return>> returns;
    private final BreathAgreement agreement;

    RecurrenceFeatures(List<Burst> bursts, Breathing breathing, double durationSeconds) {
        this.returns = KINDS.stream()
                .map(kind -> Recurrence.of(bursts.stream().filter(kind::holds).toList(), breathing, durationSeconds))
                .toList();
        this.agreement = BreathAgreement.of(bursts, breathing);
    }

    /** How far the breaths of the recording agree. */
    void agreement(String prefix, FeatureWriter w) {
        w.put(
                prefix + "recurrence.agreement",
                "",
                "1",
                "agreement of the breaths about where bursts shaped like crackles stand, in deviations of chance",
                agreement.deviations());
    }

    void write(String prefix, double from, double to, double length, FeatureWriter w) {
        for (int k = 0; k < KINDS.size(); k++) {
            List<Recurrence.Return> own = returns.get(k).stream()
                    .filter(r -> r.seconds() >= from && r.seconds() < to)
                    .toList();
            write(prefix + "recurrence." + KINDS.get(k).name(), KINDS.get(k).words(), own, length, w);
        }
    }

    private static void write(String name, String which, List<Recurrence.Return> own, double length, FeatureWriter w) {
        double weight = own.stream().mapToDouble(Recurrence.Return::weight).sum();
        double density =
                own.stream().mapToDouble(r -> r.weight() * r.logDensity()).sum();
        double share = own.stream().mapToDouble(r -> r.weight() * r.share()).sum();
        long often = own.stream().filter(r -> r.share() >= OFTEN).count();
        String dense = which + ": logarithm of the density at the same point of the other breaths over the mean";
        String held = which + ": share of the other breaths that hold one at the same point";
        w.put(
                name + ".density",
                "",
                "1/s",
                dense + ", weighted by the logarithm of the score, a second",
                density / length);
        w.put(name + ".meanDensity", "", "1", dense + ", weighted mean drawn to 0", density / (weight + 1));
        w.put(name + ".share", "", "1/s", held + ", weighted by the logarithm of the score, a second", share / length);
        w.put(name + ".meanShare", "", "1", held + ", weighted mean drawn to 0", share / (weight + 1));
        w.put(
                name + ".often",
                "",
                "1/s",
                which + ": those that at least half of the other breaths hold, a second",
                often / length);
    }
}
