package lungwort.audio;

import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Arrays;
import java.util.Locale;
import lungwort.BadInput;
import org.jspecify.annotations.Nullable;

/**
 * FLAC (RFC 9639), every subset and bit depth of it, native container.
 *
 * <p>Each frame's checksums and the whole stream's MD5 are checked: damage is refused with its place. A file that was cut keeps its whole frames, and a remark says so.
 *
 * <p>Written from the standard: the ready decoders on offer are bound to javax.sound, which this module does without.
 */
public final class FlacReader implements AudioDecoder {
    private static final int STREAM_INFO_BYTES = 34;
    private static final int MD5_BYTES = 16;

    /** More than headers, predictors and checksums of a frame of eight channels take beside its samples. */
    private static final int MAX_FRAME_OVERHEAD_BYTES = 1_024;

    @Override
    public String formats() {
        return "FLAC";
    }

    @Override
    public boolean accepts(byte[] head) {
        return ByteReader.tag(head, 0).equals("fLaC");
    }

    @Override
    public Recording decode(byte[] content, String name, ReadingOptions options) {
        StreamInfo info = StreamInfo.parse(content, name);
        MonoMix mix = new MonoMix(name, info.rateHz, info.channels, options, 0);
        FlacFrame frame = new FlacFrame(info.channels, info.bits);
        Md5 md5 = new Md5(info);
        boolean cut = false;
        int at = info.firstFrame;
        double[] block = new double[0];
        while (at < content.length && !isDone(info, mix)) {
            try {
                at = frame.decode(content, at);
            } catch (BitReader.PastEnd e) {
                if (content.length - at > info.maxFrameBytes) {
                    throw damaged(name, mix.length(), info, "a frame has no end");
                }
                cut = true;
                break;
            } catch (FlacFrame.Damaged e) {
                throw damaged(name, mix.length(), info, e.what());
            }
            md5.add(frame);
            block = interleave(frame, info, block);
            mix.add(block, frame.length());
        }
        cut |= info.frames > mix.length();
        if (!cut && !md5.agrees()) {
            throw damaged(name, 0, info, "the sound does not agree with the checksum the file carries");
        }
        SourceFormat source = new SourceFormat("FLAC", "FLAC", info.rateHz, info.bits, info.channels);
        return mix.finish(cut ? source.remark(cutRemark(info, mix.length())) : source);
    }

    /** What follows the last frame the header counts is no sound (some taggers add a block there). */
    private static boolean isDone(StreamInfo info, MonoMix mix) {
        return info.frames > 0 && mix.length() >= info.frames;
    }

    private static double[] interleave(FlacFrame frame, StreamInfo info, double[] old) {
        int needed = frame.length() * info.channels;
        double[] block = old.length >= needed ? old : new double[needed];
        double scale = 1 / (double) (1L << (info.bits - 1));
        for (int c = 0; c < info.channels; c++) {
            long[] channel = frame.channel(c);
            for (int i = 0, to = c; i < frame.length(); i++, to += info.channels) {
                block[to] = channel[i] * scale;
            }
        }
        return block;
    }

    private static String cutRemark(StreamInfo info, int frames) {
        double there = (double) frames / info.rateHz;
        return info.frames > 0
                ? String.format(
                        Locale.ROOT,
                        "The file is cut: %.1f s of the %.1f s it should hold are there.",
                        there,
                        (double) info.frames / info.rateHz)
                : String.format(Locale.ROOT, "The file is cut: the first %.1f s of it are there.", there);
    }

    private static BadInput damaged(String name, int frames, StreamInfo info, String what) {
        return BadInput.of(
                "%s: the file is damaged at about %.1f s (%s); copy it again or record again.",
                name, (double) frames / info.rateHz, what);
    }

    /**
     * The stream's first metadata block.
     *
     * @param maxFrameBytes the longest coded frame
     * @param frames samples in each channel, 0 if unknown
     * @param md5 of the samples, all 0 if unknown
     * @param firstFrame byte after the last metadata block
     */
    @SuppressWarnings("ArrayRecordComponent") // carries the checksum, never compared
    private record StreamInfo(
            int maxFrameBytes, int rateHz, int channels, int bits, long frames, byte[] md5, int firstFrame) {
        static StreamInfo parse(byte[] b, String name) {
            int at = 4;
            if (b.length < at + 4 + STREAM_INFO_BYTES || (b[at] & 0x7F) != 0) {
                throw new BadInput(name + ": its FLAC header is cut or damaged; copy it again or record again.");
            }
            BitReader in = new BitReader(b, at + 4 + 2);
            int maxBlock = (int) in.bits(16);
            in.bits(24);
            int maxFrameBytes = (int) in.bits(24);
            int rate = (int) in.bits(20);
            int channels = (int) in.bits(3) + 1;
            int bits = (int) in.bits(5) + 1;
            long frames = in.bits(4) << 32 | in.bits(32);
            byte[] md5 = Arrays.copyOfRange(b, in.byteAt(), in.byteAt() + MD5_BYTES);
            if (maxFrameBytes == 0) {
                maxFrameBytes = MAX_FRAME_OVERHEAD_BYTES + maxBlock * channels * (bits + 8) / 8;
            }
            return new StreamInfo(maxFrameBytes, rate, channels, bits, frames, md5, afterMetadata(b, at));
        }

        private static int afterMetadata(byte[] b, int first) {
            long at = first;
            boolean last = false;
            while (!last && at + 4 <= b.length) {
                int i = (int) at;
                last = b[i] < 0;
                at += 4 + ((b[i + 1] & 0xFF) << 16 | (b[i + 2] & 0xFF) << 8 | (b[i + 3] & 0xFF));
            }
            return (int) Math.min(at, b.length);
        }
    }

    /** The checksum over all samples, little-endian in whole bytes, channels interleaved (RFC 9639 section 8.2). */
    private static final class Md5 {
        private final StreamInfo info;
        private final @Nullable MessageDigest digest;
        private byte[] work = new byte[0];

        Md5(StreamInfo info) {
            this.info = info;
            this.digest = isKnown(info.md5) ? newDigest() : null;
        }

        private static boolean isKnown(byte[] md5) {
            return !Arrays.equals(md5, new byte[MD5_BYTES]);
        }

        private static MessageDigest newDigest() {
            try {
                return MessageDigest.getInstance("MD5");
            } catch (NoSuchAlgorithmException e) {
                throw new IllegalStateException("every Java platform has MD5", e);
            }
        }

        void add(FlacFrame frame) {
            if (digest == null) {
                return;
            }
            int bytes = (info.bits + 7) / 8;
            int needed = frame.length() * info.channels * bytes;
            work = work.length >= needed ? work : new byte[needed];
            int at = 0;
            for (int i = 0; i < frame.length(); i++) {
                for (int c = 0; c < info.channels; c++) {
                    long value = frame.channel(c)[i];
                    for (int k = 0; k < bytes; k++, value >>= 8) {
                        work[at++] = (byte) value;
                    }
                }
            }
            digest.update(work, 0, needed);
        }

        boolean agrees() {
            return digest == null || Arrays.equals(digest.digest(), info.md5);
        }
    }
}
