package lungwort.cli;

import java.io.PrintWriter;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.stream.Collectors;
import lungwort.compare.Comparison;
import lungwort.diary.Note;
import lungwort.diary.Round;
import lungwort.diary.Settings.TemperatureUnit;
import lungwort.diary.Take;
import lungwort.diary.Trend;
import lungwort.examine.BreathingPause;
import lungwort.examine.Examination;
import lungwort.guidance.Guidance;
import lungwort.guidance.Missing;
import lungwort.guidance.NextStep;
import lungwort.guidance.Outcome;
import lungwort.guidance.Reason;
import lungwort.picture.Words;
import lungwort.round.AgainstUsual;
import lungwort.round.Asked;
import lungwort.round.BeforeAfter;
import lungwort.round.Compared;
import lungwort.round.Noise;
import lungwort.round.RoundView;
import lungwort.round.RoundWords;
import lungwort.round.SidePair;
import lungwort.round.SiteView;

/** Prints a round for people: what is urgent first, sounds after it, cautions always. */
final class RoundText {
    private static final DateTimeFormatter TIME = DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm xxx");
    private static final int ID_CHARACTERS = 8;

    private final PrintWriter out;
    private final TemperatureUnit unit;

    RoundText(PrintWriter out, TemperatureUnit unit) {
        this.out = out;
        this.unit = unit;
    }

    /** The first characters of an id, enough to name it on a command line. */
    static String shortId(Round round) {
        return round.id().toString().substring(0, ID_CHARACTERS);
    }

    /** A time for people: local where it was written down, with its offset from UTC, since clocks change and people travel. */
    static String time(java.time.OffsetDateTime time) {
        return TIME.format(time);
    }

    /** Everything. */
    void print(RoundView view) {
        heading(view);
        if (view.nextStep().outcome() == Outcome.EMERGENCY_NOW) {
            nextStep(view.nextStep());
            out.println();
        }
        vitals(view);
        view.sites().forEach(this::site);
        sides(view.sides());
        usual(view.usual());
        view.earlier().slowChanges().forEach(change -> out.printf("    OVER MONTHS: %s%n", change.words()));
        for (Note note : view.notes()) {
            out.printf("  note, %s: %s%n", time(note.writtenAt()), note.words());
        }
        out.println();
        if (view.nextStep().outcome() != Outcome.EMERGENCY_NOW) {
            nextStep(view.nextStep());
            if (view.round().open()) {
                answerWith(view);
                asked(view.asked());
            }
        }
        cautions(view.nextStep());
    }

    private void heading(RoundView view) {
        Round round = view.round();
        out.printf(
                "%s, %s: round %s, %s%s%n",
                view.person().nickname(),
                view.age().words(),
                shortId(round),
                time(round.startedAt()),
                round.open() ? " (open)" : "");
        for (String id : round.dangerSigns().yes()) {
            out.printf("  DANGER SIGN: %s Yes.%n", Guidance.dangerSign(id).question(view.age()));
        }
        boolean stopped = view.breathingStopped();
        if (stopped) {
            out.println("  DANGER SIGN: " + RoundWords.BREATHING_STOPPED);
        }
        if (!view.dangerSignsOpen().isEmpty()) {
            out.printf(
                    "  DANGER SIGNS NOT ANSWERED: %d of %d. They come before any sound: lungwort round answer --person %s%n",
                    view.dangerSignsOpen().size(),
                    Guidance.dangerSigns(view.age(), view.person().conditions()).size(),
                    quoted(view.person().nickname()));
        } else if (round.dangerSigns().yes().isEmpty() && !stopped) {
            out.println("  danger signs: all asked, none said to be there");
        }
    }

    static String quoted(String nickname) {
        return nickname.matches("[A-Za-z0-9_-]+") ? nickname : "'" + nickname.replace("'", "'\\''") + "'";
    }

    private void vitals(RoundView view) {
        out.printf("  vitals: %s%n", VitalsText.line(view.vitals(), unit));
        out.printf("  symptoms: %s%n", VitalsText.line(view.round().symptoms(), view.age()));
        if (!view.round().symptomWords().isEmpty()) {
            out.printf("  seen: %s%n", view.round().symptomWords());
        }
        if (!view.round().medicines().isEmpty()) {
            out.printf("  medicines: %s%n", view.round().medicines());
        }
    }

    private void site(SiteView site) {
        out.printf("%n  %s%n", site.site().words());
        for (Take take : site.takes()) {
            out.printf("    %-18s %s%n", take.reason().id(), said(take));
            take.examination()
                    .filter(e -> !e.quality().usable() || e.recordAgain())
                    .ifPresent(e -> e.quality()
                            .findings()
                            .forEach(f -> out.printf(
                                    "    %-18s %s %s (%s)%n",
                                    "", f.issue().reason(), f.issue().remedy(), f.detail())));
            listener(take);
            take.examination().ifPresent(e -> e.pauses().forEach(pause -> pause(take, pause)));
            take.examination()
                    .filter(e -> e.quality().usable() && !e.suggestion().namesSound())
                    .ifPresent(e -> e.reasons().forEach(reason -> out.printf("    %-18s why: %s%n", "", reason)));
            take.examination()
                    .map(Words::heardAt)
                    .filter(words -> !words.isEmpty())
                    .ifPresent(words ->
                            out.printf("    %-18s listen there first (others can be missed): %s%n", "", words));
            // What is suggested must not hide what else was measured.
            take.examination()
                    .filter(e -> e.quality().usable() && e.suggestion().namesSound())
                    .ifPresent(e -> e.listenFor().forEach(reason -> out.printf("    %-18s BUT: %s%n", "", reason)));
        }
        for (BeforeAfter change : site.changes()) {
            out.printf("    %s%n", change.words());
        }
    }

    /** What the person who listened said of the take. */
    private void listener(Take take) {
        if (take.breathHeard() != null) {
            out.printf(
                    "    %-18s %s%n",
                    "", take.breathHeard() ? "Said: breath clearly heard." : "SAID: HARDLY ANY BREATH HEARD.");
        }
        if (take.knownToClinician()) {
            out.printf("    %-18s Said: a clinician calls this sound usual for this person.%n", "");
        }
    }

    private void pause(Take take, BreathingPause pause) {
        String answer = take.breathingStopped() == null
                ? BreathingPause.QUESTION
                : take.breathingStopped()
                        ? "SAID: THE BREATHING STOPPED BY ITSELF."
                        : "Said: the breathing did not stop by itself.";
        out.printf("    %-18s PAUSE: %s %s%n", "", pause.words(), answer);
    }

    private static String said(Take take) {
        return take.examination()
                .map(e -> {
                    String numbers = RoundWords.numbers(e);
                    return RoundWords.suggestion(e) + (numbers.isEmpty() ? "" : "; measured: " + numbers);
                })
                .orElse("not examined yet");
    }

    private void sides(List<SidePair> sides) {
        if (!sides.isEmpty()) {
            out.printf("%n  left against right%n");
            sides.forEach(s -> out.printf("    %s%n", s.words()));
        }
    }

    /** Left against right and upper against lower, as far as they differ by more than two takes of the same thing do. */
    void comparisons(List<Compared> comparisons) {
        if (comparisons.isEmpty()) {
            return;
        }
        out.printf("%nBeside one another (levels, breaths, evidence):%n");
        for (Compared c : comparisons) {
            out.printf(
                    "  %s and %s%n", c.first().site().words(), c.second().site().words());
            c.comparison().findings().forEach(f -> out.printf("  - %s%n", f));
            c.comparison().notComparable().forEach(n -> out.printf("  - %s%n", n));
        }
        out.println(Comparison.CAUTION);
    }

    private void usual(List<AgainstUsual> usual) {
        if (!usual.isEmpty()) {
            out.printf(
                    "%n  this day against earlier days of this person that asked for no clinician, up to a year back, or all of the last %d where too few are known%n",
                    Trend.RECENT_DAYS);
        }
        for (AgainstUsual u : usual) {
            out.printf(
                    "    %s %s%s%s (usual: %s, from %s to %s, %s%s)%n",
                    u.measure().words(),
                    Words.number(u.value()),
                    u.how().isEmpty() ? "" : " " + u.how(),
                    u.outside() ? ", " + u.words() : "",
                    Words.number(u.usual().median()),
                    Words.number(u.usual().lowest()),
                    Words.number(u.usual().highest()),
                    u.usual().daysWords(),
                    "; the same measured twice differs by up to " + Words.number(Noise.ofTwoTakes(u.measure())));
        }
    }

    /** What to do, why, by which source, and what is missing. */
    void nextStep(NextStep step) {
        out.printf("NEXT STEP: %s%n", step.outcome().words().toUpperCase(java.util.Locale.ROOT));
        out.printf("  %s%n", step.outcome().meaning());
        for (String action : step.actions()) {
            out.printf("  - %s%n", action);
        }
        if (!step.reasons().isEmpty()) {
            out.println("  Why:");
        }
        for (Reason reason : step.reasons()) {
            out.printf(
                    "  - %s%s (source: %s [%s])%n",
                    reason.text(),
                    reason.limit().isEmpty() ? "" : " Limit: " + reason.limit() + ".",
                    reason.source(),
                    reason.mark());
        }
        // What is needed most stands among the actions already.
        List<String> missing = step.missing().stream()
                .map(Missing::text)
                .filter(text -> !step.actions().contains(text))
                .toList();
        if (!missing.isEmpty()) {
            out.println(
                    step.outcome() == Outcome.EMERGENCY_NOW
                            ? "  Also not known; none of it takes the emergency back, call first:"
                            : "  Also not known, and not taken as normal:");
            missing.forEach(text -> out.printf("  - %s%n", text));
        }
        if (!step.wouldChange().isEmpty()) {
            out.println("  What would change this:");
            step.wouldChange().forEach(w -> out.printf("  - %s%n", w));
        }
    }

    /** The command that fills in what is missing. */
    void answerWith(RoundView view) {
        String options = view.nextStep().missing().stream()
                .filter(Missing::needed)
                .map(missing -> AnswerOptions.forMissing(missing.id()))
                .filter(option -> !option.isEmpty())
                .distinct()
                .collect(Collectors.joining(" "));
        if (!options.isEmpty()) {
            out.printf(
                    "ANSWER WITH: lungwort round answer --person %s %s%n",
                    quoted(view.person().nickname()), options);
        }
    }

    /** The take that the round asks for. */
    void asked(@org.jspecify.annotations.Nullable Asked asked) {
        if (asked == null) {
            return;
        }
        out.printf(
                "NEXT TAKE: %s, --site %s --take %s%n",
                asked.site().words(), asked.site().id(), asked.reason().id());
        out.printf("  %s%n", asked.because());
        asked.instructions().forEach(i -> out.printf("  - %s%n", i));
    }

    private void cautions(NextStep step) {
        out.println();
        (step.cautions().isEmpty() ? List.of(Examination.CAUTION) : step.cautions()).forEach(out::println);
    }

    /** A number with its noun: "1 round", "2 rounds". */
    static String count(int number, String noun) {
        return number + " " + noun + (number == 1 ? "" : "s");
    }
}
