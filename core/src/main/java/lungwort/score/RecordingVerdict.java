package lungwort.score;

import lungwort.dataset.RecordingLabel;

/** The three classes of the SPRSound challenge's task 2-1. */
public enum RecordingVerdict {
    NORMAL("normal"),
    ADVENTITIOUS("adventitious"),
    POOR_QUALITY("poor-quality");

    private final String id;

    RecordingVerdict(String id) {
        this.id = id;
    }

    /** Name in files. */
    public String id() {
        return id;
    }

    /** The verdict that a label of five classes amounts to. */
    public static RecordingVerdict of(RecordingLabel label) {
        if (label == RecordingLabel.POOR_QUALITY) {
            return POOR_QUALITY;
        }
        return label.adventitious() ? ADVENTITIOUS : NORMAL;
    }
}
