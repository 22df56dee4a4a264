package lungwort.audio;

/** Big-endian bits of an array, as FLAC packs them. Reading past the end throws {@link PastEnd}; used by one thread. */
final class BitReader {
    private final byte[] bytes;
    private final int end;
    private int next;
    private long held;
    private int heldBits;

    /** The data ended within what was being read. */
    static final class PastEnd extends RuntimeException {
        private static final long serialVersionUID = 1L;

        PastEnd() {
            super("the data end early", null, false, false);
        }
    }

    /** Reads from a byte of the array to its end. */
    BitReader(byte[] bytes, int start) {
        this.bytes = bytes;
        this.end = bytes.length;
        this.next = start;
    }

    /** The byte that the next bit stands in; call it at a byte's edge. */
    int byteAt() {
        return next - heldBits / 8;
    }

    /** Unsigned number of 0 to 32 bits. */
    long bits(int count) {
        if (count == 0) {
            return 0;
        }
        while (heldBits < count) {
            fill();
        }
        heldBits -= count;
        return held >>> heldBits & (1L << count) - 1;
    }

    /** Two's complement number of 0 to 33 bits. */
    long signed(int count) {
        if (count == 0) {
            return 0;
        }
        if (count > 32) {
            long high = signed(count - 32);
            return high << 32 | bits(32);
        }
        int unused = Long.SIZE - count;
        return bits(count) << unused >> unused;
    }

    /** Number of 0 bits before the next 1, which is taken too. */
    int unary() {
        int zeros = 0;
        while (true) {
            if (heldBits == 0) {
                fill();
            }
            long rest = held << (Long.SIZE - heldBits);
            int run = Math.min(heldBits, Long.numberOfLeadingZeros(rest));
            zeros += run;
            if (run < heldBits) {
                heldBits -= run + 1;
                return zeros;
            }
            heldBits = 0;
        }
    }

    /** Leaves out what is left of a byte already begun. */
    void toByteEdge() {
        heldBits -= heldBits % 8;
    }

    private void fill() {
        if (next >= end) {
            throw new PastEnd();
        }
        held = held << 8 | (bytes[next++] & 0xFF);
        heldBits += 8;
    }
}
