package lungwort.compare;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import lungwort.audio.Recording;
import lungwort.audio.SourceFormat;
import lungwort.breath.Breath;
import lungwort.breath.BreathPhase;
import lungwort.breath.Breathing;
import lungwort.breath.PhaseSpan;
import lungwort.examine.Evidence;
import lungwort.examine.Examination;
import lungwort.examine.Suggestion;
import lungwort.quality.Quality;
import lungwort.sound.ContinuousSound;
import lungwort.sound.Crackle;
import lungwort.sound.SoundKind;

/** Recordings and examinations whose numbers are known. */
final class Takes {
    static final int RATE_HZ = 8000;

    private Takes() {}

    /** White noise of a standard deviation, from a seed. */
    static Recording noise(double deviation, double seconds, int rateHz, long seed) {
        Random random = new Random(seed);
        double[] x = new double[(int) (seconds * rateHz)];
        for (int i = 0; i < x.length; i++) {
            x[i] = deviation * random.nextGaussian();
        }
        return new Recording(x, rateHz, "noise");
    }

    /** Breaths of 4 s from the start: 1.6 s in, 2.0 s out, 0.4 s pause. */
    static Breathing breathing(int breaths) {
        List<Breath> list = new ArrayList<>();
        for (int i = 0; i < breaths; i++) {
            double t = 4.0 * i;
            list.add(new Breath(
                    t,
                    t + 4,
                    List.of(
                            new PhaseSpan(t, t + 1.6, BreathPhase.INSPIRATION, 1),
                            new PhaseSpan(t + 1.6, t + 3.6, BreathPhase.EXPIRATION, 1),
                            new PhaseSpan(t + 3.6, t + 4, BreathPhase.PAUSE, 1)),
                    1));
        }
        return new Breathing(list, new Breathing.Rate(15, 14, 16, 1));
    }

    /** An examination of 12 s and three breaths, each with a wheeze of the given length and so many crackles. */
    static Examination examination(Suggestion suggestion, double wheezeSeconds, int cracklesEach) {
        List<Evidence> evidence = new ArrayList<>();
        for (int i = 0; i < 3; i++) {
            double t = 4.0 * i;
            if (wheezeSeconds > 0) {
                evidence.add(new Evidence(
                        new ContinuousSound(
                                SoundKind.WHEEZE, t + 1.7, t + 1.7 + wheezeSeconds, List.of(), 400, 0, false, 1, 20),
                        BreathPhase.EXPIRATION,
                        0.5));
            }
            for (int k = 0; k < cracklesEach; k++) {
                double at = t + 0.5 + 0.05 * k;
                evidence.add(new Evidence(
                        new Crackle(SoundKind.FINE_CRACKLE, at, at + 0.008, 0.7, 5, 1, 15),
                        BreathPhase.INSPIRATION,
                        0.5));
            }
        }
        return examination(suggestion, breathing(3), evidence, true);
    }

    /** The same of a recording unlike what the model learnt from. */
    static Examination unlikeLearnt(Suggestion suggestion, double wheezeSeconds, int cracklesEach) {
        Examination e = examination(suggestion, wheezeSeconds, cracklesEach);
        return new Examination(
                e.origin(),
                e.durationSeconds(),
                e.source(),
                suggestion,
                e.probabilities(),
                e.quality(),
                e.breathing(),
                e.evidence(),
                List.of(lungwort.diary.Examples.UNLIKE),
                e.model());
    }

    static Examination examination(
            Suggestion suggestion, Breathing breathing, List<Evidence> evidence, boolean usable) {
        return new Examination(
                "take",
                12,
                SourceFormat.memory(RATE_HZ),
                suggestion,
                new Examination.Probabilities(0.5, 0.25, 0.1),
                new Quality(usable, List.of()),
                breathing,
                evidence,
                List.of(),
                "test");
    }

    /** A take with given values and no spectrum. */
    static TakeMeasures take(String name, Map<Measure, Double> values) {
        return take(name, values, Suggestion.NONE_HEARD, true, new SourceFormat("WAV", "PCM", RATE_HZ, 16, 1));
    }

    static TakeMeasures take(
            String name, Map<Measure, Double> values, Suggestion suggestion, boolean usable, SourceFormat source) {
        return new TakeMeasures(
                name,
                values,
                new ThirdOctaves(List.of(), List.of()),
                suggestion,
                usable,
                source,
                source.sampleRateHz() / 2.0);
    }

    /** Every measure at one value. */
    static Map<Measure, Double> all(double value) {
        Map<Measure, Double> values = new EnumMap<>(Measure.class);
        for (Measure measure : Measure.values()) {
            values.put(measure, value);
        }
        return values;
    }

    /** Every measure limited to one difference, same for both relations. */
    static Repeatability repeatability(double difference) {
        Map<Measure, Repeatability.Limit> limits = new EnumMap<>(Measure.class);
        for (Measure measure : Measure.values()) {
            limits.put(measure, new Repeatability.Limit(difference, difference / 2.77, 100, 50));
        }
        return new Repeatability("test", limits, limits);
    }
}
