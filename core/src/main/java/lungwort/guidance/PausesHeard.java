package lungwort.guidance;

import java.util.Objects;
import java.util.Set;
import java.util.stream.Stream;

/** Pauses in breathing that stand in the recordings of a situation. */
final class PausesHeard {
    private PausesHeard() {}

    /** Length in seconds of the longest of which nobody said yet what it was; 0 where there is none. */
    static double longestOpen(Situation situation) {
        return longest(all(situation).filter(pause -> pause.real() == null));
    }

    /** The length of which a rule speaks, in whole seconds: of those that were real, or explained, or else open. */
    static String words(Situation situation, Set<Fact> when) {
        Boolean real = when.contains(Fact.PAUSE_REAL)
                ? Boolean.TRUE
                : when.contains(Fact.PAUSE_EXPLAINED) ? Boolean.FALSE : null;
        double seconds = longest(all(situation).filter(pause -> Objects.equals(pause.real(), real)));
        return Long.toString(Math.round(seconds));
    }

    private static Stream<SoundFinding.Pause> all(Situation situation) {
        return situation.sounds().stream().flatMap(sound -> sound.pauses().stream());
    }

    private static double longest(Stream<SoundFinding.Pause> pauses) {
        return pauses.mapToDouble(SoundFinding.Pause::seconds).max().orElse(0);
    }
}
