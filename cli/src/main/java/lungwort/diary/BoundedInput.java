package lungwort.diary;

import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;

/** A stream that ends after a given number of bytes at the latest. */
final class BoundedInput extends FilterInputStream {
    private long left;

    BoundedInput(InputStream in, long bytes) {
        super(in);
        this.left = bytes;
    }

    @Override
    public int read() throws IOException {
        int b = left <= 0 ? -1 : super.read();
        left -= b < 0 ? 0 : 1;
        return b;
    }

    @Override
    public int read(byte[] block, int from, int length) throws IOException {
        if (left <= 0) {
            return -1;
        }
        int n = super.read(block, from, (int) Math.min(length, left));
        left -= Math.max(0, n);
        return n;
    }
}
