package lungwort.decode;

import java.io.File;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import lungwort.BadInput;
import lungwort.audio.MonoMix;
import lungwort.audio.ReadingOptions;
import lungwort.audio.Recording;
import lungwort.audio.RecordingReader;
import lungwort.audio.SourceFormat;
import lungwort.audio.WavReader;

/** The ffmpeg program, where the person has installed it: used for what no library here decodes. Nothing is downloaded. */
final class Ffmpeg {
    private static final int MAX_WAIT_SECONDS = 60;

    private Ffmpeg() {}

    /**
     * @param problem what cannot be read without ffmpeg, to follow the file's name in a sentence
     * @throws BadInput if there is no ffmpeg, or it cannot read the file either
     */
    static Recording decodeOrRefuse(byte[] content, String name, ReadingOptions options, String problem) {
        String path = Objects.requireNonNullElse(System.getenv("PATH"), "");
        return decodeOrRefuse(content, name, options, problem, path);
    }

    static Recording decodeOrRefuse(
            byte[] content, String name, ReadingOptions options, String problem, String searchPath) {
        Optional<Path> program = find(searchPath);
        if (program.isEmpty()) {
            throw new BadInput(
                    "%s: %s cannot be read without the program ffmpeg, which is not installed; install it, or save the recording as 16-bit PCM WAV."
                            .formatted(name, problem));
        }
        byte[] wav = run(program.get(), content, name, problem);
        Recording recording = new WavReader().decode(wav, name, options);
        SourceFormat source = recording.source();
        SourceFormat told =
                new SourceFormat("ffmpeg", "ffmpeg", source.sampleRateHz(), 0, source.channels(), source.remarks());
        return recording.withSource(told);
    }

    /** The program of that name in the folders of a search path; the current folder is not searched. */
    static Optional<Path> find(String searchPath) {
        boolean isWindows =
                System.getProperty("os.name", "").toLowerCase(Locale.ROOT).startsWith("windows");
        String program = isWindows ? "ffmpeg.exe" : "ffmpeg";
        for (String folder : searchPath.split(File.pathSeparator, -1)) {
            File candidate = new File(folder, program);
            if (candidate.isAbsolute() && candidate.isFile() && candidate.canExecute()) {
                return Optional.of(candidate.toPath());
            }
        }
        return Optional.empty();
    }

    private static byte[] run(Path program, byte[] content, String name, String problem) {
        try {
            Path in = Files.createTempFile("lungwort", ".sound");
            try {
                Files.write(in, content);
                return convert(program, in, name, problem);
            } finally {
                Files.deleteIfExists(in);
            }
        } catch (IOException e) {
            throw new BadInput(
                    "%s: it could not be handed to ffmpeg (%s); check that the temporary folder has room."
                            .formatted(name, e.getMessage()),
                    e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new BadInput(name + ": reading it was interrupted.", e);
        }
    }

    /** From a file, since some formats tell only at their end where things are; out through a pipe. */
    private static byte[] convert(Path program, Path in, String name, String problem)
            throws IOException, InterruptedException {
        List<String> command = List.of(
                program.toString(),
                "-nostdin",
                "-v",
                "error",
                "-protocol_whitelist",
                "file,pipe",
                "-i",
                in.toString(),
                "-map",
                "0:a:0",
                "-t",
                Integer.toString(MonoMix.MAX_SECONDS + 1),
                "-f",
                "wav",
                "-c:a",
                "pcm_f32le",
                "pipe:1");
        Process process = new ProcessBuilder(command)
                .redirectError(ProcessBuilder.Redirect.DISCARD)
                .start();
        // Ends a program that hangs, and with it the wait for its output.
        CompletableFuture.delayedExecutor(MAX_WAIT_SECONDS, TimeUnit.SECONDS).execute(process::destroyForcibly);
        try (InputStream out = process.getInputStream()) {
            byte[] wav = out.readNBytes(RecordingReader.MAX_FILE_BYTES);
            boolean isWhole = wav.length > 0 && wav.length < RecordingReader.MAX_FILE_BYTES;
            if (!isWhole || process.waitFor() != 0) {
                throw new BadInput("%s: %s cannot be read, not even by ffmpeg; the file may be damaged, record again."
                        .formatted(name, problem));
            }
            return wav;
        } finally {
            process.destroyForcibly();
        }
    }
}
