package lungwort;

import java.util.Locale;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * Input that cannot be used: a wrong file, a cut file, a value out of range, a missing folder.
 *
 * <p>The message is one sentence (or a short chain of them) made for the person who gave the input: what is wrong, where (file, byte, second, field), the value met and
 * the range allowed, and how to mend it. Commands print it as it is and exit with 1; the page shows it. It is never used for faults of our own.
 */
public final class BadInput extends RuntimeException {
    private static final long serialVersionUID = 1L;
    private static final Pattern CONTROL = Pattern.compile("\\p{Cntrl}");

    /** @param sentence what is wrong, where, and how to mend it */
    public BadInput(String sentence) {
        super(onOneLine(sentence));
    }

    /**
     * @param sentence what is wrong, where, and how to mend it
     * @param cause the lower fault, kept for debugging and never shown
     */
    public BadInput(String sentence, Throwable cause) {
        super(onOneLine(sentence), cause);
    }

    /**
     * A sentence with values in it. Numbers are written with a decimal point and the digits 0 to 9 whatever the computer's own language, as the sentence is English.
     *
     * @param sentence as for {@link String#format(String, Object...)}
     * @param values for its places
     */
    public static BadInput of(String sentence, @Nullable Object... values) {
        return new BadInput(String.format(Locale.ROOT, sentence, values));
    }

    /** As {@link #of}, with the lower fault, kept for debugging and never shown. */
    public static BadInput because(Throwable cause, String sentence, @Nullable Object... values) {
        return new BadInput(String.format(Locale.ROOT, sentence, values), cause);
    }

    /** The text with a question mark for each control character: names of files and words out of them may hold line ends, and codes that a terminal obeys. */
    public static String onOneLine(String sentence) {
        return CONTROL.matcher(sentence).replaceAll("?");
    }
}
