package lungwort.classify;

/** What a segment is called: the seven classes of the SPRSound challenge's task 1-2, in the order of the models' outputs. */
public enum SegmentClass {
    NORMAL("normal", false, false),
    RHONCHUS("rhonchus", true, false),
    WHEEZE("wheeze", true, false),
    STRIDOR("stridor", true, false),
    COARSE_CRACKLE("coarse-crackle", false, true),
    FINE_CRACKLE("fine-crackle", false, true),
    WHEEZE_AND_CRACKLE("wheeze-and-crackle", true, true);

    /** Number of classes. */
    public static final int COUNT = values().length;

    private final String id;
    private final boolean continuous;
    private final boolean discontinuous;

    SegmentClass(String id, boolean continuous, boolean discontinuous) {
        this.id = id;
        this.continuous = continuous;
        this.discontinuous = discontinuous;
    }

    /** Name in files, for example {@code wheeze-and-crackle}. */
    public String id() {
        return id;
    }

    /** True if a continuous extra sound is in it. */
    public boolean continuous() {
        return continuous;
    }

    /** True if a discontinuous extra sound is in it. */
    public boolean discontinuous() {
        return discontinuous;
    }

    /** Probability of a continuous extra sound, from the probabilities of the seven classes. */
    public static double continuous(double[] p) {
        return p[1] + p[2] + p[3] + p[6];
    }

    /** Probability of a discontinuous extra sound, from the probabilities of the seven classes. */
    public static double discontinuous(double[] p) {
        return p[4] + p[5] + p[6];
    }
}
