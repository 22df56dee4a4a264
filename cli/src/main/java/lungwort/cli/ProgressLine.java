package lungwort.cli;

import java.io.PrintWriter;
import lungwort.score.Progress;

/** Progress on stderr: one line that is written over on a terminal, a line for each tenth of the way elsewhere. */
final class ProgressLine implements Progress {
    private static final int WIDTH = 78;

    private final PrintWriter err;
    private final boolean terminal;
    private String lastWhat = "";
    private int lastTenth = -1;
    private boolean open;

    ProgressLine(PrintWriter err) {
        this(err, System.console() != null);
    }

    ProgressLine(PrintWriter err, boolean terminal) {
        this.err = err;
        this.terminal = terminal;
    }

    @Override
    public synchronized void at(String what, int done, int total) {
        String line = total > 0 ? "%s: %d of %d".formatted(what, done, total) : what;
        if (terminal) {
            err.print("\r" + (line + " ".repeat(WIDTH)).substring(0, WIDTH));
            open = true;
        } else {
            int tenth = total > 0 ? 10 * done / total : 0;
            if (what.equals(lastWhat) && tenth <= lastTenth) {
                return;
            }
            lastWhat = what;
            lastTenth = tenth;
            err.println(line);
        }
        err.flush();
    }

    /** Ends the line. */
    synchronized void done() {
        if (open) {
            err.print("\r" + " ".repeat(WIDTH) + "\r");
            err.flush();
            open = false;
        }
    }
}
