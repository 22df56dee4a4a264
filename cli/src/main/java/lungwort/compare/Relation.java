package lungwort.compare;

import java.util.Arrays;
import java.util.stream.Collectors;
import lungwort.BadInput;
import lungwort.guidance.Site;
import org.jspecify.annotations.Nullable;

/** How two takes stand to one another: what "the same" means between them. */
public enum Relation {
    /** Same place, before and after something: a cough, deep breaths, a medicine. */
    BEFORE_AFTER("before-after", "before", "after"),
    /** Same place on two days. */
    EARLIER_LATER("earlier-later", "earlier", "later"),
    /** Same height, other side. */
    LEFT_RIGHT("left-right", "left", "right"),
    /** Same side, other height. */
    UPPER_LOWER("upper-lower", "upper", "lower"),
    /** Nobody said. */
    FIRST_SECOND("first-second", "first", "second");

    private final String id;
    private final String first;
    private final String second;

    Relation(String id, String first, String second) {
        this.id = id;
        this.first = first;
        this.second = second;
    }

    /** Name in files and on the command line, for example {@code left-right}. */
    public String id() {
        return id;
    }

    /** What the first take is called. */
    public String first() {
        return first;
    }

    /** What the second take is called. */
    public String second() {
        return second;
    }

    /** @throws BadInput if no relation has that id */
    public static Relation ofId(String id) {
        return Arrays.stream(values())
                .filter(r -> r.id.equals(id))
                .findFirst()
                .orElseThrow(() -> new BadInput("relation: \"%s\" is not known; use one of %s."
                        .formatted(id, Arrays.stream(values()).map(Relation::id).collect(Collectors.joining(", ")))));
    }

    /** The relation that two sites have within one round; null where they are neither across from one another nor above one another. */
    public static @Nullable Relation between(Site first, Site second) {
        if (first.equals(second)) {
            return BEFORE_AFTER;
        }
        if (first.height() == null || second.height() == null || first.face() != second.face()) {
            return null;
        }
        if (first.height() == second.height() && first.side() == Site.Side.LEFT) {
            return LEFT_RIGHT;
        }
        return first.side() == second.side() && first.height().compareTo(second.height()) < 0 ? UPPER_LOWER : null;
    }
}
