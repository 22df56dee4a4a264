package lungwort.guidance;

/** How short of breath a person is, more than usual for them. In order of severity. */
public enum Breathlessness {
    NONE("none", "no more short of breath than usual"),
    ON_EFFORT("on-effort", "more short of breath than usual when moving, feeding or playing"),
    AT_REST("at-rest", "short of breath even at rest"),
    CANNOT_FINISH_SENTENCES(
            "cannot-finish-sentences", "too short of breath to finish a sentence, or a small child to cry or to feed");

    private final String id;
    private final String words;

    Breathlessness(String id, String words) {
        this.id = id;
        this.words = words;
    }

    /** Name in files, for example {@code at-rest}. */
    public String id() {
        return id;
    }

    /** In plain words. */
    public String words() {
        return words;
    }
}
