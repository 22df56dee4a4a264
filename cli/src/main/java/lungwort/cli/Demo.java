package lungwort.cli;

import lungwort.audio.Recording;
import lungwort.practice.PracticeCase;

/** Practice cases under names that say they are synthesised. */
final class Demo {
    private Demo() {}

    /** The recording of a case, called by its kind, so that the reader can hold the suggestion against it. */
    static Recording recording(PracticeCase one) {
        Recording made = one.scene().synthesise().recording();
        return new Recording(made.samples(), made.sampleRateHz(), "synthesised: " + one.id(), made.source());
    }
}
