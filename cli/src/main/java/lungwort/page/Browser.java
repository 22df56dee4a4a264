package lungwort.page;

import java.io.IOException;
import java.util.List;
import java.util.Locale;

/** Opens an address in the browser the person usually uses. */
public final class Browser {
    private Browser() {}

    /** @return false if this computer has no way to do so that is known here; then the person copies the address */
    public static boolean open(String address) {
        try {
            new ProcessBuilder(command(System.getProperty("os.name", ""), address))
                    .redirectErrorStream(true)
                    .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                    .start();
            return true;
        } catch (IOException e) {
            return false;
        }
    }

    static List<String> command(String system, String address) {
        String lower = system.toLowerCase(Locale.ROOT);
        if (lower.startsWith("windows")) {
            return List.of("rundll32", "url.dll,FileProtocolHandler", address);
        }
        return List.of(lower.startsWith("mac") ? "open" : "xdg-open", address);
    }
}
