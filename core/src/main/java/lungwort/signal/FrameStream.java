package lungwort.signal;

import java.util.function.Consumer;

/**
 * Cuts samples that are pushed in blocks of any length into overlapping frames; the frames do not depend on how the samples were cut into blocks. Mutable, for one thread.
 */
public final class FrameStream {
    private final int frameSamples;
    private final double hopSamples;
    private final Consumer<double[]> sink;
    private final double[] history;
    private long pushed;
    private long frames;
    private long nextEnd;

    /**
     * @param rateHz samples a second
     * @param frameSeconds length of a frame, at least one sample
     * @param hopSeconds from the start of one frame to the start of the next; starts are rounded to whole samples, so that no drift builds up
     * @param sink receives each frame, oldest sample first; the array is the sink's own
     */
    public FrameStream(int rateHz, double frameSeconds, double hopSeconds, Consumer<double[]> sink) {
        this.frameSamples = (int) Math.round(frameSeconds * rateHz);
        this.hopSamples = hopSeconds * rateHz;
        if (frameSamples < 1 || hopSamples < 1) {
            throw new IllegalArgumentException(
                    "frames of %s s every %s s at %d Hz".formatted(frameSeconds, hopSeconds, rateHz));
        }
        this.sink = sink;
        this.history = new double[frameSamples];
        this.nextEnd = frameSamples;
    }

    /** Takes the next samples, any number of them. */
    public void push(double[] block) {
        int at = 0;
        while (at < block.length) {
            int take = (int) Math.min(block.length - at, nextEnd - pushed);
            for (int i = 0; i < take; i++) {
                history[(int) (pushed++ % frameSamples)] = block[at++];
            }
            if (pushed == nextEnd) {
                sink.accept(frame());
                frames++;
                nextEnd = Math.round(frames * hopSamples) + frameSamples;
            }
        }
    }

    /** Samples in a frame. */
    public int frameSamples() {
        return frameSamples;
    }

    /** Number of samples pushed so far. */
    public long pushed() {
        return pushed;
    }

    private double[] frame() {
        int oldest = (int) (pushed % frameSamples);
        double[] frame = new double[frameSamples];
        System.arraycopy(history, oldest, frame, 0, frameSamples - oldest);
        System.arraycopy(history, 0, frame, frameSamples - oldest, oldest);
        return frame;
    }
}
