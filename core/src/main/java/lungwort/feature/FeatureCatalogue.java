package lungwort.feature;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HashMap;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import lungwort.audio.Recording;
import lungwort.breath.Breathing;
import lungwort.signal.ChestViews;
import lungwort.sound.SoundSearch;

/** The features in their order, with a digest that changes when any of them does. A model is only read for the catalogue it was trained on. */
public final class FeatureCatalogue {
    /** Raised by hand when a value changes although its name, unit and formula stay. */
    static final int REVISION = 1;

    /** Length of the sound described, in seconds: long enough for every group to have something to measure. */
    private static final double SAMPLE_SECONDS = 2;

    private static final FeatureCatalogue SEGMENT = describe(false);
    private static final FeatureCatalogue RECORDING = describe(true);

    private final List<FeatureDefinition> features;
    private final Map<String, Integer> index = new HashMap<>();
    private final String digest;

    FeatureCatalogue(List<FeatureDefinition> features) {
        this.features = List.copyOf(features);
        for (int i = 0; i < this.features.size(); i++) {
            if (index.put(this.features.get(i).name(), i) != null) {
                throw new IllegalStateException(
                        "two features are called " + this.features.get(i).name());
            }
        }
        this.digest = digest(this.features);
    }

    /** Features of a time span of a recording. */
    public static FeatureCatalogue segment() {
        return SEGMENT;
    }

    /** Features of a whole recording. */
    public static FeatureCatalogue recording() {
        return RECORDING;
    }

    /** Digest over both catalogues, as 64 hex digits: what a model is bound to. */
    public static String digestOfAll() {
        return sha256(SEGMENT.digest + RECORDING.digest);
    }

    private static FeatureCatalogue describe(boolean whole) {
        double[] x = new double[(int) (SAMPLE_SECONDS * FeatureFrames.RATE_HZ)];
        for (int i = 0; i < x.length; i++) {
            x[i] = Math.sin(i * 0.3);
        }
        FeatureWriter writer = FeatureWriter.describing();
        Recording sample = new Recording(x, FeatureFrames.RATE_HZ, "sample");
        FeatureFrames frames = new FeatureFrames(SoundSearch.in(ChestViews.of(sample)), Breathing.NONE);
        if (whole) {
            RecordingFeatures.write(frames, writer);
        } else {
            SegmentFeatures.write(frames, 0, SAMPLE_SECONDS, writer);
        }
        return new FeatureCatalogue(writer.definitions());
    }

    private static String digest(List<FeatureDefinition> features) {
        StringBuilder text = new StringBuilder("revision " + REVISION + '\n');
        features.forEach(f -> text.append(f.name())
                .append('\t')
                .append(f.unit())
                .append('\t')
                .append(f.formula())
                .append('\n'));
        return sha256(text.toString());
    }

    private static String sha256(String text) {
        try {
            byte[] digest = MessageDigest.getInstance("SHA-256").digest(text.getBytes(StandardCharsets.UTF_8));
            return HexFormat.of().formatHex(digest);
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java platform must have SHA-256", e);
        }
    }

    /** In the order of the vectors. */
    public List<FeatureDefinition> features() {
        return features;
    }

    /** Number of features. */
    public int size() {
        return features.size();
    }

    /** Place of a feature in the vectors; -1 if there is none of that name. */
    public int indexOf(String name) {
        return index.getOrDefault(name, -1);
    }

    /** SHA-256 over names, units, formulas and revision, as 64 hex digits. */
    public String digest() {
        return digest;
    }
}
