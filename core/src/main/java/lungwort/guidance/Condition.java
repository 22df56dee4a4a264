package lungwort.guidance;

import java.util.Arrays;
import java.util.stream.Collectors;
import lungwort.BadInput;

/** A known condition that changes which limits apply. */
public enum Condition {
    ASTHMA("asthma", "asthma"),
    COPD("copd", "COPD"),
    HEART_FAILURE("heart-failure", "heart failure"),
    /** May retain carbon dioxide. The limits change only once a clinician has set other oxygen targets: see {@link ClinicianLimits#spo2Scale2()}. */
    HYPERCAPNIA_RISK("hypercapnia-risk", "a risk of retaining carbon dioxide"),
    PREGNANCY("pregnancy", "pregnancy");

    private final String id;
    private final String words;

    Condition(String id, String words) {
        this.id = id;
        this.words = words;
    }

    /** Name in files and on the command line, for example {@code heart-failure}. */
    public String id() {
        return id;
    }

    /** In plain words. */
    public String words() {
        return words;
    }

    /** @throws BadInput if no condition has that id */
    public static Condition ofId(String id) {
        return Arrays.stream(values())
                .filter(c -> c.id.equals(id))
                .findFirst()
                .orElseThrow(() -> BadInput.of(
                        "condition: \"%s\" is not known; use one of %s.",
                        id, Arrays.stream(values()).map(Condition::id).collect(Collectors.joining(", "))));
    }
}
