package lungwort.guidance;

import java.util.Arrays;
import java.util.stream.Collectors;
import lungwort.BadInput;

/** Why a take was made. After an extra sound the trade asks for the others in this order. */
public enum TakeReason {
    FIRST("first", "Record the first take.", "Record the first take."),
    MOVED(
            "moved",
            "Move the stethoscope a finger's width, still between two ribs, and listen again.",
            "Move the stethoscope a finger's width, still between two ribs, and listen again."),
    AFTER_DEEP_BREATHS(
            "after-deep-breaths",
            "Have the person take three or four deep, easy breaths, and listen again.",
            "A small child takes no deep breaths when asked: clear the nose, wait until the child is calm, and listen again when a breath comes deeper by itself."
                    + " If none does, go on to the next place."),
    AFTER_COUGH(
            "after-cough",
            "Have the person cough once or twice, wait a few breaths, and listen again at the same spot.",
            "Do not make a small child cough: wait until it has coughed by itself, wait a few breaths, and listen again at the same spot. If it does not cough, go on to the next place.");

    /** Below this age a child seldom does what it is asked to with its breath. Common practice. */
    private static final int SMALL_CHILD_BELOW_MONTHS = 48;

    private final String id;
    private final String instruction;
    private final String ofSmallChild;

    TakeReason(String id, String instruction, String ofSmallChild) {
        this.id = id;
        this.instruction = instruction;
        this.ofSmallChild = ofSmallChild;
    }

    /** Name in files and on the command line, for example {@code after-cough}. */
    public String id() {
        return id;
    }

    /** What to do with a person of that age, in plain words. */
    public String instruction(Age age) {
        return age.months() < SMALL_CHILD_BELOW_MONTHS ? ofSmallChild : instruction;
    }

    /** @throws BadInput if no reason has that id */
    public static TakeReason ofId(String id) {
        return Arrays.stream(values())
                .filter(r -> r.id.equals(id))
                .findFirst()
                .orElseThrow(() -> BadInput.of(
                        "take: \"%s\" is not known; use one of %s.",
                        id, Arrays.stream(values()).map(TakeReason::id).collect(Collectors.joining(", "))));
    }
}
