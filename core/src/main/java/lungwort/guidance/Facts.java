package lungwort.guidance;

import java.util.EnumSet;
import java.util.Objects;
import java.util.Set;
import lungwort.guidance.SoundFinding.Clearing;
import org.jspecify.annotations.Nullable;

/** Reads the facts off a situation. What was not asked or measured makes no fact. */
final class Facts {
    /** NICE NG143 calls 38 °C and more a fever in its rules for babies [S]; common practice for all. */
    private static final double FEVER_CELSIUS = 38.0;

    /**
     * BTS guideline for oxygen use in adults, summary in BMJ Open Respir Res 2017;4:e000170 [P]: clinical assessment is recommended if the saturation falls by 3 % or more, or below the
     * target range. That the fall is counted from the median of earlier days, and for children too, is common practice.
     */
    static final int FALL_OF_SPO2_PERCENT = 3;

    /** NEWS2, and with it SpO2 scale 2, is for people of 16 years and more. */
    static final int SCALE_2_FROM_MONTHS = 192;

    private Facts() {}

    static Set<Fact> of(Situation situation) {
        Set<Fact> facts = EnumSet.noneOf(Fact.class);
        conditions(situation, facts);
        vitals(situation.vitals(), facts);
        add(facts, Fact.SPO2_BELOW_USUAL, belowUsual(situation.vitals().spo2Percent(), situation.usualSpo2()));
        UsualRate usualRate = situation.earlier().usualRate();
        add(facts, Fact.RATE_ABOVE_USUAL, usualRate != null && usualRate.risenIn(situation.vitals()));
        add(facts, Fact.WITHOUT_OXYGEN_UNTIL_NOW, situation.earlier().withoutOxygen());
        add(facts, Fact.SPO2_USUAL_FELL, slowly(situation, Vital.SPO2));
        add(facts, Fact.RATE_USUAL_ROSE, slowly(situation, Vital.RESPIRATORY_RATE));
        UsualFlow usualFlow = situation.earlier().usualFlow();
        boolean more = usualFlow != null && usualFlow.risenIn(situation.vitals());
        boolean higher = usualFlow != null && usualFlow.spo2HigherIn(situation.vitals());
        add(facts, Fact.MORE_OXYGEN, more && !higher);
        add(facts, Fact.MORE_OXYGEN_HIGHER_SPO2, more && higher);
        add(facts, Fact.WEIGHT_GIVEN, situation.vitals().weightKg() != null);
        add(facts, Fact.WEIGHT_FAR, Weighing.farFrom(situation) != null);
        symptoms(situation.symptoms(), facts);
        situation.sounds().forEach(sound -> sound(sound, facts));
        return facts;
    }

    private static void conditions(Situation situation, Set<Fact> facts) {
        Conditions known = situation.conditions();
        ClinicianLimits limits = situation.limits();
        boolean adult = situation.age().months() >= SCALE_2_FROM_MONTHS;
        boolean scale2 = limits.spo2Scale2() && adult;
        add(facts, Fact.ASTHMA, known.has(Condition.ASTHMA));
        add(facts, Fact.COPD, known.has(Condition.COPD));
        add(facts, Fact.HEART_FAILURE, known.has(Condition.HEART_FAILURE));
        add(facts, Fact.PREGNANCY, known.has(Condition.PREGNANCY));
        add(facts, scale2 ? Fact.SCALE_2 : Fact.SCALE_1, true);
        add(
                facts,
                Fact.MAY_RETAIN_CO2,
                limits.spo2Scale2() || known.has(Condition.COPD) || known.has(Condition.HYPERCAPNIA_RISK));
        add(facts, Fact.SCALE_2_SET_FOR_A_CHILD, limits.spo2Scale2() && !adult);
        add(
                facts,
                Fact.TARGET_MAY_DIFFER,
                !scale2
                        && limits.spo2Below() == null
                        && (known.has(Condition.COPD) || known.has(Condition.HYPERCAPNIA_RISK)));
        add(
                facts,
                Fact.CLINICIAN_LIMITS,
                scale2
                        || limits.spo2Below() != null
                        || limits.respiratoryRateAbove() != null
                        || limits.pulseAbove() != null);
    }

    private static void vitals(Vitals vitals, Set<Fact> facts) {
        Double celsius = vitals.temperatureCelsius();
        Consciousness level = vitals.consciousness();
        add(facts, Fact.FEVER, celsius != null && celsius >= FEVER_CELSIUS);
        add(facts, Fact.SPO2_GIVEN, vitals.spo2Percent() != null);
        add(facts, Fact.ON_OXYGEN, Objects.equals(vitals.onOxygen(), true));
        add(facts, Fact.ASLEEP, Objects.equals(vitals.asleep(), true) && vitals.respiratoryRatePerMinute() != null);
        add(facts, Fact.RATE_HEARD, vitals.rateSource() == RateSource.HEARD);
        add(facts, Fact.CONFUSED, level == Consciousness.CONFUSED);
        add(facts, Fact.NOT_ALERT, level != null && level.compareTo(Consciousness.VOICE) >= 0);
    }

    private static boolean slowly(Situation situation, Vital vital) {
        return situation.earlier().slowChanges().stream().anyMatch(c -> c.vital() == vital && c.counts());
    }

    static boolean belowUsual(@Nullable Integer spo2, @Nullable UsualSpo2 usual) {
        return spo2 != null && usual != null && usual.percent() - spo2 >= FALL_OF_SPO2_PERCENT;
    }

    private static void symptoms(Symptoms symptoms, Set<Fact> facts) {
        Breathlessness breathless = symptoms.breathlessness();
        if (breathless != null) {
            add(facts, Fact.BREATHLESS, breathless.compareTo(Breathlessness.ON_EFFORT) >= 0);
            add(facts, Fact.BREATHLESS_AT_REST, breathless.compareTo(Breathlessness.AT_REST) >= 0);
            add(facts, Fact.CANNOT_FINISH_SENTENCES, breathless == Breathlessness.CANNOT_FINISH_SENTENCES);
        }
        add(facts, Fact.CHEST_PAIN, Objects.equals(symptoms.chestPain(), true));
        add(facts, Fact.FEVER, Objects.equals(symptoms.fever(), true));
        add(facts, Fact.CHEST_INFECTION, Objects.equals(symptoms.chestInfection(), true));
    }

    private static void sound(SoundFinding sound, Set<Fact> facts) {
        boolean chest = sound.site() == null || sound.site().chest();
        boolean explained = sound.knownToClinician();
        Clearing clearing = sound.clearing();
        add(facts, Fact.EXTRA_SOUND, sound.extraSoundHeard());
        add(facts, Fact.CONTINUOUS, sound.continuousHeard());
        add(facts, Fact.DISCONTINUOUS, sound.discontinuousHeard());
        add(facts, Fact.EXTRA_SOUND_NOT_SETTLED, clearing == Clearing.NOT_SETTLED && !explained);
        add(facts, Fact.EXTRA_SOUND_PERSISTS, clearing == Clearing.PERSISTS && !explained);
        add(facts, Fact.EXTRA_SOUND_CLEARED, clearing == Clearing.CLEARED);
        add(facts, Fact.EXTRA_SOUND_KNOWN, sound.extraSoundHeard() && explained);
        boolean open = clearing == Clearing.NOT_SETTLED || clearing == Clearing.PERSISTS;
        add(facts, Fact.CONTINUOUS_OVER_THE_NECK, !chest && open && sound.continuousHeard() && !explained);
        add(facts, Fact.CANNOT_TELL, sound.nothingToJudge());
        add(facts, Fact.NONE_HEARD, chest && sound.noneHeard());
        add(facts, Fact.RECORDING_UNFAMILIAR, sound.unfamiliar());
        for (SoundFinding.Pause pause : sound.pauses()) {
            add(facts, Fact.PAUSE_OPEN, pause.real() == null);
            add(facts, Fact.PAUSE_REAL, Objects.equals(pause.real(), true));
            add(facts, Fact.PAUSE_EXPLAINED, Objects.equals(pause.real(), false));
        }
        add(facts, Fact.BREATH_NOT_HEARD, chest && Objects.equals(sound.breathHeard(), false));
    }

    private static void add(Set<Fact> facts, Fact fact, boolean holds) {
        if (holds) {
            facts.add(fact);
        }
    }
}
