package lungwort.sound;

/** A sound that was measured: where it is and what it is called by its numbers alone. */
public sealed interface MeasuredSound permits ContinuousSound, Crackle {
    /** What its numbers make it. */
    SoundKind kind();

    /** Start within the recording, in seconds. */
    double startSeconds();

    /** End within the recording, in seconds. */
    double endSeconds();

    /** Level above the local background, in dB. */
    double prominenceDb();

    /** Length in seconds. */
    default double durationSeconds() {
        return endSeconds() - startSeconds();
    }
}
