package lungwort.picture;

import java.awt.Rectangle;

/**
 * Places seconds and Hz on a picture.
 *
 * @param area the plot's area in pixels
 * @param fromSeconds time at its left edge
 * @param toSeconds time at its right edge
 * @param topHz frequency at its upper edge; the lower edge is 0 Hz
 */
record Axes(Rectangle area, double fromSeconds, double toSeconds, double topHz) {
    int x(double seconds) {
        return (int) Math.round(area.x + (seconds - fromSeconds) / (toSeconds - fromSeconds) * area.width);
    }

    int y(double hz) {
        return (int) Math.round(area.y + area.height - Math.min(hz, topHz) / topHz * area.height);
    }

    /** A step of 1, 2 or 5 times a power of ten that puts labels at least {@code pixels} apart. */
    static double step(double span, int length, int pixels) {
        double raw = span / Math.max(1, length / (double) pixels);
        double decade = Math.pow(10, Math.floor(Math.log10(raw)));
        for (double factor : new double[] {1, 2, 5}) {
            if (factor * decade >= raw) {
                return factor * decade;
            }
        }
        return 10 * decade;
    }
}
