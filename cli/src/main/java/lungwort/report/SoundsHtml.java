package lungwort.report;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.UUID;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import lungwort.diary.Measures;
import lungwort.diary.Take;
import lungwort.examine.Examination;
import lungwort.examine.Suggestion;
import lungwort.guidance.Site;
import lungwort.guidance.TakeReason;
import lungwort.picture.Words;
import lungwort.round.BeforeAfter;
import lungwort.round.Noise;
import lungwort.round.RoundView;
import lungwort.round.RoundWords;
import lungwort.round.SidePair;
import lungwort.round.SiteView;

/** What the software suggests, take by take, with the measured evidence beside it. */
final class SoundsHtml {
    /** Column of the table of before and after. */
    private static final int LATER_TAKE = 1;

    private final Html html;
    private final ReportRound round;
    private final Medium medium;

    SoundsHtml(Html html, ReportRound round, Medium medium) {
        this.html = html;
        this.round = round;
        this.medium = medium;
    }

    void write() {
        RoundView view = round.view();
        html.start("section", "class", "suggestions");
        html.tag("h3", "Suggestions of the software, site by site, with what it measured");
        if (round.takes().isEmpty()) {
            html.tag("p", "Nothing was recorded in this round.");
        } else {
            table();
            new TakeReasonsHtml(html, round, medium).write();
        }
        if (!view.sitesOpen().isEmpty()) {
            html.tag(
                    "p",
                    "Places of this round that were not recorded, or whose recording could not be judged: "
                            + view.sitesOpen().stream().map(Site::words).collect(Collectors.joining("; ")) + ".");
        }
        changes(view.sites());
        sides(view.sides());
        html.end();
    }

    private void table() {
        List<List<String>> rows = new ArrayList<>();
        List<ReportTake> drawnTogether = medium.tight() ? drawnTogether() : List.of();
        for (ReportTake take : round.takes()) {
            Examination e = take.take().examination().orElse(null);
            if (!drawnTogether.contains(take)) {
                rows.add(e == null ? unexamined(take) : row(take, e));
            }
        }
        Tables.write(
                html,
                "takes",
                "Suggestion by the model and by what was measured; the calibrated probability is the model's alone; counts and numbers are measured. In and out: breathing in and out.",
                List.of("Take", "Suggestion", "Probability", "Continuous sounds", "Crackles", "Breaths", "Quality"),
                rows);
    }

    /** Takes that have nothing for the table: each is named in a line, and why. */
    private List<ReportTake> drawnTogether() {
        List<ReportTake> quiet = quiet(Suggestion.NONE_HEARD);
        List<ReportTake> unfamiliar = quiet(Suggestion.NONE_STANDS_OUT);
        List<ReportTake> open =
                round.takes().stream().filter(t -> unjudged(t, true)).toList();
        List<ReportTake> refused =
                round.takes().stream().filter(t -> unjudged(t, false)).toList();
        line("No extra sound found here, which does not mean that all is well: ", quiet, SoundsHtml::remarks);
        line(
                "No extra sound stands out here, and it sounds unlike what Lungwort learnt from, so that most can be missed: ",
                unfamiliar,
                SoundsHtml::remarks);
        line("Could be judged, and cannot be told: ", open, SoundsHtml::why);
        line("Cannot be judged: ", refused, SoundsHtml::why);
        return Stream.of(quiet, unfamiliar, open, refused, compared())
                .flatMap(List::stream)
                .toList();
    }

    /** Later takes whose numbers stand beside those before them in a table of their own. */
    private List<ReportTake> compared() {
        Set<UUID> later = round.view().sites().stream()
                .flatMap(s -> s.changes().stream())
                .map(c -> c.after().id())
                .collect(Collectors.toSet());
        return round.takes().stream().filter(t -> later.contains(t.take().id())).toList();
    }

    private void line(String what, List<ReportTake> takes, Function<ReportTake, String> why) {
        if (!takes.isEmpty()) {
            html.tag(
                    "p",
                    what + takes.stream().map(t -> head(t) + why.apply(t)).collect(Collectors.joining("; ")) + ".");
        }
    }

    private static String remarks(ReportTake take) {
        String remarks = take.take()
                .examination()
                .map(e -> String.join(" ", e.source().remarks()).replaceFirst("\\.$", ""))
                .orElse("");
        return remarks.isEmpty() ? "" : " (" + remarks + ")";
    }

    private static String why(ReportTake take) {
        return take.take()
                .examination()
                .map(e -> " (%s)".formatted(findings(e)))
                .orElse("");
    }

    private static String findings(Examination e) {
        String words = e.quality().findings().stream()
                .map(f -> f.issue().reason().replaceFirst("\\.$", ""))
                .collect(Collectors.joining("; "));
        return words.isEmpty() ? "the signs are too weak to say either way" : words;
    }

    /** No extra sound, nothing measured, nothing remarked, and no question about the recording. */
    private List<ReportTake> quiet(Suggestion suggestion) {
        return round.takes().stream()
                .filter(take -> plain(take, suggestion)
                        && take.take()
                                .examination()
                                .map(e -> e.quality().findings().isEmpty())
                                .orElse(false))
                .toList();
    }

    private static boolean unjudged(ReportTake take, boolean usable) {
        return plain(take, Suggestion.CANNOT_TELL)
                && take.take()
                        .examination()
                        .map(e -> e.quality().usable() == usable)
                        .orElse(false);
    }

    private static boolean plain(ReportTake take, Suggestion suggestion) {
        return take.take()
                .examination()
                .filter(e -> e.suggestion() == suggestion
                        && (e.evidence().isEmpty() || !e.quality().usable()))
                .filter(e -> listener(take.take()).isEmpty())
                .isPresent();
    }

    private List<String> unexamined(ReportTake take) {
        return List.of(head(take), "not examined yet", "", "", "", "", "");
    }

    private java.time.OffsetDateTime startedAt() {
        return round.view().round().startedAt();
    }

    private String head(ReportTake take) {
        return "%s %s, %s".formatted(take.tag(), take.place(), take.addedWords(startedAt()));
    }

    private List<String> row(ReportTake take, Examination e) {
        Measures m = Measures.of(e);
        return List.of(
                head(take),
                ReportWords.suggestion(e) + aside(e) + listener(take.take()),
                e.suggestion().tells()
                        ? "continuous %s, crackles %s"
                                .formatted(Words.probability(e, true), Words.probability(e, false))
                        : "not given",
                e.quality().usable() ? continuous(e, m) : "not told",
                e.quality().usable() ? crackles(e, m) : "not told",
                "%d found, %s".formatted(e.breathing().breaths().size(), ReportWords.rate(e)),
                ReportWords.quality(e));
    }

    /** Measured sounds that the model does not go by are told all the same: one of both is wrong. */
    private static String aside(Examination e) {
        return e.suggestion().namesNone() && !e.evidence().isEmpty()
                ? ". BUT SOUNDS WERE MEASURED that the model does not go by: please listen"
                : "";
    }

    private static String listener(Take take) {
        String breath = take.breathHeard() == null
                ? ""
                : take.breathHeard() ? ". Listener: breath clearly heard" : ". LISTENER: HARDLY ANY BREATH HEARD";
        return breath
                + pauses(take)
                + (take.knownToClinician() ? ". A clinician calls this usual here for this person" : "");
    }

    private static String pauses(Take take) {
        String said = take.breathingStopped() == null
                ? "nobody said what it was"
                : take.breathingStopped()
                        ? "LISTENER: THE BREATHING STOPPED BY ITSELF"
                        : "listener: held, soft or lifted";
        return take.examination()
                .flatMap(Examination::longestPause)
                .map(p -> String.format(
                        Locale.ROOT,
                        ". NO BREATH FOUND FOR %s (%.1f to %.1f s; %s)",
                        p.shortWords().toUpperCase(Locale.ROOT),
                        p.startSeconds(),
                        p.endSeconds(),
                        said))
                .orElse("");
    }

    private static String continuous(Examination e, Measures m) {
        String frequencies = ReportWords.frequencies(e);
        return frequencies.isEmpty()
                ? ReportWords.counts(e, true)
                : "%s; %s; fill %s; %s"
                        .formatted(
                                ReportWords.counts(e, true),
                                frequencies,
                                ReportWords.percent(m.wheezeShare()),
                                ReportWords.phases(e, true));
    }

    private static String crackles(Examination e, Measures m) {
        if (m.crackles() == 0) {
            return ReportWords.none(e, false);
        }
        String perBreath = m.cracklesPerBreath() == null ? "" : "; %.1f a breath".formatted(m.cracklesPerBreath());
        return ReportWords.counts(e, false) + perBreath + "; " + ReportWords.phases(e, false);
    }

    private void changes(List<SiteView> sites) {
        List<List<String>> rows = new ArrayList<>();
        for (SiteView site : sites) {
            for (BeforeAfter change : site.changes()) {
                rows.add(List.of(
                        site.site().words(),
                        tag(change.after()) + ReportWords.reason(change.after().reason()),
                        RoundWords.numbersBeside(change.measuresBefore(), change.toldBefore()),
                        RoundWords.numbersBeside(change.measuresAfter(), change.toldAfter()),
                        became(change)));
            }
        }
        if (!rows.isEmpty()) {
            html.tag("h3", "Before and after, at the same site");
            Tables.write(
                    html,
                    "plain changes",
                    "A later take against the first that suggests an extra sound",
                    List.of("Site", "Later take", "Before", "After", "Extra sound"),
                    medium.tight() ? likeOnesTogether(rows) : rows);
        }
    }

    /** Later takes of a site that differ in nothing else stand in one row, below one another. */
    private static List<List<String>> likeOnesTogether(List<List<String>> rows) {
        Map<List<String>, List<String>> takes = new LinkedHashMap<>();
        for (List<String> row : rows) {
            List<String> others = new ArrayList<>(row);
            String take = others.remove(LATER_TAKE);
            takes.computeIfAbsent(others, key -> new ArrayList<>()).add(take);
        }
        return takes.entrySet().stream()
                .map(e -> {
                    List<String> row = new ArrayList<>(e.getKey());
                    row.add(LATER_TAKE, String.join(";\n", e.getValue()));
                    return row;
                })
                .toList();
    }

    /** What is not heard beside the place has not cleared, nor what does not stand out. */
    private static String became(BeforeAfter change) {
        if (change.after()
                .examination()
                .filter(e -> e.suggestion().namesSound())
                .isPresent()) {
            return "still suggested";
        }
        if (!change.cleared()) {
            return "does not stand out, which does not show that it cleared; that it was heard is still worth telling";
        }
        return change.after().reason() == TakeReason.MOVED
                ? "not heard there, a finger's width away; that it was heard is still worth telling"
                : "not heard any more; that it was there is still worth telling";
    }

    private String tag(Take take) {
        return round.takes().stream()
                .filter(t -> t.take().id().equals(take.id()))
                .findFirst()
                .map(t -> "%s, %s, ".formatted(t.tag(), t.addedWords(startedAt())))
                .orElse("");
    }

    private void sides(List<SidePair> sides) {
        if (sides.isEmpty()) {
            return;
        }
        List<List<String>> rows = new ArrayList<>();
        for (SidePair pair : sides) {
            rows.add(List.of(
                    pair.left().words().replace(", left", ""),
                    RoundWords.numbersBeside(pair.measuresLeft(), pair.toldLeft()),
                    RoundWords.numbersBeside(pair.measuresRight(), pair.toldRight())));
        }
        html.tag("h3", "Left against right");
        Tables.write(
                html,
                "First take with a sound, else first judged; sides of the person, not of who looks. " + Noise.ofSides(),
                List.of("Height", "Left", "Right"),
                rows);
    }

    /** How many takes suggest what, in one line. */
    static String brief(ReportRound round) {
        Map<Suggestion, Integer> counts = new TreeMap<>();
        for (ReportTake take : round.takes()) {
            take.take().examination().ifPresent(e -> counts.merge(e.suggestion(), 1, Integer::sum));
        }
        String words = counts.entrySet().stream()
                .map(e -> e.getValue() + " " + word(e.getKey()))
                .collect(Collectors.joining(", "));
        return words.isEmpty() ? "nothing recorded" : words;
    }

    private static String word(Suggestion suggestion) {
        return switch (suggestion) {
            case CONTINUOUS -> "continuous";
            case DISCONTINUOUS -> "crackles";
            case BOTH -> "both";
            case NONE_HEARD -> "no extra sound found";
            case NONE_STANDS_OUT -> "nothing stands out (unlike what Lungwort learnt from)";
            case CANNOT_TELL -> "cannot tell";
        };
    }
}
