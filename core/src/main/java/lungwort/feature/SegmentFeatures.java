package lungwort.feature;

/** Features of a time span of a recording, group after group. */
final class SegmentFeatures {
    private SegmentFeatures() {}

    static void write(FeatureFrames o, double startSeconds, double endSeconds, FeatureWriter w) {
        double length = endSeconds - startSeconds;
        w.put("duration", "", "s", "length of the segment", length);
        int[] frames = o.frames(startSeconds, endSeconds);
        int[] steps = o.steps(startSeconds, endSeconds);
        RidgeFeatures.write(o, frames[0], frames[1], w);
        TransientFeatures.write(o, steps[0], steps[1], w);
        ModulationFeatures.write(o, steps[0], steps[1], w);
        WaveFeatures.write(o, steps[0], steps[1], w);
        CepstralFeatures.write(o, frames[0], frames[1], w);
        o.measured.segment(startSeconds, endSeconds, w);
    }
}
