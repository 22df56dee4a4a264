package lungwort.guidance;

import java.util.List;

/**
 * A sign that outranks every sound and needs no recording.
 *
 * @param id name in files, for example {@code blue-lips}
 * @param question asked in plain words, to be answered with yes or no, where the age is not known
 * @param wordings the same for some ages, in the words of those who look after people of that age
 * @param fromMonths youngest age at which it is asked
 * @param toMonths oldest age at which it is asked
 * @param outcome what a yes leads to
 * @param sources where it stands
 */
public record DangerSign(
        String id,
        String question,
        List<Wording> wordings,
        int fromMonths,
        int toMonths,
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

    /** True if it is asked at that age. */
    public boolean asked(Age age) {
        return age.months() >= fromMonths && age.months() <= toMonths;
    }
}
