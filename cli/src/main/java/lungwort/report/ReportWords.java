package lungwort.report;

import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import lungwort.breath.BreathPhase;
import lungwort.examine.Evidence;
import lungwort.examine.Examination;
import lungwort.examine.Suggestion;
import lungwort.guidance.Citation;
import lungwort.guidance.Missing;
import lungwort.guidance.NextStep;
import lungwort.guidance.TakeReason;
import lungwort.guidance.VitalLimit;
import lungwort.picture.Words;
import lungwort.sound.ContinuousSound;
import lungwort.sound.SoundKind;
import org.jspecify.annotations.Nullable;

/** Words and numbers that the formats of a report share. */
final class ReportWords {
    /** What the tool is and is not; said in every report. */
    static final List<String> WHAT_IT_IS = List.of(
            "Lungwort is an open program that measures extra sounds in recordings of a chest and suggests what they may be. It is not a diagnosis and not a medical device; nobody has"
                    + " checked these suggestions.",
            "It does not hear everything. A suggestion of none, or a recording that cannot be judged, rules nothing out: a chest with little breath may be a silent one.",
            "The recordings were made at home, by someone who may have no training, with whatever device they have. Place, pressure, noise and device change what is heard.",
            "The next step comes from published rules named beside each reason. Marks: P seen in the source itself, S second-hand, M from memory, C common practice, clinician: set for"
                    + " this person.");

    private static final DateTimeFormatter TIME = DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm xxx");

    private static final DateTimeFormatter CLOCK = DateTimeFormatter.ofPattern("HH:mm");

    private static final DateTimeFormatter OTHER_CLOCK = DateTimeFormatter.ofPattern("HH:mm xxx");

    /** How the numbers of several mornings can be held against one another. */
    static final String WEIGHING =
            "How to weigh (common practice): on the same scale, in the morning, after passing water, before breakfast, in the same clothes.";

    private ReportWords() {}

    static String time(OffsetDateTime time) {
        return TIME.format(time);
    }

    /** Time of day alone, where the day stands nearby; with its offset only where that is another than beside it. */
    static String clock(OffsetDateTime time, ZoneOffset beside) {
        return (time.getOffset().equals(beside) ? CLOCK : OTHER_CLOCK).format(time);
    }

    static String reason(TakeReason reason) {
        return switch (reason) {
            case FIRST -> "first take";
            case MOVED -> "moved a finger's width";
            case AFTER_DEEP_BREATHS -> "after deep breaths";
            case AFTER_COUGH -> "after a cough";
        };
    }

    static String percent(double share) {
        return "%.0f %%".formatted(100 * share);
    }

    /** A limit without the name of its vital sign, for where that stands beside it: "92 % or less". */
    static String unnamed(VitalLimit limit) {
        String name = limit.vital().words() + " ";
        return limit.words().startsWith(name) ? limit.words().substring(name.length()) : limit.words();
    }

    static String sources(List<Citation> citations) {
        return citations.stream().map(Citation::toString).collect(Collectors.joining("; "));
    }

    /** What was not given to a step that misses something. */
    static String notKnown(NextStep step) {
        return "Not known, and not taken as normal: "
                + step.missing().stream().map(Missing::text).collect(Collectors.joining(" "));
    }

    static String capital(String words) {
        return words.isEmpty() ? words : Character.toUpperCase(words.charAt(0)) + words.substring(1);
    }

    static int count(Examination examination, SoundKind kind) {
        return (int) examination.evidence().stream()
                .filter(e -> e.sound().kind() == kind)
                .count();
    }

    /** Where the model hears extra sounds best; empty where it tells of none. */
    static Optional<String> listenThere(Examination e) {
        return Optional.of(Words.heardAt(e))
                .filter(words -> !words.isEmpty())
                .map(words -> "Listen there first: " + words + ".");
    }

    /** Where no sound is evidence: others may have been measured that do not count. */
    static final String NONE = "none that counts";

    /** Beside another sound that is suggested, in a recording in which the model can miss most. */
    static final String CAN_BE_MISSED = "not told: unlike what it learnt from, so they can be missed";

    /** Where no sound of one sort is evidence. */
    static String none(Examination examination, boolean continuous) {
        return examination.unlikeLearnt() && !examination.suggestion().names(continuous) ? CAN_BE_MISSED : NONE;
    }

    /** Kinds with their numbers: "2 wheezes, 1 rhonchus"; {@link #none} where there is none. */
    static String counts(Examination examination, boolean continuous) {
        String words = java.util.Arrays.stream(SoundKind.values())
                .filter(k -> k.continuous() == continuous && count(examination, k) > 0)
                .map(k -> Words.count(count(examination, k), k))
                .collect(Collectors.joining(", "));
        return words.isEmpty() ? none(examination, continuous) : words;
    }

    /** Where in the breath: "in 1, out 3 (late 2)"; empty where nothing was measured. */
    static String phases(Examination examination, boolean continuous) {
        List<Evidence> evidence = examination.evidence().stream()
                .filter(e -> e.sound().kind().continuous() == continuous)
                .toList();
        return java.util.stream.Stream.of(
                        BreathPhase.INSPIRATION, BreathPhase.EXPIRATION, BreathPhase.PAUSE, BreathPhase.UNKNOWN)
                .map(phase -> phase(evidence, phase))
                .filter(s -> !s.isEmpty())
                .collect(Collectors.joining(", "));
    }

    private static String phase(List<Evidence> evidence, BreathPhase phase) {
        List<Evidence> in = evidence.stream().filter(e -> e.phase() == phase).toList();
        if (in.isEmpty()) {
            return "";
        }
        long late = in.stream().filter(e -> e.position() >= 2 / 3.0).count();
        long early = in.stream().filter(e -> e.position() < 1 / 3.0).count();
        String name = phase == BreathPhase.UNKNOWN ? "phase not known" : Words.phase(phase);
        String thirds = early == 0 && late == 0 ? "" : " (early %d, late %d)".formatted(early, late);
        return name + " " + in.size() + thirds;
    }

    /** Dominant frequencies of its continuous sounds: "410 Hz" or "380 to 420 Hz"; empty where there is none. */
    static String frequencies(Examination examination) {
        double[] hz = examination.evidence().stream()
                .map(Evidence::sound)
                .filter(s -> s instanceof ContinuousSound)
                .mapToDouble(s -> ((ContinuousSound) s).dominantHz())
                .sorted()
                .toArray();
        if (hz.length == 0) {
            return "";
        }
        long low = Math.round(hz[0]);
        long high = Math.round(hz[hz.length - 1]);
        return low == high ? low + " Hz" : "%d to %d Hz".formatted(low, high);
    }

    /** The suggestion; of a take that is not examined, that. */
    static String suggestion(@Nullable Examination examination) {
        return examination == null ? "not examined yet" : Words.headline(examination);
    }

    /** Whether it could be judged, what stood in the way, and what was met in reading the file. */
    static String quality(Examination examination) {
        String judged = judged(examination);
        List<String> remarks = examination.source().remarks();
        return remarks.isEmpty() ? judged : judged.replaceFirst("\\.?$", ". ") + String.join(" ", remarks);
    }

    private static String judged(Examination examination) {
        String findings = examination.quality().findings().stream()
                .map(f -> f.issue().reason() + " (" + f.detail() + ")")
                .collect(Collectors.joining(" "));
        if (examination.quality().usable() && examination.suggestion() != Suggestion.CANNOT_TELL) {
            return findings.isEmpty() ? "could be judged" : "judged with care: " + findings;
        }
        String why = examination.quality().usable() ? "could be judged, and cannot be told. " : "cannot be judged. ";
        return (why + findings).strip();
    }

    /** The rate heard, with its interval; none across a stretch without a breath, which would make it too slow and hide that it stopped. */
    static String rate(Examination examination) {
        if (!examination.pauses().isEmpty()) {
            return "rate not told";
        }
        var rate = examination.breathing().rate();
        return rate == null
                ? "rate not measurable"
                : "%.0f/min heard (%.0f to %.0f)".formatted(rate.perMinute(), rate.low(), rate.high());
    }
}
