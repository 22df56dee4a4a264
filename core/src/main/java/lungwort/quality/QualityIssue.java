package lungwort.quality;

/** A reason for which a recording is hard or impossible to judge, with what to do before trying again. */
public enum QualityIssue {
    TOO_SHORT(
            "too-short",
            "The recording is too short to judge.",
            "Record at least three easy, deep breaths, about 15 seconds."),
    SILENT(
            "silent",
            "The recording holds no sound.",
            "Check that the stethoscope or microphone is connected and not muted, then record again."),
    TOO_QUIET("too-quiet", "The recording is very quiet.", "Press the stethoscope flat on bare skin and record again."),
    CLIPPED(
            "clipped",
            "The recording is overdriven: its loudest parts are cut off.",
            "Lower the recording level or press more gently, then record again."),
    NOISY(
            "noisy",
            "There is too much other noise.",
            "Go to a quiet room, hold the stethoscope still, and record again.");

    private final String id;
    private final String reason;
    private final String remedy;

    QualityIssue(String id, String reason, String remedy) {
        this.id = id;
        this.reason = reason;
        this.remedy = remedy;
    }

    /** Name in files, for example {@code too-quiet}. */
    public String id() {
        return id;
    }

    /** One sentence that says what is wrong. */
    public String reason() {
        return reason;
    }

    /** One sentence that says what to do before trying again. */
    public String remedy() {
        return remedy;
    }
}
