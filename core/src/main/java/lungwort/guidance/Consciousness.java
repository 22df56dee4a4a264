package lungwort.guidance;

/** How awake and clear a person is, on the scale that NEWS2 uses (alert, confused, voice, pain, unresponsive). */
public enum Consciousness {
    ALERT("alert", "awake and clear"),
    CONFUSED("confused", "newly confused"),
    VOICE("voice", "answers only when spoken to"),
    PAIN("pain", "answers only to pain"),
    UNRESPONSIVE("unresponsive", "does not answer at all");

    private final String id;
    private final String words;

    Consciousness(String id, String words) {
        this.id = id;
        this.words = words;
    }

    /** Name in files, for example {@code confused}. */
    public String id() {
        return id;
    }

    /** In plain words. */
    public String words() {
        return words;
    }
}
