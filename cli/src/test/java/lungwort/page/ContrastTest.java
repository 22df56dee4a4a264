package lungwort.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.Color;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.Map;
import java.util.Objects;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The page's colours stand out from one another by day and by night: WCAG 2.2, 1.4.3 (text, 4.5 to 1) and 1.4.11 (edges and marks, 3 to 1). */
class ContrastTest {
    private static final Pattern COLOUR = Pattern.compile("--([a-z-]+):\\s*(#[0-9a-fA-F]{6})");
    private static final Pattern NIGHT =
            Pattern.compile("@media \\(prefers-color-scheme: dark\\) \\{(.*?)\n}", Pattern.DOTALL);

    private static String css(String name) throws IOException {
        try (InputStream in =
                Objects.requireNonNull(ContrastTest.class.getResourceAsStream("/lungwort/page/" + name))) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        }
    }

    private static Map<String, Color> colours(String css) {
        Map<String, Color> colours = new HashMap<>();
        Matcher matcher = COLOUR.matcher(css);
        while (matcher.find()) {
            colours.put(matcher.group(1), Color.decode(matcher.group(2)));
        }
        return colours;
    }

    private static Map<String, Color> day() throws IOException {
        return colours(NIGHT.matcher(css("css/page.css")).replaceAll(""));
    }

    private static Map<String, Color> night() throws IOException {
        Matcher matcher = NIGHT.matcher(css("css/page.css"));
        assertThat(matcher.find()).as("the page has colours for the night").isTrue();
        return colours(matcher.group(1));
    }

    /** WCAG 2.2, relative luminance. */
    private static double luminance(Color colour) {
        return 0.2126 * linear(colour.getRed())
                + 0.7152 * linear(colour.getGreen())
                + 0.0722 * linear(colour.getBlue());
    }

    private static double linear(int channel) {
        double share = channel / 255.0;
        return share <= 0.04045 ? share / 12.92 : Math.pow((share + 0.055) / 1.055, 2.4);
    }

    /** WCAG 2.2, contrast ratio: 1 to 21. */
    private static double contrast(Color a, Color b) {
        double lighter = Math.max(luminance(a), luminance(b));
        double darker = Math.min(luminance(a), luminance(b));
        return (lighter + 0.05) / (darker + 0.05);
    }

    private static double contrast(Map<String, Color> colours, String a, String b) {
        return contrast(Objects.requireNonNull(colours.get(a), a), Objects.requireNonNull(colours.get(b), b));
    }

    @Test
    void blackOnWhiteIsTwentyOneToOneAndAGreyThatWcagNamesIsOnItsLimit() {
        assertThat(contrast(Color.BLACK, Color.WHITE)).isEqualTo(21);
        assertThat(contrast(new Color(0x767676), Color.WHITE)).isBetween(4.5, 4.6);
    }

    @Test
    void everyColourOfTheDayHasOneForTheNight() throws IOException {
        assertThat(night()).containsOnlyKeys(day().keySet());
        assertThat(luminance(Objects.requireNonNull(night().get("paper"))))
                .as("the night is dark")
                .isLessThan(0.02);
    }

    @ParameterizedTest
    @CsvSource({
        "ink, paper",
        "ink, card",
        "ink, wash",
        "ink, warn-wash",
        "ink, danger-wash",
        "ink, done-wash",
        "soft, paper",
        "soft, card",
        "soft, wash",
        "soft, warn-wash",
        "soft, danger-wash",
        "main, paper",
        "main, card",
        "main, wash",
        "main, warn-wash",
        "main, danger-wash",
        "on-main, main",
        "on-main, main-strong",
        "on-danger, danger-fill",
        "danger, paper",
        "danger, card"
    })
    void wordsStandOut(String words, String behind) throws IOException {
        assertThat(contrast(day(), words, behind)).as("by day").isGreaterThanOrEqualTo(4.5);
        assertThat(contrast(night(), words, behind)).as("by night").isGreaterThanOrEqualTo(4.5);
    }

    /** Edges of what is pressed or filled in, the ring of the focus, the places on the drawing, the lines of a plot, the alarm. */
    @ParameterizedTest
    @CsvSource({
        "edge, paper",
        "edge, card",
        "main, paper",
        "main, card",
        "danger, danger-wash",
        "warn, warn-wash",
        "focus, paper",
        "focus, card",
        "focus, wash",
        "edge, skin",
        "main, skin",
        "skin-edge, card",
        "ink, card",
        "done, skin",
        "done, done-wash",
        "warn, skin",
        "ink, skin",
        "danger-fill, paper",
        "on-danger, danger-fill"
    })
    void edgesAndMarksStandOut(String mark, String behind) throws IOException {
        assertThat(contrast(day(), mark, behind)).as("by day").isGreaterThanOrEqualTo(3);
        assertThat(contrast(night(), mark, behind)).as("by night").isGreaterThanOrEqualTo(3);
    }

    /** The colours over a recording's picture, which is dark by day and by night, may be written where they are used; no others. */
    @Test
    void noOtherColourIsHiddenInTheSheets() throws IOException {
        assertThat(NIGHT.matcher(css("css/page.css")).replaceAll("").replaceAll("(?s):root \\{.*?\n}", ""))
                .doesNotContainPattern("#[0-9a-fA-F]{3}");
        assertThat(css("css/parts.css").lines())
                .filteredOn(line -> line.matches(".*#[0-9a-fA-F]{3}.*"))
                .allMatch(line -> line.matches("(\\.marks|\\.tone|\\.heard|\\.crackle|rect\\.phase|text\\.phase).*"));
    }
}
