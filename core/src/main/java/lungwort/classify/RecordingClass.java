package lungwort.classify;

/** What a recording is called: the five classes of the SPRSound challenge's task 2-2, in the order of the models' outputs. */
public enum RecordingClass {
    NORMAL("normal"),
    CONTINUOUS("continuous"),
    DISCONTINUOUS("discontinuous"),
    BOTH("both"),
    POOR_QUALITY("poor-quality");

    /** Number of classes. */
    public static final int COUNT = values().length;

    private final String id;

    RecordingClass(String id) {
        this.id = id;
    }

    /** Name in files. */
    public String id() {
        return id;
    }

    /** True if a continuous extra sound is in it. */
    public boolean continuous() {
        return this == CONTINUOUS || this == BOTH;
    }

    /** True if a discontinuous extra sound is in it. */
    public boolean discontinuous() {
        return this == DISCONTINUOUS || this == BOTH;
    }

    /** Probability of a continuous extra sound, from the probabilities of the five classes. */
    public static double continuous(double[] p) {
        return p[1] + p[3];
    }

    /** Probability of a discontinuous extra sound, from the probabilities of the five classes. */
    public static double discontinuous(double[] p) {
        return p[2] + p[3];
    }

    /**
     * A probability on the condition that the recording can be judged at all.
     *
     * @param probability of something in a recording that can be judged
     * @param p of the five classes
     */
    static double ifJudged(double probability, double[] p) {
        double judged = 1 - poorQuality(p);
        return judged > 0 ? Math.min(1, probability / judged) : 0;
    }

    /** Probability of poor quality. */
    public static double poorQuality(double[] p) {
        return p[4];
    }
}
