package lungwort.diary;

import java.time.OffsetDateTime;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A note in free words.
 *
 * @param id its id
 * @param personId whom it is about
 * @param roundId the round it belongs to, or null
 * @param writtenAt when it was written, in local time
 * @param words the note
 */
public record Note(UUID id, UUID personId, @Nullable UUID roundId, OffsetDateTime writtenAt, String words) {}
