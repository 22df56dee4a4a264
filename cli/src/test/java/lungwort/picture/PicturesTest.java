package lungwort.picture;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.awt.Color;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.stream.IntStream;
import javax.imageio.ImageIO;
import lungwort.audio.Recording;
import lungwort.diary.Examples;
import lungwort.examine.Examination;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A tone stands in the picture where its time and its frequency say, whatever the recording's rate and offset. */
class PicturesTest {
    private static final int SECONDS = 10;
    private static final double TOP_HZ = 2000;

    /** Of 255: not to be seen side by side. */
    private static final int FEW_COLOURS_APART = 12;

    /** Plot area of a picture of ten seconds: see {@link ExaminationPicture}. */
    private static final int LEFT = 84;

    private static final int WIDTH = 1100 - 84 - 24;
    private static final int TOP = 118;
    private static final int HEIGHT = 430;

    /** Noise 60 dB below full scale, and a tone 30 dB below from second 4 to second 6. */
    static Recording tone(int rateHz, double hz, double offset) {
        Random random = new Random(5);
        double[] x = new double[SECONDS * rateHz];
        for (int i = 0; i < x.length; i++) {
            double t = (double) i / rateHz;
            x[i] = offset
                    + 0.001 * random.nextGaussian()
                    + (t >= 4 && t < 6 ? 0.03 * Math.sin(2 * Math.PI * hz * t) : 0);
        }
        return new Recording(x, rateHz, "tone");
    }

    private static Examination nothingFound() {
        return Examples.examination(0, 0);
    }

    @ParameterizedTest
    @CsvSource({"4000, 250", "8000, 700", "11025, 1200", "48000, 1900"})
    void aToneIsBrightestAtItsFrequency(int rateHz, double hz) {
        BufferedImage picture = Pictures.of(nothingFound(), tone(rateHz, hz, 0));

        int x = LEFT + WIDTH / 2;
        double row = TOP + HEIGHT * (1 - hz / TOP_HZ);
        assertThat((double) brightestRow(picture, x)).isCloseTo(row, within(3.0));
    }

    @Test
    void aToneBeginsAndEndsAtItsTimes() {
        BufferedImage picture = Pictures.of(nothingFound(), tone(8000, 700, 0));

        int y = TOP + (int) Math.round(HEIGHT * (1 - 700 / TOP_HZ)) - 1;
        int first = LEFT + (int) Math.round(WIDTH * 0.4);
        int last = LEFT + (int) Math.round(WIDTH * 0.6);
        assertThat(brightness(picture, first + 6, y)).isGreaterThan(brightness(picture, first - 6, y) + 150);
        assertThat(brightness(picture, last - 6, y)).isGreaterThan(brightness(picture, last + 6, y) + 150);
    }

    /** A report of a whole round holds a picture of every take: a third of the size, and nothing in it is another colour to the eye. */
    @Test
    void inFewColoursAPictureIsSmallAndLooksTheSame() throws IOException {
        BufferedImage whole = Pictures.of(Examples.examination(3, 6), tone(8000, 700, 0));

        BufferedImage small = Pictures.inFewColours(whole);

        int furthest = 0;
        for (int y = 0; y < whole.getHeight(); y++) {
            for (int x = 0; x < whole.getWidth(); x++) {
                furthest = Math.max(furthest, apart(new Color(whole.getRGB(x, y)), new Color(small.getRGB(x, y))));
            }
        }
        assertThat(furthest)
                .as("of 255, in the one of red, green and blue that differs most")
                .isLessThan(FEW_COLOURS_APART);
        assertThat(pngBytes(small)).isLessThan(pngBytes(whole) * 2 / 5);
    }

    private static int apart(Color a, Color b) {
        return Math.max(
                Math.abs(a.getRed() - b.getRed()),
                Math.max(Math.abs(a.getGreen() - b.getGreen()), Math.abs(a.getBlue() - b.getBlue())));
    }

    private static int pngBytes(BufferedImage image) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        ImageIO.write(image, "png", out);
        return out.size();
    }

    @Test
    void aConstantOffsetChangesNoPixel() {
        BufferedImage without = Pictures.of(nothingFound(), tone(8000, 700, 0));
        BufferedImage with = Pictures.of(nothingFound(), tone(8000, 700, 0.5));

        int differing = 0;
        for (int x = 0; x < without.getWidth(); x++) {
            for (int y = 0; y < without.getHeight(); y++) {
                differing += Math.abs(brightness(without, x, y) - brightness(with, x, y)) > 6 ? 1 : 0;
            }
        }
        assertThat(differing).isZero();
    }

    /** A bar for each stretch to listen to first, over the plot, from its beginning to its end: whole for a continuous sound, in pieces for crackles. */
    @Test
    void whereToListenFirstStandsOverThePlot() {
        BufferedImage picture = Pictures.of(Examples.examination(1, 30), tone(8000, 700, 0));

        int continuous = TOP - 24 + 3;
        int crackles = TOP - 12 + 3;
        assertThat(picture.getRGB(x(0.9) - 3, continuous)).isEqualTo(Color.WHITE.getRGB());
        assertThat(picture.getRGB(x(1.6) + 3, continuous)).isEqualTo(Color.WHITE.getRGB());
        assertThat(coloured(picture, 0.9, 1.6, continuous)).isGreaterThan(0.95);
        assertThat(coloured(picture, 1.9, 5.1, crackles)).isBetween(0.5, 0.8);
        assertThat(coloured(picture, 5.2, 10, crackles)).isZero();
        BufferedImage without = Pictures.of(nothingFound(), tone(8000, 700, 0));
        assertThat(coloured(without, 0, 10, continuous) + coloured(without, 0, 10, crackles))
                .isZero();
    }

    private static int x(double seconds) {
        return LEFT + (int) Math.round(WIDTH * seconds / SECONDS);
    }

    /** Share of a row that is not white. */
    private static double coloured(BufferedImage picture, double from, double to, int y) {
        long coloured = IntStream.range(x(from), x(to))
                .filter(x -> picture.getRGB(x, y) != Color.WHITE.getRGB())
                .count();
        return (double) coloured / (x(to) - x(from));
    }

    /** The left base and the right one, named in Chinese, and two names that differ in a blank. */
    @Test
    void everyRecordingHasAPictureOfItsOwn(@TempDir Path folder) {
        List<Path> targets = Pictures.targets(folder, List.of("左.wav", "右.wav", "a b.wav", "a_b.wav", "A b.wav"));

        assertThat(targets.stream().map(file -> file.toString().toLowerCase(Locale.ROOT)))
                .doesNotHaveDuplicates();
        assertThat(targets.get(0)).hasFileName("左.wav.png");
        assertThat(targets.get(3)).hasFileName("a_b.wav-2.png");
    }

    private static int brightestRow(BufferedImage picture, int x) {
        int brightest = TOP;
        for (int y = TOP; y < TOP + HEIGHT; y++) {
            brightest = brightness(picture, x, y) > brightness(picture, x, brightest) ? y : brightest;
        }
        return brightest;
    }

    private static int brightness(BufferedImage picture, int x, int y) {
        int rgb = picture.getRGB(x, y);
        return (rgb >> 16 & 0xFF) + (rgb >> 8 & 0xFF) + (rgb & 0xFF);
    }
}
