package lungwort.compare;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Line2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.awt.image.BufferedImage;
import java.nio.file.Path;
import java.util.List;
import lungwort.BadInput;
import lungwort.picture.Pictures;

/**
 * A comparison as a picture: both spectra above, and below each difference as a share of what two takes of the same thing stay within. Line shapes and dots tell the takes apart,
 * not colour alone.
 */
public final class ComparisonPicture {
    private static final int WIDTH_PX = 1000;
    private static final int LEFT_PX = 90;
    private static final int RIGHT_PX = 30;
    private static final int SPECTRA_TOP_PX = 110;
    private static final int SPECTRA_PX = 260;
    private static final int ROW_PX = 26;
    private static final int NAMES_PX = 560;
    private static final double LARGEST_SHARE = 2.5;

    private static final Color INK = new Color(0x1b1b1b);
    private static final Color FAINT = new Color(0x767676);
    private static final Color GRID = new Color(0xe2e2e2);
    private static final Color SAME = new Color(0xd4e3f2);
    private static final Color FIRST = new Color(0x0b4f8a);
    private static final Color SECOND = new Color(0xa84300);

    private final Comparison comparison;
    private final List<Difference> limited;
    private final Graphics2D g;

    private ComparisonPicture(Comparison comparison, List<Difference> limited, Graphics2D g) {
        this.comparison = comparison;
        this.limited = limited;
        this.g = g;
    }

    /**
     * Draws and writes a PNG file, over an older picture.
     *
     * @throws BadInput if it cannot be written
     */
    public static void write(Comparison comparison, Path file) {
        Pictures.requireFont();
        Pictures.write(draw(comparison), file);
    }

    /** Draws. */
    public static BufferedImage draw(Comparison comparison) {
        List<Difference> limited =
                comparison.differences().stream().filter(d -> d.limit() != null).toList();
        int height = SPECTRA_TOP_PX + SPECTRA_PX + 110 + ROW_PX * Math.max(1, limited.size()) + 80;
        BufferedImage image = new BufferedImage(WIDTH_PX, height, BufferedImage.TYPE_INT_RGB);
        Graphics2D g = image.createGraphics();
        try {
            g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
            g.setRenderingHint(RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
            g.setColor(Color.WHITE);
            g.fillRect(0, 0, WIDTH_PX, height);
            new ComparisonPicture(comparison, limited, g).all(height);
        } finally {
            g.dispose();
        }
        return image;
    }

    private void all(int height) {
        legend(comparison.relation().first(), comparison.first(), 32, FIRST, false);
        legend(comparison.relation().second(), comparison.second(), 58, SECOND, true);
        text("Median spectrum (dB re full scale squared per Hz)", LEFT_PX, SPECTRA_TOP_PX - 12, Font.BOLD, 15, INK);
        spectra();
        int top = SPECTRA_TOP_PX + SPECTRA_PX + 96;
        text(
                "Difference, second less first, against what the same thing differs by",
                LEFT_PX,
                top - 34,
                Font.BOLD,
                15,
                INK);
        differences(top);
        text(
                "Band: two takes of the same thing stay within it in 95 of 100 pairs (children, one kind of stethoscope).",
                LEFT_PX,
                height - 38,
                Font.PLAIN,
                13,
                INK);
        text(
                "A difference is no diagnosis, and no difference is no all-clear. Danger signs, the care plan and clinicians decide.",
                LEFT_PX,
                height - 18,
                Font.PLAIN,
                13,
                INK);
    }

    private void legend(String role, TakeMeasures take, int y, Color colour, boolean dashed) {
        g.setColor(colour);
        g.setStroke(stroke(dashed));
        g.draw(new Line2D.Double(LEFT_PX, y - 5, LEFT_PX + 46, y - 5));
        String name = take.name().length() > 60 ? take.name().substring(0, 57) + "..." : take.name();
        text(
                "%s: %s. Suggests %s.".formatted(role, name, Findings.words(take.suggestion())),
                LEFT_PX + 58,
                y,
                Font.PLAIN,
                15,
                INK);
    }

    private static BasicStroke stroke(boolean dashed) {
        return dashed
                ? new BasicStroke(2.4f, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND, 1, new float[] {9, 6}, 0)
                : new BasicStroke(2.4f);
    }

    private void spectra() {
        List<Double> centres = comparison.first().spectrum().centresHz();
        double[] range = range();
        for (double db = range[0]; db <= range[1] + 1e-9; db += 20) {
            double y = y(db, range);
            g.setColor(GRID);
            g.setStroke(new BasicStroke(1));
            g.draw(new Line2D.Double(LEFT_PX, y, WIDTH_PX - RIGHT_PX, y));
            textRight("%.0f".formatted(db), LEFT_PX - 8, (int) y + 5);
        }
        for (double hz : List.of(100.0, 200.0, 400.0, 800.0, 1600.0)) {
            double x = x(hz);
            g.setColor(GRID);
            g.draw(new Line2D.Double(x, SPECTRA_TOP_PX, x, SPECTRA_TOP_PX + SPECTRA_PX));
            text("%.0f Hz".formatted(hz), (int) x - 20, SPECTRA_TOP_PX + SPECTRA_PX + 20, Font.PLAIN, 13, INK);
        }
        g.setColor(FAINT);
        g.draw(new Rectangle2D.Double(LEFT_PX, SPECTRA_TOP_PX, WIDTH_PX - LEFT_PX - RIGHT_PX, SPECTRA_PX));
        if (!centres.isEmpty()) {
            curve(comparison.first().spectrum(), range, FIRST, false);
            curve(comparison.second().spectrum(), range, SECOND, true);
        }
    }

    private double[] range() {
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        for (TakeMeasures take : List.of(comparison.first(), comparison.second())) {
            for (double db : take.spectrum().levelsDb()) {
                low = Math.min(low, db);
                high = Math.max(high, db);
            }
        }
        if (low > high) {
            return new double[] {-120, -20};
        }
        return new double[] {
            20 * Math.floor(low / 20), Math.max(20 * Math.ceil(high / 20), 20 * Math.floor(low / 20) + 20)
        };
    }

    private static double x(double hz) {
        double share = (Math.log(hz / 90) / Math.log(1800.0 / 90));
        return LEFT_PX + share * (WIDTH_PX - LEFT_PX - RIGHT_PX);
    }

    private static double y(double db, double[] range) {
        return SPECTRA_TOP_PX + SPECTRA_PX * (range[1] - db) / (range[1] - range[0]);
    }

    private void curve(ThirdOctaves spectrum, double[] range, Color colour, boolean dashed) {
        Path2D path = new Path2D.Double();
        for (int i = 0; i < spectrum.centresHz().size(); i++) {
            double x = x(spectrum.centresHz().get(i));
            double y = y(spectrum.levelsDb().get(i), range);
            if (i == 0) {
                path.moveTo(x, y);
            } else {
                path.lineTo(x, y);
            }
        }
        g.setColor(colour);
        g.setStroke(stroke(dashed));
        g.draw(path);
    }

    private void differences(int top) {
        if (limited.isEmpty()) {
            text("No limit is known for what can be compared here.", LEFT_PX, top + 14, Font.PLAIN, 15, INK);
            return;
        }
        double left = NAMES_PX;
        double width = WIDTH_PX - RIGHT_PX - left;
        double middle = left + width / 2;
        double half = width / 2 / LARGEST_SHARE;
        g.setColor(SAME);
        g.fill(new Rectangle2D.Double(middle - half, top - 18, 2 * half, limited.size() * ROW_PX + 8));
        g.setColor(FAINT);
        g.setStroke(new BasicStroke(1));
        g.draw(new Line2D.Double(middle, top - 18, middle, top - 10 + limited.size() * ROW_PX));
        for (int i = 0; i < limited.size(); i++) {
            row(limited.get(i), top + i * ROW_PX, middle, half);
        }
    }

    private void row(Difference d, int y, double middle, double half) {
        textRight(d.measure().words() + "  " + d.measure().formatDifference(d.difference()), NAMES_PX - 12, y);
        Repeatability.Limit limit = d.limit();
        double share = limit == null || limit.difference() == 0 ? 0 : d.difference() / limit.difference();
        double x = middle + half * Math.max(-LARGEST_SHARE, Math.min(LARGEST_SHARE, share));
        g.setColor(d.exceeds() ? SECOND : FIRST);
        g.setStroke(new BasicStroke(3));
        g.draw(new Line2D.Double(middle, y - 5, x, y - 5));
        Ellipse2D dot = new Ellipse2D.Double(x - 5, y - 10, 10, 10);
        if (d.exceeds()) {
            g.fill(dot);
        } else {
            g.setColor(Color.WHITE);
            g.fill(dot);
            g.setColor(FIRST);
            g.setStroke(new BasicStroke(2));
            g.draw(dot);
        }
    }

    private void textRight(String words, int right, int y) {
        g.setFont(new Font(Font.SANS_SERIF, Font.PLAIN, 14));
        g.setColor(INK);
        g.drawString(words, right - g.getFontMetrics().stringWidth(words), y);
    }

    private void text(String words, int x, int y, int style, int size, Color colour) {
        g.setFont(new Font(Font.SANS_SERIF, style, size));
        g.setColor(colour);
        g.drawString(words, x, y);
    }
}
