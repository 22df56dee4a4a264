package lungwort.picture;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import lungwort.breath.BreathPhase;
import lungwort.classify.HeardEvent;
import lungwort.examine.Examination;
import lungwort.examine.Suggestion;
import lungwort.sound.SoundKind;

/** The words under and over pictures and prints: one wording for the command line, the page and the report. */
public final class Words {
    /** Of an examination that names no extra sound in hardly a whole breath. */
    public static final String HARDLY_A_BREATH =
            "no extra sound found, but hardly a whole breath either, so it says next to nothing";

    private Words() {}

    /** The suggestion as a sentence; never reassuring. */
    public static String headline(Examination examination) {
        if (examination.noneInHardlyABreath()) {
            return HARDLY_A_BREATH;
        }
        return switch (examination.suggestion()) {
            case CONTINUOUS -> "suggests a continuous extra sound (wheeze or rhonchus)";
            case DISCONTINUOUS -> "suggests crackles";
            case BOTH -> "suggests both a continuous extra sound and crackles";
            case NONE_HEARD -> "no extra sound found here, which does not mean that all is well";
            case NONE_STANDS_OUT -> "no extra sound stands out; this is unlike what Lungwort learnt from";
            case CANNOT_TELL -> "cannot tell";
        };
    }

    /** The probabilities in one line. */
    public static String probabilities(Examination examination) {
        if (examination.suggestion() == Suggestion.NONE_STANDS_OUT) {
            return "the learnt model gives no probability: in recordings unlike what it learnt from it can miss most extra sounds";
        }
        if (examination.suggestion() == Suggestion.CANNOT_TELL) {
            return "the learnt model gives no probability where it cannot be told";
        }
        return "the learnt model alone: continuous sound %s, crackles %s (it knows one kind of stethoscope)"
                .formatted(probability(examination, true), probability(examination, false));
    }

    /** A probability of the model as a whole number of percent; "not told" where it says nothing. */
    public static String probability(Examination examination, boolean continuous) {
        double probability = continuous
                ? examination.probabilities().continuous()
                : examination.probabilities().discontinuous();
        return examination.tellsProbability(continuous) ? "%.0f %%".formatted(100 * probability) : "not told";
    }

    /** Name of a kind of sound. */
    public static String kind(SoundKind kind) {
        return switch (kind) {
            case WHEEZE -> "wheeze";
            case RHONCHUS -> "rhonchus";
            case FINE_CRACKLE -> "fine crackle";
            case COARSE_CRACKLE -> "coarse crackle";
        };
    }

    /** A phase in plain words. */
    public static String phase(BreathPhase phase) {
        return switch (phase) {
            case INSPIRATION -> "in";
            case EXPIRATION -> "out";
            case PAUSE -> "pause";
            case UNKNOWN -> "?";
        };
    }

    /** Where the model hears extra sounds best, kind by kind, in the order of time: "crackles at 1.2 to 2.0 s and 5.0 to 5.9 s"; empty where it tells of none. */
    public static String heardAt(Examination examination) {
        return Stream.of(true, false)
                .map(continuous -> heardAt(examination.events(), continuous))
                .filter(words -> !words.isEmpty())
                .collect(Collectors.joining("; "));
    }

    private static String heardAt(List<HeardEvent> events, boolean continuous) {
        List<String> spans = events.stream()
                .filter(e -> e.continuous() == continuous)
                .map(e -> "%.1f to %.1f s".formatted(e.startSeconds(), e.endSeconds()))
                .toList();
        if (spans.isEmpty()) {
            return "";
        }
        return (continuous ? "continuous sound at " : "crackles at ") + list(spans);
    }

    /** One or more, as in a sentence: "a", "a and b", "a, b and c". */
    public static String list(List<String> words) {
        int last = words.size() - 1;
        return last == 0 ? words.get(0) : String.join(", ", words.subList(0, last)) + " and " + words.get(last);
    }

    static String letter(SoundKind kind) {
        return kind == SoundKind.RHONCHUS ? "R" : "W";
    }

    /** How many sounds of each kind were measured and count, of those kinds whose number says something. */
    public static String counts(Examination examination) {
        List<String> counts = new ArrayList<>();
        for (SoundKind kind : SoundKind.values()) {
            if (!examination.tellsNumber(kind.continuous())) {
                continue;
            }
            long count = examination.evidence().stream()
                    .filter(e -> e.sound().kind() == kind)
                    .count();
            counts.add(count(count, kind));
        }
        return counts.isEmpty() ? "Measured: no number can be told here" : "Measured: " + String.join(", ", counts);
    }

    /** A whole number without a point, any other with one digit behind it. */
    public static String number(double value) {
        return value == Math.rint(value) ? Long.toString((long) value) : String.format(Locale.ROOT, "%.1f", value);
    }

    /** A number of sounds of a kind: "1 wheeze", "2 rhonchi". */
    public static String count(long count, SoundKind kind) {
        return count + " " + (count == 1 ? kind(kind) : kinds(kind));
    }

    private static String kinds(SoundKind kind) {
        return kind == SoundKind.RHONCHUS ? "rhonchi" : kind(kind) + "s";
    }
}
