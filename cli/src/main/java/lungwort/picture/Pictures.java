package lungwort.picture;

import java.awt.Font;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import javax.imageio.ImageIO;
import lungwort.BadInput;
import lungwort.audio.Recording;
import lungwort.audio.Resampler;
import lungwort.examine.Examination;
import lungwort.output.OutputFile;
import lungwort.output.OutputKind;
import lungwort.signal.Spectrogram;

/** Pictures as PNG files. */
public final class Pictures {
    private static final int PICTURE_RATE_HZ = 4000;
    private static final int FRAME = 256;
    private static final int HOP = 40;
    private static final int FFT = 1024;

    private Pictures() {}

    /** The picture of one examination. */
    public static BufferedImage of(Examination examination, Recording recording) {
        requireFont();
        // A microphone's constant offset would be the loudest thing in the picture and darken all the rest.
        double[] x = Resampler.withoutMean(recording, PICTURE_RATE_HZ);
        return ExaminationPicture.draw(examination, Spectrogram.of(x, PICTURE_RATE_HZ, FRAME, HOP, FFT));
    }

    /**
     * A Java without fonts fails in many ways, some of them errors of the class loader; asked once, before anything is drawn.
     *
     * @throws BadInput if this computer has no font that Java can find
     */
    public static void requireFont() {
        try {
            BufferedImage probe = new BufferedImage(1, 1, BufferedImage.TYPE_INT_RGB);
            probe.createGraphics()
                    .getFontMetrics(new Font(Font.SANS_SERIF, Font.PLAIN, 12))
                    .stringWidth("Hz");
        } catch (LinkageError | RuntimeException e) {
            throw new BadInput(
                    "a picture needs a font, and this computer has none that Java can find; install one (on Debian: fonts-dejavu-core and fontconfig).",
                    e);
        }
    }

    /**
     * Writes the picture of one examination; the file appears whole or not at all.
     *
     * @throws BadInput if it cannot be written
     */
    public static void write(Examination examination, Recording recording, Path file) {
        write(of(examination, recording), file);
    }

    /** The same picture in few colours, for where many stand in one file: levels of sound are told in 64 steps. */
    public static BufferedImage inFewColours(BufferedImage image) {
        return FewColours.of(image);
    }

    /**
     * Writes any picture as PNG; the file appears whole or not at all.
     *
     * @throws BadInput if it cannot be written, or is there and no picture
     */
    public static void write(BufferedImage image, Path file) {
        ByteArrayOutputStream png = new ByteArrayOutputStream();
        try {
            ImageIO.write(image, "png", png);
        } catch (IOException e) {
            throw new UncheckedIOException("a picture in memory cannot fail", e);
        }
        OutputFile.write(file, OutputKind.PICTURE, png.toByteArray());
    }

    /**
     * Where the pictures of recordings go.
     *
     * @param target the picture's file for one recording, a folder for several; it is made where missing
     * @param names of the recordings
     * @return a file for each, no two the same
     * @throws BadInput if the folder cannot be made
     */
    public static List<Path> targets(Path target, List<String> names) {
        if (names.size() == 1) {
            return List.of(target);
        }
        try {
            Files.createDirectories(target);
        } catch (IOException e) {
            throw new BadInput(
                    target + ": with several recordings --picture names a folder, and this one cannot be made.", e);
        }
        // Some file systems take upper and lower case for the same.
        Set<String> taken = new HashSet<>();
        List<Path> targets = new ArrayList<>();
        for (String name : names) {
            String flat = name.replaceAll("[^\\p{L}\\p{M}\\p{N}._-]+", "_");
            String free = flat;
            for (int i = 2; !taken.add(free.toLowerCase(Locale.ROOT)); i++) {
                free = flat + "-" + i;
            }
            targets.add(target.resolve(free + ".png"));
        }
        return targets;
    }
}
