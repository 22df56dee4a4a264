package lungwort.decode;

import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/** Walks the elements of a WebM file and decodes the blocks of its first Opus track. Live recordings leave lengths open: such an element ends where its parent does. */
final class WebmTrack {
    private static final int SEGMENT = 0x1853_8067;
    private static final int TRACKS = 0x1654_AE6B;
    private static final int TRACK_ENTRY = 0xAE;
    private static final int TRACK_NUMBER = 0xD7;
    private static final int CODEC_ID = 0x86;
    private static final int CODEC_PRIVATE = 0x63A2;
    private static final int TRACK_TYPE = 0x83;
    private static final int SOUND = 2;
    private static final int CLUSTER = 0x1F43_B675;
    private static final int BLOCK_GROUP = 0xA0;
    private static final int BLOCK = 0xA1;
    private static final int SIMPLE_BLOCK = 0xA3;
    private static final int DISCARD_PADDING = 0x75A2;
    private static final int LACING = 0x06;

    /** Segment, cluster, group and room to spare. */
    private static final int MAX_DEPTH = 8;

    private static final double NANOSECONDS = 1e9;

    private final byte[] b;
    private final PcmSink sink;
    private final String name;
    private long track = -1;
    private @Nullable OpusStream opus;
    private long entryNumber;
    private long entryType;
    private String entryCodec = "";
    private byte[] entryPrivate = new byte[0];
    private double discardSeconds;
    private boolean cut;
    private int depth;

    WebmTrack(byte[] content, PcmSink sink, String name) {
        this.b = content;
        this.sink = sink;
        this.name = name;
    }

    /** Returns whether the file ends within an element. */
    boolean decode() {
        walk(0, b.length);
        sink.dropLast(Math.round(discardSeconds * OpusStream.RATE_HZ));
        return cut;
    }

    private void walk(int from, int to) {
        if (++depth > MAX_DEPTH) {
            throw new IllegalStateException("elements are nested too deeply at byte " + from);
        }
        int at = from;
        while (at < to) {
            int idBytes = Integer.numberOfLeadingZeros(b[at] & 0xFF) - 23;
            int sizeAt = at + idBytes;
            if (idBytes > 4) {
                throw new IllegalStateException("no element at byte " + at);
            }
            int sizeBytes = sizeAt < to ? Integer.numberOfLeadingZeros(b[sizeAt] & 0xFF) - 23 : 9;
            if (sizeAt + sizeBytes > to) {
                cut = true;
                break;
            }
            long size = number(sizeAt, sizeBytes) & mask(sizeBytes);
            boolean isOpen = size == mask(sizeBytes);
            int body = sizeAt + sizeBytes;
            boolean isClipped = !isOpen && size > to - body;
            cut |= isClipped;
            int end = isOpen || isClipped ? to : body + (int) size;
            int id = (int) number(at, idBytes);
            boolean isPartOfBlock = isClipped && (id == BLOCK || id == SIMPLE_BLOCK);
            at = isPartOfBlock ? end : element(id, body, end, isOpen);
        }
        depth--;
    }

    /** Takes one element; returns where the next one starts. Levels of unknown length are walked flat, so their children follow at once. */
    private int element(int id, int body, int end, boolean isOpen) {
        switch (id) {
            case SEGMENT, CLUSTER -> {
                if (isOpen) {
                    return body;
                }
                walk(body, end);
            }
            case TRACKS, BLOCK_GROUP -> walk(body, end);
            case TRACK_ENTRY -> {
                entryType = 0;
                entryCodec = "";
                entryPrivate = new byte[0];
                walk(body, end);
                choose();
            }
            case TRACK_NUMBER -> entryNumber = number(body, end - body);
            case TRACK_TYPE -> entryType = number(body, end - body);
            case CODEC_ID -> entryCodec = new String(b, body, end - body, StandardCharsets.ISO_8859_1);
            case CODEC_PRIVATE -> entryPrivate = Arrays.copyOfRange(b, body, end);
            case SIMPLE_BLOCK, BLOCK -> block(body, end);
            case DISCARD_PADDING -> discardSeconds = Math.max(0, number(body, end - body)) / NANOSECONDS;
            default -> {
                // Of no use here.
            }
        }
        return end;
    }

    private void choose() {
        if (track < 0 && entryType == SOUND) {
            if (!entryCodec.equals("A_OPUS")) {
                throw new Unsupported("kind of sound inside WebM");
            }
            track = entryNumber;
            opus = new OpusStream(entryPrivate, sink, name);
            sink.trim((double) opus.preSkip() / OpusStream.RATE_HZ, Double.POSITIVE_INFINITY);
        }
    }

    /** Track number of one byte or more, time of two bytes, flags, then the packet. */
    private void block(int body, int end) {
        int numberBytes = body < end ? Integer.numberOfLeadingZeros(b[body] & 0xFF) - 23 : 9;
        int packet = body + numberBytes + 3;
        if (packet > end) {
            cut = true;
            return;
        }
        long number = number(body, numberBytes) & mask(numberBytes);
        if (opus == null || number != track) {
            return;
        }
        if ((b[packet - 1] & LACING) != 0) {
            throw new Unsupported("packing of blocks");
        }
        opus.packet(Arrays.copyOfRange(b, packet, end), name);
    }

    /** The bits of a number of so many bytes that are not taken by its length marker. */
    private static long mask(int bytes) {
        return (1L << (7 * bytes)) - 1;
    }

    /** Big-endian, the bytes as they stand; at most eight are read. */
    private long number(int at, int bytes) {
        long value = 0;
        for (int i = at; i < at + Math.min(8, bytes); i++) {
            value = value << 8 | (b[i] & 0xFF);
        }
        return value;
    }
}
