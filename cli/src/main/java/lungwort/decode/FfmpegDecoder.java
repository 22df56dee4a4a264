package lungwort.decode;

import java.nio.charset.StandardCharsets;
import java.util.List;
import lungwort.audio.AudioDecoder;
import lungwort.audio.ReadingOptions;
import lungwort.audio.Recording;

/** Kinds of file that only ffmpeg reads, known by their first bytes: AMR, AIFF, CAF, WMA, AU. Asked last. */
public final class FfmpegDecoder implements AudioDecoder {
    private static final List<String> STARTS = List.of("#!AMR", "FORM", "caff", "0&\u00B2u\u008Ef\u00CF\u0011", ".snd");

    @Override
    public String formats() {
        return "others with ffmpeg";
    }

    @Override
    public boolean accepts(byte[] head) {
        String start = new String(head, 0, Math.min(head.length, 16), StandardCharsets.ISO_8859_1);
        return STARTS.stream().anyMatch(start::startsWith);
    }

    @Override
    public Recording decode(byte[] content, String name, ReadingOptions options) {
        return Ffmpeg.decodeOrRefuse(content, name, options, "this kind of sound file");
    }
}
