package lungwort.audio;

import java.util.List;
import java.util.Locale;
import lungwort.BadInput;
import org.jspecify.annotations.Nullable;

/**
 * RIFF WAVE (Microsoft and IBM 1991; WAVE_FORMAT_EXTENSIBLE) and its 64-bit forms RF64 and BW64 (EBU Tech 3306, ITU-R BS.2088): PCM of 1 to 32 bits, float of 32 and 64.
 *
 * <p>Read as files are found, not only as they should be. Chunks may stand before and after the sound. Block align is not trusted. A data length that is missing (0 or
 * 0xFFFFFFFF, as streaming recorders leave it) means the rest of the file. A file that holds less than it says was cut: its whole frames are read and a remark says how
 * many seconds are missing.
 */
public final class WavReader implements AudioDecoder {
    private static final int RIFF_HEADER_BYTES = 12;
    private static final int CHUNK_HEADER_BYTES = 8;
    private static final long UNKNOWN_LENGTH = 0xFFFF_FFFFL;

    /** Frames mixed at once: enough to make the loop cheap, few enough to stay in the cache. */
    private static final int BLOCK_FRAMES = 4_096;

    private static final List<String> FORMS = List.of("RIFF", "RF64", "BW64");

    /** Where the sound lies. {@code declared} is the length the header gives, or -1 where it gives none. */
    private record Data(int start, int length, long declared) {}

    @Override
    public String formats() {
        return "WAV";
    }

    @Override
    public boolean accepts(byte[] head) {
        return isWave(head) && !isForeign(head);
    }

    static boolean isWave(byte[] head) {
        return FORMS.contains(ByteReader.tag(head, 0))
                && ByteReader.tag(head, 8).equals("WAVE");
    }

    /** Whether it says that its sound is stored in a way that another decoder may read. */
    private static boolean isForeign(byte[] head) {
        long at = RIFF_HEADER_BYTES;
        while (at + CHUNK_HEADER_BYTES <= head.length) {
            int body = (int) at + CHUNK_HEADER_BYTES;
            if (ByteReader.tag(head, (int) at).equals("fmt ")) {
                return WavFormat.isForeign(head, body);
            }
            at = Chunks.next(head, body, ByteReader.u32(head, (int) at + 4));
        }
        return false;
    }

    @Override
    public Recording decode(byte[] content, String name, ReadingOptions options) {
        Chunks chunks = Chunks.walk(content, name);
        WavFormat format = chunks.format;
        Data data = chunks.data;
        if (format == null) {
            throw new BadInput(name + ": its header does not say how the sound is stored; the file is damaged.");
        }
        if (data == null) {
            throw new BadInput(name + ": it has a header but no sound; the recording was not saved, record again.");
        }
        int frameBytes = format.bytesPerSample() * Math.max(1, format.channels());
        int frames = data.length / frameBytes;
        MonoMix mix = new MonoMix(name, format.rateHz(), format.channels(), options, frames);
        read(content, data.start, frames, format, mix);
        return mix.finish(source(content, format, data, frameBytes));
    }

    private static void read(byte[] content, int start, int frames, WavFormat format, MonoMix mix) {
        int channels = format.channels();
        int bytes = format.bytesPerSample();
        double[] block = new double[Math.min(frames, BLOCK_FRAMES) * channels];
        int at = start;
        for (int done = 0; done < frames; ) {
            int count = Math.min(BLOCK_FRAMES, frames - done);
            for (int i = 0; i < count * channels; i++, at += bytes) {
                block[i] = format.sample(content, at);
            }
            mix.add(block, count);
            done += count;
        }
    }

    private static SourceFormat source(byte[] content, WavFormat format, Data data, int frameBytes) {
        String container = ByteReader.tag(content, 0).equals("RIFF") ? "WAV" : ByteReader.tag(content, 0);
        SourceFormat source = new SourceFormat(
                container, format.isFloat() ? "float" : "PCM", format.rateHz(), format.bits(), format.channels());
        if (data.declared > data.length) {
            double bytesPerSecond = (double) frameBytes * format.rateHz();
            return source.remark(String.format(
                    Locale.ROOT,
                    "The file is cut: %.1f s of the %.1f s it should hold are there.",
                    data.length / bytesPerSecond,
                    data.declared / bytesPerSecond));
        }
        return source;
    }

    /** One pass over the chunks, up to the first format and the first sound. */
    private static final class Chunks {
        private @Nullable WavFormat format;
        private @Nullable Data data;
        private long dataLength64 = -1;

        static Chunks walk(byte[] b, String name) {
            Chunks chunks = new Chunks();
            long at = RIFF_HEADER_BYTES;
            while (at + CHUNK_HEADER_BYTES <= b.length && (chunks.format == null || chunks.data == null)) {
                at = chunks.take(b, (int) at, name);
            }
            return chunks;
        }

        /** Notes the chunk at a byte; returns where the next one starts. */
        private long take(byte[] b, int at, String name) {
            String tag = ByteReader.tag(b, at);
            long length = ByteReader.u32(b, at + 4);
            int body = at + CHUNK_HEADER_BYTES;
            if (tag.equals("ds64") && length >= 16 && body + 16 <= b.length) {
                dataLength64 = ByteReader.i64(b, body + 8);
            } else if (tag.equals("fmt ") && format == null) {
                format = WavFormat.parse(b, body, length, name);
            } else if (tag.equals("data") && data == null) {
                data = locate(b, body, length);
                length = data.length;
            }
            return next(b, body, length);
        }

        private Data locate(byte[] b, int body, long length) {
            int rest = b.length - body;
            long declared = length;
            if (length == UNKNOWN_LENGTH) {
                declared = dataLength64 >= 0 ? dataLength64 : -1;
            } else if (length == 0 && !isChunk(b, body)) {
                declared = -1;
            }
            return new Data(body, declared < 0 ? rest : (int) Math.min(rest, declared), declared);
        }

        /** Chunks start at even bytes, but some writers forget to pad one of odd length. */
        private static long next(byte[] b, int body, long length) {
            long end = body + length;
            if (length % 2 == 1 && end + CHUNK_HEADER_BYTES <= b.length && !isChunk(b, end + 1) && isChunk(b, end)) {
                return end;
            }
            return end + length % 2;
        }

        /** Whether what stands here could be a chunk: a printable tag and a length that the file can hold. */
        private static boolean isChunk(byte[] b, long at) {
            if (at + CHUNK_HEADER_BYTES > b.length) {
                return false;
            }
            for (int i = 0; i < 4; i++) {
                int c = ByteReader.u8(b, (int) at + i);
                if (c < 0x20 || c > 0x7E) {
                    return false;
                }
            }
            return ByteReader.u32(b, (int) at + 4) <= b.length - at - CHUNK_HEADER_BYTES;
        }
    }
}
