package lungwort.score;

/** Told how far long work is. Called from several threads. */
public interface Progress {
    /** Tells nobody. */
    Progress SILENT = (what, done, total) -> {};

    /**
     * @param what is being done, for example {@code measuring}
     * @param done steps done
     * @param total steps in all; 0 if unknown
     */
    void at(String what, int done, int total);
}
