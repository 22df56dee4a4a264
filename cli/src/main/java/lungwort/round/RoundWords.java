package lungwort.round;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import lungwort.compare.Clearing;
import lungwort.diary.Measures;
import lungwort.diary.Take;
import lungwort.examine.Examination;
import lungwort.examine.Suggestion;
import lungwort.guidance.TakeReason;
import lungwort.picture.Words;
import org.jspecify.annotations.Nullable;

/** What a round says, in plain words. None of it reassures. */
public final class RoundWords {
    /** What the person who listened said of a stretch without a breath: a danger sign that no question asks for. */
    public static final String BREATHING_STOPPED = "the breathing stopped by itself while a recording was made.";

    private RoundWords() {}

    /** A suggestion as a phrase: "suggests a continuous extra sound (wheeze or rhonchus)". */
    public static String suggestion(Suggestion suggestion) {
        return switch (suggestion) {
            case CONTINUOUS -> "suggests a continuous extra sound (wheeze or rhonchus)";
            case DISCONTINUOUS -> "suggests crackles";
            case BOTH -> "suggests a continuous extra sound and crackles";
            case NONE_HEARD -> "no extra sound heard, which is not the same as well";
            case NONE_STANDS_OUT ->
                "no extra sound stands out, which says little: it sounds unlike what Lungwort learnt from";
            case CANNOT_TELL -> "cannot be judged";
        };
    }

    /** The same of an examination: one that cannot tell says whether the recording or the sound is to blame. */
    public static String suggestion(Examination examination) {
        if (examination.noneInHardlyABreath()) {
            return Words.HARDLY_A_BREATH;
        }
        return examination.suggestion() == Suggestion.CANNOT_TELL
                        && examination.quality().usable()
                ? "cannot tell whether an extra sound is there"
                : suggestion(examination.suggestion());
    }

    /** When a take was made: "after a cough". */
    public static String when(TakeReason reason) {
        return switch (reason) {
            case FIRST -> "on listening again";
            case MOVED -> "a finger's width away";
            case AFTER_DEEP_BREATHS -> "after deep breaths";
            case AFTER_COUGH -> "after a cough";
        };
    }

    /** What earlier takes at a site suggested: "Earlier first takes here, 2026-03-02 to 2026-03-05, of days that asked for no clinician: 1 with crackles suggested, 3 with no extra sound heard." */
    public static String earlier(UsualAtSite usual) {
        Map<Suggestion, Integer> counts = new EnumMap<>(Suggestion.class);
        for (Take take : usual.earlier()) {
            take.examination().ifPresent(e -> counts.merge(e.suggestion(), 1, Integer::sum));
        }
        if (counts.isEmpty()) {
            return "There is no earlier first take here that could be judged.";
        }
        String words = counts.entrySet().stream()
                .map(e -> e.getValue() + " " + brief(e.getKey()))
                .collect(Collectors.joining(", "));
        return "Earlier first takes here, %s to %s, %s: %s."
                .formatted(
                        usual.first(),
                        usual.last(),
                        usual.ofWellDays()
                                ? "of days that asked for no clinician"
                                : "also of days that asked for a clinician",
                        words);
    }

    private static String brief(Suggestion suggestion) {
        return switch (suggestion) {
            case CONTINUOUS -> "with a continuous extra sound suggested";
            case DISCONTINUOUS -> "with crackles suggested";
            case BOTH -> "with both kinds suggested";
            case NONE_HEARD -> "with no extra sound heard";
            case NONE_STANDS_OUT -> "in which nothing stood out";
            case CANNOT_TELL -> "that told nothing";
        };
    }

    /** The numbers of an examination that say something, in one line: "wheeze share 12 %, 0.4 crackles a breath, 400 Hz"; empty where none does. */
    public static String numbers(Examination e) {
        return numbers(Measures.of(e), Told.of(e));
    }

    /** The same beside those of another take: an empty place would look as if it were forgotten. */
    public static String numbersBeside(Measures m, Told told) {
        String words = numbers(m, told);
        if (words.isEmpty()) {
            return "not told";
        }
        return told.continuous() && told.crackles()
                ? words
                : words + (told.crackles() ? ", wheeze share not told" : ", crackles not told");
    }

    private static String numbers(Measures m, Told told) {
        List<String> parts = new ArrayList<>();
        if (told.continuous()) {
            parts.add(share(m));
        }
        if (told.crackles()) {
            parts.add(crackles(m.cracklesPerBreath(), m.crackles()));
        }
        if (told.continuous() && m.dominantHz() != null) {
            parts.add("%.0f Hz".formatted(m.dominantHz()));
        }
        return String.join(", ", parts);
    }

    private static String share(Measures m) {
        return "wheeze share %.0f %%".formatted(100 * m.wheezeShare());
    }

    private static String crackles(@Nullable Double perBreath, int all) {
        return perBreath == null
                ? "%d crackles (breaths not counted)".formatted(all)
                : "%.1f crackles a breath".formatted(perBreath);
    }

    static String beforeAfter(TakeReason after, List<Clearing> clearings) {
        String words = clearings.stream()
                .map(after == TakeReason.MOVED ? Clearing::wordsBeside : Clearing::words)
                .collect(Collectors.joining(" "));
        return "%s: %s".formatted(capital(when(after)), words);
    }

    static String sides(String height, String left, String right) {
        return "%s: left %s; right %s. %s".formatted(capital(height), left, right, Noise.ofSides());
    }

    private static String capital(String words) {
        return Character.toUpperCase(words.charAt(0)) + words.substring(1);
    }
}
