package lungwort.diary;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.MappedByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.ReadableByteChannel;
import java.nio.channels.WritableByteChannel;

/** A channel onto a disk without room: every write fails as it does there. */
final class FullChannel extends FileChannel {
    private static IOException full() {
        return new IOException("No space left on device");
    }

    @Override
    public int write(ByteBuffer source) throws IOException {
        throw full();
    }

    @Override
    public long write(ByteBuffer[] sources, int offset, int length) throws IOException {
        throw full();
    }

    @Override
    public int write(ByteBuffer source, long position) throws IOException {
        throw full();
    }

    @Override
    public void force(boolean metaData) {}

    @Override
    protected void implCloseChannel() {}

    @Override
    public int read(ByteBuffer target) {
        throw new UnsupportedOperationException();
    }

    @Override
    public long read(ByteBuffer[] targets, int offset, int length) {
        throw new UnsupportedOperationException();
    }

    @Override
    public int read(ByteBuffer target, long position) {
        throw new UnsupportedOperationException();
    }

    @Override
    public long position() {
        throw new UnsupportedOperationException();
    }

    @Override
    public FileChannel position(long newPosition) {
        throw new UnsupportedOperationException();
    }

    @Override
    public long size() {
        throw new UnsupportedOperationException();
    }

    @Override
    public FileChannel truncate(long size) {
        throw new UnsupportedOperationException();
    }

    @Override
    public long transferTo(long position, long count, WritableByteChannel target) {
        throw new UnsupportedOperationException();
    }

    @Override
    public long transferFrom(ReadableByteChannel source, long position, long count) {
        throw new UnsupportedOperationException();
    }

    @Override
    public MappedByteBuffer map(MapMode mode, long position, long size) {
        throw new UnsupportedOperationException();
    }

    @Override
    public FileLock lock(long position, long size, boolean shared) {
        throw new UnsupportedOperationException();
    }

    @Override
    public FileLock tryLock(long position, long size, boolean shared) {
        throw new UnsupportedOperationException();
    }
}
