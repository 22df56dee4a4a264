package lungwort.compare;

import java.util.List;

/**
 * Two takes beside one another.
 *
 * @param relation how they stand to one another
 * @param first the first take
 * @param second the second take
 * @param differences measure by measure, those that can be compared
 * @param notComparable what can no longer be compared, and why, in plain words
 * @param findings what stands out, in plain words; never empty
 */
public record Comparison(
        Relation relation,
        TakeMeasures first,
        TakeMeasures second,
        List<Difference> differences,
        List<String> notComparable,
        List<String> findings) {
    /** Said with every comparison. */
    public static final String CAUTION =
            "A difference is no diagnosis, and no difference is no all-clear. Where the stethoscope was put and how deeply the person breathed change these numbers as"
                    + " much as an illness does. Danger signs, the care plan and licensed clinicians decide.";

    public Comparison {
        differences = List.copyOf(differences);
        notComparable = List.copyOf(notComparable);
        findings = List.copyOf(findings);
    }

    /** Those differences that are larger than two takes of the same thing usually show. */
    public List<Difference> exceeding() {
        return differences.stream().filter(Difference::exceeds).toList();
    }
}
