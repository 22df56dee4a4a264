package lungwort.diary;

import lungwort.BadInput;

/** Free text: bounded, and without control characters that a terminal or a page would obey. */
final class Words {
    /** Longest free text, in characters. */
    static final int MAX_LENGTH = 4_000;

    private Words() {}

    /**
     * @param text what was given
     * @param what what it is, for the sentence: "a nickname"
     * @return the text without blanks at its ends
     * @throws BadInput if it is too short, too long, or holds control characters other than line breaks and tabs
     */
    static String check(String text, String what, int minLength, int maxLength) {
        String stripped = text.strip();
        if (stripped.length() < minLength) {
            throw new BadInput("%s is empty; give at least %d character.".formatted(capital(what), minLength));
        }
        if (stripped.length() > maxLength) {
            throw new BadInput("%s has %d characters, but at most %d can be kept; shorten it."
                    .formatted(capital(what), stripped.length(), maxLength));
        }
        if (stripped.chars().anyMatch(c -> Character.isISOControl(c) && c != '\n' && c != '\r' && c != '\t')) {
            throw new BadInput("%s holds a control character; give plain text.".formatted(capital(what)));
        }
        return stripped;
    }

    /** Free text of a person or a round, possibly empty. */
    static String free(String text, String what) {
        return check(text, what, 0, MAX_LENGTH);
    }

    private static String capital(String what) {
        return Character.toUpperCase(what.charAt(0)) + what.substring(1);
    }
}
