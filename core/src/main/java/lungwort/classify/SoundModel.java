package lungwort.classify;

import java.util.Map;

/**
 * The trained model: from features to calibrated probabilities. Immutable, safe for many threads.
 *
 * <p>Three stages: each segment by itself; a segment among the others of its recording; the recording from all its windows.
 */
public final class SoundModel {
    private final Blend segment;
    private final Blend context;
    private final Blend recording;
    private final Calibrations calibrations;
    private final Thresholds thresholds;
    private final Map<String, String> facts;

    /**
     * Calibration of the recording's probabilities.
     *
     * @param continuous of a continuous extra sound
     * @param discontinuous of a discontinuous extra sound
     * @param poorQuality of poor quality
     */
    public record Calibrations(PlattScale continuous, PlattScale discontinuous, PlattScale poorQuality) {}

    SoundModel(
            Blend segment,
            Blend context,
            Blend recording,
            Calibrations calibrations,
            Thresholds thresholds,
            Map<String, String> facts) {
        this.segment = segment;
        this.context = context;
        this.recording = recording;
        this.calibrations = calibrations;
        this.thresholds = thresholds;
        this.facts = Map.copyOf(facts);
    }

    /**
     * Class probabilities of one segment by itself.
     *
     * @param features in the order of the segment catalogue
     * @return shape {@code [7]}, in the order of {@link SegmentClass}
     */
    public double[] segmentProbabilities(float[] features) {
        return segment.probabilities(features);
    }

    /**
     * Class probabilities of a recording's segments, each in the light of the others.
     *
     * @param alone {@link #segmentProbabilities} of the segments, in order of time
     * @return the same shape
     */
    public double[][] inContext(double[][] alone) {
        return inContext(alone, context);
    }

    static double[][] inContext(double[][] alone, Blend context) {
        float[][] rows = ContextFeatures.of(alone);
        double[][] p = new double[alone.length][SegmentClass.COUNT];
        for (int i = 0; i < p.length; i++) {
            double[] among = context.probabilities(rows[i]);
            for (int c = 0; c < among.length; c++) {
                p[i][c] = (alone[i][c] + among[c]) / 2;
            }
        }
        return p;
    }

    /**
     * Class probabilities of a recording, before calibration.
     *
     * @param windows {@link #segmentProbabilities} of its windows, in order of time, at least one
     * @param features of the recording, in the order of the recording catalogue
     * @return shape {@code [5]}, in the order of {@link RecordingClass}
     */
    public double[] recordingProbabilities(double[][] windows, float[] features) {
        return recording.probabilities(PoolFeatures.of(windows, features));
    }

    /** Calibrated probabilities that the recording holds a continuous sound, a discontinuous one, and that it is of poor quality. */
    public Calibrated calibrated(double[] recordingProbabilities) {
        double judged = 1 - RecordingClass.poorQuality(recordingProbabilities);
        return new Calibrated(
                calibrations.continuous.apply(RecordingClass.continuous(recordingProbabilities) / judged),
                calibrations.discontinuous.apply(RecordingClass.discontinuous(recordingProbabilities) / judged),
                calibrations.poorQuality.apply(RecordingClass.poorQuality(recordingProbabilities)));
    }

    /**
     * Calibrated probabilities, each in [0, 1].
     *
     * @param continuous that it holds a continuous extra sound, if it can be judged at all
     * @param discontinuous that it holds a discontinuous extra sound, if it can be judged at all
     * @param poorQuality that a listener would call it too poor to judge
     */
    public record Calibrated(double continuous, double discontinuous, double poorQuality) {}

    /** Where probabilities become answers. */
    public Thresholds thresholds() {
        return thresholds;
    }

    /** How probabilities are made honest. */
    public Calibrations calibrations() {
        return calibrations;
    }

    /** What is known about its making: recipe, training data digest, versions. */
    public Map<String, String> facts() {
        return facts;
    }

    /** Name and origin for people: its recipe and the first digits of its training data's digest. */
    public String name() {
        String recipe = facts.getOrDefault("recipe", "unnamed");
        String data = facts.getOrDefault("trainingDataDigest", "");
        return data.isEmpty() ? recipe : recipe + " (data " + data.substring(0, Math.min(12, data.length())) + ")";
    }

    Blend segmentBlend() {
        return segment;
    }

    Blend contextBlend() {
        return context;
    }

    Blend recordingBlend() {
        return recording;
    }

    /** The same model with facts about its making added. */
    public SoundModel with(Map<String, String> more) {
        Map<String, String> all = new java.util.TreeMap<>(facts);
        all.putAll(more);
        return new SoundModel(segment, context, recording, calibrations, thresholds, all);
    }
}
