package lungwort.report;

import java.util.stream.Collectors;
import lungwort.guidance.Missing;
import lungwort.guidance.NextStep;
import lungwort.guidance.Reason;

/** The next step: an answer of rules to the facts and the suggestions, with reason, limit and source. */
final class StepHtml {
    private StepHtml() {}

    static void write(Html html, ReportRound round) {
        NextStep step = round.step();
        html.start("section", "class", "step " + step.outcome().id());
        html.tag("h3", "Next step by the guidance: " + step.outcome().words());
        html.tag("p", step.outcome().meaning());
        if (step.reasons().isEmpty()) {
            html.tag("p", "No reason was found among the rules that Lungwort knows.");
        } else {
            html.start("ul");
            for (Reason reason : step.reasons()) {
                String limit = reason.limit().isEmpty() ? "" : " Limit: " + reason.limit() + ".";
                html.tag(
                        "li",
                        "%s%s Source: %s.".formatted(reason.text(), limit, ReportWords.sources(reason.citations())));
            }
            html.end();
        }
        if (!step.missing().isEmpty()) {
            html.tag(
                    "p",
                    "Not known, and not taken as normal: "
                            + step.missing().stream().map(Missing::text).collect(Collectors.joining(" ")));
        }
        step.cautions().forEach(c -> html.tag("p", c, "class", "small"));
        html.end();
    }
}
