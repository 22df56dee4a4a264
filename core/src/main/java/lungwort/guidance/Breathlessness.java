package lungwort.guidance;

/** How short of breath a person is, more than usual for them. In order of severity. */
public enum Breathlessness {
    NONE("none", "not more short of breath than usual"),
    ON_EFFORT(
            "on-effort",
            "more short of breath than usual when moving, feeding or playing",
            "more short of breath than usual when moving"),
    AT_REST("at-rest", "short of breath even at rest"),
    CANNOT_FINISH_SENTENCES(
            "cannot-finish-sentences",
            "too short of breath to finish a sentence, or a small child to cry or to feed",
            "too short of breath to finish a sentence");

    /** From this age on, in years, nobody is asked of feeding and playing. */
    private static final int GROWN_YEARS = 12;

    private final String id;
    private final String words;
    private final String grown;

    Breathlessness(String id, String words) {
        this(id, words, words);
    }

    Breathlessness(String id, String words, String grown) {
        this.id = id;
        this.words = words;
        this.grown = grown;
    }

    /** Name in files, for example {@code at-rest}. */
    public String id() {
        return id;
    }

    /** In plain words, for any age. */
    public String words() {
        return words;
    }

    /** In plain words for one age: no report says of a grandfather how he feeds and plays. */
    public String words(Age age) {
        return age.years() >= GROWN_YEARS ? grown : words;
    }
}
