package lungwort.decode;

import lungwort.audio.AudioDecoder;
import lungwort.audio.ReadingOptions;
import lungwort.audio.Recording;

/** WebM and Matroska (RFC 9559) with Opus, as browsers record. */
public final class WebmDecoder implements AudioDecoder {
    @Override
    public String formats() {
        return "WebM (Opus)";
    }

    @Override
    public boolean accepts(byte[] head) {
        return head.length > 4
                && head[0] == 0x1A
                && head[1] == 0x45
                && (head[2] & 0xFF) == 0xDF
                && (head[3] & 0xFF) == 0xA3;
    }

    @Override
    public Recording decode(byte[] content, String name, ReadingOptions options) {
        return Decoding.guarded("WebM", content, name, options, () -> {
            PcmSink sink = new PcmSink(name, options);
            WebmTrack track = new WebmTrack(content, sink, name);
            boolean cut = track.decode();
            return sink.finish("WebM", "Opus", cut);
        });
    }
}
