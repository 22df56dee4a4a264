package lungwort.diary;

import java.util.UUID;
import lungwort.guidance.Site;
import lungwort.guidance.TakeReason;
import org.jspecify.annotations.Nullable;

/**
 * A take to be stored; the fields are those of {@link Take}.
 *
 * @param roundId the round it belongs to
 * @param site where
 * @param reason why it was made
 * @param fileName what its file is called: cut to its last part and to {@value #MAX_NAME_LENGTH} characters
 * @param breathHeard true if breath sounds were clearly heard, false if hardly any, null where nobody said
 * @param knownToClinician true if a clinician calls the sound at this site usual for this person
 */
public record NewTake(
        UUID roundId,
        Site site,
        TakeReason reason,
        String fileName,
        @Nullable Boolean breathHeard,
        boolean knownToClinician) {
    /** Longest file name that is kept, in characters. */
    public static final int MAX_NAME_LENGTH = 120;

    public NewTake {
        String last = fileName.substring(Math.max(fileName.lastIndexOf('/'), fileName.lastIndexOf('\\')) + 1);
        String clean = last.replaceAll("\\p{Cntrl}", " ").strip();
        fileName = clean.length() > MAX_NAME_LENGTH ? clean.substring(clean.length() - MAX_NAME_LENGTH) : clean;
    }

    /** A take about which nothing else was said. */
    public NewTake(UUID roundId, Site site, TakeReason reason, String fileName) {
        this(roundId, site, reason, fileName, null, false);
    }
}
