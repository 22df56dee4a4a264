package lungwort.classify;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/** From which probability on found sounds are told: where their F-measure (twice the matched over found and marked together) is highest on recordings that the models had not learnt from. */
final class EventLimit {
    private final List<Found> found = new ArrayList<>();
    private final boolean continuous;
    private int marked;

    EventLimit(boolean continuous) {
        this.continuous = continuous;
    }

    /**
     * A found sound.
     *
     * @param probability of it
     * @param right true if it has found a marked sound that none more probable had found
     */
    private record Found(double probability, boolean right) {}

    /**
     * Adds one recording.
     *
     * @param chosen sounds found in it, most probable first ({@link EventModel#chosen})
     * @param sounds those that listeners marked
     */
    void add(List<HeardEvent> chosen, List<MarkedSound> sounds) {
        List<MarkedSound> left = new ArrayList<>(
                sounds.stream().filter(sound -> sound.is(continuous)).toList());
        marked += left.size();
        for (HeardEvent event : chosen) {
            MarkedSound matched = left.stream()
                    .filter(sound -> EventModel.finds(event.startSeconds(), event.endSeconds(), sound))
                    .findFirst()
                    .orElse(null);
            if (matched != null) {
                left.remove(matched);
            }
            found.add(new Found(event.probability(), matched != null));
        }
    }

    /** The limit, in [0, 1]; 1 where nothing was rightly found. */
    double best() {
        found.sort(Comparator.comparingDouble(Found::probability).reversed());
        double best = 0;
        double limit = 1;
        int right = 0;
        for (int i = 0; i < found.size(); i++) {
            right += found.get(i).right() ? 1 : 0;
            boolean cut = i + 1 == found.size()
                    || found.get(i + 1).probability() < found.get(i).probability();
            double f = 2.0 * right / (i + 1 + marked);
            if (cut && f > best) {
                best = f;
                limit = found.get(i).probability();
            }
        }
        return limit;
    }
}
