package lungwort.report;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** Writes the little Markdown that a model card uses: headings, paragraphs, lists and tables. Anything else is shown as it stands. */
final class Markdown {
    private final Html html;
    private final String caption;
    private final List<String> paragraph = new ArrayList<>();
    private final List<String> items = new ArrayList<>();
    private final List<List<String>> rows = new ArrayList<>();

    private Markdown(Html html, String caption) {
        this.html = html;
        this.caption = caption;
    }

    /** Writes lines; {@code caption} names the tables for those who cannot see them. */
    static void write(Html html, List<String> lines, String caption) {
        Markdown markdown = new Markdown(html, caption);
        lines.forEach(markdown::line);
        markdown.flush();
    }

    private void line(String raw) {
        String line = raw.strip();
        if (line.startsWith("|")) {
            if (rows.isEmpty()) {
                flush();
            }
            row(line);
        } else if (line.startsWith("- ") || line.startsWith("* ")) {
            if (items.isEmpty()) {
                flush();
            }
            items.add(plain(line.substring(2)));
        } else if (line.startsWith("#")) {
            flush();
            html.tag("h4", plain(line.replaceFirst("^#+\\s*", "")));
        } else if (line.isEmpty()) {
            flush();
        } else if (!items.isEmpty()) {
            items.set(items.size() - 1, items.get(items.size() - 1) + " " + plain(line));
        } else {
            if (!rows.isEmpty()) {
                flush();
            }
            paragraph.add(plain(line));
        }
    }

    private void row(String line) {
        String inner = line.replaceAll("^\\||\\|$", "");
        if (!inner.matches("[\\s|:-]+") || !inner.contains("-")) {
            rows.add(Arrays.stream(inner.split("\\|", -1)).map(Markdown::plain).toList());
        }
    }

    private static String plain(String text) {
        return text.strip().replace("**", "").replace("`", "");
    }

    private void flush() {
        if (!paragraph.isEmpty()) {
            html.tag("p", String.join(" ", paragraph));
            paragraph.clear();
        }
        if (!items.isEmpty()) {
            html.start("ul");
            items.forEach(i -> html.tag("li", i));
            html.end();
            items.clear();
        }
        if (!rows.isEmpty()) {
            Tables.write(html, caption, rows.get(0), rows.subList(1, rows.size()));
            rows.clear();
        }
    }
}
