package lungwort.compare;

import java.util.ArrayList;
import java.util.List;
import lungwort.diary.Measures;
import lungwort.examine.Examination;
import lungwort.examine.Suggestion;
import lungwort.quality.QualityIssue;
import org.jspecify.annotations.Nullable;

/**
 * Whether one kind of extra sound cleared between two takes at one site, with the numbers before and after.
 *
 * @param continuous true for wheeze and rhonchus, false for crackles
 * @param state what became of it
 * @param before share of the breathing filled (in %) for a continuous sound, crackles in each breath for crackles; null where it says nothing: a zero of a take that suggests such a
 *     sound would read as if it were going
 * @param after the same in the later take
 * @param words in plain words, with the numbers
 */
public record Clearing(
        boolean continuous,
        State state,
        @Nullable Double before,
        @Nullable Double after,
        String words) {
    /** What became of an extra sound. */
    public enum State {
        /** Suggested before, not suggested after. It does not take back that it was heard. */
        CLEARED,
        /** Suggested before and not after, but half or more of what was measured is still there. */
        UNSURE,
        /** Still suggested, and less of it than two takes of the same thing differ by. */
        LESS,
        /** Still suggested. */
        STAYS,
        /** Still suggested, and more of it. */
        MORE,
        /** Suggested after, not before. */
        NEW,
        /** Suggested before; it does not stand out in the later take, and that sounds unlike nearly all that the model learnt from. */
        NOT_TOLD,
        /** The later take cannot be judged, or holds hardly a whole breath. */
        CANNOT_TELL
    }

    /**
     * One entry for each kind that either take suggests; empty where neither suggests any.
     *
     * @param before examination of the earlier take
     * @param after examination of the later take
     */
    public static List<Clearing> of(Examination before, Examination after, Repeatability repeatability) {
        List<Clearing> clearings = new ArrayList<>();
        for (boolean continuous : new boolean[] {true, false}) {
            boolean was = before.suggestion().names(continuous);
            boolean is = after.suggestion().names(continuous);
            if (was || is) {
                Measure measure = continuous ? Measure.WHEEZE_SHARE : Measure.CRACKLES_PER_BREATH;
                Double x = amount(before, continuous);
                Double y = amount(after, continuous);
                State state = state(was, is, x, y, repeatability.limit(measure, Relation.BEFORE_AFTER));
                state = toldBy(after, state);
                clearings.add(new Clearing(continuous, state, x, y, words(continuous, state, x, y)));
            }
        }
        return List.copyOf(clearings);
    }

    /** The same of a later take beside the place: what is not heard there has not cleared. */
    public String wordsBeside() {
        return state == State.CLEARED
                ? "%s not suggested there. That does not mean that it cleared, and that it was heard stays written down. %s"
                        .formatted(
                                continuous ? "The continuous sound is" : "The crackles are",
                                numbers(continuous, before, after))
                : words;
    }

    /** Only none found in whole breaths of a familiar recording clears: a take that tells less says less, also where it names the other kind. */
    private static State toldBy(Examination after, State state) {
        if (after.noneInHardlyABreath() || after.suggestion() == Suggestion.CANNOT_TELL) {
            return State.CANNOT_TELL;
        }
        if (state != State.CLEARED) {
            return state;
        }
        if (after.unlikeLearnt()) {
            return State.NOT_TOLD;
        }
        return after.quality().has(QualityIssue.TOO_FEW_BREATHS) ? State.CANNOT_TELL : state;
    }

    private static @Nullable Double amount(Examination examination, boolean continuous) {
        if (!examination.tellsNumber(continuous)) {
            return null;
        }
        Measures measures = Measures.of(examination);
        return continuous ? (Double) (100 * measures.wheezeShare()) : measures.cracklesPerBreath();
    }

    private static State state(
            boolean was, boolean is, @Nullable Double x, @Nullable Double y, Repeatability.@Nullable Limit limit) {
        if (!is) {
            return x != null && y != null && x > 0 && y >= x / 2 ? State.UNSURE : State.CLEARED;
        }
        if (!was) {
            return State.NEW;
        }
        if (x == null || y == null || limit == null || Math.abs(y - x) <= limit.difference()) {
            return State.STAYS;
        }
        return y < x ? State.LESS : State.MORE;
    }

    private static String words(boolean continuous, State state, @Nullable Double before, @Nullable Double after) {
        String sound = continuous ? "The continuous sound" : "The crackles";
        String s = continuous ? "s" : "";
        String verdict = switch (state) {
            case CLEARED -> " cleared: no longer suggested. That it was heard stays written down.";
            case UNSURE ->
                (continuous ? " is" : " are")
                        + " no longer suggested, but half or more of what was measured is still there: record once more.";
            case LESS -> (continuous ? " is" : " are") + " less, but still suggested.";
            case STAYS -> " stay" + s + ".";
            case MORE -> (continuous ? " is" : " are") + " more than before.";
            case NEW -> (continuous ? " is" : " are") + " new: suggested now, and not before.";
            case NOT_TOLD ->
                (continuous ? " does" : " do")
                        + " not stand out in the later take, but that sounds unlike what Lungwort learnt from and does not show that %s cleared. That %s heard stays written down."
                                .formatted(continuous ? "it" : "they", continuous ? "it was" : "they were");
            case CANNOT_TELL -> ": nothing can be told from the later take, record it again.";
        };
        return sound + verdict + " " + numbers(continuous, before, after);
    }

    private static String numbers(boolean continuous, @Nullable Double before, @Nullable Double after) {
        return continuous
                ? "Share of the breathing it fills: %s before, %s after."
                        .formatted(number(before, " %"), number(after, " %"))
                : "Crackles in each breath: %s before, %s after.".formatted(number(before, ""), number(after, ""));
    }

    private static String number(@Nullable Double value, String unit) {
        return value == null ? "not known" : "%.1f".formatted(value) + unit;
    }
}
