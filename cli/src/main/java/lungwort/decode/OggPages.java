package lungwort.decode;

import java.io.ByteArrayOutputStream;
import java.util.Arrays;
import java.util.function.Consumer;

/** Takes the packets of the first logical stream of an Ogg file (RFC 3533) out of its pages. */
final class OggPages {
    private static final int HEADER_BYTES = 27;
    private static final int CONTINUED = 1;

    private final byte[] bytes;
    private final Consumer<byte[]> packets;
    private final ByteArrayOutputStream open = new ByteArrayOutputStream();
    private long lastGranule = -1;
    private boolean cut;

    private OggPages(byte[] bytes, Consumer<byte[]> packets) {
        this.bytes = bytes;
        this.packets = packets;
    }

    /** Hands all packets over, in order; a page that is damaged throws {@link IllegalStateException}. */
    static OggPages walk(byte[] bytes, Consumer<byte[]> packets) {
        OggPages pages = new OggPages(bytes, packets);
        int at = 0;
        int serial = bytes.length >= HEADER_BYTES ? i32(bytes, 14) : 0;
        while (at < bytes.length) {
            at = pages.page(at, serial);
        }
        return pages;
    }

    /** Position of the last sample by the last page that tells, or -1. */
    long lastGranule() {
        return lastGranule;
    }

    /** Whether the file ends within a page or a packet. */
    boolean isCut() {
        return cut || open.size() > 0;
    }

    static boolean isPage(byte[] b, int at) {
        return at + 4 <= b.length && b[at] == 'O' && b[at + 1] == 'g' && b[at + 2] == 'g' && b[at + 3] == 'S';
    }

    private int page(int at, int serial) {
        int segments = at + 26 < bytes.length ? bytes[at + 26] & 0xFF : 0;
        int body = at + HEADER_BYTES + segments;
        if (at + HEADER_BYTES > bytes.length || body > bytes.length) {
            cut = true;
            return bytes.length;
        }
        if (!isPage(bytes, at)) {
            throw new IllegalStateException("no page at byte " + at);
        }
        int end = body;
        for (int s = 0; s < segments; s++) {
            end += bytes[at + HEADER_BYTES + s] & 0xFF;
        }
        if (end > bytes.length) {
            cut = true;
            if (i32(bytes, at + 14) == serial) {
                segments(at, segments, body);
            }
            return bytes.length;
        }
        if (crc(at, end) != i32(bytes, at + 22)) {
            throw new IllegalStateException("checksum of the page at byte " + at);
        }
        if (i32(bytes, at + 14) == serial) {
            segments(at, segments, body);
        }
        return end;
    }

    private void segments(int at, int segments, int body) {
        if ((bytes[at + 5] & CONTINUED) == 0) {
            open.reset();
        }
        int from = body;
        for (int s = 0; s < segments; s++) {
            int length = bytes[at + HEADER_BYTES + s] & 0xFF;
            if (from + length > bytes.length) {
                return;
            }
            open.write(bytes, from, length);
            from += length;
            if (length < 255) {
                packets.accept(open.toByteArray());
                open.reset();
            }
        }
        long granule = (i32(bytes, at + 6) & 0xFFFF_FFFFL) | (long) i32(bytes, at + 10) << 32;
        lastGranule = granule == -1 ? lastGranule : granule;
    }

    /** Polynomial 0x04C11DB7, not reflected, over the page with its own checksum taken as 0. */
    private int crc(int from, int to) {
        int crc = 0;
        for (int i = from; i < to; i++) {
            int value = i >= from + 22 && i < from + 26 ? 0 : bytes[i] & 0xFF;
            crc = crc << 8 ^ CRC[(crc >>> 24 ^ value) & 0xFF];
        }
        return crc;
    }

    private static final int[] CRC = crcTable();

    private static int[] crcTable() {
        int[] table = new int[256];
        Arrays.setAll(table, i -> {
            int crc = i << 24;
            for (int k = 0; k < 8; k++) {
                crc = crc << 1 ^ (crc < 0 ? 0x04C1_1DB7 : 0);
            }
            return crc;
        });
        return table;
    }

    private static int i32(byte[] b, int at) {
        return (b[at] & 0xFF) | (b[at + 1] & 0xFF) << 8 | (b[at + 2] & 0xFF) << 16 | b[at + 3] << 24;
    }
}
