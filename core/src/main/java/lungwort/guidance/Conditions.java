package lungwort.guidance;

import java.util.Set;
import java.util.TreeSet;

/**
 * The known conditions of a person.
 *
 * @param known in the order of {@link Condition}; copied
 */
public record Conditions(Set<Condition> known) {
    /** No condition is known. */
    public static final Conditions NONE = new Conditions(Set.of());

    public Conditions {
        known = java.util.Collections.unmodifiableSet(new TreeSet<>(known));
    }

    public static Conditions of(Condition... known) {
        return new Conditions(Set.of(known));
    }

    public boolean has(Condition condition) {
        return known.contains(condition);
    }
}
