package lungwort.diary;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import lungwort.breath.Breath;
import lungwort.breath.Breathing;
import lungwort.examine.Cover;
import lungwort.examine.Evidence;
import lungwort.examine.Examination;
import lungwort.sound.ContinuousSound;
import lungwort.sound.Crackle;
import org.jspecify.annotations.Nullable;

/**
 * The few numbers of an examination that are followed from take to take and from day to day. The diary keeps them beside the examination: another definition needs a schema
 * step that empties {@code measures_json}.
 *
 * @param wheezeShare share of the time that continuous extra sounds (wheeze or rhonchus) fill, in [0, 1]: of the breaths found, or of the whole recording where none was
 *     found. CORSA's proportion of the respiratory cycle occupied by wheeze (Sovijarvi et al., Eur Respir Rev 2000), over all breaths
 * @param cracklesPerBreath crackles within breaths, for each breath; null where no breath was found
 * @param crackles number of crackles in the whole recording
 * @param dominantHz median of the dominant frequencies of its continuous sounds, in Hz; null where there is none
 * @param ratePerMinute breathing rate heard, a minute; null where none could be measured, and across a stretch without a breath
 */
public record Measures(
        double wheezeShare,
        @Nullable Double cracklesPerBreath,
        int crackles,
        @Nullable Double dominantHz,
        @Nullable Double ratePerMinute) {

    /** Of an examination. */
    public static Measures of(Examination examination) {
        List<Breath> breaths = examination.breathing().breaths();
        List<ContinuousSound> sounds = new ArrayList<>();
        List<Double> frequencies = new ArrayList<>();
        int crackles = 0;
        int inBreaths = 0;
        for (Evidence evidence : examination.evidence()) {
            if (evidence.sound() instanceof ContinuousSound sound) {
                sounds.add(sound);
                frequencies.add(sound.dominantHz());
            } else if (evidence.sound() instanceof Crackle crackle) {
                crackles++;
                inBreaths += within(breaths, crackle.startSeconds()) ? 1 : 0;
            }
        }
        return new Measures(
                share(sounds, breaths, examination.durationSeconds()),
                breaths.isEmpty() ? null : (Double) ((double) inBreaths / breaths.size()),
                crackles,
                median(frequencies).isPresent() ? (Double) median(frequencies).getAsDouble() : null,
                examination.rateTold().map(Breathing.Rate::perMinute).orElse(null));
    }

    /** The middle value, or the mean of the two in the middle; empty without values. */
    public static OptionalDouble median(List<Double> values) {
        if (values.isEmpty()) {
            return OptionalDouble.empty();
        }
        List<Double> sorted = values.stream().sorted().toList();
        int half = sorted.size() / 2;
        return OptionalDouble.of(
                sorted.size() % 2 == 1 ? sorted.get(half) : (sorted.get(half - 1) + sorted.get(half)) / 2);
    }

    private record Span(double start, double end) {}

    private static boolean within(List<Breath> breaths, double seconds) {
        return breaths.stream().anyMatch(b -> seconds >= b.startSeconds() && seconds < b.endSeconds());
    }

    private static double share(List<ContinuousSound> sounds, List<Breath> breaths, double durationSeconds) {
        List<Span> windows = breaths.isEmpty()
                ? List.of(new Span(0, durationSeconds))
                : breaths.stream()
                        .map(b -> new Span(b.startSeconds(), b.endSeconds()))
                        .toList();
        double filled = 0;
        double whole = 0;
        for (Span window : windows) {
            filled += Cover.seconds(sounds, window.start(), window.end());
            whole += window.end() - window.start();
        }
        return whole > 0 ? Math.min(1, filled / whole) : 0;
    }
}
