package lungwort.dataset;

import java.util.List;

/**
 * Names of folders and codes of SPRSound's 2022 release (Zhang et al., IEEE TBioCAS 2022). Sites by the database's own page: p1 left posterior, p2 left lateral, p3 right
 * posterior, p4 right lateral; sex: 0 male, 1 female.
 */
final class SprsoundLayout {
    static final Part TRAIN = new Part(Split.TRAIN, "train2022_json", "train2022_wav");
    static final Part INTER = new Part(Split.INTER, "test2022_json/inter_test_json", "test2022_wav");
    static final Part INTRA = new Part(Split.INTRA, "test2022_json/intra_test_json", "test2022_wav");
    static final List<Part> PARTS = List.of(TRAIN, INTER, INTRA);

    /** The whole database is from one stethoscope; the release gives it no code. */
    static final String DEVICE = "sprsound";

    private SprsoundLayout() {}

    /** Where one split's annotations and audio are, relative to the database's folder. */
    record Part(Split split, String annotations, String audio) {}
}
