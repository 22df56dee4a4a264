package lungwort.decode;

import io.github.jaredmdobson.concentus.OpusDecoder;
import io.github.jaredmdobson.concentus.OpusException;
import io.github.jaredmdobson.concentus.OpusMSDecoder;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import lungwort.BadInput;
import org.jspecify.annotations.Nullable;

/** Opus packets (RFC 6716) at 48 kHz into a sink; its header is the one of RFC 7845 section 5.1, which Matroska carries too. */
final class OpusStream {
    static final int RATE_HZ = 48_000;

    /** Longest packet: 120 ms. */
    private static final int MAX_PACKET_FRAMES = RATE_HZ * 120 / 1000;

    private static final int HEAD_BYTES = 19;
    private static final byte[] MAGIC = "OpusHead".getBytes(StandardCharsets.US_ASCII);

    private final @Nullable OpusDecoder decoder;
    private final @Nullable OpusMSDecoder multistream;
    private final PcmSink sink;
    private final int channels;
    private final int preSkip;
    private final double scale;
    private final short[] pcm;

    /** @param head the packet that starts with {@code OpusHead} */
    OpusStream(byte[] head, PcmSink sink, String name) {
        if (!isHead(head) || (head[9] & 0xFF) == 0) {
            throw Decoding.damaged(name, "Opus", new IllegalStateException("header"));
        }
        this.sink = sink;
        channels = head[9] & 0xFF;
        preSkip = u16(head, 10);
        // Output gain, in steps of 1/256 dB.
        scale = Math.pow(10, (short) u16(head, 16) / 256.0 / 20) / 32_768;
        pcm = new short[MAX_PACKET_FRAMES * channels];
        try {
            boolean plain = head[18] == 0;
            if (plain && channels > 2) {
                throw Decoding.damaged(name, "Opus", new IllegalStateException("channels"));
            }
            decoder = plain ? new OpusDecoder(RATE_HZ, channels) : null;
            multistream = plain ? null : multistream(head, channels);
        } catch (OpusException e) {
            throw new Unsupported("kind of Opus");
        }
    }

    static boolean isHead(byte[] packet) {
        return packet.length >= HEAD_BYTES && Arrays.equals(packet, 0, MAGIC.length, MAGIC, 0, MAGIC.length);
    }

    private static OpusMSDecoder multistream(byte[] head, int channels) throws OpusException {
        if (head.length < HEAD_BYTES + 2 + channels) {
            throw new Unsupported("kind of Opus");
        }
        short[] mapping = new short[channels];
        for (int c = 0; c < channels; c++) {
            mapping[c] = (short) (head[HEAD_BYTES + 2 + c] & 0xFF);
        }
        return OpusMSDecoder.create(RATE_HZ, channels, head[HEAD_BYTES] & 0xFF, head[HEAD_BYTES + 1] & 0xFF, mapping);
    }

    private static int u16(byte[] b, int at) {
        return (b[at] & 0xFF) | (b[at + 1] & 0xFF) << 8;
    }

    /** Frames at the start that only prepare the decoder. */
    int preSkip() {
        return preSkip;
    }

    /** @throws BadInput if the packet cannot be decoded */
    void packet(byte[] packet, String name) {
        try {
            int frames = decoder != null
                    ? decoder.decode(packet, 0, packet.length, pcm, 0, MAX_PACKET_FRAMES, false)
                    : multistream(packet);
            if (frames < 0) {
                throw Decoding.damaged(name, "Opus", new IllegalStateException("code " + frames));
            }
            sink.interleaved(pcm, frames, channels, RATE_HZ, scale);
        } catch (OpusException e) {
            throw Decoding.damaged(name, "Opus", e);
        }
    }

    private int multistream(byte[] packet) {
        return multistream == null
                ? 0
                : multistream.decodeMultistream(packet, 0, packet.length, pcm, 0, MAX_PACKET_FRAMES, 0);
    }
}
