package lungwort.classify;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * Chooses from when on found sounds are told: where their F-measure (twice the matched over found and marked together) is highest on recordings that the models had not learnt from. First the
 * probability is chosen, then the share of the most probable one that is enough where the recording is said to hold such a sound; none if no share makes F higher.
 */
final class EventLimitSearch {
    /** Shares that are tried: tenths. */
    private static final int SHARES = 10;

    private final List<Found> found = new ArrayList<>();
    private final boolean continuous;
    private int marked;

    EventLimitSearch(boolean continuous) {
        this.continuous = continuous;
    }

    /**
     * A found sound.
     *
     * @param probability of it
     * @param most of the most probable one found in its recording
     * @param there true if its recording is said to hold such a sound
     * @param right true if it has found a marked sound that none more probable had found
     */
    private record Found(double probability, double most, boolean there, boolean right) {
        boolean told(EventLimit limit) {
            return there ? limit.likely(probability, most) : limit.sure(probability);
        }
    }

    /**
     * Adds one recording.
     *
     * @param chosen sounds found in it, most probable first ({@link EventModel#chosen})
     * @param sounds those that listeners marked
     * @param there true if the recording is said to hold a sound of this kind
     */
    void add(List<HeardEvent> chosen, List<MarkedSound> sounds, boolean there) {
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
            found.add(new Found(event.probability(), chosen.get(0).probability(), there, matched != null));
        }
    }

    /** The limit; a probability of 1 where nothing was rightly found. */
    EventLimit best() {
        double from = probability();
        EventLimit best = EventLimit.from(from);
        double highest = f(best);
        for (int tenths = SHARES; tenths > 0; tenths--) {
            EventLimit limit = new EventLimit(from, tenths / (double) SHARES);
            double f = f(limit);
            if (f > highest) {
                highest = f;
                best = limit;
            }
        }
        return best;
    }

    private double probability() {
        found.sort(Comparator.comparingDouble(Found::probability).reversed());
        double best = 0;
        double limit = 1;
        int right = 0;
        for (int i = 0; i < found.size(); i++) {
            right += found.get(i).right() ? 1 : 0;
            boolean cut = i + 1 == found.size()
                    || found.get(i + 1).probability() < found.get(i).probability();
            double f = f(right, i + 1);
            if (cut && f > best) {
                best = f;
                limit = found.get(i).probability();
            }
        }
        return limit;
    }

    private double f(EventLimit limit) {
        List<Found> told = found.stream().filter(event -> event.told(limit)).toList();
        return f(told.stream().filter(Found::right).count(), told.size());
    }

    private double f(long right, int told) {
        return 2.0 * right / Math.max(1, told + marked);
    }
}
