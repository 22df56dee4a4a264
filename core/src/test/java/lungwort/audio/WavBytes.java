package lungwort.audio;

import java.io.ByteArrayOutputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;

/** Builds WAV files by hand, right ones and wrong ones. */
final class WavBytes {
    private final ByteArrayOutputStream out = new ByteArrayOutputStream();

    WavBytes(String form) {
        text(form).u32(-1).text("WAVE");
    }

    /** RIFF with a plain PCM format. */
    static WavBytes pcm(int channels, int rateHz, int bits) {
        return new WavBytes("RIFF").format(1, channels, rateHz, channels * ((bits + 7) / 8), bits);
    }

    WavBytes format(int tag, int channels, int rateHz, int blockAlign, int bits) {
        return text("fmt ")
                .u32(16)
                .u16(tag)
                .u16(channels)
                .u32(rateHz)
                .u32(rateHz * blockAlign)
                .u16(blockAlign)
                .u16(bits);
    }

    WavBytes chunk(String tag, byte[] body) {
        return text(tag).u32(body.length).raw(body);
    }

    WavBytes data(long declaredBytes, int... shorts) {
        text("data").u32((int) declaredBytes);
        for (int value : shorts) {
            u16(value);
        }
        return this;
    }

    WavBytes text(String text) {
        return raw(text.getBytes(StandardCharsets.ISO_8859_1));
    }

    WavBytes u16(int value) {
        return raw(new byte[] {(byte) value, (byte) (value >> 8)});
    }

    WavBytes u32(int value) {
        return raw(ByteBuffer.allocate(4)
                .order(ByteOrder.LITTLE_ENDIAN)
                .putInt(value)
                .array());
    }

    WavBytes u64(long value) {
        return raw(ByteBuffer.allocate(8)
                .order(ByteOrder.LITTLE_ENDIAN)
                .putLong(value)
                .array());
    }

    WavBytes raw(byte[] bytes) {
        out.writeBytes(bytes);
        return this;
    }

    byte[] bytes() {
        return out.toByteArray();
    }
}
