package lungwort.picture;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.FontMetrics;
import java.awt.Graphics2D;
import java.awt.Rectangle;
import java.awt.RenderingHints;
import java.awt.geom.Path2D;
import java.awt.image.BufferedImage;
import java.util.List;
import lungwort.breath.Breath;
import lungwort.breath.BreathPhase;
import lungwort.breath.PhaseSpan;
import lungwort.classify.HeardEvent;
import lungwort.examine.BreathingPause;
import lungwort.examine.Evidence;
import lungwort.examine.Examination;
import lungwort.signal.Spectrogram;
import lungwort.sound.ContinuousSound;
import lungwort.sound.Crackle;

/** Spectrogram of one recording with time and Hz axes, the evidence marked by shape and letter, and the breath below. */
public final class ExaminationPicture {
    private static final int LEFT = 84;
    private static final int RIGHT = 24;
    private static final int TOP = 118;
    private static final int PLOT_HEIGHT = 430;
    private static final int BOTTOM = 150;
    private static final int MIN_WIDTH = 1100;
    private static final int MAX_WIDTH = 3600;
    private static final int PIXELS_PER_SECOND = 70;
    private static final double TOP_HZ = 2000;
    private static final int BAR_HEIGHT = 7;
    private static final int BAR_PIECE = 5;
    private static final int BAR_GAP = 4;

    private static final Font TITLE = new Font(Font.SANS_SERIF, Font.BOLD, 20);
    private static final Font TEXT = new Font(Font.SANS_SERIF, Font.PLAIN, 15);
    private static final Font SMALL = new Font(Font.SANS_SERIF, Font.PLAIN, 13);

    private final Examination examination;
    private final Axes axes;
    private final Graphics2D g;
    private final BufferedImage image;

    private ExaminationPicture(Examination examination, double duration) {
        this.examination = examination;
        int width = (int) Math.max(MIN_WIDTH, Math.min(MAX_WIDTH, LEFT + RIGHT + duration * PIXELS_PER_SECOND));
        image = new BufferedImage(width, TOP + PLOT_HEIGHT + BOTTOM, BufferedImage.TYPE_INT_RGB);
        axes = new Axes(
                new Rectangle(LEFT, TOP, width - LEFT - RIGHT, PLOT_HEIGHT), 0, Math.max(duration, 0.1), TOP_HZ);
        g = image.createGraphics();
        g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
        g.setRenderingHint(RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
        g.setColor(Palette.PAPER);
        g.fillRect(0, 0, image.getWidth(), image.getHeight());
    }

    /**
     * Draws an examination.
     *
     * @param examination what was found
     * @param spectrogram power over time and frequency of the same recording, any resolution, up to at least a few hundred Hz
     * @return an RGB picture, 1100 to 3600 pixels wide by the length of the recording
     */
    public static BufferedImage draw(Examination examination, Spectrogram spectrogram) {
        ExaminationPicture picture = new ExaminationPicture(examination, examination.durationSeconds());
        picture.title();
        picture.levels(spectrogram);
        picture.scales();
        picture.heard();
        picture.evidence();
        picture.breaths();
        picture.pauses();
        picture.legend();
        picture.g.dispose();
        return picture.image;
    }

    private void title() {
        g.setColor(Palette.INK);
        g.setFont(TITLE);
        g.drawString(
                fit(examination.origin() + ": " + Words.headline(examination), image.getWidth() - 2 * RIGHT),
                RIGHT,
                32);
        g.setFont(TEXT);
        g.drawString(fit(Words.probabilities(examination), image.getWidth() - 2 * RIGHT), RIGHT, 58);
        g.setColor(Palette.FAINT_INK);
        g.setFont(SMALL);
        g.drawString(
                fit(
                        "Suggests, does not diagnose. No extra sound found is not the same as well. Danger signs, care plan and clinicians decide.",
                        image.getWidth() - 2 * RIGHT),
                RIGHT,
                80);
    }

    private void levels(Spectrogram spectrogram) {
        double[] range = LevelRange.of(spectrogram, TOP_HZ);
        Rectangle area = axes.area();
        for (int x = 0; x < area.width; x++) {
            double seconds = axes.fromSeconds() + (x + 0.5) / area.width * (axes.toSeconds() - axes.fromSeconds());
            int frame = spectrogram.frameOf(seconds);
            for (int y = 0; y < area.height; y++) {
                double hz = (area.height - y - 0.5) / area.height * TOP_HZ;
                int bin = spectrogram.binOf(hz);
                double db = bin >= spectrogram.bins() || frame < 0
                        ? range[0]
                        : LevelRange.db(spectrogram.power(frame, bin));
                image.setRGB(area.x + x, area.y + y, Palette.levelRgb((db - range[0]) / (range[1] - range[0])));
            }
        }
    }

    private void scales() {
        Rectangle area = axes.area();
        g.setFont(SMALL);
        double stepHz = Axes.step(TOP_HZ, area.height, 50);
        for (double hz = 0; hz <= TOP_HZ + 1e-9; hz += stepHz) {
            tickLine(area.x, axes.y(hz), area.x + area.width, axes.y(hz));
            String label = "%.0f".formatted(hz);
            g.drawString(label, area.x - 8 - g.getFontMetrics().stringWidth(label), axes.y(hz) + 5);
        }
        double step = Axes.step(axes.toSeconds(), area.width, 70);
        for (int k = 0; k * step <= axes.toSeconds() + 1e-9; k++) {
            int x = axes.x(k * step);
            tickLine(x, area.y, x, area.y + area.height);
            String label = step < 1 ? "%.1f".formatted(k * step) : "%.0f".formatted(k * step);
            g.drawString(label, x - g.getFontMetrics().stringWidth(label) / 2, area.y + area.height + 18);
        }
        g.drawString("Hz", area.x - 26, area.y - 12);
        String seconds = "seconds";
        g.drawString(seconds, area.x + area.width - g.getFontMetrics().stringWidth(seconds), area.y + area.height + 36);
    }

    private void tickLine(int x1, int y1, int x2, int y2) {
        g.setColor(Palette.GRID);
        g.drawLine(x1, y1, x2, y2);
        g.setColor(Palette.INK);
    }

    /** Bars over the plot, in a row of their own for each kind: whole for a continuous sound, in pieces for crackles. */
    private void heard() {
        for (HeardEvent event : examination.events()) {
            int x1 = axes.x(event.startSeconds());
            int x2 = Math.max(x1 + BAR_PIECE, axes.x(event.endSeconds()));
            int y = axes.area().y - (event.continuous() ? 24 : 12);
            int step = event.continuous() ? x2 - x1 : BAR_PIECE + BAR_GAP;
            for (int x = x1; x < x2; x += step) {
                int width = Math.min(x2 - x, event.continuous() ? x2 - x1 : BAR_PIECE);
                g.setColor(event.continuous() ? Palette.CONTINUOUS : Palette.CRACKLE);
                g.fillRect(x, y, width, BAR_HEIGHT);
                g.setColor(Palette.INK);
                g.setStroke(new BasicStroke(1f));
                g.drawRect(x, y, width, BAR_HEIGHT);
            }
        }
    }

    private void evidence() {
        int number = 0;
        for (Evidence item : examination.evidence()) {
            if (item.sound() instanceof ContinuousSound sound) {
                number++;
                continuous(sound, number);
            } else if (item.sound() instanceof Crackle crackle) {
                crackle(crackle);
            }
        }
    }

    private void continuous(ContinuousSound sound, int number) {
        Path2D path = new Path2D.Double();
        List<ContinuousSound.TrackPoint> track = sound.track();
        for (int i = 0; i < track.size(); i++) {
            int x = axes.x(track.get(i).seconds());
            int y = axes.y(track.get(i).hz());
            if (i == 0) {
                path.moveTo(x, y);
            } else {
                path.lineTo(x, y);
            }
        }
        outlined(path, Palette.CONTINUOUS, 2.5f);
        int x1 = axes.x(sound.startSeconds());
        int x2 = axes.x(sound.endSeconds());
        int y = Math.max(axes.area().y + 16, axes.y(sound.dominantHz()) - 14);
        Path2D bracket = new Path2D.Double();
        bracket.moveTo(x1, y + 6);
        bracket.lineTo(x1, y);
        bracket.lineTo(x2, y);
        bracket.lineTo(x2, y + 6);
        outlined(bracket, Palette.CONTINUOUS, 1.5f);
        tag(Words.letter(sound.kind()) + number, x1, y - 3);
    }

    private void crackle(Crackle crackle) {
        int x = axes.x(crackle.startSeconds());
        int y = axes.area().y + axes.area().height;
        boolean fine = crackle.kind() == lungwort.sound.SoundKind.FINE_CRACKLE;
        int half = fine ? 4 : 7;
        Path2D triangle = new Path2D.Double();
        triangle.moveTo(x, y - 2 - 2 * half);
        triangle.lineTo(x - half, y - 2);
        triangle.lineTo(x + half, y - 2);
        triangle.closePath();
        g.setColor(fine ? Palette.PAPER : Palette.CRACKLE);
        g.fill(triangle);
        outlined(triangle, Palette.CRACKLE, 1.2f);
    }

    private void outlined(Path2D path, Color color, float width) {
        g.setStroke(new BasicStroke(width + 2.5f, BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND));
        g.setColor(new Color(0, 0, 0, 170));
        g.draw(path);
        g.setStroke(new BasicStroke(width, BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND));
        g.setColor(color);
        g.draw(path);
    }

    private void tag(String text, int x, int y) {
        g.setFont(SMALL);
        FontMetrics metrics = g.getFontMetrics();
        g.setColor(new Color(0, 0, 0, 190));
        g.fillRect(x, y - metrics.getAscent(), metrics.stringWidth(text) + 6, metrics.getAscent() + 3);
        g.setColor(Color.WHITE);
        g.drawString(text, x + 3, y);
    }

    private void breaths() {
        int y = axes.area().y + axes.area().height + 46;
        int height = 22;
        g.setFont(SMALL);
        g.setColor(Palette.INK);
        g.drawString("breath", RIGHT, y + 16);
        List<Breath> breaths = examination.breathing().breaths();
        if (breaths.isEmpty()) {
            g.drawString("no breath could be told apart", axes.area().x + 6, y + 16);
        }
        for (Breath breath : breaths) {
            for (PhaseSpan span : breath.phases()) {
                phase(span, y, height);
            }
            g.setColor(Palette.INK);
            g.setStroke(new BasicStroke(1.5f));
            g.drawLine(axes.x(breath.startSeconds()), y - 4, axes.x(breath.startSeconds()), y + height + 4);
        }
    }

    /** Over the row of breaths, because the tracker may have laid breaths there. */
    private void pauses() {
        int y = axes.area().y + axes.area().height + 46;
        g.setFont(SMALL);
        for (BreathingPause pause : examination.pauses()) {
            int x1 = axes.x(pause.startSeconds());
            int x2 = axes.x(pause.endSeconds());
            g.setColor(Palette.PAPER);
            g.fillRect(x1, y, x2 - x1, 22);
            g.setColor(Palette.INK);
            g.setStroke(new BasicStroke(1.5f, BasicStroke.CAP_BUTT, BasicStroke.JOIN_MITER, 10, new float[] {6, 4}, 0));
            g.drawRect(x1, y, x2 - x1, 22);
            String word = "no breath found, " + pause.shortWords();
            g.drawString(word, x1 + (x2 - x1 - g.getFontMetrics().stringWidth(word)) / 2, y + 16);
        }
    }

    private void phase(PhaseSpan span, int y, int height) {
        int x1 = axes.x(span.startSeconds());
        int x2 = axes.x(span.endSeconds());
        boolean expiration = span.phase() == BreathPhase.EXPIRATION;
        g.setColor(
                expiration
                        ? Palette.EXPIRATION
                        : span.phase() == BreathPhase.INSPIRATION ? Palette.INSPIRATION : Palette.UNKNOWN_PHASE);
        g.fillRect(x1, y, x2 - x1, height);
        String word = Words.phase(span.phase());
        if (g.getFontMetrics().stringWidth(word) + 6 < x2 - x1) {
            g.setColor(expiration ? Color.WHITE : Palette.INK);
            g.drawString(word, x1 + (x2 - x1 - g.getFontMetrics().stringWidth(word)) / 2, y + 16);
        }
    }

    private void legend() {
        int y = axes.area().y + axes.area().height + 104;
        g.setFont(SMALL);
        g.setColor(Palette.INK);
        g.drawString(
                fit(
                        "W wheeze, R rhonchus: bracket and line at its pitch.  Small white triangle: fine crackle.  Large blue triangle: coarse crackle.",
                        image.getWidth() - 2 * RIGHT),
                RIGHT,
                y);
        g.setColor(Palette.FAINT_INK);
        g.drawString(fit(bars() + Words.counts(examination), image.getWidth() - 2 * RIGHT), RIGHT, y + 22);
    }

    private String bars() {
        return examination.events().isEmpty()
                ? ""
                : "Bars above: listen there first; whole for a continuous sound, in pieces for crackles.  ";
    }

    private String fit(String text, int width) {
        FontMetrics metrics = g.getFontMetrics();
        if (metrics.stringWidth(text) <= width) {
            return text;
        }
        int end = text.length();
        while (end > 1 && metrics.stringWidth(text.substring(0, end) + "…") > width) {
            end--;
        }
        return text.substring(0, end) + "…";
    }
}
