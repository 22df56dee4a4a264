package lungwort.guidance;

import java.util.List;
import java.util.stream.Collectors;

/**
 * Why a next step is what it is.
 *
 * @param rule id of the rule or danger sign, for example {@code home-oximetry-severe}
 * @param outcome what it alone leads to
 * @param text in plain words, with the value that was met
 * @param limit the limit that was crossed, for example "SpO2 92 % or less, from 18 years"; empty where there is none
 * @param citations where the limit stands, with the mark of how it was seen
 */
public record Reason(String rule, Outcome outcome, String text, String limit, List<Citation> citations) {
    public Reason {
        citations = List.copyOf(citations);
    }

    /** The sources in one line. */
    public String source() {
        return citations.stream().map(Citation::source).collect(Collectors.joining("; "));
    }

    /** The marks in the order of the sources, for example {@code S; P}. */
    public String mark() {
        return citations.stream().map(Citation::mark).collect(Collectors.joining("; "));
    }
}
