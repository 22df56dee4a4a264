package lungwort.score;

import java.util.Arrays;
import java.util.List;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import lungwort.BadInput;
import lungwort.feature.FeatureCatalogue;

/** The names of features in a recipe: one that names nothing is a slip of the pen, and a model without those features would pass for one with them. */
final class RecipeFeatures {
    /** What the recording's part sees beside its catalogue: pooled answers, and what the net says. Named in datasets/README.md. */
    private static final List<String> OF_OTHER_STAGES = List.of("pool.", "net.", "*");

    private RecipeFeatures() {}

    /** @throws BadInput if a name stands for no feature of that part */
    static void check(String part, List<String> named) {
        for (String name : named) {
            String pattern = name.startsWith("-") ? name.substring(1) : name;
            boolean known = switch (part) {
                case "segment", "window", "bursts" -> names(FeatureCatalogue.segment(), pattern);
                case "recording" ->
                    OF_OTHER_STAGES.stream().anyMatch(pattern::startsWith)
                            || names(FeatureCatalogue.recording(), pattern);
                case "takes" -> false;
                default -> true;
            };
            if (!known) {
                throw BadInput.of(
                        "The recipe's part '%s' names '%s', which is no feature that it sees; datasets/README.md says what each part sees.",
                        part, name);
            }
        }
    }

    private static boolean names(FeatureCatalogue catalogue, String pattern) {
        Pattern all = Pattern.compile(
                Arrays.stream(pattern.split("\\*", -1)).map(Pattern::quote).collect(Collectors.joining(".*")));
        return catalogue.features().stream().anyMatch(f -> all.matcher(f.name()).matches());
    }
}
