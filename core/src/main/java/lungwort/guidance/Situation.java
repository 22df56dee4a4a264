package lungwort.guidance;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * All that is known when a next step is asked for.
 *
 * @param age of the person
 * @param conditions known ones
 * @param limits set by a clinician for this person
 * @param dangerSigns answers to the danger-sign questions
 * @param vitals what was measured
 * @param symptoms what was asked
 * @param sounds what was found, one entry a site; empty without recordings
 * @param emergencyNumber to call; null where it was not asked yet
 * @param earlier what this person's earlier days say
 */
public record Situation(
        Age age,
        Conditions conditions,
        ClinicianLimits limits,
        DangerAnswers dangerSigns,
        Vitals vitals,
        Symptoms symptoms,
        List<SoundFinding> sounds,
        @Nullable EmergencyNumber emergencyNumber,
        EarlierDays earlier) {
    public Situation {
        sounds = List.copyOf(sounds);
    }

    /** Nothing but the age is known. */
    public static Situation of(Age age) {
        return new Situation(
                age,
                Conditions.NONE,
                ClinicianLimits.NONE,
                DangerAnswers.NOT_ASKED,
                Vitals.NONE,
                Symptoms.NOT_ASKED,
                List.of(),
                null,
                EarlierDays.NONE);
    }

    public Situation with(Age value) {
        return new Situation(
                value, conditions, limits, dangerSigns, vitals, symptoms, sounds, emergencyNumber, earlier);
    }

    public Situation with(Conditions value) {
        return new Situation(age, value, limits, dangerSigns, vitals, symptoms, sounds, emergencyNumber, earlier);
    }

    public Situation with(ClinicianLimits value) {
        return new Situation(age, conditions, value, dangerSigns, vitals, symptoms, sounds, emergencyNumber, earlier);
    }

    public Situation with(DangerAnswers value) {
        return new Situation(age, conditions, limits, value, vitals, symptoms, sounds, emergencyNumber, earlier);
    }

    public Situation with(Vitals value) {
        return new Situation(age, conditions, limits, dangerSigns, value, symptoms, sounds, emergencyNumber, earlier);
    }

    public Situation with(Symptoms value) {
        return new Situation(age, conditions, limits, dangerSigns, vitals, value, sounds, emergencyNumber, earlier);
    }

    public Situation with(List<SoundFinding> value) {
        return new Situation(age, conditions, limits, dangerSigns, vitals, symptoms, value, emergencyNumber, earlier);
    }

    public Situation with(@Nullable EmergencyNumber value) {
        return new Situation(age, conditions, limits, dangerSigns, vitals, symptoms, sounds, value, earlier);
    }

    public Situation with(EarlierDays value) {
        return new Situation(age, conditions, limits, dangerSigns, vitals, symptoms, sounds, emergencyNumber, value);
    }

    /** The same with this person's own usual SpO2 alone, however it was measured, or null where it is not known. */
    public Situation withUsualSpo2(@Nullable UsualSpo2 value) {
        return with(EarlierDays.of(value));
    }

    /** What the SpO2 is held against; null where it is not known. */
    public @Nullable UsualSpo2 usualSpo2() {
        return earlier.usualSpo2(vitals);
    }

    /** The same with one more site. */
    public Situation plus(SoundFinding finding) {
        List<SoundFinding> more = new ArrayList<>(sounds);
        more.add(finding);
        return with(more);
    }
}
