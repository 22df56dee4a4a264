package lungwort.audio;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import lungwort.BadInput;

/** Mono RIFF WAVE files. */
public final class WavWriter {
    private static final int FORMAT_BYTES = 16;
    private static final int HEADER_BYTES = 44;

    /** How samples are stored. */
    public enum Encoding {
        /** 16-bit PCM; samples beyond [-1, 1) are clipped. */
        PCM_16(1, 16),
        /** 32-bit IEEE float; samples are rounded to 24 bits and never clipped. */
        FLOAT_32(3, 32);

        private final int tag;
        private final int bits;

        Encoding(int tag, int bits) {
            this.tag = tag;
            this.bits = bits;
        }
    }

    private WavWriter() {}

    /** A whole file: header of {@value #HEADER_BYTES} bytes, then the samples. */
    public static byte[] toBytes(Recording recording, Encoding encoding) {
        int sampleBytes = encoding.bits / 8;
        int dataBytes = Math.multiplyExact(recording.length(), sampleBytes);
        ByteBuffer out = ByteBuffer.allocate(HEADER_BYTES + dataBytes).order(ByteOrder.LITTLE_ENDIAN);
        out.put(tag("RIFF")).putInt(HEADER_BYTES - 8 + dataBytes).put(tag("WAVE"));
        out.put(tag("fmt ")).putInt(FORMAT_BYTES).putShort((short) encoding.tag).putShort((short) 1);
        out.putInt(recording.sampleRateHz()).putInt(recording.sampleRateHz() * sampleBytes);
        out.putShort((short) sampleBytes).putShort((short) encoding.bits);
        out.put(tag("data")).putInt(dataBytes);
        for (int i = 0; i < recording.length(); i++) {
            if (encoding == Encoding.PCM_16) {
                long level = Math.round(recording.sample(i) * 32_768);
                out.putShort((short) Math.max(Short.MIN_VALUE, Math.min(Short.MAX_VALUE, level)));
            } else {
                out.putFloat((float) recording.sample(i));
            }
        }
        return out.array();
    }

    /**
     * Writes a file whole or not at all: it is made beside its place and then moved there.
     *
     * @throws BadInput if it cannot be written (no such folder, no right, disk full); an older file of that name is then as it was
     */
    public static void write(Path file, Recording recording, Encoding encoding) {
        Path part = file.resolveSibling(file.getFileName() + ".part");
        try {
            Files.write(part, toBytes(recording, encoding));
            Files.move(part, file, StandardCopyOption.REPLACE_EXISTING);
        } catch (IOException e) {
            deleteQuietly(part);
            throw BadInput.because(
                    e,
                    "%s: it cannot be written (%s); check that the folder exists and the disk has room.",
                    file,
                    e.getMessage());
        }
    }

    private static void deleteQuietly(Path part) {
        try {
            Files.deleteIfExists(part);
        } catch (IOException e) {
            // The first fault is the one to tell.
        }
    }

    private static byte[] tag(String name) {
        return name.getBytes(StandardCharsets.US_ASCII);
    }
}
