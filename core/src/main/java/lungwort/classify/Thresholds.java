package lungwort.classify;

/**
 * Where probabilities become answers. Each threshold was chosen on cases of the training set that the model had not seen.
 *
 * @param eventNormal a segment is normal if its probability of normal is at least this, else adventitious (task 1-1)
 * @param eventClassNormal the same where the exact class counts (task 1-2)
 * @param recordingNormal a recording is normal if its probability of normal, poor quality left out, is at least this (task 2-1)
 * @param recordingClassNormal the same where the exact class counts (task 2-2)
 * @param poorQuality a recording is of poor quality if that probability is at least this
 */
public record Thresholds(
        double eventNormal,
        double eventClassNormal,
        double recordingNormal,
        double recordingClassNormal,
        double poorQuality) {
    /** True if a segment is called adventitious. */
    public boolean adventitious(double[] segment) {
        return segment[0] < eventNormal;
    }

    /** The class a segment is given. */
    public SegmentClass segmentClass(double[] segment) {
        return SegmentClass.values()[likeliest(segment, eventClassNormal, segment.length)];
    }

    /** Normal, adventitious (answered as {@link RecordingClass#BOTH}) or poor quality. */
    public RecordingClass verdict(double[] recording) {
        if (recording[4] >= poorQuality) {
            return RecordingClass.POOR_QUALITY;
        }
        return recording[0] / (1 - recording[4]) >= recordingNormal ? RecordingClass.NORMAL : RecordingClass.BOTH;
    }

    /** The class a recording is given. */
    public RecordingClass recordingClass(double[] recording) {
        if (recording[4] >= poorQuality) {
            return RecordingClass.POOR_QUALITY;
        }
        double[] shares = new double[4];
        for (int c = 0; c < 4; c++) {
            shares[c] = recording[c] / (1 - recording[4]);
        }
        return RecordingClass.values()[likeliest(shares, recordingClassNormal, 4)];
    }

    static int likeliest(double[] p, double normalFrom, int classes) {
        if (p[0] >= normalFrom) {
            return 0;
        }
        int best = 1;
        for (int c = 2; c < classes; c++) {
            best = p[c] > p[best] ? c : best;
        }
        return best;
    }
}
