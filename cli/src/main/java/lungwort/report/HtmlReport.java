package lungwort.report;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import lungwort.examine.Examination;
import lungwort.guidance.Condition;
import lungwort.guidance.Guidance;
import lungwort.guidance.Outcome;
import lungwort.round.RoundView;
import lungwort.round.RoundWords;

/** The report as a page: for the screen with pictures and sound inside, or as the source of the print. */
final class HtmlReport {
    /** Enough to tell a few thousand recordings apart. */
    private static final int HASH_DIGITS = 16;

    private final ReportContent content;
    private final Html html = new Html();
    private final Medium medium;
    private final boolean paper;

    private HtmlReport(ReportContent content, Medium medium) {
        this.content = content;
        this.medium = medium;
        this.paper = medium.paper();
    }

    /** One self-contained page; it asks nothing of a network. */
    static String page(ReportContent content) {
        return new HtmlReport(content, Medium.SCREEN).document("page.css");
    }

    /** The source of the print: the newest round, the other rounds in a line each, few pictures, no sound. */
    static String print(ReportContent content, Medium medium) {
        return new HtmlReport(content, medium).document("print.css");
    }

    static String title(ReportContent content) {
        String days = content.span()
                ? "%s to %s".formatted(content.first(), content.last())
                : content.date().toLocalDate().toString();
        return "Chest sounds recorded at home: %s, %s"
                .formatted(content.person().nickname(), days);
    }

    private String document(String css) {
        html.start("html", "lang", "en", "xmlns", "http://www.w3.org/1999/xhtml")
                .start("head");
        html.empty("meta", "charset", "utf-8");
        html.empty("meta", "name", "viewport", "content", "width=device-width, initial-scale=1");
        html.empty(
                "meta", "name", "description", "content", "Report of chest sounds recorded at home, for a clinician");
        if (!paper) {
            html.empty(
                    "meta",
                    "http-equiv",
                    "Content-Security-Policy",
                    "content",
                    "default-src 'none'; img-src data:; media-src data:; style-src 'unsafe-inline'");
        }
        html.tag("title", title(content)).style(resource(css)).end();
        html.start("body", "class", medium.style()).start("main");
        head();
        if (content.span()) {
            rounds();
        }
        List<ReportRound> whole = paper ? List.of(content.newest()) : newestFirst();
        whole.forEach(this::round);
        new TrendHtml(html, content, medium).write();
        if (paper && medium.pictures()) {
            new PicturesHtml(html, content, true).write(content.newest());
        }
        about();
        FamilyHtml.write(html, content);
        html.end().end().end();
        return html.finish();
    }

    private List<ReportRound> newestFirst() {
        List<ReportRound> rounds = new ArrayList<>(content.rounds());
        java.util.Collections.reverse(rounds);
        return rounds;
    }

    private void head() {
        RoundView newest = content.newest().view();
        html.start("header").tag("h1", "Chest sounds recorded at home").start("p", "class", "who");
        html.tag("strong", content.person().nickname());
        html.text(", %s. ".formatted(newest.age().words()));
        html.text(
                content.span()
                        ? "%s from %s to %s."
                                .formatted(rounds(content.rounds().size()), content.first(), content.last())
                        : "Round of %s.".formatted(ReportWords.time(content.date())));
        html.text(" Known conditions: " + conditions() + ".").end();
        if (!content.person().about().isEmpty()) {
            html.tag(
                    "p",
                    "About this person, in the family's words: "
                            + content.person().about());
        }
        html.tag("p", Examination.CAUTION, "class", "caution");
        leftOut();
        html.end();
    }

    private static String rounds(int number) {
        return number + (number == 1 ? " round" : " rounds");
    }

    private String conditions() {
        List<String> words = content.person().conditions().known().stream()
                .map(Condition::words)
                .toList();
        return words.isEmpty() ? "none given" : String.join(", ", words);
    }

    private void leftOut() {
        List<String> out = new ArrayList<>(content.options().leftOut());
        int hidden = content.hidden();
        if (hidden > 0 && !paper) {
            out.add("pictures and sound of %d takes, to keep the file small".formatted(hidden));
        }
        if (paper) {
            out.add("sound and " + (medium.pictures() ? "most pictures" : "pictures")
                    + ", which are in the HTML report");
            if (content.rounds().size() > 1) {
                out.add("details of the earlier rounds, which are in the HTML report");
            }
            if (medium.tight()) {
                out.add(
                        "some numbers of takes without an extra sound and of later takes, and %s, which are in the HTML report"
                                .formatted(
                                        TrendHtml.showsCourse(content, medium) ? "earlier days" : "the table of days"));
            }
            if (!medium.fingerprints()) {
                out.add("the fingerprints of the recordings, which are in the HTML report");
            }
            if (medium.reasons() != Medium.Reasons.ALL) {
                out.add(
                        medium.reasons() == Medium.Reasons.NONE
                                ? "the reasons under each take, which are in the HTML report"
                                : "the reasons under takes without an extra sound, which are in the HTML report");
            }
        }
        String words = out.isEmpty() ? "Nothing was left out." : "Left out: " + String.join("; ", out) + ".";
        html.tag("p", (words + " " + content.options().warning()).strip(), "class", "left-out");
    }

    private static String dangerSigns(RoundView view) {
        List<String> there = view.round().dangerSigns().yes().stream()
                .map(id -> Guidance.dangerSign(id).question(view.age()) + " Yes.")
                .collect(Collectors.toCollection(ArrayList::new));
        if (view.breathingStopped()) {
            there.add("Said of a recording: " + RoundWords.BREATHING_STOPPED);
        }
        return there.isEmpty()
                ? view.dangerSignsOpen().isEmpty() ? "all asked, none said to be there" : "not all answered"
                : String.join(" ", there);
    }

    private void rounds() {
        List<List<String>> rows = new ArrayList<>();
        for (ReportRound round : content.rounds()) {
            RoundView view = round.view();
            rows.add(List.of(
                    ReportWords.time(view.round().startedAt()),
                    dangerSigns(view),
                    FactsHtml.brief(view.vitals()),
                    SoundsHtml.brief(round),
                    round.step().outcome().words()));
        }
        html.start("section").tag("h2", "Rounds in these days");
        Tables.write(
                html,
                "plain rounds",
                "One line a round, oldest first; PEF: peak flow, litres a minute",
                List.of("Round", "Danger signs", "Vital signs", "Sounds (suggested)", "Next step then"),
                rows);
        html.end();
    }

    private void round(ReportRound round) {
        html.start("section", "class", "round");
        String open = round.view().round().open() ? " (not finished: it may still change)" : "";
        html.tag("h2", "Round of " + ReportWords.time(round.view().round().startedAt()) + open);
        boolean emergency = round.step().outcome() == Outcome.EMERGENCY_NOW;
        if (emergency) {
            StepHtml.write(html, round, medium);
        }
        new FactsHtml(html, round, medium).write();
        if (!emergency) {
            StepHtml.write(html, round, medium);
        }
        new SoundsHtml(html, round, medium).write();
        if (!paper) {
            new PicturesHtml(html, content, false).write(round);
        }
        html.end();
    }

    private void about() {
        html.start("section", "class", "about").tag("h2", "What this tool is and is not");
        html.start("ul");
        ReportWords.WHAT_IT_IS.forEach(w -> html.tag("li", w));
        List<String> makers = content.makers();
        html.tag(
                "li",
                makers.isEmpty()
                        ? "No recording was examined."
                        : "Examined by: " + String.join("; ", makers) + ". Its probabilities are those of this model.");
        html.tag("li", "Limits shown by: " + RulesVersion.words() + ".");
        html.end();
        if (paper) {
            recordings();
        }
        html.tag("h3", "How often the model is wrong, in the words of its model card");
        List<String> rates = CardSection.errorRates(content.card());
        if (rates.isEmpty()) {
            html.tag("p", CardSection.NO_CARD);
        } else {
            html.start("div", "class", "card");
            Markdown.write(html, rates, "Measured figures of the model");
            html.end();
        }
        html.end();
    }

    /** What print cannot hold, it lets find again. */
    private void recordings() {
        List<ReportTake> takes = content.newest().takes();
        if (takes.isEmpty() || !medium.fingerprints()) {
            return;
        }
        html.start("p", "class", "small").tag("strong", "To check against the stored recordings ");
        html.text("(first %d digits of their SHA-256; whole ones stand in the HTML report): ".formatted(HASH_DIGITS));
        html.text(takes.stream()
                        .map(t -> t.tag() + " " + t.take().recordingSha256().substring(0, HASH_DIGITS))
                        .collect(Collectors.joining(", "))
                + ".");
        html.end();
    }

    static String resource(String name) {
        try (InputStream in = HtmlReport.class.getResourceAsStream("/lungwort/report/" + name)) {
            if (in == null) {
                throw new IllegalStateException(name + " is missing from the jar");
            }
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
