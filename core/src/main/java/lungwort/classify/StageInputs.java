package lungwort.classify;

import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import lungwort.feature.FeatureCatalogue;

/** What the parts of a recipe choose among by name ({@link BlendSettings#features}). */
public final class StageInputs {
    private StageInputs() {}

    /**
     * Names of what a part's {@code features} choose among.
     *
     * @param part key of the part in a recipe: {@code segment}, {@code context}, {@code window}, {@code bursts}, {@code recording}, {@code events} or {@code takes}
     * @param bursts true if the recipe has a part of that name, whose answers are pooled
     * @param net true if the recipe has a net, which tells further facts
     * @param edges true if it moves the edges of single sounds
     * @return empty for a part that has nothing to choose among
     */
    public static List<String> of(String part, boolean bursts, boolean net, boolean edges) {
        return switch (part) {
            case "segment", "window", "bursts" -> names(FeatureCatalogue.segment());
            case "recording" ->
                Stream.of(
                                pooled(bursts),
                                names(FeatureCatalogue.recording()),
                                net ? PoolFeatures.NET_NAMES : List.<String>of())
                        .flatMap(List::stream)
                        .toList();
            case "context" -> net ? SegmentFacts.NAMES : List.of();
            case "events" -> EventModel.names(edges);
            case "takes" -> List.of();
            default -> throw new IllegalArgumentException(part);
        };
    }

    private static List<String> names(FeatureCatalogue catalogue) {
        return catalogue.features().stream().map(f -> f.name()).toList();
    }

    private static List<String> pooled(boolean bursts) {
        return IntStream.range(0, PoolFeatures.POOLED)
                .mapToObj(PoolFeatures::name)
                .filter(name -> bursts || !PoolFeatures.ofBursts(name))
                .toList();
    }
}
