package lungwort.dataset;

/** The side of a database's official split on which a recording stands. */
public enum Split {
    /** SPRSound's and ICBHI's training side. */
    TRAIN("train"),
    /** ICBHI's test side. */
    TEST("test"),
    /** SPRSound's test recordings of patients that are not in its training set. */
    INTER("inter"),
    /** SPRSound's test recordings of patients that are in its training set: not patient-independent. */
    INTRA("intra");

    private final String id;

    Split(String id) {
        this.id = id;
    }

    /** Name in files, for example {@code inter}. */
    public String id() {
        return id;
    }
}
