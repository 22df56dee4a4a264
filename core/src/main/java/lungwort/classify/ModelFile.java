package lungwort.classify;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.EOFException;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.FileTime;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.UUID;
import java.util.zip.Deflater;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import java.util.zip.ZipOutputStream;
import lungwort.BadInput;
import lungwort.feature.FeatureCatalogue;
import org.jspecify.annotations.Nullable;

/**
 * Model files: a zip with {@code manifest.json} and one file of plain numbers for each stage. Nothing in it is ever executed or deserialised as objects; sizes, indices
 * and numbers are checked on reading.
 */
public final class ModelFile {
    /** Version of the layout. */
    public static final int FORMAT = 1;

    /** Largest model file that is read, in bytes. */
    public static final int MAX_BYTES = 64 << 20;

    private static final int MAX_ENTRY_BYTES = 128 << 20;
    private static final int MAX_ENTRIES = 10;
    private static final int END_BYTES = 22;
    private static final String MANIFEST = "manifest.json";
    private static final String SEGMENT = "segment.bin";
    private static final String CONTEXT = "context.bin";
    private static final String WINDOW = "window.bin";
    private static final String BURSTS = "bursts.bin";
    private static final String NET = "net.bin";
    private static final String NET_SHARE = "netShare";
    private static final String IMAGE = "image";
    private static final String RECORDING = "recording.bin";
    private static final String TAKES = "takes.bin";
    private static final String EVENTS = "events.bin";
    private static final String SEGMENT_FACTS = "segmentFacts";
    private static final String EVENT_LIMITS = "events";
    private static final String EVENT_FACTS = "facts";
    private static final String CONTINUOUS_FROM = "continuousFrom";
    private static final String DISCONTINUOUS_FROM = "discontinuousFrom";
    private static final String CONTINUOUS_SHARE = "continuousOfMostProbable";
    private static final String DISCONTINUOUS_SHARE = "discontinuousOfMostProbable";
    private static final String CONTINUOUS = "continuous";
    private static final String DISCONTINUOUS = "discontinuous";
    private static final String CALIBRATION = "calibration";
    private static final String CALIBRATION_ALONE = "calibrationAlone";
    private static final String CALIBRATION_UNFAMILIAR = "calibrationUnfamiliar";
    private static final String POOR_RULE = "poorRule";
    private static final String BURSTS_SCALE = "burstsScale";
    private static final String PER_DEVIATION = "perDeviation";
    private static final String FAMILIAR = "familiarSpectrum";
    private static final String HEARD_FROM = "heardFrom";
    private static final String UNSURE_FROM = "unsureFrom";
    private static final String POOR_FROM = "poorFrom";
    private static final ObjectMapper JSON = new ObjectMapper();

    private ModelFile() {}

    /**
     * Writes a model; a file that was there stays whole until the new one is complete.
     *
     * @throws BadInput if the file cannot be written
     */
    public static void write(SoundModel model, Path file) {
        try {
            // A file made for a moment only its owner may read; a model is to be read by whoever may read the folder.
            Path temporary = file.toAbsolutePath().resolveSibling(".model-" + UUID.randomUUID() + ".part");
            try {
                Files.write(temporary, bytes(model), StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
                Files.move(temporary, file, StandardCopyOption.REPLACE_EXISTING);
            } finally {
                Files.deleteIfExists(temporary);
            }
        } catch (IOException e) {
            throw BadInput.because(
                    e,
                    "%s: the model cannot be written there (%s); choose a folder that exists, that you may write to and that has room.",
                    file,
                    e.getMessage());
        }
    }

    /** The file's bytes: the same for the same model. */
    public static byte[] bytes(SoundModel model) {
        try {
            ByteArrayOutputStream out = new ByteArrayOutputStream();
            try (ZipOutputStream zip = new ZipOutputStream(out)) {
                zip.setLevel(Deflater.BEST_COMPRESSION);
                put(zip, MANIFEST, JSON.writerWithDefaultPrettyPrinter().writeValueAsBytes(manifest(model)));
                put(zip, SEGMENT, bytes(model.stages().segment()));
                put(zip, CONTEXT, bytes(model.stages().context()));
                put(zip, WINDOW, bytes(model.stages().window()));
                if (model.stages().bursts() != null) {
                    put(zip, BURSTS, bytes(model.stages().bursts().blend()));
                }
                if (model.stages().net() != null) {
                    put(zip, NET, bytes(model.stages().net().nets()));
                }
                put(zip, RECORDING, bytes(model.stages().recording()));
                put(zip, TAKES, bytes(model.stages().takes()));
                if (model.stages().events() != null) {
                    put(zip, EVENTS, bytes(model.stages().events()));
                }
            }
            return out.toByteArray();
        } catch (IOException e) {
            throw new IllegalStateException("writing to memory cannot fail", e);
        }
    }

    private static byte[] bytes(Blend blend) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        blend.write(new DataOutputStream(out));
        return out.toByteArray();
    }

    private static byte[] bytes(ChestNets net) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        net.write(new DataOutputStream(out));
        return out.toByteArray();
    }

    private static byte[] bytes(EventModel events) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        events.continuous().write(new DataOutputStream(out));
        events.discontinuous().write(new DataOutputStream(out));
        EventModel.Edges edges = events.edges();
        if (edges != null) {
            for (EdgeShifts shifts : List.of(edges.continuous(), edges.discontinuous())) {
                shifts.start().write(new DataOutputStream(out));
                shifts.end().write(new DataOutputStream(out));
            }
        }
        return out.toByteArray();
    }

    private static void put(ZipOutputStream zip, String name, byte[] content) throws IOException {
        ZipEntry entry = new ZipEntry(name);
        entry.setLastModifiedTime(FileTime.fromMillis(315_532_800_000L));
        zip.putNextEntry(entry);
        zip.write(content);
        zip.closeEntry();
    }

    private static ObjectNode manifest(SoundModel model) {
        ObjectNode root = JSON.createObjectNode();
        root.put("format", FORMAT);
        root.put("features", FeatureCatalogue.digestOfAll());
        root.put("segmentFeatures", FeatureCatalogue.segment().size());
        root.put("recordingFeatures", FeatureCatalogue.recording().size());
        for (SegmentClass c : SegmentClass.values()) {
            root.withArray("/segmentClasses").add(c.id());
        }
        for (RecordingClass c : RecordingClass.values()) {
            root.withArray("/recordingClasses").add(c.id());
        }
        Thresholds t = model.thresholds();
        ObjectNode thresholds = root.putObject("thresholds");
        thresholds.put("eventNormal", t.eventNormal());
        thresholds.put("eventClassNormal", t.eventClassNormal());
        thresholds.put("recordingNormal", t.recordingNormal());
        thresholds.put("recordingClassNormal", t.recordingClassNormal());
        thresholds.put("poorQuality", t.poorQuality());
        thresholds.put(HEARD_FROM, model.limits().heardFrom());
        thresholds.put(UNSURE_FROM, model.limits().unsureFrom());
        thresholds.put(POOR_FROM, model.limits().poorFrom());
        putScales(root.putObject(CALIBRATION), model.calibrations());
        putScales(root.putObject(CALIBRATION_ALONE), model.calibrationsAlone());
        UnfamiliarScale unfamiliar = model.unfamiliarScale();
        if (unfamiliar != null) {
            ObjectNode scales = root.putObject(CALIBRATION_UNFAMILIAR);
            putScale(scales, CONTINUOUS, unfamiliar.continuous());
            putScale(scales, DISCONTINUOUS, unfamiliar.discontinuous());
        }
        if (model.poorRule() != null) {
            root.set(POOR_RULE, PoorRuleJson.of(model.poorRule()));
        }
        if (model.stages().bursts() != null) {
            BurstsScale scale = model.stages().bursts().scale();
            root.putObject(BURSTS_SCALE)
                    .put("slope", scale.slope())
                    .put(PER_DEVIATION, scale.perDeviation())
                    .put("offset", scale.offset());
        }
        if (model.stages().net() != null) {
            root.put(IMAGE, ChestNet.IMAGE);
            putShare(root.putObject(NET_SHARE), model.stages().net().share());
        }
        if (SoundModel.seesFacts(model.stages().context())) {
            root.put(SEGMENT_FACTS, String.join(" ", SegmentFacts.NAMES));
        }
        if (model.stages().events() != null) {
            EventModel events = model.stages().events();
            ObjectNode limits = root.putObject(EVENT_LIMITS)
                    .put(EVENT_FACTS, String.join(" ", EventModel.names(events.edges() != null)));
            putLimit(limits, CONTINUOUS_FROM, CONTINUOUS_SHARE, events.continuousLimit());
            putLimit(limits, DISCONTINUOUS_FROM, DISCONTINUOUS_SHARE, events.discontinuousLimit());
        }
        if (model.familiarSpectrum() != null) {
            putFamiliar(root.putObject(FAMILIAR), model.familiarSpectrum());
        }
        ObjectNode facts = root.putObject("facts");
        new TreeMap<>(model.facts()).forEach(facts::put);
        return root;
    }

    private static void putFamiliar(ObjectNode node, FamiliarSpectrum familiar) {
        node.put("limit", familiar.limit());
        Arrays.stream(familiar.mean()).forEach(node.putArray("mean")::add);
        ArrayNode precision = node.putArray("precision");
        Arrays.stream(familiar.precision()).flatMapToDouble(Arrays::stream).forEach(precision::add);
    }

    /** Files of models that were trained before it was known hold none: then no recording is familiar. */
    private static @Nullable FamiliarSpectrum familiar(JsonNode node) {
        if (node.isMissingNode()) {
            return null;
        }
        double[] precision = numbers(node.path("precision"), FamiliarSpectrum.BANDS * FamiliarSpectrum.BANDS);
        double[][] rows = new double[FamiliarSpectrum.BANDS][];
        for (int i = 0; i < rows.length; i++) {
            rows[i] = Arrays.copyOfRange(precision, i * FamiliarSpectrum.BANDS, (i + 1) * FamiliarSpectrum.BANDS);
        }
        return new FamiliarSpectrum(
                numbers(node.path("mean"), FamiliarSpectrum.BANDS),
                rows,
                node.path("limit").asDouble(Double.NaN));
    }

    private static double[] numbers(JsonNode array, int count) {
        if (!array.isArray() || array.size() != count) {
            throw Numbers.damaged("it holds %d numbers where there should be %d", array.size(), count);
        }
        double[] numbers = new double[count];
        for (int i = 0; i < count; i++) {
            numbers[i] = array.get(i).asDouble(Double.NaN);
        }
        return numbers;
    }

    private static void putScales(ObjectNode parent, SoundModel.Calibrations calibrations) {
        putScale(parent, CONTINUOUS, calibrations.continuous());
        putScale(parent, DISCONTINUOUS, calibrations.discontinuous());
        putScale(parent, "poorQuality", calibrations.poorQuality());
    }

    private static void putScale(ObjectNode parent, String name, PlattScale scale) {
        parent.putObject(name).put("slope", scale.slope()).put("offset", scale.offset());
    }

    /**
     * Reads a model file.
     *
     * @throws BadInput if it is not there, is no model file, is damaged, or was made for another feature catalogue
     */
    public static SoundModel read(Path file) {
        return read(content(file), file.toString());
    }

    /**
     * The bytes of a file that may hold a model.
     *
     * @throws BadInput if it is not there, cannot be read or is too large for one
     */
    public static byte[] content(Path file) {
        // A device tells no size, so no more is read than a model can have.
        try (InputStream in = Files.newInputStream(file)) {
            byte[] content = in.readNBytes(MAX_BYTES + 1);
            if (content.length > MAX_BYTES) {
                throw BadInput.of("%s: it is no model file; those have at most %d bytes.", file, MAX_BYTES);
            }
            return content;
        } catch (NoSuchFileException e) {
            throw BadInput.because(e, "%s: there is no such model file; name one that is there.", file);
        } catch (IOException e) {
            throw BadInput.because(e, "%s: it cannot be read (%s).", file, e.getMessage());
        }
    }

    /**
     * Reads a model from memory.
     *
     * @param name for messages
     * @throws BadInput as {@link #read(Path)}
     */
    public static SoundModel read(byte[] content, String name) {
        try {
            Map<String, byte[]> parts = unzip(content);
            JsonNode manifest = manifest(part(parts, MANIFEST));
            return new SoundModel(
                    stages(parts, manifest),
                    calibrations(manifest, CALIBRATION),
                    calibrations(manifest, manifest.has(CALIBRATION_ALONE) ? CALIBRATION_ALONE : CALIBRATION),
                    unfamiliarScale(manifest.path(CALIBRATION_UNFAMILIAR)),
                    limits(manifest.path("thresholds")),
                    manifest.has(POOR_RULE) ? PoorRuleJson.read(manifest.path(POOR_RULE)) : null,
                    thresholds(manifest),
                    familiar(manifest.path(FAMILIAR)),
                    facts(manifest));
        } catch (BadInput e) {
            throw new BadInput(name + ": " + e.getMessage(), e);
        } catch (IOException | IllegalArgumentException | IndexOutOfBoundsException | NegativeArraySizeException e) {
            throw new BadInput(name + ": it is not a whole model file; fetch or train it again.", e);
        }
    }

    private static SoundModel.Stages stages(Map<String, byte[]> parts, JsonNode manifest) throws IOException {
        int segment = FeatureCatalogue.segment().size();
        int recording = PoolFeatures.size(FeatureCatalogue.recording().size(), parts.containsKey(NET));
        return new SoundModel.Stages(
                blend(part(parts, SEGMENT), segment, SegmentClass.COUNT),
                context(parts, manifest),
                blend(part(parts, WINDOW), segment, RecordingClass.COUNT),
                parts.containsKey(BURSTS)
                        ? new SoundModel.BurstsModel(
                                blend(part(parts, BURSTS), segment, 2), burstsScale(manifest.path(BURSTS_SCALE)))
                        : null,
                parts.containsKey(NET) ? net(part(parts, NET), manifest) : null,
                blend(part(parts, RECORDING), recording, RecordingClass.COUNT),
                parts.containsKey(EVENTS) || manifest.has(EVENT_LIMITS)
                        ? events(parts, manifest.path(EVENT_LIMITS))
                        : null,
                blend(part(parts, TAKES), TakesFeatures.SIZE, RecordingClass.COUNT));
    }

    private static Blend context(Map<String, byte[]> parts, JsonNode manifest) throws IOException {
        boolean facts = manifest.has(SEGMENT_FACTS);
        if (facts && !parts.containsKey(NET)) {
            throw Numbers.damaged("it judges segments by a net and has none");
        }
        if (facts && !manifest.path(SEGMENT_FACTS).asText("").equals(String.join(" ", SegmentFacts.NAMES))) {
            throw new BadInput(
                    "It judges segments by other facts than this version measures; take one that was made for this version, or train it again.");
        }
        return blend(part(parts, CONTEXT), ContextFeatures.size(facts), SegmentClass.COUNT);
    }

    private static EventModel events(Map<String, byte[]> parts, JsonNode limits) throws IOException {
        if (!parts.containsKey(NET)) {
            throw Numbers.damaged("it finds single sounds by a net and has none");
        }
        String facts = limits.path(EVENT_FACTS).asText("");
        boolean edges = facts.equals(String.join(" ", EventModel.names(true)));
        if (!edges && !facts.equals(String.join(" ", EventModel.names(false)))) {
            throw new BadInput(
                    "It tells single sounds by other facts than this version measures; take one that was made for this version, or train it again.");
        }
        int inputs = EventModel.names(edges).size();
        return whole(part(parts, EVENTS), in -> {
            Blend continuous = Blend.read(in, inputs, 2);
            Blend discontinuous = Blend.read(in, inputs, 2);
            return new EventModel(
                    continuous,
                    discontinuous,
                    limit(limits, CONTINUOUS_FROM, CONTINUOUS_SHARE),
                    limit(limits, DISCONTINUOUS_FROM, DISCONTINUOUS_SHARE),
                    edges ? new EventModel.Edges(shifts(in, inputs), shifts(in, inputs)) : null);
        });
    }

    /** Files have no share where the probability alone counts. */
    private static EventLimit limit(JsonNode limits, String from, String ofMostProbable) {
        double probability = share(limits, from);
        return limits.has(ofMostProbable)
                ? new EventLimit(probability, share(limits, ofMostProbable))
                : EventLimit.from(probability);
    }

    private static void putLimit(ObjectNode node, String from, String ofMostProbable, EventLimit limit) {
        node.put(from, limit.from());
        if (limit.ofMostProbable() < Double.POSITIVE_INFINITY) {
            node.put(ofMostProbable, limit.ofMostProbable());
        }
    }

    private static EdgeShifts shifts(DataInputStream in, int inputs) throws IOException {
        return new EdgeShifts(BoostedTrees.read(in, inputs), BoostedTrees.read(in, inputs));
    }

    private static SoundModel.NetModel net(byte[] bytes, JsonNode manifest) throws IOException {
        if (!manifest.path(IMAGE).asText("").equals(ChestNet.IMAGE)) {
            throw new BadInput(
                    "Its net learnt from other images than this version makes; take one that was made for this version, or train it again.");
        }
        JsonNode share = manifest.path(NET_SHARE);
        return new SoundModel.NetModel(
                whole(bytes, ChestNets::read),
                new NetShare(
                        share.path("slope").asDouble(Double.NaN),
                        numbers(share.path("shares"), ChestNet.OUTPUTS),
                        numbers(share.path("offsets"), ChestNet.OUTPUTS)));
    }

    private static void putShare(ObjectNode node, NetShare share) {
        node.put("slope", share.slope());
        Arrays.stream(share.shares()).forEach(node.putArray("shares")::add);
        Arrays.stream(share.offsets()).forEach(node.putArray("offsets")::add);
    }

    private static Map<String, byte[]> unzip(byte[] content) throws IOException {
        requireEnd(content);
        Map<String, byte[]> parts = new HashMap<>();
        try (ZipInputStream zip = new ZipInputStream(new ByteArrayInputStream(content))) {
            for (ZipEntry entry = zip.getNextEntry(); entry != null; entry = zip.getNextEntry()) {
                byte[] part = zip.readNBytes(MAX_ENTRY_BYTES);
                if (parts.size() >= MAX_ENTRIES || part.length == MAX_ENTRY_BYTES) {
                    throw new BadInput("It is too large inside for a model file; fetch or train it again.");
                }
                parts.put(entry.getName(), part);
            }
        }
        return parts;
    }

    /** A zip ends in a record of {@value #END_BYTES} bytes with a signature of its own; a file that was cut does not. */
    private static void requireEnd(byte[] content) {
        int at = content.length - END_BYTES;
        boolean whole =
                at >= 0 && content[at] == 'P' && content[at + 1] == 'K' && content[at + 2] == 5 && content[at + 3] == 6;
        if (!whole) {
            throw new BadInput("It is not a whole model file; fetch or train it again.");
        }
    }

    private static byte[] part(Map<String, byte[]> parts, String name) {
        byte[] part = parts.get(name);
        if (part == null) {
            throw BadInput.of("It is not a whole model file: %s is missing; fetch or train it again.", name);
        }
        return part;
    }

    private static JsonNode manifest(byte[] bytes) throws IOException {
        JsonNode manifest;
        try {
            manifest = JSON.readTree(bytes);
        } catch (JsonProcessingException e) {
            throw new BadInput("Its manifest is not JSON; fetch or train it again.", e);
        }
        if (manifest == null || manifest.path("format").asInt(-1) != FORMAT) {
            throw BadInput.of(
                    "It has model format %s, this version reads format %d; train it again.",
                    manifest == null ? "none" : manifest.path("format").asText("none"), FORMAT);
        }
        String digest = manifest.path("features").asText("");
        if (!digest.equals(FeatureCatalogue.digestOfAll())) {
            throw BadInput.of(
                    "It was made for another feature catalogue (%s) than this version's (%s); take one that was made for this version, or train it again.",
                    shortened(digest), shortened(FeatureCatalogue.digestOfAll()));
        }
        return manifest;
    }

    private static String shortened(String digest) {
        return digest.isEmpty() ? "none named" : digest.substring(0, Math.min(12, digest.length()));
    }

    private static Blend blend(byte[] bytes, int inputs, int classes) throws IOException {
        return whole(bytes, in -> Blend.read(in, inputs, classes));
    }

    /** Reads one stage from its bytes. */
    private interface StageReader<T> {
        T read(DataInputStream in) throws IOException;
    }

    private static <T> T whole(byte[] bytes, StageReader<T> reader) throws IOException {
        InputStream in = new ByteArrayInputStream(bytes);
        try {
            T stage = reader.read(new DataInputStream(in));
            if (in.read() >= 0) {
                throw Numbers.damaged("a stage is longer than it should be");
            }
            return stage;
        } catch (EOFException e) {
            throw new BadInput("The model file is damaged: a stage is cut short; fetch or train it again.", e);
        }
    }

    private static Thresholds thresholds(JsonNode manifest) {
        JsonNode t = manifest.path("thresholds");
        return new Thresholds(
                share(t, "eventNormal"),
                share(t, "eventClassNormal"),
                share(t, "recordingNormal"),
                share(t, "recordingClassNormal"),
                share(t, "poorQuality"));
    }

    private static double share(JsonNode node, String name) {
        double value = node.path(name).asDouble(Double.NaN);
        if (!(value >= 0 && value <= 1)) {
            throw Numbers.damaged("its threshold %s is not between 0 and 1", name);
        }
        return value;
    }

    /** Files of models that were trained before limits were chosen with them hold none. */
    private static Limits limits(JsonNode t) {
        if (!t.has(HEARD_FROM) && !t.has(UNSURE_FROM) && !t.has(POOR_FROM)) {
            return Limits.USUAL;
        }
        double heardFrom = share(t, HEARD_FROM);
        double unsureFrom = share(t, UNSURE_FROM);
        if (unsureFrom > heardFrom) {
            throw Numbers.damaged("its threshold %s is above %s", UNSURE_FROM, HEARD_FROM);
        }
        return new Limits(heardFrom, unsureFrom, share(t, POOR_FROM));
    }

    private static SoundModel.Calibrations calibrations(JsonNode manifest, String name) {
        JsonNode c = manifest.path(name);
        return new SoundModel.Calibrations(
                scale(c.path(CONTINUOUS)), scale(c.path(DISCONTINUOUS)), scale(c.path("poorQuality")));
    }

    /** Files of models that were trained before windows had a say of their own hold none. */
    private static @Nullable UnfamiliarScale unfamiliarScale(JsonNode node) {
        return node.isMissingNode()
                ? null
                : new UnfamiliarScale(scale(node.path(CONTINUOUS)), scale(node.path(DISCONTINUOUS)));
    }

    /** Files of models that were trained before the breaths' agreement counted hold none. */
    private static BurstsScale burstsScale(JsonNode node) {
        if (node.isMissingNode()) {
            return BurstsScale.NONE;
        }
        return new BurstsScale(
                node.path("slope").asDouble(Double.NaN),
                node.path(PER_DEVIATION).asDouble(Double.NaN),
                node.path("offset").asDouble(Double.NaN));
    }

    private static PlattScale scale(JsonNode node) {
        double slope = node.path("slope").asDouble(Double.NaN);
        double offset = node.path("offset").asDouble(Double.NaN);
        if (!Double.isFinite(slope) || !Double.isFinite(offset)) {
            throw Numbers.damaged("its calibration is not a number");
        }
        return new PlattScale(slope, offset);
    }

    private static Map<String, String> facts(JsonNode manifest) {
        Map<String, String> facts = new TreeMap<>();
        manifest.path("facts")
                .fields()
                .forEachRemaining(e -> facts.put(e.getKey(), e.getValue().asText()));
        return facts;
    }
}
