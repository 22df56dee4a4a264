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
 * @param continuousNotMeasured true if it suggests a continuous sound and measured none: its zero says nothing
 * @param cracklesNotMeasured the same of crackles
 */
record Measured(
        UUID roundId, Site site, Measures measures, boolean continuousNotMeasured, boolean cracklesNotMeasured) {
    private static final String CONTINUOUS = "continuousNotMeasured";
    private static final String CRACKLES = "cracklesNotMeasured";

    /** The numbers as they are kept beside an examination. */
    static ObjectNode toJson(Examination examination) {
        return MeasuresJson.toJson(Measures.of(examination))
                .put(CONTINUOUS, suggestedNotMeasured(examination, true))
                .put(CRACKLES, suggestedNotMeasured(examination, false));
    }

    /** Of numbers that are kept; those that an older Lungwort kept do not say what was suggested. */
    static Measured of(UUID roundId, Site site, JsonNode kept) {
        return new Measured(
                roundId,
                site,
                MeasuresJson.fromJson(kept),
                kept.path(CONTINUOUS).asBoolean(false),
                kept.path(CRACKLES).asBoolean(false));
    }

    private static boolean suggestedNotMeasured(Examination examination, boolean continuous) {
        return examination.suggestion().names(continuous)
                && examination.evidence().stream()
                        .noneMatch(e -> e.sound().kind().continuous() == continuous);
    }

    /** Share of the breath, or null where it is not measured. */
    @Nullable
    Double wheezeShare() {
        return continuousNotMeasured ? null : (Double) measures.wheezeShare();
    }

    /** Number a breath, or null where it is not measured. */
    @Nullable
    Double cracklesPerBreath() {
        return cracklesNotMeasured ? null : measures.cracklesPerBreath();
    }
}
