package lungwort.dataset;

import java.util.List;

/** A public database that Lungwort can read, with the splits that can be asked of it. */
public enum DatabaseKind {
    SPRSOUND("SPRSound", "BioCAS2022", List.of("inter", "intra", "train-cv")),
    ICBHI("ICBHI 2017", "ICBHI_final_database", List.of("train", "test", "all", "icbhi-cv"));

    private final String title;
    private final String folderName;
    private final List<String> splitNames;

    DatabaseKind(String title, String folderName, List<String> splitNames) {
        this.title = title;
        this.folderName = folderName;
        this.splitNames = splitNames;
    }

    /** Name for people and reports. */
    public String title() {
        return title;
    }

    /** Name of the folder as its official download has it. */
    public String folderName() {
        return folderName;
    }

    /** The other database. */
    public DatabaseKind other() {
        return this == ICBHI ? SPRSOUND : ICBHI;
    }

    /** Splits that can be scored: {@code train-cv} and {@code icbhi-cv} are cross-validation inside the training set, {@code all} is both sides. */
    public List<String> splitNames() {
        return splitNames;
    }
}
