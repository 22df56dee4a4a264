package lungwort.examine;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import lungwort.breath.Breath;
import lungwort.breath.BreathPhase;
import lungwort.breath.Breathing;
import lungwort.breath.PhaseSpan;
import lungwort.sound.MeasuredSound;

/**
 * How much extra sound lies in one phase of the breath, over all breaths: the trade's summary of an examination. For wheeze it is CORSA's proportion of the cycle that
 * wheeze occupies (Sovijärvi et al., Eur Respir Rev 2000, second-hand), taken phase by phase.
 *
 * @param phase which phase
 * @param seconds length of all its spans together, in seconds
 * @param continuousShare share of it that continuous sounds fill, in [0, 1]; where two sound together it counts once
 * @param crackles crackles whose middle lies in it
 */
public record PhaseSummary(BreathPhase phase, double seconds, double continuousShare, int crackles) {
    /** One summary for each phase that was found, in the order of {@link BreathPhase}. */
    public static List<PhaseSummary> of(Examination examination) {
        return of(examination.breathing(), examination.evidence());
    }

    /** The same from breaths and the sounds placed in them. */
    static List<PhaseSummary> of(Breathing breathing, List<Evidence> evidence) {
        Map<BreathPhase, List<PhaseSpan>> spans = new EnumMap<>(BreathPhase.class);
        for (Breath breath : breathing.breaths()) {
            for (PhaseSpan span : breath.phases()) {
                spans.computeIfAbsent(span.phase(), p -> new ArrayList<>()).add(span);
            }
        }
        List<PhaseSummary> summaries = new ArrayList<>();
        spans.forEach((phase, ofPhase) -> summaries.add(of(phase, ofPhase, evidence)));
        return List.copyOf(summaries);
    }

    private static PhaseSummary of(BreathPhase phase, List<PhaseSpan> spans, List<Evidence> evidence) {
        List<MeasuredSound> tones = evidence.stream()
                .map(Evidence::sound)
                .filter(sound -> sound.kind().continuous())
                .toList();
        double seconds = 0;
        double filled = 0;
        for (PhaseSpan span : spans) {
            seconds += span.endSeconds() - span.startSeconds();
            filled += Cover.seconds(tones, span.startSeconds(), span.endSeconds());
        }
        int crackles = (int) evidence.stream()
                .filter(e -> !e.sound().kind().continuous() && e.phase() == phase)
                .count();
        return new PhaseSummary(phase, seconds, filled / seconds, crackles);
    }
}
