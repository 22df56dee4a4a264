package lungwort.examine;

import java.util.List;
import lungwort.breath.Breath;
import lungwort.breath.Breathing;
import lungwort.sound.ContinuousSound;
import lungwort.sound.MeasuredSound;

/**
 * How much extra sound lies in a breath, over all whole breaths: the trade's summary of an examination. For wheeze it is CORSA's proportion of the cycle that wheeze occupies (Sovijärvi et al., Eur
 * Respir Rev 2000, second-hand). {@link PhaseSummary} tells the same phase by phase.
 *
 * @param breaths whole breaths, at least one
 * @param continuousShare share of their time that continuous sounds fill, in [0, 1]; where two sound together it counts once
 * @param cracklesPerBreath crackles whose middle lies in them, over their number
 * @param monophonic continuous sounds in the recording that are one tone at a time
 * @param polyphonic those that are several tones at once
 */
public record BreathSummary(
        int breaths, double continuousShare, double cracklesPerBreath, int monophonic, int polyphonic) {
    /** Nothing where no whole breath was found: one summary, or none. */
    public static List<BreathSummary> of(Examination examination) {
        return of(examination.breathing(), examination.evidence());
    }

    static List<BreathSummary> of(Breathing breathing, List<Evidence> evidence) {
        List<Breath> whole = breathing.whole();
        if (whole.isEmpty()) {
            return List.of();
        }
        List<MeasuredSound> sounds = evidence.stream().map(Evidence::sound).toList();
        List<ContinuousSound> tones = sounds.stream()
                .filter(ContinuousSound.class::isInstance)
                .map(ContinuousSound.class::cast)
                .toList();
        double seconds = 0;
        double filled = 0;
        long crackles = 0;
        for (Breath breath : whole) {
            seconds += breath.endSeconds() - breath.startSeconds();
            filled += Cover.seconds(tones, breath.startSeconds(), breath.endSeconds());
            crackles += sounds.stream()
                    .filter(sound -> !sound.kind().continuous() && inside(sound, breath))
                    .count();
        }
        int polyphonic =
                (int) tones.stream().filter(ContinuousSound::polyphonic).count();
        return List.of(new BreathSummary(
                whole.size(),
                filled / seconds,
                (double) crackles / whole.size(),
                tones.size() - polyphonic,
                polyphonic));
    }

    private static boolean inside(MeasuredSound sound, Breath breath) {
        double middle = (sound.startSeconds() + sound.endSeconds()) / 2;
        return middle >= breath.startSeconds() && middle < breath.endSeconds();
    }
}
