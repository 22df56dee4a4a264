package lungwort.output;

import java.nio.charset.StandardCharsets;
import java.util.regex.Pattern;

/**
 * A kind of file that is written, and how one that was written before is known: by what it begins with.
 *
 * @param words what it is, for sentences: "a picture"
 * @param beginning what its first {@value #LOOKED_AT} bytes begin with, each byte as the character of the same number
 */
public record OutputKind(String words, Pattern beginning) {
    /** How many bytes of a file are looked at. */
    static final int LOOKED_AT = 64;

    /** A picture as PNG. */
    public static final OutputKind PICTURE = new OutputKind("a picture", "\\x89PNG\\r\\n\\x1A\\n");

    /** @param beginning a regular expression in which a dot stands for any byte */
    public OutputKind(String words, String beginning) {
        this(words, Pattern.compile(beginning, Pattern.DOTALL));
    }

    /** True if a file with these first bytes is of the kind. */
    boolean isOf(byte[] start) {
        return beginning.matcher(new String(start, StandardCharsets.ISO_8859_1)).lookingAt();
    }
}
