package lungwort.decode;

import java.nio.charset.StandardCharsets;
import java.util.List;
import lungwort.audio.AudioDecoder;
import lungwort.audio.ReadingOptions;
import lungwort.audio.Recording;

/** Kinds of file that only ffmpeg reads, known by their first bytes: AMR, AIFF, CAF, WMA, AU, and WAV in the encodings of telephones, which the reader of WAV leaves. Asked last. */
public final class FfmpegDecoder implements AudioDecoder {
    private static final List<String> STARTS = List.of("#!AMR", "FORM", "caff", "0&\u00B2u\u008Ef\u00CF\u0011", ".snd");

    @Override
    public String formats() {
        return "others with ffmpeg";
    }

    @Override
    public boolean accepts(byte[] head) {
        String start = start(head);
        return isWave(start) || STARTS.stream().anyMatch(start::startsWith);
    }

    private static String start(byte[] content) {
        return new String(content, 0, Math.min(content.length, 16), StandardCharsets.ISO_8859_1);
    }

    private static boolean isWave(String start) {
        return start.startsWith("RIFF") && start.startsWith("WAVE", 8);
    }

    @Override
    public Recording decode(byte[] content, String name, ReadingOptions options) {
        return Ffmpeg.decodeOrRefuse(content, name, options, problem(content));
    }

    static String problem(byte[] content) {
        return isWave(start(content))
                ? "this kind of WAV (not PCM, as telephones store it)"
                : "this kind of sound file";
    }
}
