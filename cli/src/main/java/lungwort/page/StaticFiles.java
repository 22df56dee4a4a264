package lungwort.page;

import io.javalin.http.Context;
import java.io.IOException;
import java.io.InputStream;
import java.util.Map;
import java.util.regex.Pattern;

/** The page's own files and those of the two libraries it uses, from inside the program. */
final class StaticFiles {
    private static final String OWN = "/lungwort/page/";
    private static final String WEBJARS = "/META-INF/resources/webjars/";

    /** Library files by the path they are served at; the versions are those of the build. */
    private static final Map<String, String> LIBRARIES = Map.of(
            "lib/uplot.js", WEBJARS + "uplot/1.6.30/dist/uPlot.esm.js",
            "lib/uplot.css", WEBJARS + "uplot/1.6.30/dist/uPlot.min.css",
            "lib/lit-html.js", WEBJARS + "lit-html/3.3.2/lit-html.js");

    /** Plain names only: nothing that could climb out of the folder. */
    private static final Pattern NAME =
            Pattern.compile("([a-z0-9-]+/){0,3}[a-z0-9-]+(\\.[a-z]{2})?\\.(html|css|js|json|svg)");

    private static final Map<String, String> TYPES = Map.of(
            "html", "text/html; charset=utf-8",
            "css", "text/css; charset=utf-8",
            "js", "text/javascript; charset=utf-8",
            "json", "application/json; charset=utf-8",
            "svg", "image/svg+xml");

    private StaticFiles() {}

    /** Serves a path such as {@code /js/main.js}; {@code /} is the front page. */
    static void serve(Context context) {
        String path = context.path().equals("/") ? "index.html" : context.path().substring(1);
        String resource = LIBRARIES.containsKey(path) ? LIBRARIES.get(path) : OWN + path;
        try (InputStream in = NAME.matcher(path).matches() ? StaticFiles.class.getResourceAsStream(resource) : null) {
            if (in == null) {
                throw new Refused(404, "There is nothing at this address; go back to the start.");
            }
            String type = TYPES.get(path.substring(path.lastIndexOf('.') + 1));
            context.contentType(java.util.Objects.requireNonNull(type)).result(in.readAllBytes());
        } catch (IOException e) {
            throw new IllegalStateException("a resource of the program cannot be read: " + resource, e);
        }
    }
}
