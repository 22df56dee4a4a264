package lungwort.report;

import java.util.ArrayList;
import java.util.List;

/**
 * What a report holds beside the measures.
 *
 * @param name the nickname, the birth month and the name of the clinician who set limits
 * @param notes all free words: notes, what was seen, medicines, what is known about the person
 * @param audio the recordings themselves
 */
public record ReportOptions(boolean name, boolean notes, boolean audio) {
    /** Everything. */
    public static final ReportOptions ALL = new ReportOptions(true, true, true);

    /** What was left out on request, in plain words; empty where nothing was. */
    public List<String> leftOut() {
        List<String> out = new ArrayList<>();
        if (!name) {
            out.add("the name, the birth month and the name of the clinician who set limits");
        }
        if (!notes) {
            out.add("all free words: notes, what was seen, medicines, what is known about the person");
        }
        if (!audio) {
            out.add("the recordings (their sound; what was measured in them is here)");
        }
        return out;
    }

    /** Said where the name is left out and words that could hold it are not; empty otherwise. */
    public String warning() {
        List<String> risks = new ArrayList<>();
        if (!name && notes) {
            risks.add("free words were kept and may name the person");
        }
        if (!name && audio) {
            risks.add("recordings were kept and a voice in them may be known");
        }
        return risks.isEmpty() ? "" : "The name was left out, but " + String.join(", and ", risks) + ".";
    }
}
