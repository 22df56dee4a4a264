package lungwort.dataset;

/** What a whole recording is called: the five classes of the SPRSound challenge's task 2-2. */
public enum RecordingLabel {
    NORMAL("normal", false, false),
    CAS("cas", true, false),
    DAS("das", false, true),
    CAS_AND_DAS("cas-and-das", true, true),
    POOR_QUALITY("poor-quality", false, false);

    private final String id;
    private final boolean continuous;
    private final boolean discontinuous;

    RecordingLabel(String id, boolean continuous, boolean discontinuous) {
        this.id = id;
        this.continuous = continuous;
        this.discontinuous = discontinuous;
    }

    /** Name in files, for example {@code cas-and-das}. */
    public String id() {
        return id;
    }

    /** True if a continuous extra sound was heard in it. Nothing is known of a {@link #POOR_QUALITY} recording. */
    public boolean continuous() {
        return continuous;
    }

    /** True if a discontinuous extra sound was heard in it. Nothing is known of a {@link #POOR_QUALITY} recording. */
    public boolean discontinuous() {
        return discontinuous;
    }

    /** True for CAS, DAS and both. */
    public boolean adventitious() {
        return continuous || discontinuous;
    }

    /** The label that two findings make; never {@link #POOR_QUALITY}. */
    public static RecordingLabel of(boolean continuous, boolean discontinuous) {
        if (continuous) {
            return discontinuous ? CAS_AND_DAS : CAS;
        }
        return discontinuous ? DAS : NORMAL;
    }

    /** @throws IllegalArgumentException if no label has that id */
    public static RecordingLabel ofId(String id) {
        for (RecordingLabel label : values()) {
            if (label.id.equals(id)) {
                return label;
            }
        }
        throw new IllegalArgumentException("no recording label is called " + id);
    }
}
