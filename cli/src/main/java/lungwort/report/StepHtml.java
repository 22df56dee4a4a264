package lungwort.report;

import java.util.List;
import java.util.stream.Collectors;
import lungwort.guidance.NextStep;
import lungwort.guidance.Reason;

/** The next step: an answer of rules to the facts and the suggestions, with reason, limit and source. */
final class StepHtml {
    private StepHtml() {}

    static void write(Html html, ReportRound round, Medium medium) {
        NextStep step = round.step();
        html.start("section", "class", "step " + step.outcome().id());
        html.tag("h3", "Next step by the guidance: " + step.outcome().words());
        html.tag("p", step.outcome().meaning());
        if (step.reasons().isEmpty()) {
            html.tag("p", "No reason was found among the rules that Lungwort knows.");
        } else {
            reasons(html, step, medium);
        }
        if (!step.missing().isEmpty()) {
            html.tag("p", ReportWords.notKnown(step));
        }
        if (medium.paper()) {
            html.tag("p", String.join(" ", step.cautions()), "class", "small");
        } else {
            step.cautions().forEach(c -> html.tag("p", c, "class", "small"));
        }
        html.end();
    }

    /** Where room is short, what leads to a milder step than the one that is said stands in one paragraph. */
    private static void reasons(Html html, NextStep step, Medium medium) {
        List<Reason> first = step.reasons().stream()
                .filter(r -> !medium.tight() || r.outcome() == step.outcome())
                .toList();
        html.start("ul");
        first.forEach(r -> html.tag("li", words(r)));
        html.end();
        List<Reason> others =
                step.reasons().stream().filter(r -> !first.contains(r)).toList();
        if (!others.isEmpty()) {
            html.tag("p", "Also: " + others.stream().map(StepHtml::words).collect(Collectors.joining(" ")));
        }
    }

    private static String words(Reason reason) {
        String limit = reason.limit().isEmpty() ? "" : " Limit: " + reason.limit() + ".";
        return "%s%s Source: %s.".formatted(reason.text(), limit, ReportWords.sources(reason.citations()));
    }
}
