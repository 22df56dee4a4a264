package lungwort.score;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.security.MessageDigest;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import lungwort.BadInput;
import lungwort.Sha256;
import lungwort.dataset.AnnotatedEvent;
import lungwort.feature.FeatureCatalogue;
import org.jspecify.annotations.Nullable;

/**
 * Keeps what was measured in recordings, so that the next recipe need not measure it again. A name is the digest of everything that decides the numbers: the sound itself, the
 * marked times, how the sound was altered, and the program code that measures. Change any of them and another name is looked for, so an old number is never taken for a new one.
 */
public final class MeasureCache {
    /** Keeps nothing. */
    public static final MeasureCache NONE = new MeasureCache(null, "");

    private final @Nullable Path folder;
    private final String code;

    private MeasureCache(@Nullable Path folder, String code) {
        this.folder = folder;
        this.code = code;
    }

    /**
     * @param folder made if it is not there
     * @throws BadInput if it cannot be made
     */
    public static MeasureCache in(Path folder) {
        try {
            Files.createDirectories(folder);
        } catch (IOException e) {
            throw cannotWrite(folder, e);
        }
        return new MeasureCache(folder, MeasuringCode.digest() + FeatureCatalogue.digestOfAll());
    }

    /** What is kept under a name; empty if nothing is, or it is damaged. */
    Optional<MeasuredFile> find(String name) {
        if (folder == null) {
            return Optional.empty();
        }
        try {
            return Optional.of(MeasuredFile.of(Files.readAllBytes(folder.resolve(name))));
        } catch (NoSuchFileException e) {
            return Optional.empty();
        } catch (IOException | IllegalArgumentException | NegativeArraySizeException e) {
            // Measured again, and written anew.
            return Optional.empty();
        }
    }

    /** @throws BadInput if the folder cannot be written to */
    void keep(String name, MeasuredFile measured) {
        if (folder == null) {
            return;
        }
        try {
            Path temporary = Files.createTempFile(folder, ".measured", ".part");
            try {
                Files.write(temporary, measured.bytes());
                Files.move(temporary, folder.resolve(name), StandardCopyOption.REPLACE_EXISTING);
            } finally {
                Files.deleteIfExists(temporary);
            }
        } catch (IOException e) {
            throw cannotWrite(folder, e);
        }
    }

    /**
     * @param audio gives the file's bytes; asked only if anything is kept
     * @param marked the segments whose features are measured
     * @param how what was done to the sound and what is measured beside, in any fixed words
     */
    String name(Supplier<byte[]> audio, List<AnnotatedEvent> marked, String how) {
        if (folder == null) {
            return "";
        }
        StringBuilder rest = new StringBuilder(code).append('\n').append(how);
        marked.forEach(
                e -> rest.append('\n').append(e.startSeconds()).append(' ').append(e.endSeconds()));
        MessageDigest sha = Sha256.start();
        sha.update(audio.get());
        sha.update(rest.toString().getBytes(StandardCharsets.UTF_8));
        return Sha256.hex(sha) + ".measured";
    }

    private static BadInput cannotWrite(Path folder, IOException e) {
        return BadInput.because(
                e,
                "%s: measured features cannot be kept there (%s); name a folder that you may write to and that has room, or leave --cache out.",
                folder,
                e.getMessage());
    }
}
