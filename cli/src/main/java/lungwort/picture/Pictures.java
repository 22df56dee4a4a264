package lungwort.picture;

import java.awt.Font;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import javax.imageio.ImageIO;
import lungwort.BadInput;
import lungwort.audio.Recording;
import lungwort.audio.Resampler;
import lungwort.examine.Examination;
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

    /** Writes any picture as PNG; the file appears whole or not at all. */
    public static void write(BufferedImage image, Path file) {
        Path absolute = file.toAbsolutePath();
        Path part = absolute.resolveSibling(absolute.getFileName() + ".part");
        try {
            try (OutputStream out = Files.newOutputStream(part)) {
                ImageIO.write(image, "png", out);
            }
            Files.move(part, absolute, StandardCopyOption.REPLACE_EXISTING);
        } catch (IOException e) {
            throw new BadInput(file + ": the picture cannot be written; check the folder and the free space.", e);
        }
    }

    /** Where the picture of one of several recordings goes: {@code target} itself, or a file inside it. */
    public static Path target(Path target, String name, boolean several) {
        if (!several) {
            return target;
        }
        try {
            Files.createDirectories(target);
        } catch (IOException e) {
            throw new BadInput(
                    target + ": with several recordings --picture names a folder, and this one cannot be made.", e);
        }
        String flat = name.replaceAll("[^A-Za-z0-9._-]+", "_");
        return target.resolve(flat + ".png");
    }
}
