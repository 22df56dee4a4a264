package lungwort.round;

import java.time.LocalDate;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import lungwort.compare.Measure;
import lungwort.compare.Usual;
import lungwort.diary.Take;
import org.jspecify.annotations.Nullable;

/**
 * A take against this person's earlier ones at the same site.
 *
 * @param take the take
 * @param earlier the earlier takes, oldest first
 * @param first day of the round of the oldest; null where there is none
 * @param last day of the round of the newest; null where there is none
 * @param ofWellDays true if they are of days on which nothing asked for a clinician
 * @param measures measure by measure
 */
public record UsualAtSite(
        Take take,
        List<Take> earlier,
        @Nullable LocalDate first,
        @Nullable LocalDate last,
        boolean ofWellDays,
        List<Usual> measures) {
    public UsualAtSite {
        earlier = List.copyOf(earlier);
        measures = List.copyOf(measures);
    }

    /**
     * The first, but what only the second tells: a sound that is new against its takes, a measure that is unusual against them. That ill days are left out must hide nothing: the takes of well days can reach further back.
     */
    static UsualAtSite moreTelling(UsualAtSite ofWellDays, UsualAtSite ofAllDays) {
        UsualAtSite held = !ofWellDays.newKind() && ofAllDays.newKind() ? ofAllDays : ofWellDays;
        Map<Measure, Usual> measures = new EnumMap<>(Measure.class);
        ofAllDays.measures().forEach(u -> measures.put(u.measure(), u));
        ofWellDays
                .measures()
                .forEach(u ->
                        measures.merge(u.measure(), u, (all, well) -> !well.unusual() && all.unusual() ? all : well));
        return new UsualAtSite(
                held.take(),
                held.earlier(),
                held.first(),
                held.last(),
                held.ofWellDays(),
                List.copyOf(measures.values()));
    }

    /** True if this take suggests an extra sound, and none of enough earlier ones did. */
    public boolean newKind() {
        return earlier.size() >= Usual.ENOUGH_TAKES
                && Situations.suggestsExtra(take)
                && earlier.stream().noneMatch(Situations::suggestsExtra);
    }
}
