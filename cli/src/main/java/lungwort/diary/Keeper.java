package lungwort.diary;

import java.io.IOException;
import java.sql.Connection;
import java.sql.SQLException;
import java.util.List;
import lungwort.BadInput;
import lungwort.diary.RecordingStore.Incoming;
import lungwort.diary.RecordingStore.Keeping;

/** Keeps recordings with the rows that name them: both are there, or neither. */
final class Keeper {
    private final Database database;
    private final RecordingStore recordings;

    Keeper(Database database, RecordingStore recordings) {
        this.database = database;
        this.recordings = recordings;
    }

    /** Gives a recording its lasting name; called inside the write transaction that names it. If that is taken back, the recording goes with it. */
    void keep(Incoming incoming) {
        Keeping keeping = recordings.keep(incoming);
        if (keeping != null) {
            database.afterwards(committed -> {
                if (committed) {
                    recordings.kept(keeping);
                } else {
                    settle(List.of(keeping));
                }
            });
        }
    }

    /** Deletes recordings that processes stopped by force had kept, and not come to name. */
    void sweep() throws IOException {
        List<Keeping> left = recordings.unsettled();
        if (!left.isEmpty()) {
            settle(left);
        }
    }

    private void settle(List<Keeping> keepings) {
        try {
            database.write(c -> {
                for (Keeping keeping : keepings) {
                    settle(c, keeping);
                }
                return true;
            });
        } catch (BadInput e) {
            // The mark stays, and the next start tries again: it must neither hide why the recording could not be named
            // nor keep anybody from the diary.
            return;
        }
    }

    private void settle(Connection c, Keeping keeping) throws SQLException {
        boolean named = Sql.number(c, "select count(*) from take where recording_sha256 = ?", keeping.hash()) > 0;
        try {
            recordings.settle(keeping, named);
        } catch (IOException e) {
            throw new BadInput(
                    "A recording that no take names could not be deleted (%s).".formatted(e.getMessage()), e);
        }
    }
}
