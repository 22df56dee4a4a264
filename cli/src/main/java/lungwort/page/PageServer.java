package lungwort.page;

import io.javalin.Javalin;
import io.javalin.compression.CompressionStrategy;
import io.javalin.config.JavalinConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpResponseException;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.net.BindException;
import java.util.Objects;
import java.util.function.Consumer;
import lungwort.BadInput;
import lungwort.round.RoundService;
import org.eclipse.jetty.server.ServerConnector;
import org.eclipse.jetty.util.thread.QueuedThreadPool;

/**
 * Serves the page to this computer alone.
 *
 * <pre>{@code
 * try (PageServer page = PageServer.start(service, 0, e -> {})) {
 *     System.out.println(page.address());
 * }
 * }</pre>
 */
public final class PageServer implements AutoCloseable {
    private static final String LOOPBACK = "127.0.0.1";
    private static final int THREADS = 16;

    /** A connection on which nothing comes is ended after this long, in milliseconds. */
    private static final int IDLE_MS = 30_000;

    private final RoundService service;
    private final Keys keys;
    private final Unfinished unfinished;
    private final Consumer<Exception> faults;
    private final Javalin javalin;

    private PageServer(RoundService service, Consumer<Exception> faults) {
        this.service = service;
        this.keys = new Keys(service.diary().clock());
        this.unfinished = new Unfinished(service.diary().folder());
        this.faults = faults;
        this.javalin = Javalin.create(this::configure);
    }

    /**
     * Starts serving.
     *
     * @param service what the page shows; its diary stays open as long as the page is served
     * @param port in [1, 65535], or 0 for any that is free
     * @param faults told of faults inside the program; the browser gets a sentence
     * @throws BadInput if the port is taken
     */
    public static PageServer start(RoundService service, int port, Consumer<Exception> faults) {
        PageServer server = new PageServer(service, faults);
        try {
            server.javalin.start(LOOPBACK, port);
        } catch (RuntimeException e) {
            server.javalin.stop();
            String message = Objects.requireNonNullElse(e.getMessage(), "");
            if (e.getCause() instanceof BindException || message.contains("ort already in use")) {
                throw new BadInput(
                        "Port %d is taken by another program; name another with --port, or leave it out."
                                .formatted(port),
                        e);
            }
            throw e;
        }
        return server;
    }

    /** The address to open, with the key that holds until the page is closed. */
    public String address() {
        return address(keys.printed());
    }

    /** The address with a key that opens once and soon: for the program that opens the browser, whose arguments others on this computer may see. */
    public String addressForOpening() {
        return address(keys.forOpening());
    }

    private String address(String key) {
        return "http://%s:%d%s?key=%s".formatted(LOOPBACK, port(), Guard.ENTER, key);
    }

    /** The port it is served on. */
    public int port() {
        return javalin.port();
    }

    @Override
    public void close() {
        javalin.stop();
    }

    private void configure(JavalinConfig config) {
        config.startup.showJavalinBanner = false;
        config.startup.startupWatcherEnabled = false;
        config.startup.showOldJavalinVersionWarning = false;
        // The stream is bounded where it is read.
        config.http.maxRequestSize = Long.MAX_VALUE;
        config.http.compressionStrategy = CompressionStrategy.NONE;
        config.jetty.threadPool = new QueuedThreadPool(THREADS, 2);
        config.jetty.modifyHttpConfiguration(http -> {
            http.setSendServerVersion(false);
            http.setIdleTimeout(IDLE_MS);
        });
        config.jetty.modifyServer(server -> {
            for (var connector : server.getConnectors()) {
                if (connector instanceof ServerConnector tcp) {
                    tcp.setIdleTimeout(IDLE_MS);
                }
            }
        });
        Guard guard = new Guard(keys, this::port);
        config.routes.before(guard::check);
        config.routes.get(Guard.ENTER, guard::enter);
        new PersonRoutes(service).add(config.routes);
        new RoundRoutes(service, unfinished).add(config.routes);
        new TakeRoutes(service, unfinished).add(config.routes);
        new DiaryRoutes(service).add(config.routes);
        new CompareRoutes(service).add(config.routes);
        new ReportRoutes(service).add(config.routes);
        new EquipmentRoutes(service.diary()).add(config.routes);
        config.routes.get("/", StaticFiles::serve);
        config.routes.get("/<file>", StaticFiles::serve);
        errors(config);
        config.router.javaLangErrorHandler(this::seriousFault);
    }

    private void errors(JavalinConfig config) {
        config.routes.exception(
                Refused.class, (e, context) -> Answer.sentence(context, e.status(), String.valueOf(e.getMessage())));
        config.routes.exception(
                BadInput.class, (e, context) -> Answer.sentence(context, 400, String.valueOf(e.getMessage())));
        config.routes.exception(
                HttpResponseException.class,
                (e, context) -> Answer.sentence(
                        context, e.getStatus(), "There is nothing at this address; go back to the start."));
        config.routes.exception(Exception.class, this::fault);
    }

    private void fault(Exception e, Context context) {
        faults.accept(e);
        Answer.sentence(
                context,
                500,
                "Something went wrong inside Lungwort (%s); nothing stored was changed. Try again, or start it anew."
                        .formatted(e.getClass().getSimpleName()));
    }

    /** What is no exception to Java, such as a full memory: told in a sentence too, and the page goes on for the next request. */
    private void seriousFault(HttpServletResponse response, Error error) {
        faults.accept(new IllegalStateException(error.toString(), error));
        String sentence = error instanceof OutOfMemoryError
                ? "There is too little memory for this; nothing stored was changed. Cut the recording to the breaths that matter, 15 to 30 seconds, and try again."
                : "Something went wrong inside Lungwort (%s); nothing stored was changed. Start it anew."
                        .formatted(error.getClass().getSimpleName());
        try {
            Answer.error(response, 500, sentence);
        } catch (IOException e) {
            faults.accept(e);
        }
    }
}
