package lungwort.classify;

import java.util.List;

/**
 * Which features to use and which learners to average.
 *
 * @param features feature names to use, in which {@code *} stands for any characters; those that begin with {@code -} are left out. Empty, or only such, means all others
 * @param learners at least one
 */
public record BlendSettings(List<String> features, List<LearnerSettings> learners) {
    /** Before the name of what is left out. */
    public static final String LEAVE_OUT = "-";

    public BlendSettings {
        features = List.copyOf(features);
        learners = List.copyOf(learners);
        if (learners.isEmpty()) {
            throw new lungwort.BadInput("The recipe names no learner in one of its parts; give at least one.");
        }
    }

    /** True if a feature is used. */
    boolean uses(String name) {
        boolean named = features.stream().allMatch(f -> f.startsWith(LEAVE_OUT));
        for (String feature : features) {
            if (feature.startsWith(LEAVE_OUT)) {
                if (matches(feature.substring(1), name)) {
                    return false;
                }
            } else {
                named |= matches(feature, name);
            }
        }
        return named;
    }

    /**
     * True if a pattern stands for a name.
     *
     * @param pattern a name in which {@code *} stands for any characters
     */
    public static boolean matches(String pattern, String name) {
        String[] pieces = pattern.split("\\*", -1);
        int at = pieces[0].length();
        if (!name.startsWith(pieces[0])) {
            return false;
        }
        for (int i = 1; i < pieces.length - 1; i++) {
            int found = name.indexOf(pieces[i], at);
            if (found < 0) {
                return false;
            }
            at = found + pieces[i].length();
        }
        String last = pieces[pieces.length - 1];
        return pieces.length == 1 ? name.equals(pattern) : name.length() - last.length() >= at && name.endsWith(last);
    }
}
