package lungwort.page;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.net.URISyntaxException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import lungwort.json.Json;
import org.junit.jupiter.api.Test;

/** The words of the page: all in one file, none missing, none left over, none that reassures. */
class TextsTest {
    private static final Pattern WHOLE_KEY = Pattern.compile("\\bt\\('([^']+)'");
    private static final Pattern NAMED_KEY = Pattern.compile("'([a-z0-9-]+\\.[A-Za-z0-9.-]+)'");
    private static final Pattern BUILT_KEY = Pattern.compile("`([a-z]+\\.(?:[a-z]+\\.)?)\\$\\{");

    private static Path folder() throws URISyntaxException {
        Path page = Path.of(Objects.requireNonNull(TextsTest.class.getResource("/lungwort/page/index.html"))
                .toURI());
        return Objects.requireNonNull(page.getParent());
    }

    private static List<String> scripts() throws IOException, URISyntaxException {
        List<String> scripts = new ArrayList<>();
        try (Stream<Path> files = Files.walk(folder().resolve("js"))) {
            for (Path file :
                    files.filter(f -> f.toString().endsWith(".js")).sorted().toList()) {
                scripts.add(Files.readString(file));
            }
        }
        return scripts;
    }

    private static JsonNode texts() throws IOException, URISyntaxException {
        return Json.parse(Files.readString(folder().resolve("texts/en.json")), "the texts");
    }

    private static Set<String> found(Pattern pattern) throws IOException, URISyntaxException {
        Set<String> keys = new TreeSet<>();
        for (String script : scripts()) {
            Matcher matcher = pattern.matcher(script);
            while (matcher.find()) {
                keys.add(matcher.group(1));
            }
        }
        return keys;
    }

    @Test
    void everyKeyThatAScriptNamesHasWords() throws IOException, URISyntaxException {
        Set<String> known = new TreeSet<>();
        texts().fieldNames().forEachRemaining(known::add);

        assertThat(known).containsAll(found(WHOLE_KEY));
    }

    @Test
    void noWordsAreLeftOver() throws IOException, URISyntaxException {
        Set<String> named = found(NAMED_KEY);
        Set<String> built = found(BUILT_KEY);
        List<String> leftOver = new ArrayList<>();
        texts().fieldNames().forEachRemaining(key -> {
            boolean used = named.contains(key) || built.stream().anyMatch(key::startsWith);
            if (!used) {
                leftOver.add(key);
            }
        });

        assertThat(leftOver).isEmpty();
    }

    @Test
    void nothingReassures() throws IOException, URISyntaxException {
        texts().forEach(words -> assertThat(words.asText().toLowerCase(java.util.Locale.ROOT))
                .doesNotContain("healthy", "all clear", "nothing to worry", "normal", "is fine", "safe"));
    }

    @Test
    void noScriptOrStyleStandsInsideAPage() throws IOException, URISyntaxException {
        String page = Files.readString(folder().resolve("index.html"));

        assertThat(page)
                .doesNotContainPattern("<script(?![^>]*src=)")
                .doesNotContain("<style", "style=", "onclick", "http:");
        for (String script : scripts()) {
            assertThat(script).doesNotContain("innerHTML", "unsafeHTML", "eval(", " style=\"", "https:");
        }
    }
}
