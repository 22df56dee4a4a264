package lungwort.examine;

/** What an examination suggests. Never a diagnosis; {@link #NONE_HEARD} is no reassurance. */
public enum Suggestion {
    CONTINUOUS("continuous"),
    DISCONTINUOUS("discontinuous"),
    BOTH("both"),
    NONE_HEARD("none-heard"),
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
        return this != NONE_HEARD && this != CANNOT_TELL;
    }
}
