package lungwort.diary;

import java.time.LocalDate;
import java.time.YearMonth;
import java.util.Optional;
import java.util.UUID;
import lungwort.BadInput;
import lungwort.guidance.Age;
import lungwort.guidance.ClinicianLimits;
import lungwort.guidance.Conditions;

/**
 * Someone whose chest is listened to.
 *
 * @param id its id
 * @param nickname what the person is called here; unique in a diary without regard to case
 * @param birthMonth month of birth: every limit depends on the age
 * @param conditions known conditions that change which limits apply
 * @param about anything else worth knowing, in free words
 * @param limits what a clinician set for this person
 */
public record Person(
        UUID id, String nickname, YearMonth birthMonth, Conditions conditions, String about, ClinicianLimits limits) {
    /** Longest nickname, in characters. */
    public static final int MAX_NICKNAME_LENGTH = 60;

    /** @throws lungwort.BadInput if the nickname is empty or too long, or the words are too many */
    public Person {
        nickname = Words.check(nickname, "the nickname", 1, MAX_NICKNAME_LENGTH);
        about = Words.free(about, "what is known about the person");
    }

    /**
     * The age on a day.
     *
     * @throws BadInput if the day lies before the birth, as where the computer's clock stands wrong, or more than 120 years after it
     */
    public Age age(LocalDate day) {
        if (YearMonth.from(day).isBefore(birthMonth)) {
            throw new BadInput(
                    "On %s %s was not born yet (month of birth: %s), and every limit depends on the age; set this computer's clock right, or correct the month of birth."
                            .formatted(day, nickname, birthMonth));
        }
        return Age.on(day, birthMonth);
    }

    /** The age on a day in words, for lists, in which one person whose age cannot be known must not hide the others. */
    public String ageWords(LocalDate day) {
        return ageIfKnown(day).map(Age::words).orElse("age not known: this computer's clock says " + day);
    }

    /** The age on a day; empty where {@link #age} throws. */
    public Optional<Age> ageIfKnown(LocalDate day) {
        try {
            return Optional.of(age(day));
        } catch (BadInput e) {
            return Optional.empty();
        }
    }

    /** True if this is the nickname as it was typed, letter by letter, to confirm what cannot be undone; how an accent is coded, one character or two, cannot be typed at will. */
    public boolean isTyped(String typed) {
        return Nicknames.typed(typed).equals(Nicknames.typed(nickname));
    }

    public Person withNickname(String value) {
        return new Person(id, value, birthMonth, conditions, about, limits);
    }

    public Person withBirthMonth(YearMonth value) {
        return new Person(id, nickname, value, conditions, about, limits);
    }

    public Person withConditions(Conditions value) {
        return new Person(id, nickname, birthMonth, value, about, limits);
    }

    public Person withAbout(String value) {
        return new Person(id, nickname, birthMonth, conditions, value, limits);
    }

    public Person withLimits(ClinicianLimits value) {
        return new Person(id, nickname, birthMonth, conditions, about, value);
    }
}
