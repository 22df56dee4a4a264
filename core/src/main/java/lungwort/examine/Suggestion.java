package lungwort.examine;

/** What an examination suggests. Never a diagnosis; {@link #NONE_HEARD} is no reassurance, {@link #NONE_STANDS_OUT} even less. */
public enum Suggestion {
    CONTINUOUS("continuous"),
    DISCONTINUOUS("discontinuous"),
    BOTH("both"),
    NONE_HEARD("none-heard"),
    /** Nothing was found in a recording that sounds unlike nearly all that the model learnt from: most that is there may have been passed over. */
    NONE_STANDS_OUT("none-stands-out"),
    CANNOT_TELL("cannot-tell");

    private final String id;

    Suggestion(String id) {
        this.id = id;
    }

    /** Name in files, for example {@code none-heard}. */
    public String id() {
        return id;
    }

    /** True if it names an extra sound. */
    public boolean namesSound() {
        return !namesNone() && this != CANNOT_TELL;
    }

    /** True if it names a continuous sound, alone or with crackles. */
    public boolean continuous() {
        return this == CONTINUOUS || this == BOTH;
    }

    /** True if it names crackles, alone or with a continuous sound. */
    public boolean discontinuous() {
        return this == DISCONTINUOUS || this == BOTH;
    }

    /**
     * True if it names a sound of that kind, alone or with the other.
     *
     * @param continuous true for a continuous sound, false for crackles
     */
    public boolean names(boolean continuous) {
        return continuous ? continuous() : discontinuous();
    }

    /** True if it says whether extra sounds are there: named, or none heard in a recording of a kind that the model knows. Where it does not, the model's probabilities say nothing either. */
    public boolean tells() {
        return namesSound() || this == NONE_HEARD;
    }

    /** True if it says that no extra sound was found. */
    public boolean namesNone() {
        return this == NONE_HEARD || this == NONE_STANDS_OUT;
    }
}
