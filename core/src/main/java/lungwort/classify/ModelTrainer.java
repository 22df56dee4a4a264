package lungwort.classify;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import java.util.function.Consumer;
import java.util.stream.IntStream;
import lungwort.feature.FeatureCatalogue;
import lungwort.feature.FeatureDefinition;
import org.jspecify.annotations.Nullable;

/**
 * Trains a {@link SoundModel}.
 *
 * <p>The later stages learn from probabilities of recordings whose patients the earlier stage had not seen (stacked generalisation, Wolpert 1992), and calibration and
 * thresholds from later stages that had not seen them either.
 */
public final class ModelTrainer {
    /** Nets learn longest by far, so fewer of them are left without some patients: the folds are taken together to this many parts. */
    private static final int NET_PARTS = 3;

    private final List<TrainingItem> items;
    private final int[] foldOfItem;
    private final ModelSettings settings;
    private final Consumer<String> progress;

    /** The recordings of each patient, and apart from them the altered copies: nobody is heard as they are and altered at once, and no recording may stand beside a copy of itself. */
    private final int[][] takenTogether;

    private ModelTrainer(
            List<TrainingItem> items, int[] foldOfItem, ModelSettings settings, Consumer<String> progress) {
        this.items = items;
        this.foldOfItem = foldOfItem;
        this.settings = settings;
        this.progress = progress;
        this.takenTogether = takenTogether(items);
    }

    private static int[][] takenTogether(List<TrainingItem> items) {
        record Group(String patient, boolean altered) {}
        Map<Group, List<Integer>> groups =
                new TreeMap<>(Comparator.comparing(Group::patient).thenComparing(Group::altered));
        for (int i = 0; i < items.size(); i++) {
            Group group = new Group(items.get(i).patient(), items.get(i).altered());
            groups.computeIfAbsent(group, p -> new ArrayList<>()).add(i);
        }
        return groups.values().stream().map(ModelTrainer::ints).toArray(int[][]::new);
    }

    /**
     * Trains on recordings.
     *
     * @param items recordings, at least one of each patient fold
     * @param foldOfItem inner fold of each recording, in [0, settings.folds()), the same for all recordings of a patient
     * @param settings what to train
     * @param progress told what is being done, one line at a time
     * @return the model and what it said of each training recording when it had not seen its patient
     */
    public static Trained fit(
            List<TrainingItem> items, int[] foldOfItem, ModelSettings settings, Consumer<String> progress) {
        return new ModelTrainer(items, foldOfItem, settings, progress).fit();
    }

    /**
     * A trained model with the out-of-fold probabilities it was calibrated on.
     *
     * @param model the model
     * @param segments of each recording and segment, in context
     * @param recordings of each recording, among the person's others, before calibration
     * @param recordingsAlone of each recording by itself, before calibration
     */
    @SuppressWarnings("ArrayRecordComponent") // never compared
    public record Trained(SoundModel model, double[][][] segments, double[][] recordings, double[][] recordingsAlone) {}

    private Trained fit() {
        int n = items.size();
        Nets nets = nets();
        double[][][] alone = new double[n][][];
        List<List<WindowAnswer>> windows = new ArrayList<>(java.util.Collections.nCopies(n, List.of()));
        double[][] whole = new double[n][];
        double[][][] inContext = new double[n][][];
        double[][] among = new double[n][];
        for (int fold = 0; fold < settings.folds(); fold++) {
            progress.accept("segments and windows, fold " + (fold + 1) + " of " + settings.folds());
            Blend segment = segmentBlend(without(fold));
            Blend window = windowBlend(without(fold));
            SoundModel.BurstsModel bursts = burstsModel(without(fold), BurstsScale.NONE);
            of(fold).parallel().forEach(i -> {
                alone[i] = all(segment, items.get(i).segments());
                double agreement = SoundModel.agreement(items.get(i).recording());
                windows.set(
                        i,
                        Arrays.stream(items.get(i).windows())
                                .map(x -> SoundModel.Stages.window(x, agreement, window, segment, bursts))
                                .toList());
            });
        }
        progress.accept("recordings");
        for (int fold = 0; fold < settings.folds(); fold++) {
            Blend recording = recordingBlend(without(fold), windows, nets);
            of(fold).parallel().forEach(i -> whole[i] = recording.probabilities(pooled(i, windows, nets)));
        }
        SoundModel.NetModel net = nets == null ? null : addNets(whole, nets);
        SegmentAnswers[] segments = segments(alone, nets, whole);
        for (int fold = 0; fold < settings.folds(); fold++) {
            Blend context = contextBlend(without(fold), segments);
            Blend takes = takesBlend(without(fold), whole);
            eachTakenTogether(fold, p -> put(SoundModel.inContext(pick(segments, p), context), inContext, p));
            eachTakenTogether(fold, p -> put(SoundModel.amongTakes(pick(whole, p), takes), among, p));
        }
        progress.accept("the whole set");
        int[] every = all();
        BurstsScale burstsScale = burstsScale(windows);
        SoundModel.Stages stages = new SoundModel.Stages(
                segmentBlend(every),
                contextBlend(every, segments),
                windowBlend(every),
                burstsModel(every, burstsScale),
                net,
                recordingBlend(every, windows, nets),
                nets == null ? null : eventModel(nets.frames(), whole),
                takesBlend(every, whole));
        SoundModel.Calibrations byItself = calibrate(whole);
        PoorRule poorRule = poorRule(whole, byItself);
        SoundModel model = new SoundModel(
                stages,
                calibrate(among),
                byItself,
                unfamiliarScale(whole, windows, burstsScale),
                limits(whole, byItself, poorRule),
                poorRule,
                thresholds(inContext, among),
                FamiliarSpectrum.fit(items),
                Map.of());
        return new Trained(model, inContext, among, whole);
    }

    private int[] without(int fold) {
        return IntStream.range(0, items.size())
                .filter(i -> foldOfItem[i] != fold)
                .toArray();
    }

    private IntStream of(int fold) {
        return IntStream.range(0, items.size()).filter(i -> foldOfItem[i] == fold);
    }

    private void eachTakenTogether(int fold, Consumer<int[]> work) {
        Arrays.stream(takenTogether)
                .filter(group -> foldOfItem[group[0]] == fold)
                .forEach(work);
    }

    private static <T> List<T> pick(T[] values, int[] indices) {
        return Arrays.stream(indices).mapToObj(i -> values[i]).toList();
    }

    private static <T> void put(List<T> values, T[] target, int[] indices) {
        for (int k = 0; k < indices.length; k++) {
            target[indices[k]] = values.get(k);
        }
    }

    private static double[][] all(Blend blend, float[][] rows) {
        return Arrays.stream(rows).map(blend::probabilities).toArray(double[][]::new);
    }

    private float[] pooled(int i, List<List<WindowAnswer>> windows, @Nullable Nets nets) {
        double[] logits = nets == null ? null : nets.looks()[i].logits();
        return PoolFeatures.of(windows.get(i), logits, items.get(i).recording());
    }

    /**
     * What nets over mel levels say.
     *
     * @param whole learnt from all patients
     * @param looks at each recording, by a net that had not seen its patient
     */
    @SuppressWarnings("ArrayRecordComponent") // never compared
    private record Nets(ChestNets whole, NetLook[] looks) {
        double[][] logits() {
            return Arrays.stream(looks).map(NetLook::logits).toArray(double[][]::new);
        }

        float[][][] frames() {
            return Arrays.stream(looks).map(NetLook::frames).toArray(float[][][]::new);
        }
    }

    /** What nets that had not seen a recording's patient say of it, for tests. */
    static double[][] netLogits(List<TrainingItem> items, int[] foldOfItem, ModelSettings settings) {
        return Objects.requireNonNull(new ModelTrainer(items, foldOfItem, settings, what -> {}).nets())
                .logits();
    }

    /** The fits run beside one another, each in a single thread; null if the settings ask for none. */
    private @Nullable Nets nets() {
        NetSettings net = settings.net();
        if (net == null) {
            return null;
        }
        progress.accept("nets");
        int parts = Math.min(NET_PARTS, settings.folds());
        List<List<TrainingItem>> learnt = IntStream.rangeClosed(0, parts)
                .mapToObj(part -> learntByNet(IntStream.range(0, items.size())
                        .filter(i -> part == parts || foldOfItem[i] % parts != part)
                        .toArray()))
                .toList();
        ChestNet[][] fitted = new ChestNet[parts + 1][net.nets()];
        IntStream.range(0, (parts + 1) * net.nets()).parallel().forEach(k -> {
            int part = k / net.nets();
            int which = k % net.nets();
            fitted[part][which] = ChestNet.fit(learnt.get(part), net, seed(7) + 1000L * which);
        });
        ChestNets[] nets =
                Arrays.stream(fitted).map(f -> new ChestNets(List.of(f))).toArray(ChestNets[]::new);
        NetLook[] looks = IntStream.range(0, items.size())
                .parallel()
                .mapToObj(i -> SoundModel.look(
                        nets[foldOfItem[i] % parts], items.get(i).image()))
                .toArray(NetLook[]::new);
        return new Nets(nets[parts], looks);
    }

    /**
     * Adds to each recording's probabilities what the nets say, by shares learnt without its fold.
     *
     * @param whole of each recording; replaced
     * @return those learnt from all, with the share learnt from all
     */
    private SoundModel.NetModel addNets(double[][] whole, Nets nets) {
        double[][] logits = nets.logits();
        NetShare[] shares = new NetShare[settings.folds() + 1];
        for (int fold = 0; fold <= settings.folds(); fold++) {
            int left = fold;
            int[] chosen = IntStream.range(0, items.size())
                    .filter(i -> foldOfItem[i] != left)
                    .filter(i -> items.get(i).label() != null && !items.get(i).altered())
                    .toArray();
            RecordingClass[] labels =
                    Arrays.stream(chosen).mapToObj(i -> items.get(i).label()).toArray(RecordingClass[]::new);
            shares[fold] = NetShare.fit(
                    pick(whole, chosen).toArray(double[][]::new),
                    pick(logits, chosen).toArray(double[][]::new),
                    labels);
        }
        for (int i = 0; i < whole.length; i++) {
            whole[i] = shares[foldOfItem[i]].apply(whole[i], logits[i]);
        }
        return new SoundModel.NetModel(nets.whole(), shares[settings.folds()]);
    }

    /** Recordings that listeners labelled and in which they marked when each sound is heard, altered copies too: a listener hears the same in them, and the net is to. */
    private List<TrainingItem> learntByNet(int[] chosen) {
        List<TrainingItem> learnt = Arrays.stream(chosen)
                .mapToObj(items::get)
                .filter(TrainingItem::timesMarked)
                .toList();
        if (learnt.isEmpty()) {
            throw new lungwort.BadInput(
                    "The recipe's net learns from recordings in which listeners marked each sound, and there are none; train on SPRSound, or leave 'net' out.");
        }
        return learnt;
    }

    /**
     * Learns to tell single sounds, and from which probability on to tell of one from models that had not learnt from the patient.
     *
     * @param frames {@link NetLook#frames} of each recording, by a net that had not seen its patient
     * @param whole probabilities of each recording, by models that had not either
     */
    private @Nullable EventModel eventModel(float[][][] frames, double[][] whole) {
        EventSettings events = settings.events();
        if (events == null) {
            return null;
        }
        progress.accept("single sounds");
        return new EventTraining(items, foldOfItem, settings.folds(), events, seed(8)).train(frames, whole);
    }

    private int[] all() {
        return IntStream.range(0, items.size()).toArray();
    }

    private Blend segmentBlend(int[] chosen) {
        StageRows rows = new StageRows();
        for (int i : chosen) {
            for (int s = 0; s < items.get(i).segments().length; s++) {
                rows.add(
                        items.get(i).segments()[s],
                        items.get(i).classes().get(s).ordinal());
            }
        }
        int[] columns = columns(FeatureCatalogue.segment(), 0, 0, settings.segment());
        return rows.fit(SegmentClass.COUNT, columns, settings.segment(), seed(1));
    }

    private Blend windowBlend(int[] chosen) {
        StageRows rows = new StageRows();
        for (int i : chosen) {
            int[] classes = items.get(i).windowClasses();
            for (int w = 0; w < classes.length; w++) {
                if (classes[w] != TrainingItem.LEFT_OUT) {
                    rows.add(items.get(i).windows()[w], classes[w]);
                }
            }
        }
        int[] columns = columns(FeatureCatalogue.segment(), 0, 0, settings.window());
        return rows.fit(RecordingClass.COUNT, columns, settings.window(), seed(4));
    }

    /** From windows that listeners could judge, as they were recorded: noise that is added hides what this model is to find. */
    private SoundModel.@Nullable BurstsModel burstsModel(int[] chosen, BurstsScale scale) {
        BlendSettings bursts = settings.bursts();
        if (bursts == null) {
            return null;
        }
        StageRows rows = new StageRows();
        for (int i : chosen) {
            int[] classes = items.get(i).windowClasses();
            for (int w = 0; w < classes.length && !items.get(i).altered(); w++) {
                if (judged(classes[w])) {
                    boolean discontinuous = RecordingClass.values()[classes[w]].discontinuous();
                    rows.add(items.get(i).windows()[w], discontinuous ? 1 : 0);
                }
            }
        }
        Blend blend = rows.fit(2, columns(FeatureCatalogue.segment(), 0, 0, bursts), bursts, seed(6));
        return new SoundModel.BurstsModel(blend, scale);
    }

    private static boolean judged(int windowClass) {
        return windowClass != TrainingItem.LEFT_OUT && windowClass != RecordingClass.POOR_QUALITY.ordinal();
    }

    /** From what models that had not seen the patients said of windows. */
    private BurstsScale burstsScale(List<List<WindowAnswer>> windows) {
        BurstsScale.Cases altered = new BurstsScale.Cases();
        BurstsScale.Cases plain = new BurstsScale.Cases();
        for (int i = 0; i < items.size(); i++) {
            TrainingItem item = items.get(i);
            BurstsScale.Cases cases = item.altered() ? altered : plain;
            for (int w = 0; w < item.windowClasses().length; w++) {
                WindowAnswer.Bursts bursts = windows.get(i).get(w).bursts();
                if (bursts != null && judged(item.windowClasses()[w])) {
                    cases.add(
                            bursts.alone(),
                            SoundModel.agreement(item.recording()),
                            RecordingClass.values()[item.windowClasses()[w]].discontinuous());
                }
            }
        }
        return BurstsScale.fit(altered, plain);
    }

    /** The facts of segments are by nets and models that had not seen the patient, as the probabilities are. */
    private SegmentAnswers[] segments(double[][][] alone, @Nullable Nets nets, double[][] whole) {
        @Nullable Nets used = SegmentFacts.NAMES.stream().anyMatch(settings.context()::uses) ? nets : null;
        return IntStream.range(0, alone.length)
                .mapToObj(i -> new SegmentAnswers(
                        alone[i], used == null ? new float[0][] : facts(items.get(i), used.looks()[i], whole[i])))
                .toArray(SegmentAnswers[]::new);
    }

    private static float[][] facts(TrainingItem item, NetLook look, double[] whole) {
        return SegmentFacts.of(item.spans(), look, item.sounds(), whole);
    }

    /** Of facts those that the settings use; all else always. */
    private int[] contextColumns(int size) {
        return IntStream.range(0, size)
                .filter(c -> c < ContextFeatures.SIZE
                        || settings.context().uses(SegmentFacts.NAMES.get(c - ContextFeatures.SIZE)))
                .toArray();
    }

    private Blend contextBlend(int[] chosen, SegmentAnswers[] segments) {
        boolean[] in = new boolean[items.size()];
        Arrays.stream(chosen).forEach(i -> in[i] = true);
        StageRows rows = new StageRows();
        for (int[] group : takenTogether) {
            for (int r = 0; r < group.length && in[group[0]]; r++) {
                float[][] x = ContextFeatures.of(pick(segments, group), r);
                for (int s = 0; s < x.length; s++) {
                    rows.add(x[s], items.get(group[r]).classes().get(s).ordinal());
                }
            }
        }
        int[] columns = contextColumns(rows.inputs());
        return rows.fit(SegmentClass.COUNT, columns, settings.context(), seed(2));
    }

    private Blend recordingBlend(int[] chosen, List<List<WindowAnswer>> windows, @Nullable Nets nets) {
        StageRows rows = new StageRows();
        for (int i : chosen) {
            RecordingClass label = items.get(i).label();
            if (label != null) {
                rows.add(pooled(i, windows, nets), label.ordinal());
            }
        }
        int ofNet = nets == null ? 0 : ChestNet.OUTPUTS;
        int[] columns = columns(FeatureCatalogue.recording(), PoolFeatures.POOLED, ofNet, settings.recording());
        if (settings.bursts() == null) {
            columns = Arrays.stream(columns)
                    .filter(c -> c >= PoolFeatures.POOLED || !PoolFeatures.ofBursts(PoolFeatures.name(c)))
                    .toArray();
        }
        return rows.fit(RecordingClass.COUNT, columns, settings.recording(), seed(3));
    }

    private Blend takesBlend(int[] chosen, double[][] whole) {
        boolean[] in = new boolean[items.size()];
        Arrays.stream(chosen).forEach(i -> in[i] = true);
        StageRows rows = new StageRows();
        for (int[] group : takenTogether) {
            for (int r = 0; r < group.length && in[group[0]]; r++) {
                RecordingClass label = items.get(group[r]).label();
                if (label != null) {
                    rows.add(TakesFeatures.of(pick(whole, group), r), label.ordinal());
                }
            }
        }
        int[] columns = IntStream.range(0, TakesFeatures.SIZE).toArray();
        return rows.fit(RecordingClass.COUNT, columns, settings.takes(), seed(5));
    }

    private long seed(int stage) {
        return settings.seed() * 17 + stage;
    }

    /** Those pooled values that stand before the catalogue's features, those of the catalogue, and those logits of the net behind, that the settings use. */
    private static int[] columns(FeatureCatalogue catalogue, int before, int behind, BlendSettings s) {
        IntStream.Builder columns = IntStream.builder();
        IntStream.range(0, before).filter(i -> s.uses(PoolFeatures.name(i))).forEach(columns::add);
        List<FeatureDefinition> features = catalogue.features();
        for (int i = 0; i < features.size(); i++) {
            if (s.uses(features.get(i).name())) {
                columns.add(before + i);
            }
        }
        IntStream.range(0, behind)
                .filter(i -> s.uses(PoolFeatures.NET_NAMES.get(i)))
                .map(i -> before + features.size() + i)
                .forEach(columns::add);
        int[] chosen = columns.build().toArray();
        if (chosen.length == 0) {
            throw new lungwort.BadInput(
                    "The recipe names features that the catalogue does not have; 'lungwort features' lists them.");
        }
        return chosen;
    }

    private SoundModel.Calibrations calibrate(double[][] recordings) {
        Labelled all = new Labelled();
        Labelled judged = new Labelled();
        for (int i = 0; i < recordings.length; i++) {
            RecordingClass label = items.get(i).label();
            if (label != null && !items.get(i).altered()) {
                all.add(recordings[i], label);
                if (label != RecordingClass.POOR_QUALITY) {
                    judged.add(recordings[i], label);
                }
            }
        }
        return new SoundModel.Calibrations(
                judged.platt(p -> RecordingClass.ifJudged(RecordingClass.continuous(p), p), RecordingClass.CONTINUOUS),
                judged.platt(
                        p -> RecordingClass.ifJudged(RecordingClass.discontinuous(p), p), RecordingClass.DISCONTINUOUS),
                all.platt(RecordingClass::poorQuality, RecordingClass.POOR_QUALITY));
    }

    /** From what models that had not seen the patients said. */
    private UnfamiliarScale unfamiliarScale(
            double[][] whole, List<List<WindowAnswer>> windows, BurstsScale burstsScale) {
        UnfamiliarScale.Cases altered = new UnfamiliarScale.Cases();
        UnfamiliarScale.Cases plain = new UnfamiliarScale.Cases();
        for (int i = 0; i < whole.length; i++) {
            TrainingItem item = items.get(i);
            RecordingClass label = item.label();
            if (label != null && label != RecordingClass.POOR_QUALITY) {
                double agreement = SoundModel.agreement(item.recording());
                List<WindowAnswer> among = windows.get(i).stream()
                        .map(answer -> answer.among(agreement, burstsScale))
                        .toList();
                (item.altered() ? altered : plain).add(whole[i], among, label);
            }
        }
        return UnfamiliarScale.fit(altered, plain);
    }

    /** Chosen on recordings alone, as one is examined at home. */
    private Limits limits(double[][] whole, SoundModel.Calibrations scales, @Nullable PoorRule rule) {
        int[] labelled = IntStream.range(0, whole.length)
                .filter(i -> items.get(i).label() != null && !items.get(i).altered())
                .toArray();
        SoundModel.Calibrated[] answers = Arrays.stream(labelled)
                .mapToObj(i -> SoundModel.calibrated(whole[i], scales))
                .toArray(SoundModel.Calibrated[]::new);
        RecordingClass[] labels =
                Arrays.stream(labelled).mapToObj(i -> items.get(i).label()).toArray(RecordingClass[]::new);
        if (rule == null) {
            return LimitSearch.choose(answers, labels);
        }
        boolean[] refused = new boolean[labelled.length];
        for (int k = 0; k < refused.length; k++) {
            double[] quality = items.get(labelled[k]).quality();
            refused[k] = quality.length > 0
                    && rule.answer(quality, answers[k].poorQuality()).refused();
        }
        return LimitSearch.choose(answers, labels, refused);
    }

    /** From those labelled recordings whose quality was measured; null without. */
    private @Nullable PoorRule poorRule(double[][] whole, SoundModel.Calibrations scales) {
        int[] chosen = IntStream.range(0, whole.length)
                .filter(i -> items.get(i).label() != null && !items.get(i).altered())
                .filter(i -> items.get(i).quality().length > 0)
                .toArray();
        boolean[] poor = new boolean[chosen.length];
        for (int k = 0; k < poor.length; k++) {
            poor[k] = items.get(chosen[k]).label() == RecordingClass.POOR_QUALITY;
        }
        return PoorRuleFit.fit(
                Arrays.stream(chosen).mapToObj(i -> items.get(i).quality()).toArray(double[][]::new),
                Arrays.stream(chosen)
                        .mapToDouble(
                                i -> SoundModel.calibrated(whole[i], scales).poorQuality())
                        .toArray(),
                poor,
                Arrays.stream(chosen).map(i -> foldOfItem[i]).toArray());
    }

    /** Probabilities with what came true. */
    private static final class Labelled {
        private final List<double[]> p = new ArrayList<>();
        private final List<RecordingClass> labels = new ArrayList<>();

        void add(double[] probabilities, RecordingClass label) {
            p.add(probabilities);
            labels.add(label);
        }

        PlattScale platt(java.util.function.ToDoubleFunction<double[]> aspect, RecordingClass positive) {
            boolean[] truth = new boolean[p.size()];
            for (int i = 0; i < truth.length; i++) {
                RecordingClass label = labels.get(i);
                truth[i] = label == positive || label == RecordingClass.BOTH && positive != RecordingClass.POOR_QUALITY;
            }
            return PlattScale.fit(p.stream().mapToDouble(aspect).toArray(), truth);
        }
    }

    private Thresholds thresholds(double[][][] segments, double[][] recordings) {
        List<double[]> p = new ArrayList<>();
        List<Integer> y = new ArrayList<>();
        List<double[]> q = new ArrayList<>();
        List<Integer> z = new ArrayList<>();
        for (int i = 0; i < recordings.length; i++) {
            if (items.get(i).altered()) {
                continue;
            }
            p.addAll(Arrays.asList(segments[i]));
            items.get(i).classes().forEach(c -> y.add(c.ordinal()));
            RecordingClass label = items.get(i).label();
            if (label != null) {
                q.add(recordings[i]);
                z.add(label.ordinal());
            }
        }
        return ThresholdSearch.choose(p.toArray(double[][]::new), ints(y), q.toArray(double[][]::new), ints(z));
    }

    private static int[] ints(List<Integer> values) {
        return values.stream().mapToInt(Integer::intValue).toArray();
    }
}
