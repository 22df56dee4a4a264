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

    /** Stridor and grunting are danger signs: they must not be taken for a disturbance. */
    private static final String NO_FAULT =
            " A noise from the throat, or a grunt, with every breath is a danger sign, not a fault of the recording.";

    private static final String VOICES =
            "Voices, moaning, and a rattling or blocked throat or nose give such sounds, too, and are heard all over the chest: nobody speaks, and the person breathes through the open mouth."
                    + NO_FAULT;

    private static final String VOICES_OF_SMALL_CHILD =
            "Crying, whimpering, voices and a blocked nose give such sounds, too, and are heard all over the chest: clear the nose, and wait until the child is calm and nobody speaks."
                    + NO_FAULT;

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

    /**
     * What else gives tones, and how to keep it out of the next take. Voices and sounds of nose and throat are heard all over the chest (common practice); in SPRSound's recordings some of the tones
     * that listeners left unmarked have a voice's overtones.
     */
    public static String keepVoicesOut(Age age) {
        return age.months() < SMALL_CHILD_BELOW_MONTHS ? VOICES_OF_SMALL_CHILD : VOICES;
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
