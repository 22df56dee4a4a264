package lungwort.heart;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Heart sounds found in a recording.
 *
 * @param beats in order of time
 * @param rate beats a minute, or null where no rhythm was found
 * @param prominenceDb how far the heart band stands higher at the beats than between them (median), in dB; 0 without beats
 */
public record HeartBeats(List<Beat> beats, @Nullable Rate rate, double prominenceDb) {
    /** No heart sound. */
    public static final HeartBeats NONE = new HeartBeats(List.of(), null, 0);

    public HeartBeats {
        beats = List.copyOf(beats);
    }

    /**
     * One beat.
     *
     * @param seconds time at which its first heart sound is loudest, within the recording
     * @param prominenceDb how far the heart band stands above its surroundings there, in dB
     */
    public record Beat(double seconds, double prominenceDb) {}

    /**
     * Heart rate.
     *
     * @param perMinute beats a minute
     * @param confidence that this is the heart's rhythm, in [0, 1]
     */
    public record Rate(double perMinute, double confidence) {}
}
