package lungwort.report;

import java.util.List;

/** Tables that a screen reader can read: a caption, a header for each column and for each row. */
final class Tables {
    private Tables() {}

    /** Writes a table whose first column heads its rows. */
    static void write(Html html, String caption, List<String> columns, List<? extends List<String>> rows) {
        write(html, "plain", caption, columns, rows);
    }

    /** The same with a class for the style sheet. */
    static void write(
            Html html, String style, String caption, List<String> columns, List<? extends List<String>> rows) {
        html.start("table", "class", style).tag("caption", caption);
        html.start("thead").start("tr");
        columns.forEach(c -> html.tag("th", c, "scope", "col"));
        html.end().end().start("tbody");
        for (List<String> row : rows) {
            html.start("tr");
            for (int i = 0; i < row.size(); i++) {
                if (i == 0) {
                    html.tag("th", row.get(i), "scope", "row");
                } else {
                    // On a phone cells stand below one another, each with its column's name before it.
                    html.tag("td", row.get(i), "data-label", columns.get(i));
                }
            }
            html.end();
        }
        html.end().end();
    }
}
