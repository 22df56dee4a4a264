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
            "Go to a quiet room, hold the stethoscope still, and record again."),
    NO_BREATH(
            "no-breath",
            "No breath stands out in the recording.",
            "Move the stethoscope to another spot between the ribs, press it flat on bare skin, and have the person breathe deeply with the mouth open."),
    TOO_FEW_BREATHS(
            "too-few-breaths",
            "There are too few whole breaths to judge.",
            "Record longer: three easy, deep breaths or more at each spot."),
    MOSTLY_HEART(
            "mostly-heart",
            "The heart is heard, but hardly any breath.",
            "Move the stethoscope away from the heart, to the back or the right side, and record again."),
    TALKING(
            "talking",
            "Someone talks or cries in the recording.",
            "Wait until it is quiet, ask everybody not to talk, and record again."),
    HANDLING(
            "handling",
            "The chest piece was touched or bumped.",
            "Rest your hand, hold the stethoscope still, keep the tube or cable free, and record again."),
    FRICTION(
            "friction",
            "The chest piece slid on skin or cloth.",
            "Lay it on bare skin, press it on firmly and hold it still, then record again."),
    LIFTED(
            "lifted",
            "The chest piece was off the chest for part of the recording, or the breathing paused there.",
            "Watch whether the breathing stops, press it flat on bare skin before you start, keep it there until the end, and record again."),
    DROPOUTS(
            "dropouts",
            "Parts of the sound are missing.",
            "Check the cable or the wireless connection and come closer to the receiver, then record again."),
    HUM(
            "hum",
            "Mains hum is in the recording.",
            "Unplug the charger, step away from electrical devices, and record again."),
    BAND_LIMITED(
            "band-limited",
            "The device or the file format cut off the higher frequencies.",
            "Record with a lossless format (WAV or FLAC), with the stethoscope's diaphragm or wide filter setting, and not over a telephone line."),
    AUTOMATIC_GAIN(
            "automatic-gain",
            "The device changed its recording level by itself.",
            "Turn off automatic gain (or voice mode) in the recorder's settings, and record again."),
    NOISE_SUPPRESSED(
            "noise-suppressed",
            "The device suppressed soft sounds as noise, and may have taken breath sounds with them.",
            "Turn off noise suppression (or voice mode) in the recorder's settings, and record again."),
    UNCLEAR(
            "unclear",
            "Listeners could not judge recordings that look like this one.",
            "Hold the stethoscope still on bare skin in a quiet room, wait until the person breathes calmly, and record again.");

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
