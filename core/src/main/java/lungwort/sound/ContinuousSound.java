package lungwort.sound;

import java.util.List;

/**
 * A continuous extra sound: a spectral ridge that holds.
 *
 * @param kind {@link SoundKind#WHEEZE} or {@link SoundKind#RHONCHUS}
 * @param startSeconds start within the recording, in seconds
 * @param endSeconds end, in seconds
 * @param track the dominant frequency over time, in order
 * @param dominantHz median of the track, in Hz
 * @param harmonics number of harmonic ridges above the dominant one
 * @param polyphonic true if another continuous sound, no harmonic of this one, sounds together with it
 * @param continuity share of its frames in which the ridge was really seen, in (0, 1]
 * @param prominenceDb median level of the ridge over the smoothed spectrum around it, in dB
 */
public record ContinuousSound(
        SoundKind kind,
        double startSeconds,
        double endSeconds,
        List<TrackPoint> track,
        double dominantHz,
        int harmonics,
        boolean polyphonic,
        double continuity,
        double prominenceDb)
        implements MeasuredSound {
    public ContinuousSound {
        if (!kind.continuous() || !(endSeconds > startSeconds)) {
            throw new IllegalArgumentException("%s from %s to %s s".formatted(kind, startSeconds, endSeconds));
        }
        track = List.copyOf(track);
    }

    /**
     * One point of the frequency track.
     *
     * @param seconds time within the recording
     * @param hz frequency in Hz
     */
    public record TrackPoint(double seconds, double hz) {}
}
