package lungwort.score;

import lungwort.audio.Recording;

/** What is done to recordings before they are judged: a row of a robustness table. {@link AlterationRow} holds those that need no other program. */
public interface SoundChange {
    /** Name on the command line. */
    String id();

    /** Alters a recording; the same for the same seed. */
    Recording apply(Recording recording, long seed);
}
