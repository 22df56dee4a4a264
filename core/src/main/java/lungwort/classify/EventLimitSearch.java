package lungwort.classify;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;

/**
 * Chooses from when on found sounds are told: where their F-measure (twice the matched over found and marked together) is highest on recordings that the models had not learnt from. First the
 * probability is chosen, then the share of the most probable one that is enough where the recording is said to hold such a sound: of the shares that make F higher the lowest whose F is nearly the highest, since the
 * share is there for devices through which all probabilities are low, and where it hardly matters more places to listen to serve better than fewer; none if no share makes F higher.
 */
final class EventLimitSearch {
    /** Shares that are tried: tenths. */
    private static final int SHARES = 10;

    /** So much less F is nearly the highest: far less than what other patients would change. */
    private static final double NEARLY = 0.01;

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
        EventLimit alone = EventLimit.from(probability());
        double[] f = new double[SHARES + 1];
        for (int tenths = 1; tenths <= SHARES; tenths++) {
            f[tenths] = f(share(alone, tenths));
        }
        double withoutShare = f(alone);
        double nearly = Arrays.stream(f).max().orElseThrow() - NEARLY;
        for (int tenths = 1; tenths <= SHARES; tenths++) {
            if (f[tenths] > withoutShare && f[tenths] >= nearly) {
                return share(alone, tenths);
            }
        }
        return alone;
    }

    private static EventLimit share(EventLimit alone, int tenths) {
        return new EventLimit(alone.from(), tenths / (double) SHARES);
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
