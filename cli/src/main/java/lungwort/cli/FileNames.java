package lungwort.cli;

import java.nio.file.Path;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import lungwort.BadInput;

/** What the files of one run are called in what is printed: by their names alone, since a folder can hold a person's; by their paths where two share a name, and nothing else would tell which is meant. */
final class FileNames {
    private final Set<Path> sharing = new HashSet<>();

    /** @param all files of the run; one that is named twice shares its name with none */
    FileNames(List<Path> all) {
        Map<String, Set<Path>> byName = new HashMap<>();
        for (Path file : all) {
            byName.computeIfAbsent(name(file), name -> new HashSet<>()).add(file.normalize());
        }
        byName.values().stream().filter(paths -> paths.size() > 1).forEach(sharing::addAll);
    }

    /** True if another file has the same name. */
    boolean shared(Path file) {
        return sharing.contains(file.normalize());
    }

    /** The file's name; its path as it was given or found where another has the same name. */
    String of(Path file) {
        return shared(file) ? BadInput.onOneLine(file.toString()) : name(file);
    }

    private static String name(Path file) {
        return String.valueOf(file.getFileName());
    }
}
