package lungwort.classify;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import lungwort.feature.FeatureCatalogue;
import lungwort.feature.TimeSpan;
import lungwort.sound.MeasuredSound;
import org.jspecify.annotations.Nullable;

/**
 * The trained model: from features to calibrated probabilities. Immutable, safe for many threads.
 *
 * <p>Two ways through. A marked segment (an annotator's event) is judged by itself, then among the person's other segments and by what the net saw in it. A whole recording is judged from windows of fixed
 * length, since nobody marks events in use and marked boundaries give much away: the windows are pooled, then the recording is seen among the person's others.
 */
public final class SoundModel {
    private static final int AGREEMENT = FeatureCatalogue.recording().indexOf("recording.recurrence.agreement");

    private final Stages stages;
    private final Calibrations calibrations;
    private final Calibrations calibrationsAlone;
    private final @Nullable UnfamiliarScale unfamiliarScale;
    private final Limits limits;
    private final @Nullable PoorRule poorRule;
    private final Thresholds thresholds;
    private final @Nullable FamiliarSpectrum familiar;
    private final Map<String, String> facts;

    /**
     * The blends.
     *
     * @param bursts null where the recipe trains none
     * @param net null where the recipe trains none
     * @param events null where the recipe trains none, and without a net
     */
    record Stages(
            Blend segment,
            Blend context,
            Blend window,
            @Nullable BurstsModel bursts,
            @Nullable NetModel net,
            Blend recording,
            @Nullable EventModel events,
            Blend takes) {
        /** What the net sees in an image; null where there is none. */
        @Nullable
        NetLook seen(float[][] image) {
            return net == null ? null : look(net.nets(), image);
        }

        WindowAnswer answer(float[] features, double agreement) {
            return window(features, agreement, window, segment, bursts);
        }

        static WindowAnswer window(
                float[] features, double agreement, Blend window, Blend segment, @Nullable BurstsModel bursts) {
            return new WindowAnswer(
                    window.probabilities(features),
                    segment.probabilities(features),
                    bursts == null ? null : bursts.answer(features, agreement));
        }
    }

    /**
     * The model that sees nothing but bursts.
     *
     * @param blend of two classes, discontinuous the second
     * @param scale how its answer and the agreement of the breaths make one
     */
    record BurstsModel(Blend blend, BurstsScale scale) {
        WindowAnswer.Bursts answer(float[] features, double agreement) {
            double alone = blend.probabilities(features)[1];
            return new WindowAnswer.Bursts(alone, scale.apply(alone, agreement));
        }
    }

    /**
     * The nets that look at the whole recording.
     *
     * @param nets over its image
     * @param share how far what they say counts beside the model of recordings
     */
    record NetModel(ChestNets nets, NetShare share) {}

    /**
     * How far the breaths of a recording agree about where bursts stand ({@link lungwort.sound.BreathAgreement#deviations}).
     *
     * @param recording features of the recording, in the order of the recording catalogue
     */
    static double agreement(float[] recording) {
        return recording[AGREEMENT];
    }

    /**
     * Calibration of the recording's probabilities.
     *
     * @param continuous of a continuous extra sound
     * @param discontinuous of a discontinuous extra sound
     * @param poorQuality of poor quality
     */
    public record Calibrations(PlattScale continuous, PlattScale discontinuous, PlattScale poorQuality) {}

    /**
     * Calibrated probabilities, each in [0, 1].
     *
     * @param continuous that it holds a continuous extra sound, if it can be judged at all
     * @param discontinuous that it holds a discontinuous extra sound, if it can be judged at all
     * @param poorQuality that a listener would call it too poor to judge
     */
    public record Calibrated(double continuous, double discontinuous, double poorQuality) {}

    /**
     * @param calibrations of recordings among the person's others
     * @param calibrationsAlone of a recording by itself
     * @param unfamiliarScale of one that sounds unlike those learnt from; null where it is told as any other
     * @param poorRule how poor quality is told; null where the learnt probability alone tells it
     * @param familiar which recordings sound like those learnt from; null where that is not known, so none does
     */
    SoundModel(
            Stages stages,
            Calibrations calibrations,
            Calibrations calibrationsAlone,
            @Nullable UnfamiliarScale unfamiliarScale,
            Limits limits,
            @Nullable PoorRule poorRule,
            Thresholds thresholds,
            @Nullable FamiliarSpectrum familiar,
            Map<String, String> facts) {
        this.stages = stages;
        this.calibrations = calibrations;
        this.calibrationsAlone = calibrationsAlone;
        this.unfamiliarScale = unfamiliarScale;
        this.limits = limits;
        this.poorRule = poorRule;
        this.thresholds = thresholds;
        this.familiar = familiar;
        this.facts = Map.copyOf(facts);
    }

    /**
     * Class probabilities of one marked segment by itself.
     *
     * @param features in the order of the segment catalogue
     * @return shape {@code [7]}, in the order of {@link SegmentClass}
     */
    public double[] segmentProbabilities(float[] features) {
        return stages.segment.probabilities(features);
    }

    /**
     * What the model says of the marked segments of a recording, before it sees them beside one another.
     *
     * @param features of each segment in order of time, each in the order of the segment catalogue
     * @param spans when each is heard; only looked at, as {@code seen}, {@code sounds} and {@code whole}, if the model judges segments by what its net sees
     * @param seen {@link #look} at the recording
     * @param sounds measured in it, in order of time
     * @param whole {@link #recordingProbabilities} of the recording by itself
     * @throws IllegalArgumentException if it does and there are more or fewer spans than segments
     */
    public SegmentAnswers segments(
            float[][] features,
            List<TimeSpan> spans,
            @Nullable NetLook seen,
            List<MeasuredSound> sounds,
            double[] whole) {
        double[][] alone = Arrays.stream(features)
                .parallel()
                .map(this::segmentProbabilities)
                .toArray(double[][]::new);
        if (!seesFacts(stages.context)) {
            return new SegmentAnswers(alone, new float[0][]);
        }
        if (spans.size() != alone.length) {
            throw new IllegalArgumentException("%d segments, %d spans".formatted(alone.length, spans.size()));
        }
        return new SegmentAnswers(alone, SegmentFacts.of(spans, Objects.requireNonNull(seen), sounds, whole));
    }

    /**
     * Class probabilities of marked segments, each in the light of the others.
     *
     * @param segments {@link #segments} of each recording of one person
     * @return for each recording, of each of its segments
     */
    public List<double[][]> inContext(List<SegmentAnswers> segments) {
        return inContext(segments, stages.context);
    }

    /** Where the stage sees facts of its own, what it says counts alone: it knows what was said of the segment by itself, and more. */
    static List<double[][]> inContext(List<SegmentAnswers> segments, Blend context) {
        boolean facts = seesFacts(context);
        List<double[][]> result = new ArrayList<>();
        for (int r = 0; r < segments.size(); r++) {
            double[][] alone = segments.get(r).alone();
            float[][] rows = ContextFeatures.of(segments, r);
            double[][] p = new double[rows.length][];
            for (int i = 0; i < p.length; i++) {
                double[] inContext = context.probabilities(rows[i]);
                p[i] = facts ? inContext : mean(alone[i], inContext);
            }
            result.add(p);
        }
        return result;
    }

    static boolean seesFacts(Blend context) {
        return context.inputs() > ContextFeatures.SIZE;
    }

    private static double[] mean(double[] a, double[] b) {
        double[] mean = new double[a.length];
        for (int c = 0; c < mean.length; c++) {
            mean[c] = (a[c] + b[c]) / 2;
        }
        return mean;
    }

    /**
     * What the models say of one window of fixed length.
     *
     * @param features in the order of the segment catalogue
     * @param recording features of the recording that holds it, in the order of the recording catalogue
     */
    public WindowAnswer window(float[] features, float[] recording) {
        return stages.answer(features, agreement(recording));
    }

    /**
     * Class probabilities of a recording by itself, before calibration.
     *
     * @param windows {@link #window} of its windows, in order of time, at least one
     * @param features of the recording, in the order of the recording catalogue
     * @param seen {@link #look} at the recording
     * @return shape {@code [5]}, in the order of {@link RecordingClass}
     */
    public double[] recordingProbabilities(List<WindowAnswer> windows, float[] features, @Nullable NetLook seen) {
        if (stages.net == null) {
            return stages.recording.probabilities(PoolFeatures.of(windows, null, features));
        }
        double[] net = Objects.requireNonNull(seen).logits();
        return stages.net.share().apply(stages.recording.probabilities(PoolFeatures.of(windows, net, features)), net);
    }

    /**
     * What the model sees in a recording's image.
     *
     * @param image of the recording ({@link lungwort.feature.FeatureExtractor#image}); only looked at, and so only needed, if the model {@link #seesImage}
     * @return null where the model holds no net
     * @throws IllegalArgumentException if the model needs the image and there is none
     */
    public @Nullable NetLook look(float[][] image) {
        return stages.seen(image);
    }

    /**
     * The single extra sounds that the model finds in a recording.
     *
     * @param seen {@link #look} at the recording
     * @param image what it looked at
     * @param sounds measured in it, in order of time
     * @param whole {@link #recordingProbabilities} of the recording by itself
     * @return none where the model does not look for them
     */
    public HeardEvents events(@Nullable NetLook seen, float[][] image, List<MeasuredSound> sounds, double[] whole) {
        return seen == null || stages.events == null
                ? HeardEvents.NONE
                : stages.events.heard(seen.frames(), image, sounds, whole);
    }

    /** True if the model looks for single extra sounds. */
    public boolean findsEvents() {
        return stages.events != null;
    }

    static NetLook look(ChestNets nets, float[][] image) {
        if (image.length == 0) {
            throw new IllegalArgumentException("a net needs the recording's image");
        }
        NetLook look = nets.look(image);
        if (!Arrays.stream(look.logits()).allMatch(Double::isFinite)) {
            throw Numbers.damaged("its net gives no numbers");
        }
        return look;
    }

    /** True if the model holds a net that looks at a recording's image. */
    public boolean seesImage() {
        return stages.net != null;
    }

    /**
     * Class probabilities of a person's recordings, each in the light of the others; one alone stays as it is.
     *
     * @param alone {@link #recordingProbabilities} of each recording
     * @return the same shape
     */
    public List<double[]> amongTakes(List<double[]> alone) {
        return amongTakes(alone, stages.takes);
    }

    static List<double[]> amongTakes(List<double[]> alone, Blend takes) {
        if (alone.size() < 2) {
            return List.copyOf(alone);
        }
        List<double[]> result = new ArrayList<>();
        for (int r = 0; r < alone.size(); r++) {
            result.add(mean(alone.get(r), takes.probabilities(TakesFeatures.of(alone, r))));
        }
        return result;
    }

    /**
     * Calibrated probabilities of a recording that was seen among the person's others.
     *
     * @param recordingProbabilities of {@link #amongTakes}
     */
    public Calibrated calibrated(double[] recordingProbabilities) {
        return calibrated(recordingProbabilities, calibrations);
    }

    /**
     * Calibrated probabilities of a recording that was seen by itself: the same numbers mean less there, and this scale was fitted for them.
     *
     * @param recordingProbabilities of {@link #recordingProbabilities}
     */
    public Calibrated calibratedAlone(double[] recordingProbabilities) {
        return calibrated(recordingProbabilities, calibrationsAlone);
    }

    /**
     * The same of a recording that may sound unlike those learnt from: then what is said of its windows counts, too.
     *
     * @param recordingProbabilities of {@link #recordingProbabilities}
     * @param windows {@link #window} of its windows, in order of time, at least one
     * @param features of the recording, in the order of the recording catalogue
     */
    public Calibrated calibratedAlone(double[] recordingProbabilities, List<WindowAnswer> windows, float[] features) {
        Calibrated asFamiliar = calibratedAlone(recordingProbabilities);
        return unfamiliarScale == null || familiar(features)
                ? asFamiliar
                : unfamiliarScale.apply(recordingProbabilities, windows, asFamiliar.poorQuality());
    }

    static Calibrated calibrated(double[] recordingProbabilities, Calibrations calibrations) {
        double[] p = recordingProbabilities;
        return new Calibrated(
                calibrations.continuous.apply(RecordingClass.ifJudged(RecordingClass.continuous(p), p)),
                calibrations.discontinuous.apply(RecordingClass.ifJudged(RecordingClass.discontinuous(p), p)),
                calibrations.poorQuality.apply(RecordingClass.poorQuality(p)));
    }

    /**
     * Whether a recording is too poor to judge, and how probable that is.
     *
     * @param relative its {@link lungwort.quality.QualityMeasures#relative}; empty where they were not measured
     * @param alone its calibrated probabilities, as one recording alone
     */
    public PoorRule.Answer poor(double[] relative, Calibrated alone) {
        return poorRule == null || relative.length == 0
                ? new PoorRule.Answer(alone.poorQuality(), limits.poor(alone))
                : poorRule.answer(relative, alone.poorQuality());
    }

    /**
     * What each quality measure adds to the log-odds of poor quality ({@link PoorRule#contributions}).
     *
     * @param relative {@link lungwort.quality.QualityMeasures#relative} of the recording
     * @return empty where the model holds no such rule
     */
    public double[] poorContributions(double[] relative) {
        return poorRule == null ? new double[0] : poorRule.contributions(relative);
    }

    /**
     * True if a recording sounds, on the whole, like those learnt from ({@link FamiliarSpectrum}); if not, that nothing was found in it says little.
     *
     * @param recording features of the recording, in the order of the recording catalogue
     */
    public boolean familiar(float[] recording) {
        return familiar != null && familiar.holds(recording);
    }

    @Nullable
    FamiliarSpectrum familiarSpectrum() {
        return familiar;
    }

    @Nullable
    UnfamiliarScale unfamiliarScale() {
        return unfamiliarScale;
    }

    @Nullable
    PoorRule poorRule() {
        return poorRule;
    }

    /** Where probabilities become answers. */
    public Thresholds thresholds() {
        return thresholds;
    }

    /** Where the probabilities of one recording alone become a suggestion, "none heard" or "cannot tell". */
    public Limits limits() {
        return limits;
    }

    /** How probabilities of recordings among the person's others are made honest. */
    public Calibrations calibrations() {
        return calibrations;
    }

    /** How probabilities of a recording by itself are made honest. */
    public Calibrations calibrationsAlone() {
        return calibrationsAlone;
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

    Stages stages() {
        return stages;
    }

    /** The same model with facts about its making added. */
    public SoundModel with(Map<String, String> more) {
        Map<String, String> all = new java.util.TreeMap<>(facts);
        all.putAll(more);
        return new SoundModel(
                stages, calibrations, calibrationsAlone, unfamiliarScale, limits, poorRule, thresholds, familiar, all);
    }
}
