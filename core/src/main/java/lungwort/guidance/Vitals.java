package lungwort.guidance;

import java.util.Objects;
import java.util.function.Consumer;
import lungwort.BadInput;
import org.jspecify.annotations.Nullable;

/**
 * What was measured. Every part may be null: not measured, which is never taken as normal. Ranges are those of {@link Vital}; a value outside is refused with a sentence.
 *
 * @param spo2Percent oxygen saturation by pulse oximeter, in %
 * @param onOxygen true while the person breathes extra oxygen, false on room air
 * @param respiratoryRatePerMinute breaths a minute, counted over a full calm minute or heard
 * @param rateSource where the rate comes from; null is read as counted
 * @param asleep true if the rate was taken asleep (slower than awake)
 * @param pulsePerMinute heart beats a minute
 * @param temperatureCelsius body temperature, in °C
 * @param systolicMmHg upper blood pressure, in mmHg
 * @param consciousness how awake and clear
 * @param peakFlowLitresPerMinute best of three blows, in litres a minute
 * @param weightKg body weight, in kg, kept to one decimal: what scales at home show
 * @param oxygenLitresPerMinute flow of the extra oxygen, in litres a minute as set at its source, kept to three decimals: meters for babies have marks as fine as an eighth of a litre, 0.125; only where {@code onOxygen} is true
 */
public record Vitals(
        @Nullable Integer spo2Percent,
        @Nullable Boolean onOxygen,
        @Nullable Integer respiratoryRatePerMinute,
        @Nullable RateSource rateSource,
        @Nullable Boolean asleep,
        @Nullable Integer pulsePerMinute,
        @Nullable Double temperatureCelsius,
        @Nullable Integer systolicMmHg,
        @Nullable Consciousness consciousness,
        @Nullable Integer peakFlowLitresPerMinute,
        @Nullable Double weightKg,
        @Nullable Double oxygenLitresPerMinute) {
    /** Nothing was measured. */
    public static final Vitals NONE =
            new Vitals(null, null, null, null, null, null, null, null, null, null, null, null);

    /** @throws BadInput if a value lies outside its range, or a flow of oxygen is given and not that there was any */
    public Vitals {
        Vital.SPO2.check(spo2Percent);
        Vital.RESPIRATORY_RATE.check(respiratoryRatePerMinute);
        Vital.PULSE.check(pulsePerMinute);
        Vital.TEMPERATURE.check(temperatureCelsius);
        Vital.SYSTOLIC.check(systolicMmHg);
        Vital.PEAK_FLOW.check(peakFlowLitresPerMinute);
        Vital.WEIGHT.check(weightKg);
        weightKg = weightKg == null ? null : (Double) (Math.rint(10 * weightKg) / 10);
        Vital.OXYGEN_FLOW.check(oxygenLitresPerMinute);
        if (oxygenLitresPerMinute != null && !Objects.equals(onOxygen, true)) {
            throw BadInput.of(
                    "oxygen flow: %s %s is given, %s; say that extra oxygen was on, or leave the flow out.",
                    Vital.number(oxygenLitresPerMinute),
                    Vital.OXYGEN_FLOW.unit(),
                    onOxygen == null ? "but not whether extra oxygen was on" : "and that no extra oxygen was on");
        }
        oxygenLitresPerMinute =
                oxygenLitresPerMinute == null ? null : (Double) (Math.round(1000 * oxygenLitresPerMinute) / 1000.0);
    }

    /** The measured value in the unit of the vital sign, or null where it was not measured or is worked out elsewhere. */
    public @Nullable Double value(Vital vital) {
        return switch (vital) {
            case SPO2 -> number(spo2Percent);
            case RESPIRATORY_RATE -> number(respiratoryRatePerMinute);
            case PULSE -> number(pulsePerMinute);
            case TEMPERATURE -> temperatureCelsius;
            case SYSTOLIC -> number(systolicMmHg);
            case PEAK_FLOW -> number(peakFlowLitresPerMinute);
            case WEIGHT -> weightKg;
            case OXYGEN_FLOW -> oxygenLitresPerMinute;
            case PEAK_FLOW_SHARE, WEIGHT_RISE -> null;
        };
    }

    private static @Nullable Double number(@Nullable Integer value) {
        return value == null ? null : Double.valueOf(value);
    }

    /** How the SpO2 was measured, as words behind its number: "in air", "on oxygen", "on 2 l/min of oxygen"; empty where nobody said. */
    public String howMeasured() {
        return oxygenLitresPerMinute == null
                ? howMeasured(onOxygen)
                : "on %s l/min of oxygen".formatted(Vital.number(oxygenLitresPerMinute));
    }

    /** The same of an answer alone, at whatever flow. */
    public static String howMeasured(@Nullable Boolean onOxygen) {
        return onOxygen == null ? "" : onOxygen ? "on oxygen" : "in air";
    }

    public Vitals withSpo2(@Nullable Integer percent) {
        return changed(v -> v.spo2Percent = percent);
    }

    /** Without oxygen there is no flow of it: one that was known goes. */
    public Vitals withOnOxygen(@Nullable Boolean oxygen) {
        return changed(v -> {
            v.onOxygen = oxygen;
            v.oxygenLitresPerMinute = Objects.equals(oxygen, true) ? oxygenLitresPerMinute : null;
        });
    }

    /** A counted rate. */
    public Vitals withRespiratoryRate(@Nullable Integer perMinute) {
        return withRespiratoryRate(perMinute, perMinute == null ? null : RateSource.COUNTED);
    }

    public Vitals withRespiratoryRate(@Nullable Integer perMinute, @Nullable RateSource from) {
        return changed(v -> {
            v.respiratoryRatePerMinute = perMinute;
            v.rateSource = from;
        });
    }

    public Vitals withAsleep(@Nullable Boolean sleeping) {
        return changed(v -> v.asleep = sleeping);
    }

    public Vitals withPulse(@Nullable Integer perMinute) {
        return changed(v -> v.pulsePerMinute = perMinute);
    }

    public Vitals withTemperature(@Nullable Double celsius) {
        return changed(v -> v.temperatureCelsius = celsius);
    }

    public Vitals withSystolic(@Nullable Integer mmHg) {
        return changed(v -> v.systolicMmHg = mmHg);
    }

    public Vitals withConsciousness(@Nullable Consciousness level) {
        return changed(v -> v.consciousness = level);
    }

    public Vitals withPeakFlow(@Nullable Integer litresPerMinute) {
        return changed(v -> v.peakFlowLitresPerMinute = litresPerMinute);
    }

    public Vitals withWeight(@Nullable Double kg) {
        return changed(v -> v.weightKg = kg);
    }

    /** @throws BadInput if it is out of range, or nobody said that there was oxygen */
    public Vitals withOxygenFlow(@Nullable Double litresPerMinute) {
        return changed(v -> v.oxygenLitresPerMinute = litresPerMinute);
    }

    private Vitals changed(Consumer<Draft> change) {
        Draft draft = new Draft(this);
        change.accept(draft);
        return draft.vitals();
    }

    /** All of them, to be changed one at a time: a record has no way to change one. */
    private static final class Draft {
        private @Nullable Integer spo2Percent;
        private @Nullable Boolean onOxygen;
        private @Nullable Integer respiratoryRatePerMinute;
        private @Nullable RateSource rateSource;
        private @Nullable Boolean asleep;
        private @Nullable Integer pulsePerMinute;
        private @Nullable Double temperatureCelsius;
        private @Nullable Integer systolicMmHg;
        private @Nullable Consciousness consciousness;
        private @Nullable Integer peakFlowLitresPerMinute;
        private @Nullable Double weightKg;
        private @Nullable Double oxygenLitresPerMinute;

        Draft(Vitals v) {
            spo2Percent = v.spo2Percent;
            onOxygen = v.onOxygen;
            respiratoryRatePerMinute = v.respiratoryRatePerMinute;
            rateSource = v.rateSource;
            asleep = v.asleep;
            pulsePerMinute = v.pulsePerMinute;
            temperatureCelsius = v.temperatureCelsius;
            systolicMmHg = v.systolicMmHg;
            consciousness = v.consciousness;
            peakFlowLitresPerMinute = v.peakFlowLitresPerMinute;
            weightKg = v.weightKg;
            oxygenLitresPerMinute = v.oxygenLitresPerMinute;
        }

        Vitals vitals() {
            return new Vitals(
                    spo2Percent,
                    onOxygen,
                    respiratoryRatePerMinute,
                    rateSource,
                    asleep,
                    pulsePerMinute,
                    temperatureCelsius,
                    systolicMmHg,
                    consciousness,
                    peakFlowLitresPerMinute,
                    weightKg,
                    oxygenLitresPerMinute);
        }
    }
}
