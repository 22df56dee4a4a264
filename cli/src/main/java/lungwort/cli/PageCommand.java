package lungwort.cli;

import java.io.PrintWriter;
import java.util.Objects;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import lungwort.diary.Diary;
import lungwort.page.Browser;
import lungwort.page.PageServer;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** Serves the page. */
@Command(
        name = "page",
        mixinStandardHelpOptions = true,
        description = {
            "Open Lungwort as a page in the browser of this computer: a guided round, the diary, the equipment check.",
            "It is served to this computer alone and sends nothing anywhere. Keep the printed address to yourself; it opens the diary."
        },
        footer = {"", "Example: lungwort page", "End it with Ctrl-C."})
final class PageCommand implements Callable<Integer> {
    private static final int MAX_PORT = 65_535;

    private final RoundServices services;
    private final Runnable warmUp;

    @Spec
    private @Nullable CommandSpec spec;

    @Mixin
    private final DiaryOption diaryOption = new DiaryOption();

    @Option(names = "--port", paramLabel = "N", description = "Port to serve on; without it, any that is free.")
    private int port;

    @Option(names = "--no-open", description = "Only print the address; do not open the browser.")
    private boolean noOpen;

    /** @param warmUp run beside the page's start, so that the first take is examined as fast as the later ones */
    PageCommand(RoundServices services, Runnable warmUp) {
        this.services = services;
        this.warmUp = warmUp;
    }

    @Override
    public Integer call() throws InterruptedException {
        CommandSpec known = Objects.requireNonNull(spec);
        if (port < 0 || port > MAX_PORT) {
            throw new ParameterException(known.commandLine(), "--port is a number from 1 to 65535.");
        }
        PrintWriter out = known.commandLine().getOut();
        try (Diary diary = diaryOption.open();
                PageServer page = PageServer.start(services.of(diary), port, this::trace)) {
            out.println("Lungwort is at this address, on this computer only, until you press Ctrl-C here:");
            out.println();
            out.println("  " + page.address());
            out.println();
            out.flush();
            Thread warming = new Thread(warmUp, "warming up");
            warming.setDaemon(true);
            warming.start();
            if (!noOpen && !Browser.open(page.addressForOpening())) {
                out.println("The browser could not be opened from here: copy the address into it.");
                out.flush();
            }
            untilEnded(page);
            return 0;
        }
    }

    /** Waits for Ctrl-C or the end of the thread. */
    private static void untilEnded(PageServer page) throws InterruptedException {
        Thread ending = new Thread(page::close, "end of the page");
        Runtime.getRuntime().addShutdownHook(ending);
        new CountDownLatch(1).await();
    }

    private void trace(Exception e) {
        if (System.getenv("LUNGWORT_TRACE") != null) {
            PrintWriter err = Objects.requireNonNull(spec).commandLine().getErr();
            e.printStackTrace(err);
            err.flush();
        }
    }
}
