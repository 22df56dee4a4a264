package lungwort.report;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import lungwort.BadInput;

/** The model card that comes with Lungwort, and the part of it that a report repeats word for word: its measured error rates. */
final class CardSection {
    /** Said where the build holds no card. */
    static final String NO_CARD =
            "This build of Lungwort holds no model card: how often the model is wrong is not known here. Do not lean on its suggestions.";

    private static final String RESOURCE = "/lungwort/models/CARD.md";
    private static final List<String> TELLING =
            List.of("how often it is wrong", "error", "measured", "figures", "performance");

    private CardSection() {}

    /** The whole card; empty where this build has none. */
    static String shipped() {
        try (InputStream in = CardSection.class.getResourceAsStream(RESOURCE)) {
            return in == null ? "" : new String(in.readAllBytes(), StandardCharsets.UTF_8).replace("\r\n", "\n");
        } catch (IOException e) {
            throw new BadInput("The model card cannot be read from the program (%s).".formatted(e.getMessage()), e);
        }
    }

    /**
     * The section on error rates: from the first heading that tells of them up to the next heading of the same or a higher level.
     *
     * @return its lines without the heading; empty where the card has no such section
     */
    static List<String> errorRates(String card) {
        List<String> lines = card.lines().toList();
        for (String word : TELLING) {
            for (int i = 0; i < lines.size(); i++) {
                int level = level(lines.get(i));
                if (level > 1 && lines.get(i).toLowerCase(Locale.ROOT).contains(word)) {
                    return section(lines, i + 1, level);
                }
            }
        }
        return List.of();
    }

    private static List<String> section(List<String> lines, int from, int level) {
        List<String> section = new ArrayList<>();
        for (String line : lines.subList(from, lines.size())) {
            int other = level(line);
            if (other > 0 && other <= level) {
                break;
            }
            section.add(line);
        }
        return section;
    }

    private static int level(String line) {
        int level = 0;
        while (level < line.length() && line.charAt(level) == '#') {
            level++;
        }
        return level;
    }
}
