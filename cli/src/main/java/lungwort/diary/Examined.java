package lungwort.diary;

import java.time.OffsetDateTime;
import java.util.UUID;
import lungwort.examine.Examination;

/**
 * An examination as the diary keeps it; its model stands in {@link Examination#model()}.
 *
 * @param id its id
 * @param at when it was made, in local time
 * @param examination what the pipeline returned
 * @param lungwortVersion the version of Lungwort that made it
 */
public record Examined(UUID id, OffsetDateTime at, Examination examination, String lungwortVersion) {}
