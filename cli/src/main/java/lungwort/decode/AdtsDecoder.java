package lungwort.decode;

import java.util.Arrays;
import lungwort.audio.AudioDecoder;
import lungwort.audio.ReadingOptions;
import lungwort.audio.Recording;

/** Bare AAC frames, each with an ADTS header (ISO/IEC 14496-3 annex 1.A). */
public final class AdtsDecoder implements AudioDecoder {
    private static final int HEADER_BYTES = 7;
    private static final int CHECKSUM_BYTES = 2;

    @Override
    public String formats() {
        return "AAC";
    }

    @Override
    public boolean accepts(byte[] head) {
        if (!isHeader(head, 0)) {
            return false;
        }
        int next = frameBytes(head, 0);
        return next + HEADER_BYTES > head.length || isHeader(head, next);
    }

    private static boolean isHeader(byte[] b, int at) {
        return at + HEADER_BYTES <= b.length
                && (b[at] & 0xFF) == 0xFF
                && (b[at + 1] & 0xF6) == 0xF0
                && (b[at + 2] >> 2 & 0xF) < 13
                && frameBytes(b, at) > HEADER_BYTES;
    }

    private static int frameBytes(byte[] b, int at) {
        return (b[at + 3] & 3) << 11 | (b[at + 4] & 0xFF) << 3 | (b[at + 5] & 0xFF) >> 5;
    }

    @Override
    public Recording decode(byte[] content, String name, ReadingOptions options) {
        return Decoding.guarded("AAC", content, name, options, () -> {
            PcmSink sink = new PcmSink(name, options);
            AacStream stream = new AacStream(config(content), sink);
            int at = 0;
            while (isHeader(content, at) && at + frameBytes(content, at) <= content.length) {
                int end = at + frameBytes(content, at);
                int header = HEADER_BYTES + ((content[at + 1] & 1) == 0 ? CHECKSUM_BYTES : 0);
                stream.frame(Arrays.copyOfRange(content, Math.min(end, at + header), end), name);
                at = end;
            }
            boolean isTag = at + 3 <= content.length && content[at] == 'T' && content[at + 1] == 'A';
            return sink.finish("ADTS", "AAC", at < content.length && !isTag);
        });
    }

    /** The AudioSpecificConfig that the first header amounts to: object type, rate index, channels. */
    private static byte[] config(byte[] b) {
        int objectType = (b[2] >> 6 & 3) + 1;
        int rateIndex = b[2] >> 2 & 0xF;
        int channels = (b[2] & 1) << 2 | (b[3] >> 6 & 3);
        int bits = objectType << 11 | rateIndex << 7 | channels << 3;
        return new byte[] {(byte) (bits >> 8), (byte) bits};
    }
}
