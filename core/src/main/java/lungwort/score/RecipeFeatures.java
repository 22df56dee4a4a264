package lungwort.score;

import java.util.List;
import lungwort.BadInput;
import lungwort.classify.BlendSettings;
import lungwort.classify.StageInputs;

/** The names of features in a recipe: one that names nothing is a slip of the pen, and a model without those features would pass for one with them. */
final class RecipeFeatures {
    private RecipeFeatures() {}

    /**
     * @param part of the recipe
     * @param named its {@code features}
     * @param bursts true if the recipe has a part of that name, whose answers are pooled
     * @param net true if the recipe has a net
     * @param edges true if the recipe moves the edges of single sounds
     * @throws BadInput if a name stands for no feature of that part; one that is to be left out may be of bursts, a net or edges that the recipe does without
     */
    static void check(String part, List<String> named, boolean bursts, boolean net, boolean edges) {
        for (String name : named) {
            boolean without = name.startsWith(BlendSettings.LEAVE_OUT);
            String pattern = without ? name.substring(1) : name;
            if (StageInputs.of(part, bursts || without, net || without, edges || without).stream()
                    .noneMatch(known -> BlendSettings.matches(pattern, known))) {
                throw BadInput.of(
                        "The recipe's part '%s' names '%s', which is no feature that it sees; datasets/README.md says what each part sees.",
                        part, name);
            }
        }
    }
}
