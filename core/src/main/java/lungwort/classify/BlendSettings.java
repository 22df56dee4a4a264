package lungwort.classify;

import java.util.List;

/**
 * Which features to use and which learners to average.
 *
 * @param features feature names, or beginnings of names that end in {@code *}; empty for all
 * @param learners at least one
 */
public record BlendSettings(List<String> features, List<LearnerSettings> learners) {
    public BlendSettings {
        features = List.copyOf(features);
        learners = List.copyOf(learners);
        if (learners.isEmpty()) {
            throw new lungwort.BadInput("The recipe names no learner in one of its parts; give at least one.");
        }
    }

    /** True if a feature is used. */
    boolean uses(String name) {
        return features.isEmpty() || features.stream().anyMatch(f -> matches(f, name));
    }

    private static boolean matches(String pattern, String name) {
        return pattern.endsWith("*")
                ? name.startsWith(pattern.substring(0, pattern.length() - 1))
                : name.equals(pattern);
    }
}
