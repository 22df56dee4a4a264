package lungwort.guidance;

import java.util.Arrays;
import java.util.stream.Collectors;
import lungwort.BadInput;

/** Why a take was made. After an extra sound the trade asks for the others in this order. */
public enum TakeReason {
    FIRST("first", "Record the first take."),
    MOVED("moved", "Move the stethoscope a finger's width, still between two ribs, and listen again."),
    AFTER_DEEP_BREATHS(
            "after-deep-breaths", "Have the person take three or four deep, easy breaths, and listen again."),
    AFTER_COUGH(
            "after-cough",
            "Have the person cough once or twice, wait a few breaths, and listen again at the same spot.");

    private final String id;
    private final String instruction;

    TakeReason(String id, String instruction) {
        this.id = id;
        this.instruction = instruction;
    }

    /** Name in files and on the command line, for example {@code after-cough}. */
    public String id() {
        return id;
    }

    /** What to do, in plain words. */
    public String instruction() {
        return instruction;
    }

    /** @throws BadInput if no reason has that id */
    public static TakeReason ofId(String id) {
        return Arrays.stream(values())
                .filter(r -> r.id.equals(id))
                .findFirst()
                .orElseThrow(() -> new BadInput("take: \"%s\" is not known; use one of %s."
                        .formatted(
                                id, Arrays.stream(values()).map(TakeReason::id).collect(Collectors.joining(", ")))));
    }
}
