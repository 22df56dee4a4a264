package lungwort.dataset;

/** The four classes of a breath cycle in the ICBHI 2017 challenge. */
public enum CycleClass {
    NORMAL("normal"),
    CRACKLE("crackle"),
    WHEEZE("wheeze"),
    BOTH("both");

    private final String id;

    CycleClass(String id) {
        this.id = id;
    }

    /** Name in files, for example {@code both}. */
    public String id() {
        return id;
    }

    /** The class that two findings make. */
    public static CycleClass of(boolean wheeze, boolean crackle) {
        if (wheeze) {
            return crackle ? BOTH : WHEEZE;
        }
        return crackle ? CRACKLE : NORMAL;
    }

    /** The class of an event of any database: every continuous sound counts as a wheeze, every discontinuous one as a crackle. */
    public static CycleClass of(EventLabel label) {
        return of(label.continuous(), label.discontinuous());
    }
}
