package lungwort.diary;

import java.util.UUID;
import lungwort.guidance.Site;

/**
 * The followed numbers of a take that could be judged.
 *
 * @param roundId its round
 * @param site where
 * @param measures the numbers of its newest examination
 */
record Measured(UUID roundId, Site site, Measures measures) {}
