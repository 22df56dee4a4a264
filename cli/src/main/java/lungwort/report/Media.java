package lungwort.report;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Base64;
import javax.imageio.ImageIO;
import lungwort.audio.Recording;
import lungwort.audio.Resampler;
import lungwort.audio.WavWriter;
import lungwort.examine.Examination;
import lungwort.picture.Pictures;
import org.jspecify.annotations.Nullable;

/** Pictures and sound as they go into a report. */
final class Media {
    /** Chest sounds lie below 2 kHz, crackles below 4: this rate keeps them, and a take of 15 s in 240 kB. */
    static final int AUDIO_RATE_HZ = 8_000;

    private Media() {}

    /** The sound of a take as a WAV file, one channel of 16 bits at {@value #AUDIO_RATE_HZ} Hz or less; null where the recording cannot be read. */
    static byte @Nullable [] wav(ReportTake take) {
        Recording recording = take.recording().get();
        if (recording == null || recording.length() == 0) {
            return null;
        }
        Recording small =
                recording.sampleRateHz() > AUDIO_RATE_HZ ? Resampler.toRate(recording, AUDIO_RATE_HZ) : recording;
        return WavWriter.toBytes(small, WavWriter.Encoding.PCM_16);
    }

    /** The spectrogram of a take with its evidence and breaths; null where there is no examination or the recording cannot be read. */
    static @Nullable BufferedImage picture(ReportTake take) {
        Examination examination = take.take().examination().orElse(null);
        Recording recording = examination == null ? null : take.recording().get();
        if (examination == null || recording == null || recording.length() == 0) {
            return null;
        }
        return Pictures.inFewColours(Pictures.of(examination.titled(take.tag() + " " + take.place()), recording));
    }

    static byte[] png(BufferedImage image) {
        try (ByteArrayOutputStream out = new ByteArrayOutputStream()) {
            ImageIO.write(image, "png", out);
            return out.toByteArray();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    static String pngUri(BufferedImage image) {
        return "data:image/png;base64," + Base64.getEncoder().encodeToString(png(image));
    }

    static String wavUri(byte[] wav) {
        return "data:audio/wav;base64," + Base64.getEncoder().encodeToString(wav);
    }
}
