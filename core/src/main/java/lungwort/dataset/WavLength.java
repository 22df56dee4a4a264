package lungwort.dataset;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import lungwort.BadInput;

/**
 * Length of a WAVE file from its header alone, so that thousands are checked in a second. Bits and channels are trusted, not block align: SPRSound's headers say 4
 * for 16-bit mono.
 */
final class WavLength {
    private static final int CHUNK_HEADER_BYTES = 8;
    private static final int FMT_BYTES = 16;
    private static final int MAX_CHUNKS = 64;

    /** Written by programs that did not know the length when they began. */
    private static final long UNKNOWN_LENGTH = 0xFFFF_FFFFL;

    private static final int LARGEST_PADDING_BYTES = 8;

    private WavLength() {}

    static double seconds(Path file) throws IOException {
        try (FileChannel channel = FileChannel.open(file, StandardOpenOption.READ)) {
            ByteBuffer riff = read(channel, 0, 12);
            if (riff.remaining() < 12
                    || !tag(riff, 0).equals("RIFF")
                    || !tag(riff, 8).equals("WAVE")) {
                throw notWave(file);
            }
            return walk(file, channel);
        }
    }

    private static double walk(Path file, FileChannel channel) throws IOException {
        long position = 12;
        double bytesPerSecond = 0;
        for (int chunk = 0; chunk < MAX_CHUNKS; chunk++) {
            ByteBuffer header = read(channel, position, CHUNK_HEADER_BYTES);
            if (header.remaining() < CHUNK_HEADER_BYTES) {
                break;
            }
            long size = header.getInt(4) & 0xFFFF_FFFFL;
            if (tag(header, 0).equals("fmt ")) {
                bytesPerSecond = bytesPerSecond(read(channel, position + CHUNK_HEADER_BYTES, FMT_BYTES));
            } else if (tag(header, 0).equals("data") && bytesPerSecond > 0) {
                return dataBytes(file, size, channel.size() - position - CHUNK_HEADER_BYTES) / bytesPerSecond;
            }
            position += CHUNK_HEADER_BYTES + size + (size & 1);
        }
        throw notWave(file);
    }

    private static long dataBytes(Path file, long announced, long there) {
        if (there <= 0) {
            throw BadInput.of("%s: it holds no sound; unpack the download again.", file);
        }
        if (announced == 0 || announced == UNKNOWN_LENGTH) {
            return there;
        }
        if (announced > there + LARGEST_PADDING_BYTES) {
            throw BadInput.of(
                    "%s: it was cut: its header announces %d bytes of sound, but only %d are there; unpack the download again.",
                    file, announced, there);
        }
        return Math.min(announced, there);
    }

    private static double bytesPerSecond(ByteBuffer fmt) {
        if (fmt.remaining() < FMT_BYTES) {
            return 0;
        }
        int channels = fmt.getShort(2) & 0xFFFF;
        long rateHz = fmt.getInt(4) & 0xFFFF_FFFFL;
        int bits = fmt.getShort(14) & 0xFFFF;
        return channels * (bits / 8.0) * rateHz;
    }

    private static ByteBuffer read(FileChannel channel, long position, int bytes) throws IOException {
        ByteBuffer buffer = ByteBuffer.allocate(bytes).order(ByteOrder.LITTLE_ENDIAN);
        while (buffer.hasRemaining() && channel.read(buffer, position + buffer.position()) > 0) {
            continue;
        }
        return buffer.flip();
    }

    private static String tag(ByteBuffer buffer, int offset) {
        byte[] tag = new byte[4];
        buffer.get(offset, tag);
        return new String(tag, StandardCharsets.ISO_8859_1);
    }

    private static BadInput notWave(Path file) {
        return BadInput.of("%s: it is not a WAVE file, or its header is damaged; unpack the download again.", file);
    }
}
