package lungwort.sound;

import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import lungwort.signal.Statistics;

/**
 * One ridge with its times measured: a single line in the spectrogram. The arrays are its own, not copies: read them, never write to them.
 *
 * @param startSeconds start
 * @param endSeconds end
 * @param seconds times of the track's points, inside [start, end]
 * @param hz frequency there
 * @param excessDb how far it stands out there; NaN where it was not seen
 * @param levelDb median level, in dB
 * @param strength how sure it is a tone: 1 is the least that is accepted
 */
public record Tone(
        double startSeconds,
        double endSeconds,
        double[] seconds,
        double[] hz,
        double[] excessDb,
        double levelDb,
        double strength) {

    /** Length in seconds. */
    public double lengthSeconds() {
        return endSeconds - startSeconds;
    }

    /** Median of the track, in Hz. */
    public double medianHz() {
        return Statistics.median(hz);
    }

    /** Median of how far it stands out, in dB. */
    public double prominenceDb() {
        return Statistics.median(
                Arrays.stream(excessDb).filter(e -> !Double.isNaN(e)).toArray());
    }

    /** Share of its frames in which it was seen, in (0, 1]. */
    public double continuity() {
        return (double) Arrays.stream(excessDb).filter(e -> !Double.isNaN(e)).count() / excessDb.length;
    }

    List<ContinuousSound.TrackPoint> track() {
        return IntStream.range(0, hz.length)
                .mapToObj(i -> new ContinuousSound.TrackPoint(seconds[i], hz[i]))
                .toList();
    }

    /** Seconds that both last. */
    double overlapSeconds(Tone other) {
        return Math.min(endSeconds, other.endSeconds) - Math.max(startSeconds, other.startSeconds);
    }

    /** Frequency at a time, held beyond both ends. */
    double hzAt(double t) {
        int at = Arrays.binarySearch(seconds, t);
        if (at >= 0) {
            return hz[at];
        }
        int after = -at - 1;
        if (after == 0 || after == hz.length) {
            return hz[after == 0 ? 0 : hz.length - 1];
        }
        double share = (t - seconds[after - 1]) / (seconds[after] - seconds[after - 1]);
        return hz[after - 1] + share * (hz[after] - hz[after - 1]);
    }

    /** Median ratio of the other's frequency to this one's over the time both last; NaN if they never sound together. */
    double ratioTo(Tone other) {
        double from = Math.max(startSeconds, other.startSeconds);
        double length = overlapSeconds(other);
        if (length <= 0) {
            return Double.NaN;
        }
        double[] ratios = new double[9];
        for (int i = 0; i < ratios.length; i++) {
            double t = from + length * (i + 0.5) / ratios.length;
            ratios[i] = other.hzAt(t) / hzAt(t);
        }
        return Statistics.median(ratios);
    }
}
