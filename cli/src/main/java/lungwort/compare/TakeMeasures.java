package lungwort.compare;

import java.util.Arrays;
import java.util.EnumMap;
import java.util.Map;
import lungwort.audio.Recording;
import lungwort.audio.SourceFormat;
import lungwort.breath.BreathPhase;
import lungwort.breath.Breathing;
import lungwort.breath.PhaseSpan;
import lungwort.diary.Measures;
import lungwort.examine.Examination;
import lungwort.examine.Suggestion;
import lungwort.signal.ChestViews;
import lungwort.signal.Spectrogram;
import lungwort.signal.Statistics;
import org.jspecify.annotations.Nullable;

/**
 * The numbers of one take that are compared.
 *
 * @param name of the recording, for people
 * @param values by measure; a measure that could not be taken has no entry
 * @param spectrum median spectrum
 * @param suggestion of the examination
 * @param usable false if the examination says that the recording cannot be judged; then its evidence is left out
 * @param source how the recording was stored
 * @param highestHz highest frequency that the recording can hold, in Hz
 */
public record TakeMeasures(
        String name,
        Map<Measure, Double> values,
        ThirdOctaves spectrum,
        Suggestion suggestion,
        boolean usable,
        SourceFormat source,
        double highestHz) {
    /** Level of digital silence, in dB re full scale. */
    static final double FLOOR_DB = -140;

    private static final double BREATH_LOW_HZ = 200;
    private static final double BREATH_HIGH_HZ = 800;

    public TakeMeasures {
        values = Measure.copy(values);
    }

    /** The value of a measure; null where it could not be taken. */
    public @Nullable Double value(Measure measure) {
        return values.get(measure);
    }

    /** Measures a recording; the examination must be of the same recording. Of its sounds only what says something ({@link Examination#tellsNumber}, {@link Examination#tellsProbability}). */
    public static TakeMeasures of(Recording recording, Examination examination) {
        TakeMeasures all = ofAll(recording, examination);
        Map<Measure, Double> values = new EnumMap<>(Measure.class);
        all.values.forEach((measure, value) -> {
            if (told(measure, examination)) {
                values.put(measure, value);
            }
        });
        return new TakeMeasures(all.name, values, all.spectrum, all.suggestion, all.usable, all.source, all.highestHz);
    }

    private static boolean told(Measure measure, Examination examination) {
        return switch (measure) {
            case WHEEZE_SHARE, DOMINANT_HZ -> examination.tellsNumber(true);
            case CRACKLES_PER_BREATH -> examination.tellsNumber(false);
            case CONTINUOUS_PROBABILITY -> examination.tellsProbability(true);
            case DISCONTINUOUS_PROBABILITY -> examination.tellsProbability(false);
            default -> true;
        };
    }

    /** The same with every number of a judged take: how far numbers differ by chance is measured on all of them. */
    public static TakeMeasures ofAll(Recording recording, Examination examination) {
        Spectrogram spectrogram = ChestViews.of(recording).longWindow();
        Map<Measure, Double> values = new EnumMap<>(Measure.class);
        levels(values, spectrogram, recording.sampleRateHz() / 2.0);
        examination.rateTold().ifPresent(rate -> values.put(Measure.RATE, rate.perMinute()));
        breaths(values, spectrogram, examination.breathing());
        evidence(values, examination);
        return new TakeMeasures(
                examination.origin(),
                values,
                ThirdOctaves.of(spectrogram),
                examination.suggestion(),
                judged(examination),
                recording.source(),
                Math.min(recording.sampleRateHz(), recording.source().sampleRateHz()) / 2.0);
    }

    private static void levels(Map<Measure, Double> values, Spectrogram s, double nyquistHz) {
        if (s.frames() == 0) {
            return;
        }
        Measure[] bands = {Measure.LEVEL_100_200, Measure.LEVEL_200_400, Measure.LEVEL_400_800, Measure.LEVEL_800_1600};
        double lowHz = 100;
        for (Measure band : bands) {
            if (2 * lowHz <= nyquistHz) {
                values.put(band, Statistics.median(levelDb(s, lowHz, 2 * lowHz)));
            }
            lowHz *= 2;
        }
        Double high = values.get(Measure.LEVEL_400_800);
        Double low = values.get(Measure.LEVEL_100_200);
        if (high != null && low != null) {
            values.put(Measure.TILT, high - low);
        }
        double[] breath = Statistics.percentiles(levelDb(s, BREATH_LOW_HZ, BREATH_HIGH_HZ), 10, 90);
        values.put(Measure.CONTRAST, breath[1] - breath[0]);
    }

    /** Level of a band over time, in dB re full scale, shape {@code [frames]}. */
    private static double[] levelDb(Spectrogram s, double lowHz, double highHz) {
        double[] level = new double[s.frames()];
        for (int frame = 0; frame < level.length; frame++) {
            level[frame] = Math.max(FLOOR_DB, 10 * Math.log10(s.bandPower(frame, lowHz, highHz) + 1e-30));
        }
        return level;
    }

    private static void breaths(Map<Measure, Double> values, Spectrogram s, Breathing breathing) {
        double in = seconds(breathing, BreathPhase.INSPIRATION);
        double whole = breathing.breaths().stream()
                .filter(b -> !b.phases().isEmpty())
                .mapToDouble(b -> b.endSeconds() - b.startSeconds())
                .sum();
        if (in > 0 && whole > 0) {
            values.put(Measure.INSPIRATION_SHARE, 100 * in / whole);
        }
        double[] level = levelDb(s, BREATH_LOW_HZ, BREATH_HIGH_HZ);
        double[] inspiration = during(level, s, breathing, BreathPhase.INSPIRATION);
        double[] expiration = during(level, s, breathing, BreathPhase.EXPIRATION);
        if (inspiration.length > 0 && expiration.length > 0) {
            values.put(Measure.EXPIRATION_LEVEL, Statistics.median(expiration) - Statistics.median(inspiration));
        }
    }

    private static double seconds(Breathing breathing, BreathPhase phase) {
        return breathing.breaths().stream()
                .flatMap(b -> b.phases().stream())
                .filter(p -> p.phase() == phase)
                .mapToDouble(p -> p.endSeconds() - p.startSeconds())
                .sum();
    }

    private static double[] during(double[] level, Spectrogram s, Breathing breathing, BreathPhase phase) {
        double[] found = new double[level.length];
        int n = 0;
        for (int frame = 0; frame < level.length; frame++) {
            PhaseSpan span = breathing.phaseAt(s.secondsOf(frame));
            if (span != null && span.phase() == phase) {
                found[n++] = level[frame];
            }
        }
        return Arrays.copyOf(found, n);
    }

    private static boolean judged(Examination examination) {
        return examination.quality().usable() && examination.suggestion() != Suggestion.CANNOT_TELL;
    }

    private static void evidence(Map<Measure, Double> values, Examination examination) {
        if (!judged(examination)) {
            return;
        }
        Measures measures = Measures.of(examination);
        values.put(Measure.WHEEZE_SHARE, 100 * measures.wheezeShare());
        put(values, Measure.DOMINANT_HZ, measures.dominantHz());
        put(values, Measure.CRACKLES_PER_BREATH, measures.cracklesPerBreath());
        if (examination.suggestion().tells()) {
            values.put(
                    Measure.CONTINUOUS_PROBABILITY,
                    100 * examination.probabilities().continuous());
            values.put(
                    Measure.DISCONTINUOUS_PROBABILITY,
                    100 * examination.probabilities().discontinuous());
        }
    }

    private static void put(Map<Measure, Double> values, Measure measure, @Nullable Double value) {
        if (value != null) {
            values.put(measure, value);
        }
    }
}
