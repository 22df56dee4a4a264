package lungwort.diary;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.UUID;
import lungwort.examine.Examination;
import lungwort.guidance.Site;
import org.jspecify.annotations.Nullable;

/**
 * The followed numbers of a take that could be judged.
 *
 * @param roundId its round
 * @param site where
 * @param measures the numbers of its newest examination
 * @param continuousTold true if its number of continuous sounds says something ({@link Examination#tellsNumber})
 * @param cracklesTold the same of crackles
 * @param continuousNotMeasured true if it suggests a continuous sound and measured none
 * @param cracklesNotMeasured the same of crackles
 * @param namesSound true if it suggests an extra sound
 */
record Measured(
        UUID roundId,
        Site site,
        Measures measures,
        boolean continuousTold,
        boolean cracklesTold,
        boolean continuousNotMeasured,
        boolean cracklesNotMeasured,
        boolean namesSound) {
    private static final String CONTINUOUS_TOLD = "continuousTold";
    private static final String CRACKLES_TOLD = "cracklesTold";
    private static final String CONTINUOUS = "continuousNotMeasured";
    private static final String CRACKLES = "cracklesNotMeasured";
    private static final String NAMES_SOUND = "namesSound";

    /** The numbers as they are kept beside an examination. */
    static ObjectNode toJson(Examination examination) {
        return MeasuresJson.toJson(Measures.of(examination))
                .put(CONTINUOUS_TOLD, examination.tellsNumber(true))
                .put(CRACKLES_TOLD, examination.tellsNumber(false))
                .put(CONTINUOUS, suggestedNotMeasured(examination, true))
                .put(CRACKLES, suggestedNotMeasured(examination, false))
                .put(NAMES_SOUND, examination.suggestion().namesSound());
    }

    /** Of numbers that are kept; those that an older Lungwort kept do not say what was suggested. */
    static Measured of(UUID roundId, Site site, JsonNode kept) {
        return new Measured(
                roundId,
                site,
                MeasuresJson.fromJson(kept),
                told(kept, CONTINUOUS_TOLD, CONTINUOUS),
                told(kept, CRACKLES_TOLD, CRACKLES),
                kept.path(CONTINUOUS).asBoolean(false),
                kept.path(CRACKLES).asBoolean(false),
                kept.path(NAMES_SOUND).asBoolean(false));
    }

    /** The one of two takes at a site, made one after the other, that stands for it: none heard in one take hides no sound of the other. */
    static Measured moreTelling(Measured earlier, Measured later) {
        return !earlier.namesSound && later.namesSound ? later : earlier;
    }

    private static boolean told(JsonNode kept, String told, String notMeasured) {
        return kept.path(told).asBoolean(!kept.path(notMeasured).asBoolean(false));
    }

    private static boolean suggestedNotMeasured(Examination examination, boolean continuous) {
        return examination.suggestion().names(continuous)
                && examination.evidence().stream()
                        .noneMatch(e -> e.sound().kind().continuous() == continuous);
    }

    /** Share of the breath, or null where it says nothing: a zero would read as if there were none. */
    @Nullable
    Double wheezeShare() {
        return continuousTold ? (Double) measures.wheezeShare() : null;
    }

    /** Number a breath, or null where it says nothing. */
    @Nullable
    Double cracklesPerBreath() {
        return cracklesTold ? measures.cracklesPerBreath() : null;
    }
}
