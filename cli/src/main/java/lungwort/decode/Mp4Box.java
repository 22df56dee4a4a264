package lungwort.decode;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A box of an ISO base media file: where its body lies. Lengths are kept within what holds the box, so nothing a header says leads outside the file.
 *
 * @param tag four characters
 * @param start the box's own first byte
 * @param body first byte after its header
 * @param end byte after it
 * @param isCut whether it claims to be longer than what holds it
 */
@SuppressWarnings("ArrayRecordComponent") // a window on the file, never compared
record Mp4Box(byte[] file, String tag, int start, int body, int end, boolean isCut) {
    private static final int HEADER_BYTES = 8;
    private static final int LONG_HEADER_BYTES = 16;

    /** The file as one box. */
    static Mp4Box whole(byte[] file) {
        return new Mp4Box(file, "", 0, 0, file.length, false);
    }

    static boolean isTag(byte[] b, int at, String tag) {
        return at + 4 <= b.length && new String(b, at, 4, StandardCharsets.ISO_8859_1).equals(tag);
    }

    /** The boxes inside, from a byte of the body on. */
    List<Mp4Box> children(int skip) {
        List<Mp4Box> boxes = new ArrayList<>();
        int at = body + skip;
        while (at + HEADER_BYTES <= end) {
            long length = u32(file, at);
            int header = HEADER_BYTES;
            if (length == 1 && at + LONG_HEADER_BYTES <= end) {
                length = u32(file, at + 8) << 32 | u32(file, at + 12);
                header = LONG_HEADER_BYTES;
            } else if (length == 0) {
                length = (long) end - at;
            }
            if (length < header) {
                break;
            }
            boolean cut = length > end - at;
            int boxEnd = cut ? end : at + (int) length;
            String name = new String(file, at + 4, 4, StandardCharsets.ISO_8859_1);
            boxes.add(new Mp4Box(file, name, at, at + header, boxEnd, cut));
            at = boxEnd;
        }
        return boxes;
    }

    /** The first box of a name inside, or null. */
    @Nullable
    Mp4Box child(String name) {
        return children(0).stream().filter(b -> b.tag.equals(name)).findFirst().orElse(null);
    }

    /** The box at the end of a path of names, or null. */
    @Nullable
    Mp4Box at(String... path) {
        Mp4Box box = this;
        for (String name : path) {
            box = box.child(name);
            if (box == null) {
                return null;
            }
        }
        return box;
    }

    /** Number of bytes in the body. */
    int length() {
        return end - body;
    }

    /** Unsigned 32-bit number at an offset in the body; 0 beyond its end. */
    long u32(int offset) {
        return offset >= 0 && body + offset + 4 <= end ? u32(file, body + offset) : 0;
    }

    /** Signed 32-bit number at an offset in the body; 0 beyond its end. */
    int i32(int offset) {
        return (int) u32(offset);
    }

    /** Signed 64-bit number at an offset in the body; 0 beyond its end. */
    long i64(int offset) {
        return u32(offset) << 32 | u32(offset + 4);
    }

    /** Unsigned byte at an offset in the body; 0 beyond its end. */
    int u8(int offset) {
        return body + offset < end ? file[body + offset] & 0xFF : 0;
    }

    private static long u32(byte[] b, int at) {
        return (b[at] & 0xFFL) << 24 | (b[at + 1] & 0xFF) << 16 | (b[at + 2] & 0xFF) << 8 | (b[at + 3] & 0xFF);
    }
}
