package lungwort.audio;

/** Decodes one FLAC frame after the other (RFC 9639 section 9) into buffers it keeps. */
final class FlacFrame {
    private static final int MAX_BLOCK = 65_536;
    private static final int SYNC_AND_RESERVED = 0b1111_1111_1111_100;
    private static final int LEFT_SIDE = 8;
    private static final int SIDE_RIGHT = 9;
    private static final int MID_SIDE = 10;
    private static final int[] BITS_OF_CODE = {0, 8, 12, -1, 16, 20, 24, 32};
    private static final int[][] FIXED_COEFFICIENTS = {{}, {1}, {2, -1}, {3, -3, 1}, {4, -6, 4, -1}};

    private final int channels;
    private final int bits;
    private final long[][] samples;
    private int length;

    /** The bits do not make a frame. */
    static final class Damaged extends RuntimeException {
        private static final long serialVersionUID = 1L;

        private final String what;

        Damaged(String what) {
            super(what, null, false, false);
            this.what = what;
        }

        /** What is wrong with them. */
        String what() {
            return what;
        }
    }

    /** @param bits of each sample, as the stream's header says; every frame must agree */
    FlacFrame(int channels, int bits) {
        this.channels = channels;
        this.bits = bits;
        this.samples = new long[channels][0];
    }

    /** Samples in each channel of the last frame decoded. */
    int length() {
        return length;
    }

    /** A channel of the last frame: its first {@link #length()} values are the samples. */
    long[] channel(int c) {
        return samples[c];
    }

    /**
     * Decodes the frame that starts at a byte.
     *
     * @return the byte after it
     * @throws Damaged if the bits make no frame, or its checksum disagrees
     * @throws BitReader.PastEnd if the array ends first
     */
    int decode(byte[] b, int start) {
        BitReader in = new BitReader(b, start);
        if (in.bits(15) != SYNC_AND_RESERVED) {
            throw new Damaged("no frame starts where one should");
        }
        int assignment = header(in, b, start);
        for (int c = 0; c < channels; c++) {
            boolean isSide = assignment >= LEFT_SIDE && c == (assignment == SIDE_RIGHT ? 0 : 1);
            FlacSubframe.decode(in, samples[c], length, isSide ? bits + 1 : bits);
        }
        decorrelate(assignment);
        in.toByteEdge();
        int end = in.byteAt();
        if (in.bits(16) != crc16(b, start, end)) {
            throw new Damaged("a frame's checksum disagrees");
        }
        return end + 2;
    }

    /** Reads the header after the sync code; returns the channel assignment. */
    private int header(BitReader in, byte[] b, int start) {
        in.bits(1);
        int sizeCode = (int) in.bits(4);
        int rateCode = (int) in.bits(4);
        int assignment = (int) in.bits(4);
        int bitsCode = (int) in.bits(3);
        in.bits(1);
        codedNumber(in);
        int size = blockSize(in, sizeCode);
        in.bits(rateCode == 12 ? 8 : rateCode == 13 || rateCode == 14 ? 16 : 0);
        int end = in.byteAt();
        if (in.bits(8) != crc8(b, start, end)) {
            throw new Damaged("a frame header's checksum disagrees");
        }
        int framesChannels = assignment < LEFT_SIDE ? assignment + 1 : 2;
        if (assignment > MID_SIDE || framesChannels != channels) {
            throw new Damaged("the number of channels changes");
        }
        if (bitsCode != 0 && BITS_OF_CODE[bitsCode] != bits) {
            throw new Damaged("the number of bits changes");
        }
        length = size;
        for (int c = 0; c < channels; c++) {
            samples[c] = samples[c].length >= size ? samples[c] : new long[size];
        }
        return assignment;
    }

    /** The frame's or sample's number, coded as UTF-8 codes letters; its value is of no use here. */
    private static void codedNumber(BitReader in) {
        int first = (int) in.bits(8);
        int ones = Integer.numberOfLeadingZeros(~first << 24);
        if (ones == 1 || ones > 7) {
            throw new Damaged("a frame's number makes no sense");
        }
        for (int i = 1; i < ones; i++) {
            in.bits(8);
        }
    }

    private static int blockSize(BitReader in, int code) {
        int size = switch (code) {
            case 0 -> throw new Damaged("a frame's length is reserved");
            case 1 -> 192;
            case 2, 3, 4, 5 -> 144 << code;
            case 6 -> (int) in.bits(8) + 1;
            case 7 -> (int) in.bits(16) + 1;
            default -> 1 << code;
        };
        if (size > MAX_BLOCK - 1) {
            throw new Damaged("a frame is too long");
        }
        return size;
    }

    private void decorrelate(int assignment) {
        if (assignment < LEFT_SIDE) {
            return;
        }
        long[] a = samples[0];
        long[] b = samples[1];
        for (int i = 0; i < length; i++) {
            if (assignment == LEFT_SIDE) {
                b[i] = a[i] - b[i];
            } else if (assignment == SIDE_RIGHT) {
                a[i] += b[i];
            } else {
                long mid = a[i] << 1 | (b[i] & 1);
                a[i] = (mid + b[i]) >> 1;
                b[i] = a[i] - b[i];
            }
        }
    }

    /** Order-n prediction with the coefficients of RFC 9639 section 9.2.5, on warm-up samples already there. */
    static int[] fixedCoefficients(int order) {
        return FIXED_COEFFICIENTS[order];
    }

    private static int crc8(byte[] b, int from, int to) {
        int crc = 0;
        for (int i = from; i < to; i++) {
            crc ^= b[i] & 0xFF;
            for (int k = 0; k < 8; k++) {
                crc = crc << 1 ^ ((crc & 0x80) != 0 ? 0x107 : 0);
            }
        }
        return crc;
    }

    private static final int[] CRC16 = crc16Table();

    private static int[] crc16Table() {
        int[] table = new int[256];
        for (int i = 0; i < table.length; i++) {
            int crc = i << 8;
            for (int k = 0; k < 8; k++) {
                crc = crc << 1 ^ ((crc & 0x8000) != 0 ? 0x1_8005 : 0);
            }
            table[i] = crc;
        }
        return table;
    }

    private static int crc16(byte[] b, int from, int to) {
        int crc = 0;
        for (int i = from; i < to; i++) {
            crc = (crc << 8 ^ CRC16[(crc >>> 8 ^ b[i]) & 0xFF]) & 0xFFFF;
        }
        return crc;
    }
}
