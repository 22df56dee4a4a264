package lungwort.report;

import java.util.ArrayDeque;
import java.util.Deque;

/**
 * Writes well-formed XHTML. All text and every attribute value goes through {@link #escape}; there is no way to put in markup from outside.
 */
final class Html {
    private final StringBuilder out = new StringBuilder(1 << 16);
    private final Deque<String> open = new ArrayDeque<>();

    /** Opens an element; attributes as name, value, name, value. */
    Html start(String name, String... attributes) {
        out.append('<').append(name);
        attributes(attributes);
        out.append('>');
        open.push(name);
        return this;
    }

    /** Closes the innermost element. */
    Html end() {
        String name = open.pop();
        out.append("</").append(name).append('>');
        if (!name.equals("strong")) {
            out.append('\n');
        }
        return this;
    }

    /** An element without content. */
    Html empty(String name, String... attributes) {
        out.append('<').append(name);
        attributes(attributes);
        out.append("/>\n");
        return this;
    }

    /** An element that holds text alone. */
    Html tag(String name, String text, String... attributes) {
        return start(name, attributes).text(text).end();
    }

    Html text(String text) {
        out.append(escape(text));
        return this;
    }

    /** The program's own style sheet, which needs no escaping. */
    Html style(String css) {
        out.append("<style>").append(css).append("</style>\n");
        return this;
    }

    private void attributes(String... attributes) {
        for (int i = 0; i + 1 < attributes.length; i += 2) {
            out.append(' ').append(attributes[i]).append("=\"");
            out.append(escape(attributes[i + 1])).append('"');
        }
    }

    /** The document; every element must be closed. */
    String finish() {
        return "<!DOCTYPE html>\n" + fragment();
    }

    /** What was written, without the beginning of a document; every element must be closed. */
    String fragment() {
        if (!open.isEmpty()) {
            throw new IllegalStateException("not closed: " + open);
        }
        return out.toString();
    }

    /** Characters that mean something to HTML become references; those that XML forbids, and those that turn the direction of writing, become U+FFFD. */
    static String escape(String text) {
        StringBuilder safe = new StringBuilder(text.length() + 16);
        text.codePoints().forEach(c -> {
            switch (c) {
                case '<' -> safe.append("&lt;");
                case '>' -> safe.append("&gt;");
                case '&' -> safe.append("&amp;");
                case '"' -> safe.append("&quot;");
                case '\'' -> safe.append("&#39;");
                default -> safe.appendCodePoint(allowed(c) ? c : 0xFFFD);
            }
        });
        return safe.toString();
    }

    private static boolean allowed(int c) {
        boolean turnsDirection = c >= 0x202A && c <= 0x202E || c >= 0x2066 && c <= 0x2069;
        boolean surrogate = c >= 0xD800 && c <= 0xDFFF;
        boolean control = c < 0x20 && c != '\n' && c != '\t' && c != '\r' || c >= 0x7F && c <= 0x9F;
        return !turnsDirection && !surrogate && !control && c != 0xFFFE && c != 0xFFFF;
    }
}
