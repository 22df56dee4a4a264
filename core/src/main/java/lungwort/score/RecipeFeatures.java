package lungwort.score;

import java.util.Arrays;
import java.util.List;
import java.util.function.Predicate;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import lungwort.BadInput;
import lungwort.feature.FeatureCatalogue;
import lungwort.feature.FeatureDefinition;

/** The names of features in a recipe: one that names nothing is a slip of the pen, and a model without those features would pass for one with them. */
final class RecipeFeatures {
    /** Whose answers to a recording's windows are pooled, of the bursts' model only where there is one. Named in datasets/README.md. */
    private static final List<String> POOLED = List.of(
            "window.continuous",
            "window.discontinuous",
            "window.poorQuality",
            "window.notNormal",
            "segment.normal",
            "segment.continuous",
            "segment.discontinuous");

    private static final String POOLED_BURSTS = "bursts.discontinuous";

    private static final List<String> STATISTICS =
            List.of("top1", "top2", "top3", "p25", "p50", "p75", "mean", "share");

    private static final List<String> OF_NET = List.of("net.continuous", "net.discontinuous", "net.poorQuality");

    private RecipeFeatures() {}

    /**
     * Checks the names of one part.
     *
     * @param bursts true if the recipe has that part, whose answers the recording's part sees
     * @param net true if the recipe has a net, whose logits the recording's part sees
     * @throws BadInput if a name stands for no feature of that part
     */
    static void check(String part, List<String> named, boolean bursts, boolean net) {
        for (String name : named) {
            String pattern = name.startsWith("-") ? name.substring(1) : name;
            boolean known = switch (part) {
                case "segment", "window", "bursts" -> names(FeatureCatalogue.segment(), pattern);
                case "recording" ->
                    names(FeatureCatalogue.recording(), pattern)
                            || ofOtherStages(bursts, net).anyMatch(matching(pattern));
                case "takes" -> false;
                // The facts that a context can choose among are a net's; which there are only the trainer knows.
                case "context" -> net;
                default -> true;
            };
            if (!known) {
                throw BadInput.of(
                        "The recipe's part '%s' names '%s', which is no feature that it sees; datasets/README.md says what each part sees.",
                        part, name);
            }
        }
    }

    /** What the recording's part sees beside its catalogue. */
    private static Stream<String> ofOtherStages(boolean bursts, boolean net) {
        Stream<String> pooled = Stream.concat(POOLED.stream(), bursts ? Stream.of(POOLED_BURSTS) : Stream.empty())
                .flatMap(series -> STATISTICS.stream().map(how -> "pool.%s.%s".formatted(series, how)));
        return Stream.of(Stream.of("pool.windows"), pooled, net ? OF_NET.stream() : Stream.<String>empty())
                .flatMap(s -> s);
    }

    private static boolean names(FeatureCatalogue catalogue, String pattern) {
        return catalogue.features().stream().map(FeatureDefinition::name).anyMatch(matching(pattern));
    }

    private static Predicate<String> matching(String pattern) {
        return Pattern.compile(Arrays.stream(pattern.split("\\*", -1))
                        .map(Pattern::quote)
                        .collect(Collectors.joining(".*")))
                .asMatchPredicate();
    }
}
