package lungwort.report;

import java.util.List;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import lungwort.examine.Examination;
import lungwort.examine.Suggestion;
import lungwort.guidance.EmergencyNumber;
import lungwort.guidance.Guidance;
import lungwort.guidance.NextStep;
import lungwort.guidance.Outcome;

/** Half a page for the family, in plain words. None of it reassures. */
final class FamilyHtml {
    private static final int MAX_ACTIONS = 6;

    private FamilyHtml() {}

    static void write(Html html, ReportContent content) {
        ReportRound round = content.newest();
        NextStep step = round.step();
        html.start("section", "class", "family").tag("h2", "For the family, in plain words");
        html.start("p")
                .tag("strong", step.outcome().words() + ". ")
                .text(step.outcome().meaning())
                .end();
        List<String> actions = step.actions();
        if (!actions.isEmpty()) {
            html.start("ul");
            int shown = actions.size() <= MAX_ACTIONS ? actions.size() : MAX_ACTIONS - 1;
            actions.stream().limit(shown).forEach(a -> html.tag("li", a));
            if (shown < actions.size()) {
                html.tag(
                        "li",
                        "%d more things are asked for: look at the next step of this round in Lungwort, and do them too."
                                .formatted(actions.size() - shown));
            }
            html.end();
        }
        html.tag("p", heard(round));
        html.start("p").tag("strong", call(content.emergencyNumber(), step.outcome()));
        // Beside "call now" the questions would read as if the call waited for an answer.
        if (step.outcome() != Outcome.EMERGENCY_NOW) {
            html.text(" " + questions(round));
        }
        html.end();
        html.tag(
                "p",
                "You know this person best. If you are worried, get help, whatever this page says. Show it to the clinician: the recordings can be listened to, and the clinician's own"
                        + " examination and the care plan come before anything written here.");
        html.end();
    }

    private static String questions(ReportRound round) {
        return Guidance.dangerSigns(round.view().age(), round.view().person().conditions()).stream()
                .filter(s -> s.outcome() == Outcome.EMERGENCY_NOW)
                .map(s -> s.question(round.view().age()))
                .collect(Collectors.joining(" "));
    }

    private static String call(@org.jspecify.annotations.Nullable EmergencyNumber number, Outcome outcome) {
        String who = number == null ? "your emergency number" : number.digits();
        String when = outcome == Outcome.EMERGENCY_NOW ? "Call %s now." : "Call %s at once if any answer becomes yes.";
        return when.formatted(who);
    }

    private static String heard(ReportRound round) {
        List<String> extra = sites(round, e -> e.suggestion().namesSound());
        if (round.takes().isEmpty()) {
            return "Nothing was recorded in this round.";
        }
        // A place that is named for a sound is not called open too. A refused recording is made up for by one that
        // told; the doubt that a good one left is not.
        List<String> doubtful = sites(
                round,
                e -> e.suggestion() == Suggestion.CANNOT_TELL && e.quality().usable());
        List<String> told = sites(round, e -> e.suggestion() != Suggestion.CANNOT_TELL);
        List<String> open = sites(round, e -> e.suggestion() == Suggestion.CANNOT_TELL).stream()
                .filter(site -> !extra.contains(site) && (doubtful.contains(site) || !told.contains(site)))
                .toList();
        String unsure = open.isEmpty()
                ? ""
                : " It cannot tell whether there is one here: %s.".formatted(String.join("; ", open));
        if (extra.isEmpty()) {
            boolean found = !sites(round, e -> e.suggestion().namesNone()).isEmpty();
            String none =
                    " That does not mean that all is well: it misses sounds, and a very ill chest can be a quiet one.";
            String said = !found
                    ? "The program found no recording in which it could tell whether there is an extra sound."
                    : (unfamiliar(round)
                                    ? "No extra sound stood out in %s."
                                    : "The program found no extra sound in %s.")
                            .formatted(open.isEmpty() ? "these recordings" : "some of these recordings");
            return said + (found ? unsure : "") + unlike(round) + hasty(round) + none;
        }
        return "The program suggests extra sounds here: %s. It can be wrong both ways: it hears sounds that are not there, and misses some that are. Only a clinician can say what they mean."
                        .formatted(String.join("; ", extra))
                + unsure
                + unlike(round)
                + hasty(round);
    }

    private static boolean unfamiliar(ReportRound round) {
        return !sites(round, e -> e.suggestion() == Suggestion.NONE_STANDS_OUT).isEmpty();
    }

    /** A sound that comes with the breath had none to come with. */
    private static String hasty(ReportRound round) {
        List<String> hasty = sites(round, Examination::noneInHardlyABreath);
        return hasty.isEmpty()
                ? ""
                : " Hardly a whole breath was found in a recording here, so that it says next to nothing: %s."
                        .formatted(String.join("; ", hasty));
    }

    private static String unlike(ReportRound round) {
        return unfamiliar(round)
                ? " A recording here sounds unlike nearly all that the program learnt from, as through another kind of stethoscope or telephone: there it can miss most extra sounds, crackles above all."
                : "";
    }

    private static List<String> sites(ReportRound round, Predicate<Examination> which) {
        return round.takes().stream()
                .filter(t -> t.take().examination().map(which::test).orElse(false))
                .map(t -> t.take().site().words())
                .distinct()
                .toList();
    }
}
