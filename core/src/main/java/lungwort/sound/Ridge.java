package lungwort.sound;

/**
 * A spectral ridge: peaks linked from frame to frame.
 *
 * @param firstFrame first frame of the spectrogram in which it was seen
 * @param hz frequency per frame, in Hz; shape [frames], interpolated over gaps
 * @param excessDb how far it stands out per frame, in dB; NaN in gaps
 * @param levelDb level of the peak per frame, in dB; NaN in gaps
 */
record Ridge(int firstFrame, double[] hz, double[] excessDb, double[] levelDb) {
    int frames() {
        return hz.length;
    }

    int lastFrame() {
        return firstFrame + hz.length - 1;
    }

    int seen() {
        int count = 0;
        for (double e : excessDb) {
            count += Double.isNaN(e) ? 0 : 1;
        }
        return count;
    }

    /** Sum over frames of what stands out beyond a level, in dB frames. */
    double strength(double overDb) {
        double sum = 0;
        for (double e : excessDb) {
            sum += Double.isNaN(e) ? 0 : Math.max(0, e - overDb);
        }
        return sum;
    }
}
