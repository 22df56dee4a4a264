package lungwort.diary;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.FontMetrics;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;
import java.awt.image.BufferedImage;
import java.nio.file.Path;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.function.Function;
import java.util.stream.Stream;
import lungwort.BadInput;
import lungwort.picture.Pictures;
import lungwort.picture.Words;
import org.jspecify.annotations.Nullable;

/**
 * A trend as a picture: one panel a measure over the same days. A line joins values of days that follow one another; a day without a value breaks it, and a day without a round is
 * grey. The band shows what was usual. Nothing depends on colour alone.
 */
public final class TrendPicture {
    private static final int WIDTH_PX = 1000;
    private static final int PANEL_PX = 190;
    private static final int LEFT_PX = 90;
    private static final int RIGHT_PX = 30;
    private static final int TOP_PX = 56;
    private static final int BELOW_PX = 64;
    private static final int LINE_PX = 20;
    private static final int GAP_PX = 56;
    private static final double DOT_PX = 9;
    private static final int PLACES_PX = 18;

    private static final Color INK = new Color(0x1b1b1b);
    private static final Color FAINT = new Color(0x767676);
    private static final Color NO_ROUND = new Color(0xececec);
    private static final Color USUAL = new Color(0xb4, 0xd0, 0xee, 0x90);
    private static final Color LINE = new Color(0x0b4f8a);

    private final Trend trend;
    private final Function<Trend.Measure, String> beside;
    private final List<String> below;
    private final Graphics2D g;

    private TrendPicture(Trend trend, Function<Trend.Measure, String> beside, List<String> below, Graphics2D g) {
        this.trend = trend;
        this.beside = beside;
        this.below = below;
        this.g = g;
    }

    /**
     * Draws and writes a PNG file, over an older picture.
     *
     * @throws BadInput if it cannot be written
     */
    public static void write(
            Trend trend, String nickname, Function<Trend.Measure, String> beside, String caution, Path file) {
        Pictures.requireFont();
        Pictures.write(draw(trend, nickname, beside, caution), file);
    }

    /**
     * Draws.
     *
     * @param beside a sentence beside the name of each measure: how far it differs by chance
     * @param caution what is said of these sentences below
     */
    public static BufferedImage draw(
            Trend trend, String nickname, Function<Trend.Measure, String> beside, String caution) {
        int panels = trend.measures().size();
        List<String> below = below(trend, caution);
        int height = TOP_PX + panels * PANEL_PX + (panels - 1) * GAP_PX + BELOW_PX + LINE_PX * below.size();
        BufferedImage image = new BufferedImage(WIDTH_PX, height, BufferedImage.TYPE_INT_RGB);
        Graphics2D g = image.createGraphics();
        try {
            g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
            g.setRenderingHint(RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
            g.setColor(Color.WHITE);
            g.fillRect(0, 0, WIDTH_PX, height);
            new TrendPicture(trend, beside, below, g).all(nickname, height);
        } finally {
            g.dispose();
        }
        return image;
    }

    private void all(String nickname, int height) {
        font(Font.BOLD, 20);
        g.setColor(INK);
        text("%s, %s to %s".formatted(nickname, trend.first(), trend.last()), LEFT_PX, 30);
        int top = TOP_PX;
        for (Trend.Measure measure : trend.measures()) {
            panel(measure, top + 18, PANEL_PX - 18);
            top += PANEL_PX + GAP_PX;
        }
        font(Font.PLAIN, 13);
        g.setColor(INK);
        for (int i = 0; i < below.size(); i++) {
            text(below.get(i), LEFT_PX, height - LINE_PX * (below.size() - i));
        }
    }

    /** The lines under the panels: first what no panel shows, that a usual moved little by little. */
    static List<String> below(Trend trend, String caution) {
        List<String> paragraphs = new ArrayList<>();
        trend.slowChanges().forEach(change -> paragraphs.add("OVER MONTHS: " + change.words()));
        paragraphs.add(
                "Grey: no round. Band: usual; broken line: middle. Ring: rate heard, SpO2 on oxygen. Small number: places of a mean.");
        Stream.of(trend.newestFlowWords(), trend.placesWords())
                .filter(words -> !words.isEmpty())
                .forEach(paragraphs::add);
        paragraphs.add(caution);
        paragraphs.add(
                "Lungwort suggests, it does not diagnose. A lower wheeze share can be a worse chest. Danger signs and clinicians decide.");
        // How high the picture is hangs on how the words break, so they are measured before it is there.
        Graphics2D g = new BufferedImage(1, 1, BufferedImage.TYPE_INT_RGB).createGraphics();
        try {
            FontMetrics metrics = g.getFontMetrics(new Font(Font.SANS_SERIF, Font.PLAIN, 13));
            return paragraphs.stream()
                    .flatMap(words -> lines(words, metrics).stream())
                    .toList();
        } finally {
            g.dispose();
        }
    }

    private static List<String> lines(String words, FontMetrics metrics) {
        List<String> lines = new ArrayList<>();
        String line = "";
        for (String word : words.split(" ", -1)) {
            String longer = line.isEmpty() ? word : line + " " + word;
            if (!line.isEmpty() && metrics.stringWidth(longer) > plotWidth()) {
                lines.add(line);
                longer = word;
            }
            line = longer;
        }
        lines.add(line);
        return lines;
    }

    private void panel(Trend.Measure measure, int top, int height) {
        double[] range = range(measure);
        g.setColor(INK);
        font(Font.BOLD, 15);
        String name = measure.words() + " (" + measure.unit() + ")";
        text(name, LEFT_PX, top - 8);
        int end = LEFT_PX + g.getFontMetrics().stringWidth(name);
        font(Font.PLAIN, 13);
        text(beside.apply(measure), end + 12, top - 8);
        greyDays(top, height);
        usual(measure, range, top, height);
        yAxis(range, top, height);
        xAxis(top + height);
        usualWords(measure, top + height);
        values(measure, range, top, height);
        g.setColor(FAINT);
        g.setStroke(new BasicStroke(1));
        g.draw(new Rectangle2D.Double(LEFT_PX, top, plotWidth(), height));
    }

    private static double plotWidth() {
        return WIDTH_PX - LEFT_PX - RIGHT_PX;
    }

    private double dayWidth() {
        return plotWidth() / trend.days().size();
    }

    private double x(int day) {
        return LEFT_PX + (day + 0.5) * dayWidth();
    }

    private static double y(double value, double[] range, int top, int height) {
        return top + height - height * (value - range[0]) / (range[1] - range[0]);
    }

    private void greyDays(int top, int height) {
        g.setColor(NO_ROUND);
        for (int i = 0; i < trend.days().size(); i++) {
            if (trend.days().get(i).rounds() == 0) {
                g.fill(new Rectangle2D.Double(LEFT_PX + i * dayWidth(), top, dayWidth(), height));
            }
        }
    }

    private void usual(Trend.Measure measure, double[] range, int top, int height) {
        Trend.Usual usual = trend.usual(measure);
        if (usual == null) {
            return;
        }
        double high = y(usual.highest(), range, top, height);
        double low = y(usual.lowest(), range, top, height);
        g.setColor(USUAL);
        g.fill(new Rectangle2D.Double(LEFT_PX, high, plotWidth(), Math.max(2, low - high)));
        g.setColor(FAINT);
        g.setStroke(new BasicStroke(1, BasicStroke.CAP_BUTT, BasicStroke.JOIN_BEVEL, 1, new float[] {6, 4}, 0));
        double middle = y(usual.median(), range, top, height);
        g.draw(new Line2D.Double(LEFT_PX, middle, LEFT_PX + plotWidth(), middle));
    }

    /** The days of the band can lie before those that are drawn. */
    private void usualWords(Trend.Measure measure, int bottom) {
        Trend.Usual usual = trend.usual(measure);
        font(Font.PLAIN, 12);
        g.setColor(INK);
        text(
                !measure.hasUsual()
                        ? trend.toldWords(measure)
                        : usual == null
                                ? "usual: too few days are known"
                                : "usual: %s, from %s to %s over %s"
                                        .formatted(
                                                Words.number(usual.median()),
                                                Words.number(usual.lowest()),
                                                Words.number(usual.highest()),
                                                usual.daysWords()),
                LEFT_PX,
                bottom + 33);
    }

    private void yAxis(double[] range, int top, int height) {
        font(Font.PLAIN, 12);
        double step = step(range[1] - range[0]);
        for (double v = Math.ceil(range[0] / step) * step; v <= range[1] + step / 1e6; v += step) {
            double y = y(v, range, top, height);
            g.setColor(new Color(0xd0d0d0));
            g.setStroke(new BasicStroke(1));
            g.draw(new Line2D.Double(LEFT_PX, y, LEFT_PX + plotWidth(), y));
            g.setColor(INK);
            String label = "%%.%df".formatted(step < 0.1 ? 2 : step < 1 ? 1 : 0).formatted(v);
            text(label, LEFT_PX - 8 - g.getFontMetrics().stringWidth(label), (int) Math.round(y) + 4);
        }
    }

    private void xAxis(int bottom) {
        font(Font.PLAIN, 12);
        g.setColor(INK);
        DateTimeFormatter label = DateTimeFormatter.ofPattern("MM-dd");
        FontMetrics metrics = g.getFontMetrics();
        int every = (int) Math.max(1, Math.ceil((metrics.stringWidth("00-00") + 14) / dayWidth()));
        // Counted from the last day back, so that today always has its date.
        for (int i = trend.days().size() - 1; i >= 0; i -= every) {
            String day = label.format(trend.days().get(i).day());
            text(day, (int) Math.round(x(i)) - metrics.stringWidth(day) / 2, bottom + 16);
        }
    }

    private void values(Trend.Measure measure, double[] range, int top, int height) {
        g.setColor(LINE);
        @Nullable Double before = null;
        boolean any = false;
        for (int i = 0; i < trend.days().size(); i++) {
            Double value = measure.of(trend.days().get(i));
            if (value != null) {
                any = true;
                double y = y(value, range, top, height);
                g.setStroke(new BasicStroke(2));
                if (before != null) {
                    g.draw(new Line2D.Double(x(i - 1), y(before, range, top, height), x(i), y));
                }
                dot(i, y, open(measure, trend.days().get(i)));
                places(i, y, top, measure.places(trend.days().get(i)));
            }
            before = value;
        }
        if (!any) {
            g.setColor(INK);
            font(Font.ITALIC, 14);
            text("no value on these days", LEFT_PX + 16, top + height / 2);
        }
    }

    /** Over how many places it is a mean, where there is room for it: above the dot, or below at the top. */
    private void places(int day, double y, int top, int places) {
        if (places == 0 || dayWidth() < PLACES_PX) {
            return;
        }
        font(Font.PLAIN, 11);
        g.setColor(INK);
        String number = Integer.toString(places);
        boolean above = y - top > PLACES_PX;
        text(number, (int) Math.round(x(day)) - g.getFontMetrics().stringWidth(number) / 2, (int)
                Math.round(above ? y - DOT_PX : y + DOT_PX + 9));
        g.setColor(LINE);
    }

    private static boolean open(Trend.Measure measure, Day day) {
        return switch (measure) {
            case RATE -> day.rateHeard();
            case SPO2 -> Objects.equals(day.spo2OnOxygen(), true);
            case WHEEZE_SHARE, CRACKLES_PER_BREATH, OXYGEN_FLOW, PEAK_FLOW, WEIGHT -> false;
        };
    }

    /** A rate that was heard and not counted is an open ring, and an SpO2 on extra oxygen. */
    private void dot(int day, double y, boolean open) {
        Ellipse2D dot = new Ellipse2D.Double(x(day) - DOT_PX / 2, y - DOT_PX / 2, DOT_PX, DOT_PX);
        if (open) {
            g.setColor(Color.WHITE);
            g.fill(dot);
            g.setColor(LINE);
            g.draw(dot);
        } else {
            g.fill(dot);
        }
    }

    /** Lowest and highest value to show, those of the usual among them; SpO2 never past 100 %, shares and counts never below 0. */
    private double[] range(Trend.Measure measure) {
        Trend.Usual usual = trend.usual(measure);
        List<Double> values = Stream.concat(
                        trend.days().stream().map(measure::of).filter(Objects::nonNull),
                        usual == null ? Stream.empty() : Stream.of(usual.lowest(), usual.highest()))
                .toList();
        double low = values.stream().mapToDouble(v -> v).min().orElse(0);
        double high = values.stream().mapToDouble(v -> v).max().orElse(1);
        return switch (measure) {
            case WHEEZE_SHARE -> new double[] {0, Math.min(100, Math.max(20, high * 1.15))};
            case CRACKLES_PER_BREATH -> new double[] {0, Math.max(2, high * 1.15)};
            case RATE -> values.isEmpty() ? new double[] {0, 60} : new double[] {Math.max(0, low - 6), high + 6};
            case OXYGEN_FLOW -> new double[] {0, high * 1.3};
            case PEAK_FLOW -> new double[] {Math.max(0, low - 50), high + 50};
            case WEIGHT -> new double[] {Math.max(0, low - 2), high + 2};
            case SPO2 -> new double[] {values.isEmpty() ? 85 : Math.max(0, Math.min(88, low - 2)), 100};
        };
    }

    private static double step(double span) {
        double raw = span / 5;
        double power = Math.pow(10, Math.floor(Math.log10(raw)));
        for (double nice : new double[] {1, 2, 5}) {
            if (nice * power >= raw) {
                return nice * power;
            }
        }
        return 10 * power;
    }

    private void font(int style, int size) {
        g.setFont(new Font(Font.SANS_SERIF, style, size));
    }

    private void text(String words, int x, int y) {
        g.drawString(words, x, y);
    }
}
