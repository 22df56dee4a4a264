package lungwort.report;

import java.time.LocalDate;
import java.util.List;
import lungwort.diary.Person;
import lungwort.guidance.Age;
import lungwort.guidance.ClinicianLimits;
import lungwort.guidance.Conditions;
import lungwort.guidance.EmergencyNumber;
import lungwort.guidance.Guidance;
import lungwort.guidance.Situation;
import lungwort.guidance.VitalLimit;
import org.jspecify.annotations.Nullable;

/**
 * For whom a sheet of paper is made.
 *
 * @param nickname of the person; empty for anybody of the age
 * @param age on the day it is made
 * @param conditions known ones
 * @param limits set by a clinician for this person
 * @param emergencyNumber to call; null where it is not known
 * @param day on which it is made
 */
public record SheetContent(
        String nickname,
        Age age,
        Conditions conditions,
        ClinicianLimits limits,
        @Nullable EmergencyNumber emergencyNumber,
        LocalDate day) {
    /**
     * A sheet for a person of the diary.
     *
     * @throws lungwort.BadInput if the person is not born yet on that day
     */
    public static SheetContent of(Person person, @Nullable EmergencyNumber number, LocalDate day) {
        return new SheetContent(person.nickname(), person.age(day), person.conditions(), person.limits(), number, day);
    }

    /** The limits that hold; those against earlier days are left out, since these change from day to day. */
    List<VitalLimit> vitalLimits() {
        return Guidance.limits(situation());
    }

    /** What is to be known beside the limits because of what this person has, or because a clinician set others. */
    List<String> cautions() {
        List<String> ofEverybody = Guidance.decide(Situation.of(age)).cautions();
        return Guidance.decide(situation()).cautions().stream()
                .filter(c -> !ofEverybody.contains(c))
                .toList();
    }

    private Situation situation() {
        return Situation.of(age).with(conditions).with(limits);
    }
}
