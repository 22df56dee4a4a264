package lungwort.cli;

import java.util.ArrayList;
import java.util.List;
import lungwort.diary.Settings.TemperatureUnit;
import lungwort.guidance.Age;
import lungwort.guidance.Consciousness;
import lungwort.guidance.RateSource;
import lungwort.guidance.Symptoms;
import lungwort.guidance.Vitals;
import org.jspecify.annotations.Nullable;

/** Vitals and symptoms in one line each. */
final class VitalsText {
    private VitalsText() {}

    /** What was measured, temperatures in the unit that the user set; says so where nothing was. */
    static String line(Vitals v, TemperatureUnit unit) {
        List<String> parts = new ArrayList<>();
        add(parts, "SpO2 %s %%", v.spo2Percent());
        if (v.onOxygen() != null) {
            parts.add(v.onOxygen() ? v.howMeasured() : "on room air");
        }
        String how = v.rateSource() == RateSource.HEARD ? "heard, not counted" : "counted";
        add(
                parts,
                "breathing rate %s a minute (" + how + (asleep(v) ? ", asleep" : "") + ")",
                v.respiratoryRatePerMinute());
        add(parts, "pulse %s", v.pulsePerMinute());
        add(parts, "%s", temperature(v.temperatureCelsius(), unit));
        add(parts, "systolic %s mmHg", v.systolicMmHg());
        Consciousness level = v.consciousness();
        add(parts, "%s", level == null ? null : level.words());
        add(parts, "peak flow %s l/min", v.peakFlowLitresPerMinute());
        add(parts, "weight %s kg", v.weightKg());
        return parts.isEmpty() ? "none measured" : String.join(", ", parts);
    }

    private static @Nullable String temperature(@Nullable Double celsius, TemperatureUnit unit) {
        if (celsius == null) {
            return null;
        }
        return unit == TemperatureUnit.FAHRENHEIT ? "%.1f °F".formatted(celsius * 1.8 + 32) : celsius + " °C";
    }

    private static boolean asleep(Vitals v) {
        return v.asleep() != null && v.asleep();
    }

    /** What was asked; says so where nothing was. */
    static String line(Symptoms s, Age age) {
        List<String> parts = new ArrayList<>();
        if (s.breathlessness() != null) {
            parts.add(s.breathlessness().words(age));
        }
        addTruth(parts, "chest pain", s.chestPain());
        addTruth(parts, "fever", s.fever());
        addTruth(parts, "signs of a chest infection", s.chestInfection());
        return parts.isEmpty() ? "none asked" : String.join(", ", parts);
    }

    private static void add(List<String> parts, String format, @Nullable Object value) {
        if (value != null) {
            parts.add(format.formatted(value));
        }
    }

    private static void addTruth(List<String> parts, String what, @Nullable Boolean there) {
        if (there != null) {
            parts.add((there ? "" : "no ") + what);
        }
    }
}
