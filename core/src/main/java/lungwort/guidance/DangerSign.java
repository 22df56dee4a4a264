package lungwort.guidance;

import java.util.List;
import java.util.Set;

/**
 * A sign that outranks every sound and needs no recording.
 *
 * @param id name in files, for example {@code blue-lips}
 * @param question asked in plain words, to be answered with yes or no, where the age is not known
 * @param wordings the same for some ages, in the words of those who look after people of that age
 * @param fromMonths youngest age at which it is asked
 * @param toMonths oldest age at which it is asked
 * @param conditions asked of people with one of these alone; empty: of everybody
 * @param outcome what a yes leads to
 * @param sources where it stands
 */
public record DangerSign(
        String id,
        String question,
        List<Wording> wordings,
        int fromMonths,
        int toMonths,
        Set<Condition> conditions,
        Outcome outcome,
        List<Citation> sources) {
    /**
     * A question for some ages.
     *
     * @param fromMonths youngest age
     * @param toMonths oldest age
     * @param question to be answered with yes or no
     */
    public record Wording(int fromMonths, int toMonths, String question) {}

    public DangerSign {
        wordings = List.copyOf(wordings);
        conditions = Set.copyOf(conditions);
        sources = List.copyOf(sources);
    }

    /** The question as it is asked at an age. */
    public String question(Age age) {
        return wordings.stream()
                .filter(w -> age.months() >= w.fromMonths() && age.months() <= w.toMonths())
                .findFirst()
                .map(Wording::question)
                .orElse(question);
    }

    /** True if it is asked of a person of that age with those conditions. */
    public boolean asked(Age age, Conditions known) {
        return age.months() >= fromMonths
                && age.months() <= toMonths
                && (conditions.isEmpty() || conditions.stream().anyMatch(known::has));
    }
}
