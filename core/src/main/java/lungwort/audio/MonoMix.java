package lungwort.audio;

import java.util.Arrays;
import java.util.Locale;
import java.util.stream.IntStream;
import lungwort.BadInput;

/**
 * Collects decoded frames (one value per channel at one instant) into one channel, within limits that hold whatever a file's header says. Used by one thread, once.
 */
public final class MonoMix {
    /** Longest recording read, in seconds: ten minutes at one spot is far more than a chest needs. */
    public static final int MAX_SECONDS = 600;

    /** Most samples read, 240 MB as doubles: {@value #MAX_SECONDS} s at 48 kHz, less at higher rates. */
    public static final int MAX_SAMPLES = MAX_SECONDS * 48_000;

    /** Most channels read. */
    public static final int MAX_CHANNELS = 32;

    /** Mean of the channels' power against the power of their mean, above which they cancel each other: 20 dB. */
    private static final double CANCELLING = 100;

    /** Share of overdriven samples in one channel from which it is told of, where the mean hides it. */
    private static final double OVERDRIVEN_SHARE = 0.002;

    /** A channel of a few steps of 16 bits has flat tops without being overdriven. */
    private static final double OVERDRIVEN_PEAK = 0.1;

    private final String name;
    private final int rateHz;
    private final int channels;
    private final ReadingOptions.Channels choice;
    private final int limit;
    private double[] samples;
    /** The first channel alone, kept for the case that the channels cancel each other; empty unless their mean is taken. */
    private double[] first;

    private int length;
    /** Overdrive of each channel, then of their mean; empty unless the mean is taken. */
    private final FlatTops[] tops;

    private double channelPower;
    private double meanPower;

    /**
     * @param name the file's name, for sentences
     * @param rateHz samples a second in each channel
     * @param channels channels in each frame
     * @param options which of them are heard
     * @param expectedFrames frames that will come, if known; room for no more than the limits is made at first
     * @throws BadInput if rate, channels or the choice among them is out of range
     */
    public MonoMix(String name, int rateHz, int channels, ReadingOptions options, long expectedFrames) {
        Recording.requireRate(rateHz, name);
        if (channels < 1 || channels > MAX_CHANNELS) {
            throw BadInput.of(
                    "%s: it says it has %d channels, and 1 to %d can be read; record with one channel.",
                    name, channels, MAX_CHANNELS);
        }
        this.name = name;
        this.rateHz = rateHz;
        this.channels = channels;
        this.choice = choice(options, channels);
        this.limit = (int) Math.min(MAX_SAMPLES, (long) MAX_SECONDS * rateHz);
        if (expectedFrames > limit) {
            throw tooLong();
        }
        this.samples = new double[(int) Math.max(16, expectedFrames)];
        this.tops = new FlatTops[choice == ReadingOptions.Channels.MEAN ? channels + 1 : 0];
        Arrays.setAll(tops, c -> new FlatTops());
        this.first = choice == ReadingOptions.Channels.MEAN ? new double[samples.length] : new double[0];
    }

    private static ReadingOptions.Channels choice(ReadingOptions options, int channels) {
        return channels == 1 ? ReadingOptions.Channels.LEFT : options.channels();
    }

    private BadInput tooLong() {
        int seconds = limit / rateHz;
        String most = seconds >= 120 ? seconds / 60 + " minutes" : seconds + " seconds";
        return BadInput.of(
                "%s: it is longer than the %s that can be read at its %d Hz; cut it to the part you want to examine.",
                name, most, rateHz);
    }

    /** Frames taken so far. */
    public int length() {
        return length;
    }

    /**
     * Takes a run of frames.
     *
     * @param frames values of a run of frames, channel by channel within each frame
     * @param count how many frames
     * @throws BadInput if the recording grows beyond the limits
     */
    public void add(double[] frames, int count) {
        reserve(count);
        if (choice == ReadingOptions.Channels.MEAN) {
            for (int f = 0; f < count; f++) {
                addMean(frames, f * channels);
            }
        } else {
            int at = choice == ReadingOptions.Channels.LEFT ? 0 : 1;
            for (int f = 0; f < count; f++, at += channels) {
                samples[length++] = frames[at];
            }
        }
    }

    /** As {@link #add(double[], int)} for 16-bit samples. */
    public void add(short[] frames, int count) {
        double[] values = new double[count * channels];
        for (int i = 0; i < values.length; i++) {
            values[i] = frames[i] / 32_768.0;
        }
        add(values, count);
    }

    private void addMean(double[] frames, int at) {
        double sum = 0;
        double power = 0;
        for (int c = 0; c < channels; c++) {
            double value = frames[at + c];
            sum += value;
            tops[c].push(value);
            power += value * value;
        }
        double mean = sum / channels;
        tops[channels].push(mean);
        channelPower += power / channels;
        meanPower += mean * mean;
        first[length] = frames[at];
        samples[length++] = mean;
    }

    private void reserve(int more) {
        long needed = (long) length + more;
        if (needed > limit) {
            throw tooLong();
        }
        if (needed > samples.length) {
            int room = (int) Math.min(limit, Math.max(needed, 2L * samples.length));
            samples = Arrays.copyOf(samples, room);
            first = choice == ReadingOptions.Channels.MEAN ? Arrays.copyOf(first, room) : first;
        }
    }

    /** Drops frames from the end, as encoders pad them there; no more than there are. */
    public void dropLast(long frames) {
        length -= (int) Math.max(0, Math.min(length, frames));
    }

    /**
     * The recording; the mix is empty afterwards.
     *
     * @throws BadInput if no frame came or a sample is not a number
     */
    public Recording finish(SourceFormat source) {
        if (length == 0) {
            throw new BadInput(name + ": it holds no sound; record again.");
        }
        boolean cancelling = channelPower > CANCELLING * meanPower;
        double[] taken = cancelling ? first : samples;
        double[] exact = length == taken.length ? taken : Arrays.copyOf(taken, length);
        SourceFormat told = remarked(source, cancelling);
        samples = new double[0];
        first = samples;
        length = 0;
        return Recording.owning(exact, rateHz, name, told);
    }

    private SourceFormat remarked(SourceFormat source, boolean cancelling) {
        if (cancelling) {
            return source.remark("Its channels cancel each other when averaged, so the left one was taken.");
        }
        if (choice != ReadingOptions.Channels.MEAN) {
            return source;
        }
        SourceFormat told =
                source.remark(String.format(Locale.ROOT, "The mean of its %d channels was taken.", channels));
        double overdriven = IntStream.range(0, channels)
                .filter(c -> tops[c].peak() >= OVERDRIVEN_PEAK)
                .mapToDouble(c -> (double) tops[c].clipped() / length)
                .max()
                .orElse(0);
        boolean hidden = (double) tops[channels].clipped() / length < OVERDRIVEN_SHARE;
        return hidden && overdriven >= OVERDRIVEN_SHARE ? told.remark(overdrivenRemark(overdriven)) : told;
    }

    private static String overdrivenRemark(double share) {
        return String.format(
                Locale.ROOT,
                "One of its channels is overdriven (%.1f %% of its samples), which distorts the mean: choose the other channel, or record again with less gain.",
                100 * share);
    }
}
