package lungwort.decode;

/**
 * Where an MP3 file's frames lie, and what its first one says about delay and length (the "Xing" or "Info" frame with the encoder's delay in it, as encoders have written
 * it since 1999; a convention, not part of the standard).
 */
final class Mp3Frames {
    /** Samples by which a decoder lags: 528 for its filter bank and one more. */
    private static final int DECODER_DELAY = 529;

    private static final int ID3_BYTES = 10;
    private static final int[] RATES_MPEG1 = {44_100, 48_000, 32_000};
    private static final int[] KBITS_MPEG1 = {0, 32, 40, 48, 56, 64, 80, 96, 112, 128, 160, 192, 224, 256, 320};
    private static final int[] KBITS_MPEG2 = {0, 8, 16, 24, 32, 40, 48, 56, 64, 80, 96, 112, 128, 144, 160};

    private int start;
    private int end;
    private int count;
    private boolean cut;
    private int rateHz = 1;
    private int samplesPerFrame;
    private long delay;
    private long padding;
    private boolean hasDelay;

    private Mp3Frames() {}

    static boolean isId3(byte[] b) {
        return b.length > ID3_BYTES && b[0] == 'I' && b[1] == 'D' && b[2] == '3';
    }

    static Mp3Frames walk(byte[] b) {
        Mp3Frames frames = new Mp3Frames();
        int at = frames.firstFrame(b);
        int version = b[at + 1] >> 3 & 3;
        frames.rateHz = rate(b, at);
        frames.samplesPerFrame = version == 3 ? 1_152 : 576;
        if (frames.readDelay(b, at, version)) {
            at += frameBytes(b, at);
        }
        frames.start = at;
        int length;
        while ((length = frameBytes(b, at)) > 0 && at + length <= b.length) {
            at += length;
            frames.count++;
        }
        frames.end = at;
        frames.cut = length > 0;
        frames.requireNoDamage(b, at, length);
        return frames;
    }

    /** After the tag, at the first header that another one follows. */
    private int firstFrame(byte[] b) {
        long at = 0;
        if (isId3(b)) {
            at = ID3_BYTES + ((b[6] & 0x7FL) << 21 | (b[7] & 0x7F) << 14 | (b[8] & 0x7F) << 7 | (b[9] & 0x7F));
        }
        for (int i = (int) Math.min(at, b.length); i + 4 <= b.length; i++) {
            int length = frameBytes(b, i);
            if (length > 0 && (i + length + 4 > b.length || frameBytes(b, i + length) > 0)) {
                return i;
            }
        }
        throw new IllegalStateException("no frame");
    }

    /** Anything but an ID3v1 or APE tag after the last frame means that frames are lost. */
    private void requireNoDamage(byte[] b, int at, int length) {
        boolean isRest = length <= 0 && at + 4 <= b.length;
        boolean isTag = isRest && ((b[at] == 'T' && b[at + 1] == 'A') || (b[at] == 'A' && b[at + 1] == 'P'));
        boolean isFilling = isRest && b[at] == 0;
        if (isRest && !isTag && !isFilling) {
            throw new IllegalStateException("no frame at byte " + at);
        }
    }

    /** Whether this is the frame without sound that tells the delay. */
    private boolean readDelay(byte[] b, int at, int version) {
        boolean isMono = (b[at + 3] >> 6 & 3) == 3;
        int side = version == 3 ? (isMono ? 17 : 32) : (isMono ? 9 : 17);
        int tag = at + 4 + side;
        if (tag + 8 > b.length || (!is(b, tag, "Xing") && !is(b, tag, "Info"))) {
            return false;
        }
        int flags = b[tag + 7];
        int encoder = tag
                + 8
                + ((flags & 1) != 0 ? 4 : 0)
                + ((flags & 2) != 0 ? 4 : 0)
                + ((flags & 4) != 0 ? 100 : 0)
                + ((flags & 8) != 0 ? 4 : 0);
        if (encoder + 24 <= b.length && (is(b, encoder, "LAME") || is(b, encoder, "Lavc") || is(b, encoder, "Lavf"))) {
            delay = (b[encoder + 21] & 0xFFL) << 4 | (b[encoder + 22] & 0xFF) >> 4;
            padding = (b[encoder + 22] & 0xFL) << 8 | (b[encoder + 23] & 0xFF);
            hasDelay = true;
        }
        return true;
    }

    private static boolean is(byte[] b, int at, String tag) {
        for (int i = 0; i < 4; i++) {
            if (b[at + i] != tag.charAt(i)) {
                return false;
            }
        }
        return true;
    }

    private static int rate(byte[] b, int at) {
        int version = b[at + 1] >> 3 & 3;
        int rate = RATES_MPEG1[b[at + 2] >> 2 & 3];
        return version == 3 ? rate : version == 2 ? rate / 2 : rate / 4;
    }

    /** Bytes of the layer III frame whose header stands at a byte, or 0 if none does. */
    static int frameBytes(byte[] b, int at) {
        if (at < 0 || at + 4 > b.length || (b[at] & 0xFF) != 0xFF || (b[at + 1] & 0xE6) != 0xE2) {
            return 0;
        }
        int version = b[at + 1] >> 3 & 3;
        int bitrate = b[at + 2] >> 4 & 0xF;
        if (version == 1 || bitrate == 0 || bitrate == 15 || (b[at + 2] >> 2 & 3) == 3) {
            return 0;
        }
        int kbits = (version == 3 ? KBITS_MPEG1 : KBITS_MPEG2)[bitrate];
        int slots = (version == 3 ? 144 : 72) * kbits * 1000 / rate(b, at);
        return slots + (b[at + 2] >> 1 & 1);
    }

    /** First byte of the first frame with sound. */
    int start() {
        return start;
    }

    /** Byte after the last whole frame. */
    int end() {
        return end;
    }

    /** Whole frames with sound. */
    int count() {
        return count;
    }

    /** Whether the last frame is not whole. */
    boolean isCut() {
        return cut;
    }

    /** What the encoder and the decoder put before the sound; 0 if the file does not say. */
    double skipSeconds() {
        return hasDelay ? (double) (delay + DECODER_DELAY) / rateHz : 0;
    }

    /** Length of the sound; endless if the file does not say or is cut. */
    double keepSeconds() {
        return hasDelay && !cut
                ? (double) Math.max(0, (long) count * samplesPerFrame - delay - padding) / rateHz
                : Double.POSITIVE_INFINITY;
    }
}
