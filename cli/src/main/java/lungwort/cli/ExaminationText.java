package lungwort.cli;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.List;
import lungwort.breath.BreathPhase;
import lungwort.breath.Breathing;
import lungwort.examine.BreathSummary;
import lungwort.examine.BreathingPause;
import lungwort.examine.Evidence;
import lungwort.examine.Examination;
import lungwort.examine.PhaseSummary;
import lungwort.picture.Words;
import lungwort.quality.Quality;
import lungwort.sound.ContinuousSound;
import lungwort.sound.Crackle;

/** Prints examinations for people. */
final class ExaminationText {
    /** Crackles come by the dozen; the first few tell where to listen, the counts tell the rest. */
    private static final int MAX_LINES = 12;

    private ExaminationText() {}

    static void print(Examination examination, PrintWriter out) {
        out.printf("%s  (%.1f s)%n", examination.origin(), examination.durationSeconds());
        out.printf("  %s%n", Words.headline(examination));
        boolean judged = examination.quality().usable();
        if (judged) {
            out.printf("  %s%n", Words.probabilities(examination));
        }
        for (String remark : examination.source().remarks()) {
            out.printf("  note: %s%n", remark);
        }
        quality(examination.quality(), out);
        for (Quality.Event event : examination.quality().events()) {
            out.printf("  heard: a cough from %.1f to %.1f s%n", event.startSeconds(), event.endSeconds());
        }
        for (BreathingPause pause : examination.pauses()) {
            out.printf("  PAUSE: %s%n", pause.words());
            out.printf("         %s%n", BreathingPause.QUESTION);
        }
        // What a refused recording resembles says nothing of the chest.
        for (String reason : judged ? examination.reasons() : List.<String>of()) {
            out.printf("  why: %s%n", reason);
        }
        String heardAt = Words.heardAt(examination);
        if (!heardAt.isEmpty()) {
            out.printf("  listen there first (others can be missed): %s%n", heardAt);
        }
        if (examination.suggestion().continuous()) {
            out.println(
                    "  check: voices, cries, and a rattling or blocked throat or nose give such sounds, too, and are heard all over the chest; if there was one, record again without it; such a noise, or a grunt, with every breath is a danger sign");
        }
        out.printf("  %s%n", breathing(examination));
        if (judged) {
            sounds(examination, out);
        }
        out.println();
    }

    /** What is measured in a refused recording says nothing of the chest, so this is of others alone. A zero is left out: others may have been measured that do not count. */
    private static void sounds(Examination examination, PrintWriter out) {
        for (BreathSummary summary : BreathSummary.of(examination)) {
            List<String> parts = new ArrayList<>();
            if (summary.continuousShare() > 0) {
                parts.add("continuous sounds fill %.0f %% (tones: %d one at a time, %d several at once)"
                        .formatted(100 * summary.continuousShare(), summary.monophonic(), summary.polyphonic()));
            }
            if (summary.cracklesPerBreath() > 0) {
                parts.add("%.1f crackles".formatted(summary.cracklesPerBreath()));
            }
            amounts("in a breath (of %d)".formatted(summary.breaths()), parts, out);
        }
        for (PhaseSummary summary : PhaseSummary.of(examination)) {
            List<String> parts = new ArrayList<>();
            if (summary.continuousShare() > 0) {
                parts.add("continuous sounds fill %.0f %%".formatted(100 * summary.continuousShare()));
            }
            if (summary.crackles() > 0) {
                parts.add(summary.crackles() + (summary.crackles() == 1 ? " crackle" : " crackles"));
            }
            amounts(phase(summary.phase()), parts, out);
        }
        evidence(examination.evidence(), out);
    }

    private static void amounts(String where, List<String> parts, PrintWriter out) {
        if (!parts.isEmpty()) {
            out.printf("  %s: %s%n", where, String.join(", ", parts));
        }
    }

    private static void quality(Quality quality, PrintWriter out) {
        if (!quality.usable()) {
            out.println("  this recording cannot be judged:");
        }
        for (Quality.Finding finding : quality.findings()) {
            out.printf("  quality: %s (%s)%n", finding.issue().reason(), finding.detail());
            out.printf("           %s%n", finding.issue().remedy());
        }
    }

    private static String breathing(Examination examination) {
        Breathing breathing = examination.breathing();
        Breathing.Rate rate = breathing.rate();
        if (rate == null) {
            return "breaths: could not be counted from the sound; count them by watching the chest for a whole minute";
        }
        if (!examination.pauses().isEmpty()) {
            return "breaths: no rate is told across a stretch without a breath; count them by watching the chest for a whole minute";
        }
        return "breaths: %d found, about %.0f a minute (%.0f to %.0f); count by watching for a whole minute to be sure"
                .formatted(breathing.breaths().size(), rate.perMinute(), rate.low(), rate.high());
    }

    private static void evidence(List<Evidence> evidence, PrintWriter out) {
        int lines = 0;
        for (Evidence item : evidence) {
            if (lines++ == MAX_LINES) {
                out.printf("    and %d more (--json lists all)%n", evidence.size() - MAX_LINES);
                return;
            }
            out.printf("    %s%n", line(item));
        }
    }

    private static String line(Evidence item) {
        String where = "%6.2f to %5.2f s  %-14s %s"
                .formatted(
                        item.sound().startSeconds(),
                        item.sound().endSeconds(),
                        Words.kind(item.sound().kind()),
                        place(item));
        if (item.sound() instanceof ContinuousSound sound) {
            return "%s  %.0f Hz%s, %.0f dB over its surroundings"
                    .formatted(
                            where,
                            sound.dominantHz(),
                            sound.polyphonic() ? ", several pitches" : "",
                            sound.prominenceDb());
        }
        Crackle crackle = (Crackle) item.sound();
        return "%s  largest swing %.1f ms wide, two cycles %.1f ms, %.0f dB over the noise"
                .formatted(
                        where,
                        crackle.largestDeflectionWidthMs(),
                        crackle.twoCycleDurationMs(),
                        crackle.prominenceDb());
    }

    /** Phase and third of it, for example {@code breathing out, late}. */
    private static String place(Evidence item) {
        if (item.phase() == BreathPhase.UNKNOWN) {
            return "%-22s".formatted(phase(item.phase()));
        }
        String third = item.position() < 1 / 3.0 ? "early" : item.position() < 2 / 3.0 ? "middle" : "late";
        return "%-22s".formatted(phase(item.phase()) + ", " + third);
    }

    private static String phase(BreathPhase phase) {
        return switch (phase) {
            case INSPIRATION -> "breathing in";
            case EXPIRATION -> "breathing out";
            case PAUSE -> "in a pause";
            case UNKNOWN -> "phase not known";
        };
    }
}
