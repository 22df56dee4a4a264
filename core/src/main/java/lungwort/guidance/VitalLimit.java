package lungwort.guidance;

import java.util.List;

/**
 * A limit on a vital sign that holds for a person, whether it is crossed or not.
 *
 * @param vital which vital sign
 * @param words the limit in plain words, for example "SpO2 92 % or less"
 * @param outcome what crossing it leads to
 * @param crossed true if the measured value crosses it
 * @param sources where it stands
 */
public record VitalLimit(Vital vital, String words, Outcome outcome, boolean crossed, List<Citation> sources) {
    public VitalLimit {
        sources = List.copyOf(sources);
    }
}
