package lungwort.audio;

import java.util.Objects;

/**
 * Choices in reading a file.
 *
 * @param channels how several channels become one
 */
public record ReadingOptions(Channels channels) {
    /** The mean of all channels. */
    public static final ReadingOptions DEFAULT = new ReadingOptions(Channels.MEAN);

    public ReadingOptions {
        Objects.requireNonNull(channels);
    }

    /** How several channels become one; without meaning for a file of one channel. */
    public enum Channels {
        /**
         * The mean of all channels: right for a phone or a stethoscope that writes the same sound twice, and less noisy than either. Where the
         * channels cancel each other (one wired with the other polarity), the first is taken instead and a remark says so.
         */
        MEAN,
        /** The first channel: for a stethoscope on the left and a room microphone on the right. */
        LEFT,
        /** The second channel. */
        RIGHT
    }
}
