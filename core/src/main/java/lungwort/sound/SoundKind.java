package lungwort.sound;

/** The extra sounds that are measured, under their trade names. Definitions and sources stand where each is decided. */
public enum SoundKind {
    WHEEZE("wheeze", true),
    RHONCHUS("rhonchus", true),
    FINE_CRACKLE("fine-crackle", false),
    COARSE_CRACKLE("coarse-crackle", false);

    private final String id;
    private final boolean continuous;

    SoundKind(String id, boolean continuous) {
        this.id = id;
        this.continuous = continuous;
    }

    /** Name in files and on the command line, for example {@code fine-crackle}. */
    public String id() {
        return id;
    }

    /** True for wheeze and rhonchus, false for crackles. */
    public boolean continuous() {
        return continuous;
    }

    /** @throws IllegalArgumentException if no kind has that id */
    public static SoundKind ofId(String id) {
        for (SoundKind kind : values()) {
            if (kind.id.equals(id)) {
                return kind;
            }
        }
        throw new IllegalArgumentException("no sound kind is called " + id);
    }
}
