package lungwort.report;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import lungwort.examine.Examination;

/** Why each take of a print suggests what it does, in a line each. On the screen the reasons stand beside picture and sound. */
final class TakeReasonsHtml {
    private final Html html;
    private final ReportRound round;
    private final Medium medium;

    TakeReasonsHtml(Html html, ReportRound round, Medium medium) {
        this.html = html;
        this.round = round;
        this.medium = medium;
    }

    void write() {
        Map<String, List<String>> tags = new LinkedHashMap<>();
        if (medium.paper()) {
            for (ReportTake take : round.takes()) {
                take.take()
                        .examination()
                        .filter(e -> !e.reasons().isEmpty() && said(e))
                        .ifPresent(e -> tags.computeIfAbsent(why(e), r -> new ArrayList<>())
                                .add(take.tag()));
            }
        }
        if (tags.isEmpty()) {
            return;
        }
        html.tag("h3", "Why, take by take");
        html.start("ul", "class", "why");
        tags.forEach((reasons, takes) -> {
            html.start("li").tag("strong", String.join(", ", takes) + ": ");
            html.text(reasons).end();
        });
        html.end();
    }

    private static String why(Examination e) {
        return Stream.concat(ReportWords.listenThere(e).stream(), e.reasons().stream())
                .collect(Collectors.joining(" "));
    }

    private boolean said(Examination e) {
        // What a refused recording resembles says nothing of the chest.
        return e.quality().usable() && asked(e);
    }

    private boolean asked(Examination e) {
        return switch (medium.reasons()) {
            case ALL -> true;
            case TELLING -> !e.suggestion().namesNone() || !e.evidence().isEmpty();
            case NONE -> false;
        };
    }
}
