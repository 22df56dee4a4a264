package lungwort.diary;

import java.text.Normalizer;
import java.util.Locale;
import lungwort.BadInput;

/** What people see of a nickname. Two who read alike would be taken for one another, and one who is entered as two has half the days to be held against. */
final class Nicknames {
    /** Turn what stands behind them round, or end that (Unicode Standard Annex 9). The marks that Hebrew and Arabic are written with are not among them. */
    private static final String TURNING = "\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069";

    private Nicknames() {}

    /** The same for all nicknames that read alike: without regard to case, to how accents and widths are coded (Unicode Standard Annex 15, NFKC), and to what cannot be seen. */
    static String read(String nickname) {
        // By way of upper case, so that ß reads as ss in both.
        String folded = Normalizer.normalize(typed(nickname), Normalizer.Form.NFKC)
                .toUpperCase(Locale.ROOT)
                .toLowerCase(Locale.ROOT);
        return Normalizer.normalize(folded, Normalizer.Form.NFKC).strip().replaceAll("\\s+", " ");
    }

    /** What is typed to get it: without what cannot be seen, and without regard to how accents are coded (NFC). */
    static String typed(String nickname) {
        String seen = nickname.codePoints()
                .filter(c -> Character.getType(c) != Character.FORMAT)
                .collect(StringBuilder::new, StringBuilder::appendCodePoint, StringBuilder::append)
                .toString();
        return Normalizer.normalize(seen, Normalizer.Form.NFC).strip();
    }

    /**
     * Refuses a nickname that cannot stand in a line; asked of new ones only, so that those in older diaries can still be read.
     *
     * @throws BadInput if it has several lines, nothing that can be seen, or turns the letters round that stand behind it
     */
    static void check(String nickname) {
        if (nickname.codePoints().anyMatch(Nicknames::breaksLine)) {
            throw new BadInput("The nickname goes over more than one line; give it on one.");
        }
        if (nickname.codePoints().anyMatch(c -> TURNING.indexOf(c) >= 0)) {
            throw new BadInput(
                    "The nickname holds a sign that cannot be seen and turns round what stands behind it; type it anew.");
        }
        if (nickname.codePoints().noneMatch(Nicknames::isSeen)) {
            throw new BadInput("The nickname holds nothing that can be seen; give at least one letter.");
        }
    }

    private static boolean breaksLine(int c) {
        int type = Character.getType(c);
        return Character.isISOControl(c) || type == Character.LINE_SEPARATOR || type == Character.PARAGRAPH_SEPARATOR;
    }

    private static boolean isSeen(int c) {
        return switch (Character.getType(c)) {
            case Character.FORMAT, Character.SPACE_SEPARATOR, Character.CONTROL, Character.SURROGATE -> false;
            default -> true;
        };
    }

    /** Its beginning, of at most so many characters and never half of one. */
    static String cut(String nickname, int maxLength) {
        if (nickname.length() <= maxLength) {
            return nickname;
        }
        boolean halves = Character.isHighSurrogate(nickname.charAt(maxLength - 1));
        return nickname.substring(0, halves ? maxLength - 1 : maxLength);
    }
}
