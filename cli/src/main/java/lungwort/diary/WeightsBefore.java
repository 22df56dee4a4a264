package lungwort.diary;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import lungwort.guidance.EarlierWeight;

/** The weights that a round is held against: those of rounds begun before it, on the same day too, for water comes within a day as well. */
final class WeightsBefore {
    private static final Comparator<Round> IN_ORDER =
            Comparator.comparing((Round r) -> r.startedAt().toInstant()).thenComparing(Round::id);

    private final List<Round> weighed;

    /** @param rounds of one person, in any order */
    WeightsBefore(List<Round> rounds) {
        this.weighed = rounds.stream()
                .filter(r -> r.vitals().weightKg() != null)
                .sorted(IN_ORDER)
                .toList();
    }

    /** Oldest first: all of the last {@value EarlierWeight#DAYS_OF_RISE} days before the round, and the newest before them if it is no older than {@value EarlierWeight#OLDEST_DAYS} days. */
    List<EarlierWeight> of(Round round) {
        LocalDate day = round.day();
        List<EarlierWeight> weights = new ArrayList<>();
        for (int i = weighed.size() - 1; i >= 0; i--) {
            Round then = weighed.get(i);
            Double kg = then.vitals().weightKg();
            if (kg == null || IN_ORDER.compare(then, round) >= 0) {
                continue;
            }
            // Whoever travels west can begin a later round on an earlier local day.
            int daysBefore = (int) Math.max(0, ChronoUnit.DAYS.between(then.day(), day));
            if (daysBefore > EarlierWeight.OLDEST_DAYS) {
                break;
            }
            weights.add(0, new EarlierWeight(then.day(), daysBefore, kg));
            if (daysBefore > EarlierWeight.DAYS_OF_RISE) {
                break;
            }
        }
        return weights;
    }
}
