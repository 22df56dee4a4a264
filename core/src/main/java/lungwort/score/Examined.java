package lungwort.score;

import java.util.Arrays;
import java.util.List;
import lungwort.audio.Recording;
import lungwort.breath.Breathing;
import lungwort.breath.PhaseSpan;
import lungwort.quality.Quality;
import lungwort.quality.QualityCheck;
import lungwort.quality.QualityMeasures;
import lungwort.sound.BreathAgreement;
import lungwort.sound.MeasuredSound;
import lungwort.sound.SoundSearch;

/**
 * What an examination measures in a recording beside the model's features.
 *
 * @param quality of the recording
 * @param sounds measured in it, in order of time
 * @param agreement of its breaths about where bursts stand
 * @param phases of its breaths, in order of time
 * @param durationSeconds its length
 * @param measures {@link QualityMeasures#relative} of it; empty where they were not measured
 */
record Examined(
        Quality quality,
        List<MeasuredSound> sounds,
        BreathAgreement agreement,
        List<PhaseSpan> phases,
        double durationSeconds,
        List<Double> measures) {
    Examined {
        measures = List.copyOf(measures);
    }

    static Examined of(Recording recording, SoundSearch search, Breathing breathing) {
        QualityMeasures measures = QualityCheck.measure(recording, breathing);
        return new Examined(
                QualityCheck.judge(measures),
                search.sounds(),
                BreathAgreement.of(search.bursts(), breathing),
                breathing.breaths().stream()
                        .flatMap(breath -> breath.phases().stream())
                        .toList(),
                recording.durationSeconds(),
                list(measures));
    }

    /** Of a recording that is only learnt from: its sounds; nothing stands against judging it. */
    static Examined learntFrom(SoundSearch search) {
        return new Examined(
                new Quality(true, List.of()), search.sounds(), BreathAgreement.NONE, List.of(), 0, List.of());
    }

    private static List<Double> list(QualityMeasures measures) {
        return Arrays.stream(measures.relative()).boxed().toList();
    }

    /** The measures as numbers; shape {@code [measures.size()]}. */
    double[] relative() {
        return measures.stream().mapToDouble(Double::doubleValue).toArray();
    }
}
