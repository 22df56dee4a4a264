package lungwort.golden;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;
import java.util.stream.StreamSupport;

/**
 * The small sound files of tests/golden/sounds, made by tests/golden/make_sounds.py with ffmpeg and flac, and what each holds.
 *
 * @param exact stored without loss but for rounding to {@code trueBits}
 */
public record Sounds(
        Path path,
        int rateHz,
        int channels,
        int frames,
        String container,
        String encoding,
        int bits,
        boolean exact,
        int trueBits) {
    private static final Path FOLDER = Path.of("..", "tests", "golden", "sounds");

    /** Every file whose name ends so. */
    public static Stream<Sounds> ending(String suffix) {
        try {
            JsonNode files = new ObjectMapper()
                    .readTree(FOLDER.resolve("index.json").toFile())
                    .get("files");
            return StreamSupport.stream(files.spliterator(), false)
                    .filter(f -> f.get("file").asText().endsWith(suffix))
                    .map(Sounds::of);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static Sounds of(JsonNode f) {
        return new Sounds(
                FOLDER.resolve(f.get("file").asText()),
                f.get("rateHz").asInt(),
                f.get("channels").asInt(),
                f.get("frames").asInt(),
                f.get("container").asText(),
                f.get("encoding").asText(),
                f.get("bits").asInt(),
                f.get("exact").asBoolean(),
                f.get("trueBits").asInt());
    }

    public byte[] bytes() {
        try {
            return Files.readAllBytes(path);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** The sound of a channel before it was stored: the formula of make_sounds.py. */
    public double[] truth(int channel) {
        double[] x = new double[frames];
        double seconds = (double) frames / rateHz;
        for (int i = 0; i < frames; i++) {
            double t = (double) i / rateHz;
            double envelope = 0.5 - 0.5 * Math.cos(2 * Math.PI * t / seconds);
            x[i] = envelope
                    * (0.4 * Math.sin(2 * Math.PI * 350 * t) + 0.2 * Math.sin(2 * Math.PI * (600 + 500 * channel) * t));
        }
        return x;
    }

    /** The mean of all channels. */
    public double[] truthMean() {
        double[] mean = new double[frames];
        for (int c = 0; c < channels; c++) {
            double[] x = truth(c);
            for (int i = 0; i < frames; i++) {
                mean[i] += x[i] / channels;
            }
        }
        return mean;
    }

    /** Half a step of the stored numbers, and a little for the last place of a float. */
    public double rounding() {
        boolean isFloat = encoding.equals("float");
        return isFloat ? Math.scalb(1.0, bits == 32 ? -24 : -50) : 0.5001 * Math.scalb(1.0, 1 - trueBits) + 1e-15;
    }

    @Override
    public String toString() {
        return path.getFileName().toString();
    }
}
