package lungwort.guidance;

import lungwort.BadInput;

/**
 * The number to call in an emergency where this person lives: asked once, never assumed.
 *
 * @param digits as dialled: 2 to 20 digits, spaces, or a leading plus
 */
public record EmergencyNumber(String digits) {
    /** @throws BadInput if it cannot be a telephone number */
    public EmergencyNumber {
        digits = digits.strip();
        if (!digits.matches("\\+?[0-9][0-9 ]{1,19}")) {
            throw BadInput.of(
                    "emergency number: \"%s\" is not a telephone number; give 2 to 20 digits, as you would dial them.",
                    digits);
        }
    }
}
