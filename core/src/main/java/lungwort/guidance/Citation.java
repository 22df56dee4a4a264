package lungwort.guidance;

/**
 * A source as seen.
 *
 * @param source name of the guideline, standard or custom
 * @param mark {@code P} seen on its own page, {@code S} second-hand, {@code M} from memory, {@code C} common practice, {@code clinician} set for this person
 */
public record Citation(String source, String mark) {
    @Override
    public String toString() {
        return source + " [" + mark + "]";
    }
}
