package lungwort.dataset;

/**
 * What an annotator called one event. The first seven are the classes of the SPRSound challenge's task 1-2; ICBHI's annotators say only "crackle", fine or coarse
 * left open.
 */
public enum EventLabel {
    NORMAL("normal", false, false),
    RHONCHUS("rhonchus", true, false),
    WHEEZE("wheeze", true, false),
    STRIDOR("stridor", true, false),
    COARSE_CRACKLE("coarse-crackle", false, true),
    FINE_CRACKLE("fine-crackle", false, true),
    WHEEZE_AND_CRACKLE("wheeze-and-crackle", true, true),
    CRACKLE("crackle", false, true);

    private final String id;
    private final boolean continuous;
    private final boolean discontinuous;

    EventLabel(String id, boolean continuous, boolean discontinuous) {
        this.id = id;
        this.continuous = continuous;
        this.discontinuous = discontinuous;
    }

    /** Name in files, for example {@code wheeze-and-crackle}. */
    public String id() {
        return id;
    }

    /** True if a continuous extra sound (CAS: rhonchus, wheeze, stridor) is in it. */
    public boolean continuous() {
        return continuous;
    }

    /** True if a discontinuous extra sound (DAS: crackles) is in it. */
    public boolean discontinuous() {
        return discontinuous;
    }

    /** True for everything but {@link #NORMAL}. */
    public boolean adventitious() {
        return this != NORMAL;
    }

    /** @throws IllegalArgumentException if no label has that id */
    public static EventLabel ofId(String id) {
        for (EventLabel label : values()) {
            if (label.id.equals(id)) {
                return label;
            }
        }
        throw new IllegalArgumentException("no event label is called " + id);
    }
}
