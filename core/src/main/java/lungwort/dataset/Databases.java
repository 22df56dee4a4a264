package lungwort.dataset;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import lungwort.BadInput;

/** The door to the public databases: give a database's folder, or the folder that holds it. */
public final class Databases {
    private Databases() {}

    /**
     * Reads every database that is found in a folder or just below it, SPRSound first.
     *
     * @throws BadInput if there is none, or one is damaged
     */
    public static List<Database> all(Path folder) {
        List<Database> found = new ArrayList<>();
        for (DatabaseKind kind : DatabaseKind.values()) {
            find(folder, kind).ifPresent(root -> found.add(read(root, kind)));
        }
        if (found.isEmpty()) {
            throw notThere(folder, "a database");
        }
        return found;
    }

    /**
     * Reads one database.
     *
     * @throws BadInput if it is not in the folder or just below it, or is damaged
     */
    public static Database open(Path folder, DatabaseKind kind) {
        return find(folder, kind).map(root -> read(root, kind)).orElseThrow(() -> notThere(folder, kind.title()));
    }

    /**
     * Reads the database that a split's name belongs to: {@code inter}, {@code intra}, {@code train-cv} are SPRSound's, {@code test}, {@code all} and {@code icbhi-cv} ICBHI's;
     * {@code train} means ICBHI's training side where ICBHI is there, else SPRSound's.
     *
     * @throws BadInput if no database has such a split, it is not in the folder, or is damaged
     */
    public static Database forSplit(Path folder, String splitName) {
        List<DatabaseKind> owners = new ArrayList<>();
        for (DatabaseKind kind : DatabaseKind.values()) {
            if (kind.splitNames().contains(splitName)) {
                owners.add(kind);
            }
        }
        if (owners.isEmpty()) {
            throw BadInput.of(
                    "no database has a split '%s'; use inter, intra or train-cv (SPRSound), train, test, all or icbhi-cv (ICBHI).",
                    splitName);
        }
        DatabaseKind owner = owners.get(0);
        if (splitName.equals("train") && find(folder, owner).isEmpty()) {
            owner = DatabaseKind.SPRSOUND;
        }
        return openForSplit(folder, owner, splitName);
    }

    private static Database openForSplit(Path folder, DatabaseKind owner, String splitName) {
        Optional<Path> root = find(folder, owner);
        if (root.isPresent()) {
            return read(root.get(), owner);
        }
        List<String> others = new ArrayList<>();
        for (DatabaseKind kind : DatabaseKind.values()) {
            if (find(folder, kind).isPresent()) {
                others.add(kind.title() + ", whose splits are " + String.join(", ", kind.splitNames()));
            }
        }
        if (others.isEmpty()) {
            throw notThere(folder, owner.title());
        }
        throw BadInput.of(
                "%s: the split '%s' is %s's, but the folder holds %s.",
                folder, splitName, owner.title(), String.join("; ", others));
    }

    /** The folder itself if it is the database, or the one below it that bears the official name. */
    public static Optional<Path> find(Path folder, DatabaseKind kind) {
        for (Path candidate : List.of(folder, folder.resolve(kind.folderName()))) {
            if (Files.isDirectory(candidate) && looksLike(candidate, kind)) {
                return Optional.of(candidate);
            }
        }
        return Optional.empty();
    }

    static boolean looksLike(Path folder, DatabaseKind kind) {
        return switch (kind) {
            case SPRSOUND -> SprsoundReader.looksLike(folder);
            case ICBHI -> IcbhiReader.looksLike(folder);
        };
    }

    private static Database read(Path root, DatabaseKind kind) {
        return switch (kind) {
            case SPRSOUND -> SprsoundReader.read(root);
            case ICBHI -> IcbhiReader.read(root);
        };
    }

    private static BadInput notThere(Path folder, String what) {
        if (Misplaced.isArchive(folder)) {
            return BadInput.of(
                    "%s: it is still packed; unpack it, and give the folder that holds %s.", folder, officialNames());
        }
        if (Files.exists(folder) && !Files.isDirectory(folder)) {
            return BadInput.of("%s: it is not a folder; give the folder that holds %s.", folder, officialNames());
        }
        if (!Files.isDirectory(folder)) {
            return BadInput.of("%s: there is no such folder; give the folder that holds %s.", folder, officialNames());
        }
        return BadInput.of(
                "%s: %s was not found there; give the folder that holds %s, or one of these itself (layouts: datasets/README.md).%s",
                folder, what, officialNames(), Misplaced.hint(folder));
    }

    private static String officialNames() {
        return List.of(DatabaseKind.values()).stream()
                .map(DatabaseKind::folderName)
                .collect(Collectors.joining(" or "));
    }
}
