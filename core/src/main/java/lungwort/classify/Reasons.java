package lungwort.classify;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import lungwort.feature.FeatureCatalogue;
import lungwort.feature.FeatureDefinition;
import lungwort.sound.MeasuredSound;
import org.jspecify.annotations.Nullable;

/**
 * Puts what moved a judgement into plain words: the measured facts of the most telling window, in the order of how much they moved it, and the sounds measured in the
 * recording.
 */
final class Reasons {
    private static final double TELLING = 0.5;
    private static final int MOST = 3;

    /** A family is only named if it moved the log odds by this much. */
    private static final double LEAST_SHARE = 0.1;

    private Reasons() {}

    /**
     * One window with its features and answer.
     *
     * @param agreement how far the breaths of the recording agree about where bursts stand
     */
    @SuppressWarnings("ArrayRecordComponent") // never compared
    record Window(Judgement.JudgedSegment span, float[] features, double agreement) {}

    /** @param seen by the net over the whole recording; null where there is none */
    static List<String> of(
            SoundModel.Stages stages,
            List<Window> windows,
            List<MeasuredSound> sounds,
            SoundModel.Calibrated c,
            @Nullable NetLook seen) {
        List<String> reasons = new ArrayList<>();
        if (c.poorQuality() >= TELLING) {
            reasons.add("The recording sounds like those that listeners called too poor to judge.");
        }
        boolean continuousFirst = c.continuous() >= c.discontinuous();
        explain(reasons, continuousFirst, stages, windows, sounds, probability(c, continuousFirst), seen);
        explain(reasons, !continuousFirst, stages, windows, sounds, probability(c, !continuousFirst), seen);
        return reasons;
    }

    private static double probability(SoundModel.Calibrated c, boolean continuous) {
        return continuous ? c.continuous() : c.discontinuous();
    }

    private static void explain(
            List<String> reasons,
            boolean continuous,
            SoundModel.Stages stages,
            List<Window> windows,
            List<MeasuredSound> sounds,
            double probability,
            @Nullable NetLook seen) {
        String what = continuous ? "a continuous sound (wheeze or rhonchus)" : "crackles";
        long telling = windows.stream()
                .filter(w -> probability(w, continuous) >= TELLING)
                .count();
        Window best = windows.stream()
                .max(Comparator.comparingDouble(w -> probability(w, continuous)))
                .orElseThrow();
        long measured =
                sounds.stream().filter(s -> s.kind().continuous() == continuous).count();
        int question = continuous ? ChestNet.CONTINUOUS : ChestNet.DISCONTINUOUS;
        boolean whole = seen != null && probability >= TELLING && seen.logits()[question] > 0;
        if (seen != null && whole) {
            reasons.add(String.format(
                    Locale.ROOT,
                    "Seen as a whole, the recording looks to the learnt model like one with %s, most of all near %.1f s.",
                    what,
                    seen.seconds()[question]));
        }
        if (telling == 0) {
            reasons.add(String.format(
                    Locale.ROOT,
                    whole
                            ? "By themselves none of %1$d stretches sounds like %2$s to it (the nearest is %3$.0f %% like it), %4$s."
                            : "The learnt model finds nothing like %2$s in %1$d stretches (the nearest is %3$.0f %% like it), %4$s.",
                    windows.size(),
                    what,
                    100 * probability(best, continuous),
                    measured == 0 ? "and none was measured" : "yet measuring found " + measured));
            return;
        }
        reasons.add(String.format(
                Locale.ROOT,
                "To the learnt model %d of %d stretches sound like %s, most of all %.1f to %.1f s (%.0f %% like it); %d such sounds were measured.",
                telling,
                windows.size(),
                what,
                best.span().startSeconds(),
                best.span().endSeconds(),
                100 * probability(best, continuous),
                measured));
        facts(stages, best, continuous).forEach(fact -> reasons.add("There, " + fact + "."));
    }

    /** As {@link WindowAnswer} weighs the models. */
    private static double[] shares(SoundModel.Stages stages, float[] features, boolean continuous) {
        int wanted = (continuous ? RecordingClass.CONTINUOUS : RecordingClass.DISCONTINUOUS).ordinal();
        double[] shares = Contributions.of(stages.window(), features, wanted, RecordingClass.NORMAL.ordinal());
        if (continuous || stages.bursts() == null) {
            return shares;
        }
        double[] byBursts = Contributions.of(stages.bursts().blend(), features, 1, 0);
        double slope = stages.bursts().scale().slope();
        for (int j = 0; j < shares.length; j++) {
            shares[j] = WindowAnswer.BURSTS_SHARE * slope * byBursts[j] + (1 - WindowAnswer.BURSTS_SHARE) * shares[j];
        }
        return shares;
    }

    private static double probability(Window w, boolean continuous) {
        return continuous ? w.span().continuous() : w.span().discontinuous();
    }

    /** The families of features that spoke for it, strongest first, each with what was measured. */
    private static List<String> facts(SoundModel.Stages stages, Window window, boolean continuous) {
        double[] shares = shares(stages, window.features(), continuous);
        Map<FactFamily, Double> sums = new LinkedHashMap<>();
        List<FeatureDefinition> features = FeatureCatalogue.segment().features();
        for (int j = 0; j < shares.length; j++) {
            sums.merge(FactFamily.of(features.get(j).name()), shares[j], Double::sum);
        }
        if (!continuous && stages.bursts() != null) {
            double byAgreement = stages.bursts().scale().perDeviation() * window.agreement();
            sums.merge(FactFamily.RECURRENCE, WindowAnswer.BURSTS_SHARE * byAgreement, Double::sum);
        }
        return sums.entrySet().stream()
                .filter(e -> e.getValue() >= LEAST_SHARE)
                .sorted(Map.Entry.<FactFamily, Double>comparingByValue().reversed())
                .limit(MOST)
                .map(e -> e.getKey().words(window.features()))
                .toList();
    }
}
