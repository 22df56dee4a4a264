package lungwort.classify;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.SplittableRandom;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import java.util.zip.ZipOutputStream;
import lungwort.BadInput;
import lungwort.feature.FeatureCatalogue;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ModelFileTest {
    private static SoundModel model;
    private static byte[] bytes;
    private static SoundModel withNet;

    @BeforeAll
    static void trainOnNoise() {
        withNet = NoiseModel.trainWithNet(1);
        model = NoiseModel.train(1).with(Map.of("recipe", "noise"));
        bytes = ModelFile.bytes(model);
    }

    private static float[] noise(int n, long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        float[] x = new float[n];
        for (int i = 0; i < n; i++) {
            x[i] = (float) random.nextGaussian();
        }
        return x;
    }

    @Test
    void saysTheSameAfterWritingAndReading(@TempDir Path folder) {
        Path file = folder.resolve("model.lungwort");
        ModelFile.write(model, file);
        SoundModel read = ModelFile.read(file);
        float[] segment = noise(FeatureCatalogue.segment().size(), 2);
        float[] recording = noise(FeatureCatalogue.recording().size(), 3);
        double[] p = model.segmentProbabilities(segment);
        assertThat(read.segmentProbabilities(segment)).isEqualTo(p);
        List<SegmentAnswers> segments = List.of(
                new SegmentAnswers(new double[][] {p, {0.5, 0.1, 0.1, 0.1, 0.1, 0.05, 0.05}}, new float[0][]),
                new SegmentAnswers(new double[][] {p}, new float[0][]));
        assertThat(read.inContext(segments).get(0))
                .isDeepEqualTo(model.inContext(segments).get(0));
        List<WindowAnswer> windows = List.of(model.window(segment, recording));
        WindowAnswer again = read.window(segment, recording);
        assertThat(again.asWindow()).isEqualTo(windows.get(0).asWindow());
        assertThat(again.bursts()).isEqualTo(windows.get(0).bursts());
        double[] whole = model.recordingProbabilities(windows, recording, null);
        assertThat(read.recordingProbabilities(windows, recording, null)).isEqualTo(whole);
        List<double[]> takes = List.of(whole, new double[] {0.6, 0.1, 0.1, 0.1, 0.1});
        assertThat(read.amongTakes(takes).get(0))
                .isEqualTo(model.amongTakes(takes).get(0));
        assertThat(read.calibrated(whole)).isEqualTo(model.calibrated(whole));
        assertThat(read.calibratedAlone(whole)).isEqualTo(model.calibratedAlone(whole));
        assertThat(read.limits()).isEqualTo(model.limits());
        assertThat(read.thresholds()).isEqualTo(model.thresholds());
        assertThat(read.facts()).isEqualTo(model.facts());
        double[] quality = NoiseModel.items(4).get(0).quality();
        SoundModel.Calibrated c = model.calibratedAlone(whole);
        assertThat(read.poor(quality, c)).isEqualTo(model.poor(quality, c));
        assertThat(model.poor(quality, c).probability()).isNotEqualTo(c.poorQuality());
    }

    /** A device has no size and no end. */
    @Test
    void readsNoMoreThanAModelCanHave() {
        Path endless = Path.of("/dev/zero");
        assumeTrue(Files.exists(endless), "this system has no /dev/zero");
        assertThatThrownBy(() -> ModelFile.read(endless))
                .isInstanceOf(BadInput.class)
                .hasMessageStartingWith("/dev/zero: it is no model file");
    }

    @Test
    void withoutARuleOfPoorQualityTheLearntProbabilityAloneTellsIt() throws IOException {
        byte[] old = edited("manifest.json", text -> text.replace("\"poorRule\"", "\"somethingElse\""));
        SoundModel read = ModelFile.read(old, "old.lungwort");
        SoundModel.Calibrated c = new SoundModel.Calibrated(0.1, 0.1, 0.123);
        assertThat(read.poor(NoiseModel.items(4).get(0).quality(), c).probability())
                .isEqualTo(0.123);
    }

    @Test
    void withoutAScaleOfBurstsTheirModelAloneSpeaks() throws IOException {
        byte[] old = edited("manifest.json", text -> text.replace("\"burstsScale\"", "\"somethingElse\""));
        SoundModel read = ModelFile.read(old, "old.lungwort");
        float[] recording = noise(FeatureCatalogue.recording().size(), 3);
        WindowAnswer answer = read.window(noise(FeatureCatalogue.segment().size(), 2), recording);
        assertThat(answer.bursts()).satisfies(b -> assertThat(b.amongBreaths()).isEqualTo(b.alone(), within(1e-12)));
        byte[] broken = edited("manifest.json", text -> text.replaceAll("\"perDeviation\" : [^,]+,", ""));
        assertThatThrownBy(() -> ModelFile.read(broken, "odd.lungwort")).isInstanceOf(BadInput.class);
    }

    /** Files from before windows had a say of their own are read, and judge unfamiliar recordings as any other. */
    @Test
    void theScaleOfUnfamiliarRecordingsIsKeptAndMayBeMissing() throws IOException {
        SoundModel read = ModelFile.read(bytes, "kept");
        byte[] older = edited("manifest.json", text -> text.replace("\"calibrationUnfamiliar\"", "\"somethingElse\""));
        SoundModel old = ModelFile.read(older, "old");
        int unfamiliar = 0;
        for (TrainingItem item : NoiseModel.items(4)) {
            float[] x = item.recording();
            List<WindowAnswer> windows =
                    List.of(model.window(item.windows()[0], x), model.window(item.windows()[1], x));
            double[] whole = model.recordingProbabilities(windows, x, null);
            SoundModel.Calibrated told = model.calibratedAlone(whole, windows, x);
            assertThat(read.calibratedAlone(whole, windows, x)).isEqualTo(told);
            assertThat(old.calibratedAlone(whole, windows, x)).isEqualTo(model.calibratedAlone(whole));
            unfamiliar += told.equals(model.calibratedAlone(whole)) ? 0 : 1;
            assertThat(told.equals(model.calibratedAlone(whole))).isEqualTo(model.familiar(x));
        }
        assertThat(unfamiliar).isPositive();
        byte[] broken = edited(
                "manifest.json",
                text -> text.replaceAll(
                        "(\"calibrationUnfamiliar\" : \\{\\s+\"continuous\" : \\{\\s+\"slope\" : )",
                        "$1\"x\", \"y\" : "));
        assertThatThrownBy(() -> ModelFile.read(broken, "odd")).isInstanceOf(BadInput.class);
    }

    /** A model whose file does not say what it learnt from knows no recording; one whose numbers are damaged is refused. */
    @Test
    void whatIsFamiliarIsKeptAndChecked() throws IOException {
        SoundModel read = ModelFile.read(bytes, "kept");
        for (TrainingItem item : NoiseModel.items(4)) {
            assertThat(read.familiar(item.recording())).isEqualTo(model.familiar(item.recording()));
        }
        assertThat(NoiseModel.items(1).stream().filter(i -> read.familiar(i.recording())))
                .isNotEmpty();
        byte[] old = edited("manifest.json", text -> text.replace("\"familiarSpectrum\"", "\"somethingElse\""));
        assertThat(NoiseModel.items(1))
                .noneMatch(i -> ModelFile.read(old, "old").familiar(i.recording()));
        byte[] cut = edited("manifest.json", text -> text.replaceFirst("\"mean\" : \\[ [^,]+,", "\"mean\" : ["));
        assertThatThrownBy(() -> ModelFile.read(cut, "cut"))
                .isInstanceOf(BadInput.class)
                .hasMessageStartingWith("cut: ");
    }

    @Test
    void aRuleForOtherQualityMeasuresIsRefusedAndSaysSo() throws IOException {
        byte[] other = edited("manifest.json", text -> text.replace("\"breath evenness\"", "\"evenness\""));
        assertThatThrownBy(() -> ModelFile.read(other, "old.lungwort"))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("other quality measures")
                .hasMessageNotContaining("lungwort train");
        byte[] broken = edited("manifest.json", text -> text.replaceAll("\"measuredFrom\" : [^,]+,", ""));
        assertThatThrownBy(() -> ModelFile.read(broken, "odd.lungwort"))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("measuredFrom");
    }

    /** A model is made to be shared: who may read what its owner writes in the folder may read it. */
    @Test
    void aModelIsAsReadableAsAnyFile(@TempDir Path folder) throws IOException {
        Path file = folder.resolve("m.lungwort");
        ModelFile.write(ModelFile.read(bytes, "m.lungwort"), file);
        Path any = Files.writeString(folder.resolve("any.txt"), "any");
        assumeTrue(Files.getFileStore(folder).supportsFileAttributeView("posix"), "no POSIX permissions here");
        assertThat(Files.getPosixFilePermissions(file)).isEqualTo(Files.getPosixFilePermissions(any));
        try (Stream<Path> left = Files.list(folder)) {
            assertThat(left).containsExactlyInAnyOrder(file, any);
        }
    }

    @Test
    void aNetIsKeptAndAFileWithoutOneHasNoPlaceForIt() throws IOException {
        byte[] file = ModelFile.bytes(withNet);
        SoundModel read = ModelFile.read(file, "net.lungwort");
        assertThat(withNet.seesImage() && read.seesImage()).isTrue();
        for (TrainingItem item : NoiseModel.items(4)) {
            List<WindowAnswer> windows = List.of(withNet.window(item.windows()[0], item.recording()));
            assertThat(read.recordingProbabilities(windows, item.recording(), read.look(item.image())))
                    .isEqualTo(withNet.recordingProbabilities(windows, item.recording(), withNet.look(item.image())));
            assertThatThrownBy(() -> read.look(new float[0][])).isInstanceOf(IllegalArgumentException.class);
        }
        int own = PoolFeatures.POOLED + FeatureCatalogue.recording().size();
        assertThat(read.stages().recording().inputs()).isEqualTo(own + ChestNet.OUTPUTS);
        assertThat(read.stages().recording().columns()).endsWith(own, own + 1, own + 2);
        SoundModel without = ModelFile.read(bytes, "without.lungwort");
        assertThat(without.seesImage()).isFalse();
        assertThat(without.stages().recording().inputs()).isEqualTo(own);
        assertThat(parts(bytes)).extracting(Map.Entry::getKey).doesNotContain("net.bin");
    }

    @Test
    void aDamagedMissingOrStrayNetIsRefused() throws IOException {
        List<Map.Entry<String, byte[]>> parts = parts(ModelFile.bytes(withNet));
        Map.Entry<String, byte[]> net = parts.stream()
                .filter(p -> p.getKey().equals("net.bin"))
                .findFirst()
                .orElseThrow();
        List<Map.Entry<String, byte[]>> others =
                parts.stream().filter(p -> !p.equals(net)).toList();
        List<Map.Entry<String, byte[]>> longer = new ArrayList<>(others);
        longer.add(Map.entry("net.bin", Arrays.copyOf(net.getValue(), net.getValue().length + 1)));
        assertThatThrownBy(() -> ModelFile.read(zip(longer), "longer.lungwort"))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("longer than it should be");
        assertRefused(zip(others), "judges segments by a net and has none");
        List<Map.Entry<String, byte[]>> plain = new ArrayList<>();
        for (Map.Entry<String, byte[]> part :
                parts(edited(zip(others), t -> t.replace("\"segmentFacts\"", "\"old\"")))) {
            plain.add(part.getKey().equals("context.bin") ? Map.entry("context.bin", context(bytes)) : part);
        }
        assertRefused(zip(plain), "inputs");
        List<Map.Entry<String, byte[]>> stray = new ArrayList<>(parts(bytes));
        stray.add(net);
        assertThatThrownBy(() -> ModelFile.read(zip(stray), "stray.lungwort"))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("other images")
                .hasMessageNotContaining("lungwort train");
        List<Map.Entry<String, byte[]>> cut = new ArrayList<>(others);
        cut.add(Map.entry("net.bin", Arrays.copyOf(net.getValue(), net.getValue().length - 4)));
        assertThatThrownBy(() -> ModelFile.read(zip(cut), "cut.lungwort"))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("cut short");
    }

    @Test
    void theSameModelIsTheSameFile() {
        assertThat(ModelFile.bytes(NoiseModel.train(1).with(Map.of("recipe", "noise"))))
                .isEqualTo(bytes);
    }

    @Test
    void cutFilesAreRefusedInASentence() {
        for (int length = 0; length < bytes.length; length += Math.max(1, bytes.length / 37)) {
            byte[] cut = Arrays.copyOf(bytes, length);
            assertThatThrownBy(() -> ModelFile.read(cut, "cut.lungwort"))
                    .isInstanceOf(BadInput.class)
                    .hasMessageStartingWith("cut.lungwort: ")
                    .hasMessageContaining("again");
        }
    }

    @Test
    void filesOfAnotherKindAreRefused(@TempDir Path folder) throws IOException {
        Path file = Files.writeString(folder.resolve("poem.txt"), "no model");
        assertThatThrownBy(() -> ModelFile.read(file))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("not a whole model");
        assertThatThrownBy(() -> ModelFile.read(folder.resolve("none")))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("no such model file")
                .hasMessageNotContaining("lungwort train");
    }

    @Test
    void aModelForAnotherCatalogueIsRefusedAndSaysSo() throws IOException {
        byte[] other =
                edited("manifest.json", text -> text.replace(FeatureCatalogue.digestOfAll(), "0123456789abcdef"));
        assertThatThrownBy(() -> ModelFile.read(other, "old.lungwort"))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("another feature catalogue (0123456789ab)")
                .hasMessageNotContaining("lungwort train");
    }

    @Test
    void aNewerFormatIsRefused() throws IOException {
        byte[] newer = edited("manifest.json", text -> text.replace("\"format\" : 1", "\"format\" : 2"));
        assertThatThrownBy(() -> ModelFile.read(newer, "new.lungwort"))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("format 2");
    }

    @Test
    void impossibleThresholdsAreRefused() throws IOException {
        byte[] odd =
                edited("manifest.json", text -> text.replaceAll("\"eventNormal\" : [0-9.]+", "\"eventNormal\" : 7"));
        assertThatThrownBy(() -> ModelFile.read(odd, "odd.lungwort"))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("eventNormal");
    }

    @Test
    void aFileFromBeforeLimitsWereChosenReadsWithTheUsualOnes() throws IOException {
        byte[] old = edited(
                "manifest.json",
                text -> text.replaceAll(",\\s+\"(heardFrom|unsureFrom|poorFrom)\" : [0-9.E-]+", "")
                        .replaceAll("(?s)\"calibrationAlone\" : \\{.*?\\}\\s*\\},", ""));
        SoundModel read = ModelFile.read(old, "old.lungwort");
        assertThat(read.limits()).isEqualTo(new Limits(0.5, 0.35, 0.5));
        assertThat(read.calibrationsAlone()).isEqualTo(model.calibrations());
        assertThat(model.calibrationsAlone()).isNotEqualTo(model.calibrations());
    }

    @Test
    void limitsOutOfOrderOrMissingInPartAreRefused() throws IOException {
        byte[] odd =
                edited("manifest.json", text -> text.replaceAll("\"heardFrom\" : [0-9.E-]+", "\"heardFrom\" : 0.01"));
        assertThatThrownBy(() -> ModelFile.read(odd, "odd.lungwort"))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("unsureFrom is above heardFrom");
        byte[] part = edited("manifest.json", text -> text.replaceAll("\"heardFrom\" : [0-9.E-]+", "\"other\" : 0.5"));
        assertThatThrownBy(() -> ModelFile.read(part, "part.lungwort"))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("heardFrom");
    }

    @Test
    void damagedBytesNeverEscapeAsAnotherException() {
        long seed = 7_001;
        SplittableRandom random = new SplittableRandom(seed);
        for (int round = 0; round < 60; round++) {
            byte[] damaged = bytes.clone();
            for (int hit = 0; hit < 3; hit++) {
                damaged[random.nextInt(damaged.length)] ^= (byte) (1 + random.nextInt(255));
            }
            try {
                ModelFile.read(damaged, "damaged.lungwort");
            } catch (BadInput expected) {
                assertThat(expected).as("seed %d round %d", seed, round).hasMessageStartingWith("damaged.lungwort: ");
            }
        }
    }

    @Test
    void aFolderThatIsNotThereIsNamed(@TempDir Path folder) {
        Path file = folder.resolve("missing").resolve("model.lungwort");
        assertThatThrownBy(() -> ModelFile.write(model, file))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("missing");
    }

    private static HeardEvents events(SoundModel model, TrainingItem item) {
        NetLook seen = model.look(item.image());
        List<WindowAnswer> windows = List.of(model.window(item.windows()[0], item.recording()));
        double[] whole = model.recordingProbabilities(windows, item.recording(), seen);
        return model.events(seen, item.image(), item.sounds(), whole);
    }

    @Test
    void theSameSingleSoundsAreHeardAfterWritingAndReading() throws IOException {
        byte[] file = ModelFile.bytes(withNet);
        SoundModel read = ModelFile.read(file, "events.lungwort");
        assertThat(withNet.findsEvents() && read.findsEvents()).isTrue();
        int heard = 0;
        for (TrainingItem item : NoiseModel.items(4)) {
            assertThat(events(read, item)).isEqualTo(events(withNet, item));
            heard += events(read, item).sure().size();
        }
        assertThat(heard).isGreaterThan(10);
        EventModel events = Objects.requireNonNull(read.stages().events());
        assertThat(events.continuousLimit())
                .isEqualTo(Objects.requireNonNull(withNet.stages().events()).continuousLimit());
        assertThat(events.continuousLimit()).isNotEqualTo(events.discontinuousLimit());
        assertThat(ModelFile.bytes(read)).isEqualTo(file);
        SoundModel without = ModelFile.read(bytes, "without.lungwort");
        assertThat(without.findsEvents()).isFalse();
        assertThat(parts(bytes)).extracting(Map.Entry::getKey).doesNotContain("events.bin");
        assertThat(without.events(null, new float[0][], List.of(), new double[] {0.2, 0.2, 0.2, 0.2, 0.2}))
                .isEqualTo(HeardEvents.NONE);
    }

    private static void assertRefused(byte[] file, String words) {
        assertThatThrownBy(() -> ModelFile.read(file, "odd.lungwort"))
                .isInstanceOf(BadInput.class)
                .hasMessageStartingWith("odd.lungwort: ")
                .hasMessageContaining(words)
                .hasMessageMatching("[^\\n]*again[^.\\n]*\\.");
    }

    @Test
    void singleSoundsByOtherFactsOrImpossibleLimitsAreRefused() throws IOException {
        byte[] file = ModelFile.bytes(withNet);
        for (String facts : List.of("\"facts\" : \"length ", "\"facts\" : \"")) {
            String other = facts.endsWith("length ") ? "\"facts\" : \"" : "\"facts\" : \"width ";
            assertRefused(edited(file, text -> text.replace(facts, other)), "tells single sounds by other facts");
        }
        for (String limit : List.of("continuousFrom", "discontinuousFrom")) {
            String given = "\"" + limit + "\" : [0-9.E-]+";
            for (String impossible : List.of("1.001", "-0.001", "\"NaN\"", "\"much\"", "null")) {
                assertRefused(edited(file, text -> text.replaceAll(given, "\"" + limit + "\" : " + impossible)), limit);
            }
            assertRefused(edited(file, text -> text.replaceAll(given, "\"other\" : 0.5")), limit);
            byte[] highest = edited(file, text -> text.replaceAll(given, "\"" + limit + "\" : 1"));
            assertThat(ModelFile.read(highest, "highest").findsEvents()).isTrue();
        }
        byte[] shared = ModelFile.bytes(withEdges(
                withNet, Objects.requireNonNull(withNet.stages().events()).edges()));
        assertThat(limit(shared, false)).isEqualTo(new EventLimit(0.3, 0.5));
        assertThat(limit(shared, true)).isEqualTo(EventLimit.from(0.2));
        for (String impossible : List.of("1.001", "-0.001", "0", "\"NaN\"", "\"much\"", "null")) {
            assertRefused(
                    edited(
                            shared,
                            text -> text.replaceAll("OfMostProbable\" : 0.5", "OfMostProbable\" : " + impossible)),
                    "not between 0 and 1");
        }
        assertRefused(edited(file, text -> text.replace("\"events\"", "\"somethingElse\"")), "other facts");
    }

    private static EventLimit limit(byte[] file, boolean continuous) {
        EventModel events =
                Objects.requireNonNull(ModelFile.read(file, "limits").stages().events());
        return continuous ? events.continuousLimit() : events.discontinuousLimit();
    }

    private static SoundModel withEdges(SoundModel model, EventModel.@org.jspecify.annotations.Nullable Edges edges) {
        Blend any = Objects.requireNonNull(model.stages().events()).continuous();
        Blend own = edges == null ? new Blend(EventFacts.NAMES.size(), new int[] {0}, lengthAlone()) : any;
        return NoiseModel.withEvents(
                model,
                new EventModel(own, own, EventLimit.from(0.2), new EventLimit(0.3, 0.5), edges),
                model.poorRule(),
                model.familiarSpectrum());
    }

    /** A learner that sees one number. */
    private static List<Learner> lengthAlone() {
        float[][] x = {{0.1f}, {0.2f}, {0.9f}, {1}};
        return List.of(new LearnerSettings("boosted-trees", Map.of("rounds", 2.0, "leaves", 2.0, "minLeafRows", 1.0))
                .fit(x, new int[] {0, 0, 1, 1}, new double[] {1, 1, 1, 1}, 2, 1));
    }

    /** Files from before edges were moved are read as they were. */
    @Test
    void singleSoundsWithoutEdgesAreReadAsTheyWereWritten() throws IOException {
        EventModel events = Objects.requireNonNull(withNet.stages().events());
        assertThat(events.edges()).isNotNull();
        byte[] plain = ModelFile.bytes(withEdges(withNet, null));
        EventModel read = Objects.requireNonNull(
                ModelFile.read(plain, "plain.lungwort").stages().events());
        assertThat(read.edges()).isNull();
        assertThat(read.continuous().inputs()).isEqualTo(EventFacts.NAMES.size());
        assertThat(ModelFile.bytes(ModelFile.read(plain, "plain.lungwort"))).isEqualTo(plain);
        byte[] file = ModelFile.bytes(withEdges(withNet, events.edges()));
        assertThat(ModelFile.read(file, "edges.lungwort").stages().events())
                .extracting(e -> Objects.requireNonNull(e).edges())
                .isNotNull();
        // Named as the one, holding the other.
        String edgeFacts = " " + String.join(" ", EventEdgeFacts.NAMES);
        assertRefused(edited(file, text -> text.replace(edgeFacts, "")), "inputs");
    }

    @Test
    void aDamagedMissingOrStrayPartOfSingleSoundsIsRefused() throws IOException {
        List<Map.Entry<String, byte[]>> parts = parts(ModelFile.bytes(withNet));
        byte[] events = events(parts);
        List<Map.Entry<String, byte[]>> others = withoutEvents(parts);
        assertRefused(zip(others), "events.bin is missing");
        assertRefused(zip(with(others, Arrays.copyOf(events, events.length + 1))), "longer than it should be");
        assertRefused(zip(with(others, Arrays.copyOf(events, events.length - 1))), "cut short");
        assertRefused(zip(with(others, new byte[0])), "cut short");
        // A file without a net, to which both the part and its place in the manifest are added.
        byte[] named = edited(bytes, text -> text.replaceFirst("\"thresholds\"", "\"events\" : {}, \"thresholds\""));
        assertRefused(zip(with(parts(named), events)), "by a net and has none");
        assertRefused(zip(with(parts(bytes), events)), "by a net and has none");
    }

    private static byte[] context(byte[] file) throws IOException {
        return parts(file).stream()
                .filter(p -> p.getKey().equals("context.bin"))
                .findFirst()
                .orElseThrow()
                .getValue();
    }

    /** What a net sees in marked segments is seen again after reading, where its facts are those of this version. */
    @Test
    void segmentsAreJudgedByTheSameFactsAfterReading() throws IOException {
        byte[] file = ModelFile.bytes(withNet);
        SoundModel read = ModelFile.read(file, "net.lungwort");
        int different = 0;
        for (TrainingItem item : NoiseModel.items(4)) {
            double[] whole = {0.2, 0.2, 0.2, 0.2, 0.2};
            double[] other = {0.9, 0.025, 0.025, 0.025, 0.025};
            double[][] p = judged(withNet, item, whole);
            assertThat(judged(read, item, whole)).isDeepEqualTo(p);
            different += Arrays.deepEquals(judged(withNet, item, other), p) ? 0 : 1;
        }
        assertThat(different).isPositive();
        String first = "\"segmentFacts\" : \"length ";
        assertRefused(
                edited(file, t -> t.replace(first, "\"segmentFacts\" : \"width ")), "judges segments by other facts");
        assertRefused(edited(file, t -> t.replace("\"segmentFacts\"", "\"old\"")), "inputs");
    }

    private static double[][] judged(SoundModel model, TrainingItem item, double[] whole) {
        NetLook seen = model.look(item.image());
        return model.inContext(List.of(model.segments(item.segments(), item.spans(), seen, item.sounds(), whole)))
                .get(0);
    }

    private static byte[] events(List<Map.Entry<String, byte[]>> parts) {
        return parts.stream()
                .filter(p -> p.getKey().equals("events.bin"))
                .findFirst()
                .orElseThrow()
                .getValue();
    }

    private static List<Map.Entry<String, byte[]>> withoutEvents(List<Map.Entry<String, byte[]>> parts) {
        return parts.stream().filter(p -> !p.getKey().equals("events.bin")).toList();
    }

    private static List<Map.Entry<String, byte[]>> with(List<Map.Entry<String, byte[]>> parts, byte[] events) {
        List<Map.Entry<String, byte[]>> more = new ArrayList<>(parts);
        more.add(Map.entry("events.bin", events));
        return more;
    }

    /** Numbers that are damaged are refused on reading, or answer with sounds that have a length and a probability. */
    @Test
    void damagedSingleSoundsNeverEscapeAsAnotherException() throws IOException {
        List<Map.Entry<String, byte[]>> parts = parts(ModelFile.bytes(withNet));
        byte[] events = events(parts);
        List<Map.Entry<String, byte[]>> others = withoutEvents(parts);
        long seed = 7_002;
        SplittableRandom random = new SplittableRandom(seed);
        TrainingItem item = NoiseModel.items(4).get(3);
        for (int round = 0; round < 60; round++) {
            byte[] damaged = events.clone();
            for (int hit = 0; hit < 3; hit++) {
                damaged[random.nextInt(damaged.length)] ^= (byte) (1 + random.nextInt(255));
            }
            try {
                events(ModelFile.read(zip(with(others, damaged)), "damaged.lungwort"), item);
            } catch (BadInput expected) {
                assertThat(expected).as("seed %d round %d", seed, round).hasMessageStartingWith("damaged.lungwort: ");
            }
        }
    }

    private static byte[] edited(String name, UnaryOperator<String> edit) throws IOException {
        return edited(bytes, name, edit);
    }

    private static byte[] edited(byte[] file, UnaryOperator<String> manifest) throws IOException {
        return edited(file, "manifest.json", manifest);
    }

    private static byte[] edited(byte[] file, String name, UnaryOperator<String> edit) throws IOException {
        List<Map.Entry<String, byte[]>> edited = new ArrayList<>();
        for (Map.Entry<String, byte[]> part : parts(file)) {
            byte[] content = part.getValue();
            if (part.getKey().equals(name)) {
                String before = new String(content, StandardCharsets.UTF_8);
                String after = edit.apply(before);
                assertThat(after).isNotEqualTo(before);
                content = after.getBytes(StandardCharsets.UTF_8);
            }
            edited.add(Map.entry(part.getKey(), content));
        }
        return zip(edited);
    }

    private static List<Map.Entry<String, byte[]>> parts(byte[] file) throws IOException {
        List<Map.Entry<String, byte[]>> parts = new ArrayList<>();
        try (ZipInputStream zip = new ZipInputStream(new ByteArrayInputStream(file))) {
            for (ZipEntry e = zip.getNextEntry(); e != null; e = zip.getNextEntry()) {
                parts.add(Map.entry(e.getName(), zip.readAllBytes()));
            }
        }
        return parts;
    }

    private static byte[] zip(List<Map.Entry<String, byte[]>> parts) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try (ZipOutputStream zip = new ZipOutputStream(out)) {
            for (Map.Entry<String, byte[]> part : parts) {
                zip.putNextEntry(new ZipEntry(part.getKey()));
                zip.write(part.getValue());
            }
        }
        return out.toByteArray();
    }
}
