package lungwort.decode;

import java.util.function.Supplier;
import lungwort.BadInput;
import lungwort.audio.ReadingOptions;
import lungwort.audio.Recording;

/** What all decoders share: borrowed libraries meet damaged files with any exception they like, and people get one sentence. */
final class Decoding {
    private Decoding() {}

    /**
     * Runs a decoder; what it cannot do goes to ffmpeg, what it stumbles over is damage.
     *
     * @param what the format, for sentences
     */
    static Recording guarded(
            String what, byte[] content, String name, ReadingOptions options, Supplier<Recording> run) {
        try {
            return run.get();
        } catch (BadInput e) {
            throw e;
        } catch (Unsupported e) {
            return Ffmpeg.decodeOrRefuse(content, name, options, "its " + e.what());
        } catch (RuntimeException | OutOfMemoryError e) {
            // A header can ask a library for more memory than there is; what it took is free again here.
            throw damaged(name, what, e);
        }
    }

    static BadInput damaged(String name, String what, Throwable cause) {
        return new BadInput(
                "%s: this %s file is damaged and cannot be read; copy it again or record again.".formatted(name, what),
                cause);
    }
}
