package lungwort.decode;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import lungwort.BadInput;
import lungwort.audio.Recording;
import lungwort.audio.RecordingReader;
import lungwort.audio.WavWriter;
import lungwort.score.SoundChange;

/** Rows of a robustness table that send a recording through a lossy codec, as telephones and messengers do. The program ffmpeg encodes, our own readers decode. */
public enum CodecRow implements SoundChange {
    /** Opus at 16 kbit/s, as in calls over the internet. */
    OPUS_16("opus16", "libopus", "16k", ".ogg"),
    /** AAC at 32 kbit/s, as in voice notes. */
    AAC_32("aac32", "aac", "32k", ".m4a");

    private static final int MAX_WAIT_SECONDS = 120;

    private final String id;
    private final String encoder;
    private final String rate;
    private final String ending;

    CodecRow(String id, String encoder, String rate, String ending) {
        this.id = id;
        this.encoder = encoder;
        this.rate = rate;
        this.ending = ending;
    }

    /** The row of that name; empty if there is none. */
    public static Optional<CodecRow> ofId(String id) {
        for (CodecRow row : values()) {
            if (row.id.equals(id)) {
                return Optional.of(row);
            }
        }
        return Optional.empty();
    }

    @Override
    public String id() {
        return id;
    }

    /** @throws BadInput if ffmpeg is not installed or cannot encode so */
    @Override
    public Recording apply(Recording recording, long seed) {
        Path program = Ffmpeg.find(Objects.requireNonNullElse(System.getenv("PATH"), ""))
                .orElseThrow(() -> new BadInput(
                        "The alteration '%s' needs the program ffmpeg, which is not installed; install it, or use phone."
                                .formatted(id)));
        try {
            Path folder = Files.createTempDirectory("lungwort-codec");
            Path in = folder.resolve("in.wav");
            Path out = folder.resolve("out" + ending);
            try {
                WavWriter.write(in, recording, WavWriter.Encoding.FLOAT_32);
                encode(program, in, out);
                return RecordingReader.read(out).withOrigin(recording.origin());
            } finally {
                Files.deleteIfExists(in);
                Files.deleteIfExists(out);
                Files.deleteIfExists(folder);
            }
        } catch (IOException e) {
            throw new BadInput(
                    "%s: it could not be handed to ffmpeg (%s); check that the temporary folder has room."
                            .formatted(recording.origin(), e.getMessage()),
                    e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new BadInput(recording.origin() + ": encoding it was interrupted.", e);
        }
    }

    private void encode(Path program, Path in, Path out) throws IOException, InterruptedException {
        List<String> command = List.of(
                program.toString(),
                "-nostdin",
                "-v",
                "error",
                "-y",
                "-i",
                in.toString(),
                "-c:a",
                encoder,
                "-b:a",
                rate,
                out.toString());
        Process process = new ProcessBuilder(command)
                .redirectError(ProcessBuilder.Redirect.DISCARD)
                .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                .start();
        try {
            if (!process.waitFor(MAX_WAIT_SECONDS, TimeUnit.SECONDS) || process.exitValue() != 0) {
                throw new BadInput(
                        "The alteration '%s' needs an ffmpeg that encodes with %s; the one that is installed does not."
                                .formatted(id, encoder));
            }
        } finally {
            process.destroyForcibly();
        }
    }
}
