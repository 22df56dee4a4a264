package lungwort.diary;

import java.time.OffsetDateTime;
import java.util.Optional;
import java.util.UUID;
import lungwort.examine.Examination;
import lungwort.guidance.Site;
import lungwort.guidance.TakeReason;
import org.jspecify.annotations.Nullable;

/**
 * One recording at one site within a round.
 *
 * @param id its id
 * @param roundId the round it belongs to
 * @param site where
 * @param reason why it was made
 * @param recordedAt when it was added, in local time; takes of a round stand in this order
 * @param recordingSha256 the key of its recording in {@link RecordingStore}
 * @param fileName what its file was called: a label, never a path
 * @param breathHeard true if breath sounds were clearly heard by the person who listened, false if hardly any, null where nobody said
 * @param knownToClinician true if a clinician calls the sound at this site usual for this person
 * @param breathingStopped what a stretch without a breath in it was: true if the breathing stopped by itself, false if not, null where nobody said
 * @param examined its newest examination, or null while there is none
 */
public record Take(
        UUID id,
        UUID roundId,
        Site site,
        TakeReason reason,
        OffsetDateTime recordedAt,
        String recordingSha256,
        String fileName,
        @Nullable Boolean breathHeard,
        boolean knownToClinician,
        @Nullable Boolean breathingStopped,
        @Nullable Examined examined) {
    /** The newest examination; empty while there is none. */
    public Optional<Examination> examination() {
        return Optional.ofNullable(examined).map(Examined::examination);
    }

    /** True if who listened said that the breathing stopped by itself in it: a danger sign that no question asks for. */
    public boolean stoppedByItself() {
        return Boolean.TRUE.equals(breathingStopped);
    }
}
