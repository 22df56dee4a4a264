package lungwort.compare;

import java.util.Arrays;
import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;

/** What is compared between two takes, with its unit and what it needs to be comparable. */
public enum Measure {
    LEVEL_100_200("level-100-200", "level 100 to 200 Hz", "dB", 1, Needs.SAME_GAIN),
    LEVEL_200_400("level-200-400", "level 200 to 400 Hz", "dB", 1, Needs.SAME_GAIN),
    LEVEL_400_800("level-400-800", "level 400 to 800 Hz", "dB", 1, Needs.SAME_GAIN),
    LEVEL_800_1600("level-800-1600", "level 800 to 1600 Hz", "dB", 1, Needs.SAME_GAIN),
    /** Level 400 to 800 Hz less level 100 to 200 Hz: a gain cancels, a device's colour does not. */
    TILT("tilt", "high against low (400 to 800 Hz less 100 to 200 Hz)", "dB", 1, Needs.SAME_DEVICE),
    /** 90th less 10th percentile over time of the level 200 to 800 Hz. */
    CONTRAST("contrast", "how far breaths stand over what lies between them", "dB", 1, Needs.SAME_DEVICE),
    RATE("rate", "breathing rate heard", "a minute", 1, Needs.NOTHING),
    INSPIRATION_SHARE("inspiration-share", "share of the breath that is breathing in", "%", 0, Needs.NOTHING),
    EXPIRATION_LEVEL("expiration-level", "breathing out against breathing in, 200 to 800 Hz", "dB", 1, Needs.NOTHING),
    WHEEZE_SHARE("wheeze-share", "share of the breathing filled by continuous sounds", "%", 1, Needs.NOTHING),
    DOMINANT_HZ("dominant-frequency", "dominant frequency of the continuous sounds", "Hz", 0, Needs.NOTHING),
    CRACKLES_PER_BREATH("crackles-per-breath", "crackles in each breath", "", 1, Needs.SAME_BAND),
    CONTINUOUS_PROBABILITY("continuous-probability", "probability of a continuous sound", "%", 0, Needs.SAME_BAND),
    DISCONTINUOUS_PROBABILITY("discontinuous-probability", "probability of crackles", "%", 0, Needs.SAME_BAND);

    /** What must be the same in both takes. */
    public enum Needs {
        /** Comparable between any two devices. */
        NOTHING,
        /** Both takes must reach as high in frequency. */
        SAME_BAND,
        /** Same device: its frequency response is part of the number. */
        SAME_DEVICE,
        /** Same device at the same gain. */
        SAME_GAIN
    }

    private final String id;
    private final String words;
    private final String unit;
    private final int decimals;
    private final Needs needs;

    Measure(String id, String words, String unit, int decimals, Needs needs) {
        this.id = id;
        this.words = words;
        this.unit = unit;
        this.decimals = decimals;
        this.needs = needs;
    }

    /** Name in files. */
    public String id() {
        return id;
    }

    /** In plain words. */
    public String words() {
        return words;
    }

    /** Unit for people; empty for a plain number. */
    public String unit() {
        return unit;
    }

    /** How many decimals tell something. */
    public int decimals() {
        return decimals;
    }

    /** What must be the same in both takes. */
    public Needs needs() {
        return needs;
    }

    /** A value with its unit, for example {@code 12.5 dB}. */
    public String format(double value) {
        String number = ("%." + decimals + "f").formatted(value);
        return unit.isEmpty() ? number : number + " " + unit;
    }

    /** A difference with its sign and unit. */
    public String formatDifference(double value) {
        String number = ("%+." + decimals + "f").formatted(value);
        return unit.isEmpty() ? number : number + " " + unit;
    }

    /** @throws IllegalArgumentException if no measure has that id */
    public static Measure ofId(String id) {
        return Arrays.stream(values())
                .filter(m -> m.id.equals(id))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("no measure is called " + id));
    }

    /** An unmodifiable copy in the order of the measures; it may be empty. */
    static <T> Map<Measure, T> copy(Map<Measure, T> map) {
        Map<Measure, T> copy = new EnumMap<>(Measure.class);
        copy.putAll(map);
        return Collections.unmodifiableMap(copy);
    }
}
