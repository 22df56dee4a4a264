package lungwort.decode;

import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/** What a sample entry of an MP4 file tells the decoder. */
final class Mp4Config {
    /** Fields of a sound sample entry before the boxes in it. */
    private static final int ENTRY_BYTES = 28;

    private static final int AAC_MPEG4 = 0x40;
    private static final int AAC_MPEG2_MAIN = 0x66;
    private static final int AAC_MPEG2_SSR = 0x68;

    private Mp4Config() {}

    static byte[] of(Mp4Box entry) {
        return switch (entry.tag()) {
            case "mp4a" -> audioSpecificConfig(entry);
            case "Opus" -> opusHead(entry);
            default ->
                throw new Unsupported(
                        "sound (" + entry.tag().replaceAll("[^ -~]", "?").strip() + ")");
        };
    }

    private static byte[] audioSpecificConfig(Mp4Box entry) {
        // QuickTime's versions 1 and 2 of the entry have more fields, and may wrap the box in another.
        int version = entry.u8(9);
        int skip = ENTRY_BYTES + (version == 1 ? 16 : version == 2 ? 36 : 0);
        Mp4Box descriptor = within(entry, skip, "esds");
        if (descriptor == null) {
            Mp4Box wave = within(entry, skip, "wave");
            descriptor = wave == null ? null : wave.child("esds");
        }
        if (descriptor == null) {
            throw new Unsupported("kind of AAC");
        }
        return new Descriptors(descriptor).config();
    }

    /** A {@code dOps} box holds an OpusHead packet's fields, big-endian and without its magic. */
    private static byte[] opusHead(Mp4Box entry) {
        Mp4Box box = within(entry, ENTRY_BYTES, "dOps");
        if (box == null || box.length() < 11) {
            throw new IllegalStateException("no Opus header");
        }
        byte[] body = Arrays.copyOfRange(box.file(), box.body(), box.end());
        byte[] head = new byte[8 + body.length];
        byte[] magic = "OpusHead".getBytes(StandardCharsets.US_ASCII);
        System.arraycopy(magic, 0, head, 0, magic.length);
        System.arraycopy(body, 0, head, 8, body.length);
        head[8] = 1;
        swap(head, 10, 11);
        swap(head, 12, 15);
        swap(head, 13, 14);
        swap(head, 16, 17);
        return head;
    }

    private static void swap(byte[] b, int i, int j) {
        byte held = b[i];
        b[i] = b[j];
        b[j] = held;
    }

    private static @Nullable Mp4Box within(Mp4Box entry, int skip, String tag) {
        return entry.children(skip).stream()
                .filter(b -> b.tag().equals(tag))
                .findFirst()
                .orElse(null);
    }

    /** The nested descriptors of an {@code esds} box (ISO/IEC 14496-1 section 7.2.6): stream 3, in it decoder 4, in it the config 5. */
    private static final class Descriptors {
        private final Mp4Box box;
        private int at = 4;
        private int length;

        Descriptors(Mp4Box box) {
            this.box = box;
        }

        byte[] config() {
            enter(3);
            int flags = box.u8(at + 2);
            at += 3 + ((flags & 0x80) != 0 ? 2 : 0) + ((flags & 0x20) != 0 ? 2 : 0);
            if ((flags & 0x40) != 0) {
                at += 1 + box.u8(at);
            }
            enter(4);
            int type = box.u8(at);
            if (type != AAC_MPEG4 && (type < AAC_MPEG2_MAIN || type > AAC_MPEG2_SSR)) {
                throw new Unsupported("kind of sound (type 0x" + Integer.toHexString(type) + ")");
            }
            at += 13;
            enter(5);
            int start = box.body() + at;
            return Arrays.copyOfRange(box.file(), start, Math.min(box.end(), start + length));
        }

        /** Steps over a tag and its length of one to four bytes. */
        private void enter(int tag) {
            if (box.u8(at++) != tag) {
                throw new IllegalStateException("no descriptor " + tag);
            }
            length = 0;
            int more = 0x80;
            for (int i = 0; i < 4 && (more & 0x80) != 0; i++) {
                more = box.u8(at++);
                length = length << 7 | (more & 0x7F);
            }
            if (box.body() + at > box.end()) {
                throw new IllegalStateException("a descriptor is cut");
            }
        }
    }
}
