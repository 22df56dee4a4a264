package lungwort.diary;

import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.util.List;
import java.util.UUID;
import lungwort.guidance.DangerAnswers;
import lungwort.guidance.EarlierDays;
import lungwort.guidance.Guidance;
import lungwort.guidance.NextStep;
import lungwort.guidance.Outcome;
import lungwort.guidance.Situation;
import lungwort.guidance.Symptoms;
import lungwort.guidance.Vitals;
import org.jspecify.annotations.Nullable;

/**
 * One pass over a person's chest on one occasion; its takes are asked for by its id.
 *
 * @param id its id
 * @param personId whose chest
 * @param startedAt when it began, in local time
 * @param finishedAt when it was finished, or null while it is open
 * @param dangerSigns answers to the danger-sign questions
 * @param vitals what was measured
 * @param symptoms what was asked
 * @param symptomWords what else was seen or felt, in free words
 * @param medicines what was taken, in free words
 * @param nextStep what the guidance said when it was finished, or null
 */
public record Round(
        UUID id,
        UUID personId,
        OffsetDateTime startedAt,
        @Nullable Instant finishedAt,
        DangerAnswers dangerSigns,
        Vitals vitals,
        Symptoms symptoms,
        String symptomWords,
        String medicines,
        @Nullable NextStep nextStep) {
    /** @throws lungwort.BadInput if free words are too many */
    public Round {
        symptomWords = Words.free(symptomWords, "what was seen or felt");
        medicines = Words.free(medicines, "the medicines");
    }

    /** A round that begins then, in which nothing is answered yet; it is not stored. */
    public static Round begin(UUID personId, OffsetDateTime startedAt) {
        return new Round(
                UUID.randomUUID(),
                personId,
                startedAt,
                null,
                DangerAnswers.NOT_ASKED,
                Vitals.NONE,
                Symptoms.NOT_ASKED,
                "",
                "",
                null);
    }

    /** The day it began, in local time. */
    public LocalDate day() {
        return startedAt.toLocalDate();
    }

    /** True if the person was unwell then by the guidance itself: a danger sign was there, or the round ended with a clinician to be seen that day or an emergency. */
    public boolean askedForClinician() {
        boolean ended = nextStep != null && nextStep.outcome().atLeast(Outcome.BE_SEEN_TODAY);
        return ended || !dangerSigns.yes().isEmpty();
    }

    /**
     * The same where nobody finished it: then by its answers as they stand, as they would have been judged on that day. What its recordings say beside them is not asked.
     *
     * @param earlier what this person's earlier days say of that day
     */
    boolean askedForClinician(Person person, EarlierDays earlier) {
        return askedForClinician()
                || nextStep == null
                        && person.ageIfKnown(day())
                                .filter(age -> Guidance.asksForClinician(new Situation(
                                        age,
                                        person.conditions(),
                                        person.limits(),
                                        dangerSigns,
                                        vitals,
                                        symptoms,
                                        List.of(),
                                        null,
                                        earlier)))
                                .isPresent();
    }

    /** The same, but for a risen weight alone: that says nothing of how well the chest was, and a day that only the scale calls ill takes no value from what is usual. */
    boolean askedBesideWeight(Person person, EarlierDays earlier) {
        return nextStep == null
                ? askedForClinician(person, earlier.withWeights(List.of()))
                : nextStep.asksForClinicianBesideWeight() || !dangerSigns.yes().isEmpty();
    }

    /** True while takes may be added. */
    public boolean open() {
        return finishedAt == null;
    }

    public Round with(DangerAnswers value) {
        return new Round(
                id, personId, startedAt, finishedAt, value, vitals, symptoms, symptomWords, medicines, nextStep);
    }

    public Round with(Vitals value) {
        return new Round(
                id, personId, startedAt, finishedAt, dangerSigns, value, symptoms, symptomWords, medicines, nextStep);
    }

    public Round with(Symptoms value) {
        return new Round(
                id, personId, startedAt, finishedAt, dangerSigns, vitals, value, symptomWords, medicines, nextStep);
    }

    public Round withSymptomWords(String value) {
        return new Round(
                id, personId, startedAt, finishedAt, dangerSigns, vitals, symptoms, value, medicines, nextStep);
    }

    public Round withMedicines(String value) {
        return new Round(
                id, personId, startedAt, finishedAt, dangerSigns, vitals, symptoms, symptomWords, value, nextStep);
    }

    /** True if it is open and nothing was answered, measured or written in it yet; whether something was recorded only its takes know. */
    public boolean unanswered() {
        return open()
                && dangerSigns.equals(DangerAnswers.NOT_ASKED)
                && vitals.equals(Vitals.NONE)
                && symptoms.equals(Symptoms.NOT_ASKED)
                && symptomWords.isBlank()
                && medicines.isBlank();
    }

    /** True if the same is answered in both, whenever they were finished. */
    boolean sameAnswers(Round other) {
        return dangerSigns.equals(other.dangerSigns)
                && vitals.equals(other.vitals)
                && symptoms.equals(other.symptoms)
                && symptomWords.equals(other.symptomWords)
                && medicines.equals(other.medicines);
    }

    /** The same, finished; finishing again keeps the newer next step. */
    public Round finished(Instant when, NextStep step) {
        return new Round(id, personId, startedAt, when, dangerSigns, vitals, symptoms, symptomWords, medicines, step);
    }

    /** The same, open again: what was said when it was finished is said anew when it is finished again. */
    public Round reopened() {
        return new Round(id, personId, startedAt, null, dangerSigns, vitals, symptoms, symptomWords, medicines, null);
    }
}
