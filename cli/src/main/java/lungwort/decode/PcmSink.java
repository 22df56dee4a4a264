package lungwort.decode;

import java.util.List;
import lungwort.BadInput;
import lungwort.audio.MonoMix;
import lungwort.audio.ReadingOptions;
import lungwort.audio.Recording;
import lungwort.audio.SourceFormat;
import org.jspecify.annotations.Nullable;

/** Takes decoded blocks, leaves out what the encoder put before and after the sound, and learns rate and channels from the first block. */
final class PcmSink {
    private final String name;
    private final ReadingOptions options;
    private @Nullable MonoMix mix;
    private double skipSeconds;
    private double keepSeconds = Double.POSITIVE_INFINITY;
    private long toSkip;
    private long toKeep;
    private int rateHz;
    private int channels;
    private double[] block = new double[0];

    PcmSink(String name, ReadingOptions options) {
        this.name = name;
        this.options = options;
    }

    /** Before the first block: how much at the start is no sound, and how long the sound is after that. */
    void trim(double skip, double keep) {
        skipSeconds = skip;
        keepSeconds = keep;
    }

    /** One array a channel; values are multiplied by {@code scale} to reach [-1, 1]. */
    void planar(List<float[]> planes, int from, int frames, int rate, double scale) {
        start(rate, planes.size());
        double[] out = room(frames);
        for (int c = 0; c < channels; c++) {
            float[] plane = planes.get(c);
            for (int i = 0, to = c; i < frames; i++, to += channels) {
                out[to] = plane[from + i] * scale;
            }
        }
        pass(frames);
    }

    /** Channel by channel within each frame, 16 bits. */
    void interleaved(short[] pcm, int frames, int channelCount, int rate, double scale) {
        start(rate, channelCount);
        double[] out = room(frames);
        for (int i = 0; i < frames * channels; i++) {
            out[i] = pcm[i] * scale;
        }
        pass(frames);
    }

    private void start(int rate, int channelCount) {
        if (mix == null) {
            mix = new MonoMix(name, rate, channelCount, options, 0);
            rateHz = rate;
            channels = channelCount;
            toSkip = Math.round(skipSeconds * rate);
            toKeep = (long) Math.min(Long.MAX_VALUE, Math.rint(keepSeconds * rate));
        } else if (rate != rateHz || channelCount != channels) {
            throw new Unsupported("sound changes its rate or channels on the way, which");
        }
    }

    private double[] room(int frames) {
        if (block.length < frames * channels) {
            block = new double[frames * channels];
        }
        return block;
    }

    private void pass(int frames) {
        int skip = (int) Math.min(frames, toSkip);
        toSkip -= skip;
        int count = (int) Math.min(frames - skip, toKeep);
        toKeep -= count;
        if (skip > 0) {
            System.arraycopy(block, skip * channels, block, 0, count * channels);
        }
        if (mix != null) {
            mix.add(block, count);
        }
    }

    /** Frames kept so far. */
    int length() {
        return mix == null ? 0 : mix.length();
    }

    /** Drops frames from the end. */
    void dropLast(long frames) {
        if (mix != null) {
            mix.dropLast(frames);
        }
    }

    /** @param cut whether to remark that the file ends early */
    Recording finish(String container, String encoding, boolean cut) {
        if (mix == null) {
            throw new BadInput(name + ": it holds no sound; record again.");
        }
        SourceFormat source = new SourceFormat(container, encoding, rateHz, 0, channels);
        return mix.finish(cut ? source.remark(cutRemark()) : source);
    }

    private String cutRemark() {
        double there = (double) length() / rateHz;
        return Double.isInfinite(keepSeconds)
                ? "The file is cut: the first %.1f s of it are there.".formatted(there)
                : "The file is cut: %.1f s of the %.1f s it should hold are there.".formatted(there, keepSeconds);
    }
}
