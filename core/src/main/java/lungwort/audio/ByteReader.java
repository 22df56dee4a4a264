package lungwort.audio;

import java.nio.charset.StandardCharsets;

/** Little-endian numbers in an array; the caller keeps within its length. */
final class ByteReader {
    private ByteReader() {}

    static int u8(byte[] b, int at) {
        return b[at] & 0xFF;
    }

    static int u16(byte[] b, int at) {
        return u8(b, at) | u8(b, at + 1) << 8;
    }

    static int i16(byte[] b, int at) {
        return u8(b, at) | b[at + 1] << 8;
    }

    static int i24(byte[] b, int at) {
        return u16(b, at) | b[at + 2] << 16;
    }

    static int i32(byte[] b, int at) {
        return u16(b, at) | u16(b, at + 2) << 16;
    }

    static long u32(byte[] b, int at) {
        return i32(b, at) & 0xFFFF_FFFFL;
    }

    static long i64(byte[] b, int at) {
        return u32(b, at) | (long) i32(b, at + 4) << 32;
    }

    /** Four characters, or fewer at the end of the array; bytes that are no letters stay as they are. */
    static String tag(byte[] b, int at) {
        int length = Math.max(0, Math.min(4, b.length - at));
        return new String(b, Math.min(at, b.length), length, StandardCharsets.ISO_8859_1);
    }
}
