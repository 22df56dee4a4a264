package lungwort.decode;

import com.jcraft.jogg.Packet;
import com.jcraft.jorbis.Block;
import com.jcraft.jorbis.Comment;
import com.jcraft.jorbis.DspState;
import com.jcraft.jorbis.Info;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;

/** Vorbis packets (Vorbis I specification) into a sink: three headers, then sound. */
final class VorbisStream {
    private static final byte[] MAGIC = "\u0001vorbis".getBytes(StandardCharsets.US_ASCII);
    private static final int HEADERS = 3;

    /** A comment header without comments: those of the file are of no use here, and a false count in them makes the library take all memory. */
    private static final byte[] NO_COMMENTS = "\u0003vorbis\0\0\0\0\0\0\0\0\u0001".getBytes(StandardCharsets.US_ASCII);

    private final Info info = new Info();
    private final Comment comment = new Comment();
    private final DspState state = new DspState();
    private final Block block = new Block(state);
    private final float[][][] planes = new float[1][][];
    private int[] offsets = new int[0];
    private final PcmSink sink;
    private long packets;

    VorbisStream(PcmSink sink) {
        this.sink = sink;
        info.init();
        comment.init();
    }

    static boolean isHead(byte[] packet) {
        return packet.length > MAGIC.length && Arrays.equals(packet, 0, MAGIC.length, MAGIC, 0, MAGIC.length);
    }

    void packet(byte[] bytes, String name) {
        Packet packet = new Packet();
        packet.packet_base = packets == 1 ? NO_COMMENTS : bytes;
        packet.bytes = packet.packet_base.length;
        packet.packetno = packets;
        packet.b_o_s = packets == 0 ? 1 : 0;
        packet.granulepos = -1;
        if (packets++ < HEADERS) {
            header(packet, name);
        } else {
            sound(packet, name);
        }
    }

    private void header(Packet packet, String name) {
        if (info.synthesis_headerin(comment, packet) < 0) {
            throw Decoding.damaged(name, "Vorbis", new IllegalStateException("header " + packets));
        }
        if (packets == HEADERS) {
            state.synthesis_init(info);
            block.init(state);
            offsets = new int[info.channels];
        }
    }

    private void sound(Packet packet, String name) {
        if (block.synthesis(packet) != 0) {
            throw Decoding.damaged(name, "Vorbis", new IllegalStateException("packet " + packets));
        }
        state.synthesis_blockin(block);
        int frames;
        while ((frames = state.synthesis_pcmout(planes, offsets)) > 0) {
            sink.planar(shifted(frames), 0, frames, info.rate, 1);
            state.synthesis_read(frames);
        }
    }

    /** The channels' new samples; each lies at its own place in its buffer. */
    private List<float[]> shifted(int frames) {
        float[][] parts = new float[info.channels][];
        for (int c = 0; c < parts.length; c++) {
            parts[c] = Arrays.copyOfRange(planes[0][c], offsets[c], offsets[c] + frames);
        }
        return List.of(parts);
    }
}
