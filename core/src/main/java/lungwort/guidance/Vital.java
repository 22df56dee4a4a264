package lungwort.guidance;

import lungwort.BadInput;
import org.jspecify.annotations.Nullable;

/** A measured value that has limits, with its name for people, its unit and the range a reading can have at all. */
public enum Vital {
    SPO2("spo2", "SpO2", "%", 30, 100),
    /** Of extra oxygen, as set. Concentrators at home give 0.5 to 6, cylinders up to 15, and babies have thousandths: common practice. */
    OXYGEN_FLOW("oxygen-flow", "oxygen flow", "litres a minute", 0.01, 15),
    RESPIRATORY_RATE("respiratory-rate", "breathing rate", "breaths a minute", 0, 150),
    PULSE("pulse", "pulse", "beats a minute", 20, 300),
    TEMPERATURE("temperature", "temperature", "°C", 25, 45),
    SYSTOLIC("systolic", "systolic (upper) blood pressure", "mmHg", 40, 300),
    PEAK_FLOW("peak-flow", "peak flow", "litres a minute", 20, 900),
    /** Peak flow as a share of the person's best; worked out, never entered. */
    PEAK_FLOW_SHARE("peak-flow-share", "peak flow", "% of this person's best", 0, 500),
    WEIGHT("weight", "weight", "kg", 1, 350),
    /** Weight above the lowest of the last days; worked out, never entered ({@link Weighing}). */
    WEIGHT_RISE("weight-rise", "rise of weight within 3 days", "kg", -10, 10);

    private final String id;
    private final String words;
    private final String unit;
    private final double lowest;
    private final double highest;

    Vital(String id, String words, String unit, double lowest, double highest) {
        this.id = id;
        this.words = words;
        this.unit = unit;
        this.lowest = lowest;
        this.highest = highest;
    }

    /** Name in files and on the command line, for example {@code respiratory-rate}. */
    public String id() {
        return id;
    }

    /** Name for people. */
    public String words() {
        return words;
    }

    /** Unit for people. */
    public String unit() {
        return unit;
    }

    /** True if it is measured and written down; false if it is worked out from what was. */
    public boolean entered() {
        return this != PEAK_FLOW_SHARE && this != WEIGHT_RISE;
    }

    /** Lowest reading that is accepted. */
    public double lowest() {
        return lowest;
    }

    /** Highest reading that is accepted. */
    public double highest() {
        return highest;
    }

    /** @throws BadInput if a value is given and lies outside the range */
    void check(@Nullable Number value) {
        if (value != null && !(value.doubleValue() >= lowest && value.doubleValue() <= highest)) {
            throw BadInput.of(
                    "%s: %s is outside %s to %s %s; %s, or leave it out.",
                    words,
                    number(value.doubleValue()),
                    number(lowest),
                    number(highest),
                    unit,
                    this == OXYGEN_FLOW
                            ? "look again at what is set, say that no extra oxygen was on where none was"
                            : "measure again");
        }
    }

    /** A value without needless decimals: {@code 38.4}, {@code 92}. */
    public static String number(double value) {
        return value == Math.rint(value) ? Long.toString((long) value) : Double.toString(value);
    }
}
