package lungwort.diary;

import java.nio.file.Path;
import java.util.Locale;
import java.util.Map;
import lungwort.BadInput;
import org.jspecify.annotations.Nullable;

/** Where the diary lies. */
public final class DiaryFolder {
    /** Environment variable that names another folder than the usual one. */
    public static final String VARIABLE = "LUNGWORT_DIARY";

    private DiaryFolder() {}

    /**
     * The folder named on the command line, else by {@value #VARIABLE}, else the usual one of this system.
     *
     * @param named the folder named by the user, or null
     */
    public static Path locate(@Nullable Path named) {
        return locate(named, System.getenv(), System.getProperty("os.name", ""), System.getProperty("user.home", ""));
    }

    /**
     * The same with everything it depends on given; Linux by the XDG Base Directory Specification 0.8, where a relative path is passed over.
     *
     * @param home the home folder of the account, where none that is absolute is named by {@code HOME}; blank or {@code ?} where it is not known
     */
    static Path locate(@Nullable Path named, Map<String, String> environment, String system, String home) {
        if (named != null) {
            return named.toAbsolutePath().normalize();
        }
        String variable = environment.getOrDefault(VARIABLE, "");
        if (!variable.isBlank()) {
            return Path.of(variable).toAbsolutePath().normalize();
        }
        String lower = system.toLowerCase(Locale.ROOT);
        if (lower.startsWith("windows")) {
            String local = environment.getOrDefault("LOCALAPPDATA", "");
            return (local.isBlank() ? inHome(home, "AppData", "Local") : Path.of(local)).resolve("Lungwort");
        }
        // What the shell and the README call ~; Java asks the list of accounts, which may say otherwise.
        String own = environment.getOrDefault("HOME", "");
        String at = own.startsWith("/") ? own : home;
        if (lower.startsWith("mac")) {
            return inHome(at, "Library", "Application Support", "Lungwort");
        }
        String data = environment.getOrDefault("XDG_DATA_HOME", "");
        return (data.startsWith("/") ? Path.of(data) : inHome(at, ".local", "share")).resolve("lungwort");
    }

    private static Path inHome(String home, String... names) {
        if (home.isBlank() || home.equals("?")) {
            throw new BadInput(
                    "No home folder is known for the diary; name a folder with --diary DIR or %s.".formatted(VARIABLE));
        }
        return Path.of(home, names);
    }
}
