package lungwort.picture;

import java.awt.Color;

/**
 * Colours that stay apart for people who see red and green alike, and in grey print. Meaning is never carried by colour alone: shapes and letters say the same.
 */
final class Palette {
    static final Color INK = new Color(0x1b, 0x1b, 0x1b);
    static final Color FAINT_INK = new Color(0x55, 0x55, 0x55);
    static final Color GRID = new Color(255, 255, 255, 60);
    static final Color PAPER = Color.WHITE;

    /** Continuous sounds: orange of the Okabe-Ito set (Okabe and Ito, Color Universal Design, 2008: 230, 159, 0 as others list it, second-hand). */
    static final Color CONTINUOUS = new Color(0xe6, 0x9f, 0x00);

    /** Crackles: sky blue of the same set, readable on dark and on white. */
    static final Color CRACKLE = new Color(0x56, 0xb4, 0xe9);

    static final Color INSPIRATION = new Color(0xcc, 0xdd, 0xee);
    static final Color EXPIRATION = new Color(0x77, 0x88, 0x99);
    static final Color UNKNOWN_PHASE = new Color(0xf2, 0xf2, 0xf2);

    /** From quiet to loud: dark blue over grey to pale yellow; lightness rises all the way, so grey print keeps the order. */
    private static final int[][] RAMP = {
        {0, 20, 60},
        {20, 45, 100},
        {66, 78, 108},
        {107, 109, 113},
        {144, 138, 120},
        {187, 171, 110},
        {230, 206, 85},
        {255, 240, 130}
    };

    private Palette() {}

    /**
     * Colour of a level.
     *
     * @param level in [0, 1], clamped
     * @return packed RGB
     */
    static int levelRgb(double level) {
        double position = Math.max(0, Math.min(1, level)) * (RAMP.length - 1);
        int low = Math.min((int) position, RAMP.length - 2);
        double share = position - low;
        int rgb = 0;
        for (int channel = 0; channel < 3; channel++) {
            double value = RAMP[low][channel] * (1 - share) + RAMP[low + 1][channel] * share;
            rgb = rgb << 8 | (int) Math.round(value);
        }
        return rgb;
    }
}
