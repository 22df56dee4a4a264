package lungwort.guidance;

import java.util.List;

/**
 * A sign that outranks every sound and needs no recording.
 *
 * @param id name in files, for example {@code blue-lips}
 * @param question asked in plain words, to be answered with yes or no
 * @param fromMonths youngest age at which it is asked
 * @param toMonths oldest age at which it is asked
 * @param outcome what a yes leads to
 * @param sources where it stands
 */
public record DangerSign(
        String id, String question, int fromMonths, int toMonths, Outcome outcome, List<Citation> sources) {
    public DangerSign {
        sources = List.copyOf(sources);
    }

    /** True if it is asked at that age. */
    public boolean asked(Age age) {
        return age.months() >= fromMonths && age.months() <= toMonths;
    }
}
