package lungwort.guidance;

/** What to do next, in order of severity: the first is the gravest. */
public enum Outcome {
    EMERGENCY_NOW(
            "emergency-now",
            "Emergency: call for help now",
            "Call your emergency number now. Do not wait for a recording or another measurement."),
    BE_SEEN_TODAY(
            "be-seen-today",
            "Be seen by a clinician today",
            "Have a clinician see or assess this person today. If it gets worse while you wait, or a danger sign appears, call for emergency help."),
    NEXT_TAKE(
            "next-take",
            "Find out more, then look again",
            "Too little is known to go by, or something has to be looked at again. Do what is listed, then look at the next step again. If a danger sign appears, call for emergency help."),
    KEEP_WATCHING(
            "keep-watching",
            "Keep watching",
            "This is not an all-clear. It only means that nothing you entered crosses a limit that Lungwort knows. A person can be very ill with no extra sound and"
                    + " ordinary numbers. If you are worried, get help: you know this person best.");

    private final String id;
    private final String words;
    private final String meaning;

    Outcome(String id, String words, String meaning) {
        this.id = id;
        this.words = words;
        this.meaning = meaning;
    }

    /** Name in files, for example {@code be-seen-today}. */
    public String id() {
        return id;
    }

    /** In plain words, as a heading. */
    public String words() {
        return words;
    }

    /** What it means, in plain words; shown wherever the heading is. */
    public String meaning() {
        return meaning;
    }

    /** The graver of the two. */
    public Outcome orGraver(Outcome other) {
        return compareTo(other) <= 0 ? this : other;
    }

    /** True if this is as grave as the other, or graver. */
    public boolean atLeast(Outcome other) {
        return compareTo(other) <= 0;
    }
}
