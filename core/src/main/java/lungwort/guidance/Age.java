package lungwort.guidance;

import java.time.LocalDate;
import java.time.YearMonth;
import java.time.temporal.ChronoUnit;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import lungwort.BadInput;

/**
 * Age in whole months completed: every limit depends on it, so it is never guessed.
 *
 * @param months in [0, {@value #MAX_MONTHS}]
 */
public record Age(int months) {
    /** 120 years. */
    public static final int MAX_MONTHS = 1440;

    private static final int MONTHS_PER_YEAR = 12;
    private static final Pattern TEXT =
            Pattern.compile("(?:(\\d{1,4})\\s*(?:y|yr|yrs|year|years))?\\s*(?:(\\d{1,4})\\s*(?:m|mo|month|months))?");

    /** @throws BadInput if the age is out of range */
    public Age {
        if (months < 0 || months > MAX_MONTHS) {
            throw BadInput.of(
                    "age: %d months is outside 0 to %d months (120 years); check the birth month.", months, MAX_MONTHS);
        }
    }

    /** @throws BadInput if the age is out of range */
    public static Age ofMonths(int months) {
        return new Age(months);
    }

    /** @throws BadInput if the age is out of range */
    public static Age ofYears(int years) {
        if (years < 0 || years > MAX_MONTHS / MONTHS_PER_YEAR) {
            throw BadInput.of("age: %d years is outside 0 to 120 years; check the birth month.", years);
        }
        return new Age(years * MONTHS_PER_YEAR);
    }

    /**
     * The age on a day, from the month of birth. The day of birth is not kept, so the age may be one month too high: {@link Guidance#decideFromBirthMonth} takes the graver
     * of both.
     *
     * @throws BadInput if the birth lies after the day, or more than 120 years before it
     */
    public static Age on(LocalDate day, YearMonth birth) {
        long months = ChronoUnit.MONTHS.between(birth, YearMonth.from(day));
        if (months < 0 || months > MAX_MONTHS) {
            throw BadInput.of(
                    "birth month: %s lies %s %s; check the year.",
                    birth, months < 0 ? "after" : "more than 120 years before", day);
        }
        return new Age((int) months);
    }

    /**
     * Reads {@code 7 months}, {@code 3 years}, {@code 2y 6m}, {@code 64y}.
     *
     * @throws BadInput if the text is none of these, or the age is out of range
     */
    public static Age parse(String text) {
        Matcher matcher = TEXT.matcher(text.strip().toLowerCase(Locale.ROOT));
        if (!matcher.matches() || (matcher.group(1) == null && matcher.group(2) == null)) {
            throw BadInput.of(
                    "age: \"%s\" cannot be read; write it as 7 months, 3 years or 2y 6m, and below one month as 0 months.",
                    text);
        }
        int years = matcher.group(1) == null ? 0 : Integer.parseInt(matcher.group(1));
        int months = matcher.group(2) == null ? 0 : Integer.parseInt(matcher.group(2));
        return new Age(years * MONTHS_PER_YEAR + months);
    }

    /** Whole years completed. */
    public int years() {
        return months / MONTHS_PER_YEAR;
    }

    /** In plain words, for example {@code 7 months}, {@code 2 years 6 months}, {@code 64 years}. */
    public String words() {
        int rest = months % MONTHS_PER_YEAR;
        if (years() == 0) {
            return count(months, "month");
        }
        return years() >= 5 || rest == 0 ? count(years(), "year") : count(years(), "year") + " " + count(rest, "month");
    }

    private static String count(int number, String unit) {
        return number + " " + unit + (number == 1 ? "" : "s");
    }
}
