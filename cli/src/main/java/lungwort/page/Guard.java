package lungwort.page;

import io.javalin.http.Context;
import io.javalin.http.Cookie;
import io.javalin.http.HandlerType;
import io.javalin.http.HttpStatus;
import io.javalin.http.SameSite;
import java.util.Set;
import java.util.function.IntSupplier;

/**
 * Lets in only the browser that was given the key, and only from this page: Host against names that point here from elsewhere (DNS rebinding), Origin and Fetch Metadata
 * against other pages in the same browser, a strict cookie against everybody else on this computer. Sets the headers that bind the browser.
 */
final class Guard {
    /** The page that exchanges a key for the cookie. */
    static final String ENTER = "/enter";

    /** Nothing but files of this server: no inline script or style, no frame, no other host. */
    static final String CONTENT_SECURITY_POLICY = String.join(
            "; ",
            "default-src 'none'",
            "script-src 'self'",
            "style-src 'self'",
            "img-src 'self' data: blob:",
            "media-src 'self' blob:",
            "connect-src 'self'",
            "worker-src 'self'",
            "frame-ancestors 'none'",
            "base-uri 'none'",
            "form-action 'none'");

    private static final Set<String> HOSTS = Set.of("127.0.0.1", "localhost");
    private static final Set<HandlerType> READING = Set.of(HandlerType.GET, HandlerType.HEAD);

    private final Keys keys;
    private final IntSupplier port;

    Guard(Keys keys, IntSupplier port) {
        this.keys = keys;
        this.port = port;
    }

    /** Runs before everything else. */
    void check(Context context) {
        headers(context);
        host(context);
        if (context.path().equals(ENTER)) {
            return;
        }
        origin(context);
        if (!keys.knows(context.cookie(cookieName()))) {
            throw new Refused(
                    403,
                    "This page opens only with the address that `lungwort page` printed; copy that whole address into the browser.");
        }
    }

    /** Exchanges a key for the cookie. */
    void enter(Context context) {
        if (!keys.opens(context.queryParam("key"))) {
            throw new Refused(
                    403,
                    "This address has gone stale: it belongs to an earlier start, or was used before. Copy the address that `lungwort page` printed.");
        }
        Cookie cookie = new Cookie(cookieName(), keys.cookie(), "/", -1, false, true, null, SameSite.STRICT);
        context.cookie(cookie);
        context.redirect("/", HttpStatus.SEE_OTHER);
    }

    /** Cookies do not tell ports apart, so the name does: two pages on two ports do not shut each other out. */
    String cookieName() {
        return "lungwort-" + port.getAsInt();
    }

    private static void headers(Context context) {
        context.header("Content-Security-Policy", CONTENT_SECURITY_POLICY)
                .header("X-Content-Type-Options", "nosniff")
                .header("X-Frame-Options", "DENY")
                .header("Referrer-Policy", "no-referrer")
                .header("Cross-Origin-Opener-Policy", "same-origin")
                .header("Cross-Origin-Resource-Policy", "same-origin")
                .header("Permissions-Policy", "microphone=(self), camera=(), geolocation=(), payment=(), usb=()")
                .header("Cache-Control", "no-store");
    }

    private void host(Context context) {
        String host = context.header("Host");
        boolean ours = host != null && HOSTS.stream().anyMatch(name -> host.equals(name + ":" + port.getAsInt()));
        if (!ours) {
            throw new Refused(
                    403, "This page answers only at http://127.0.0.1:%d on this computer.".formatted(port.getAsInt()));
        }
    }

    private static void origin(Context context) {
        String origin = context.header("Origin");
        boolean foreign = origin != null && !origin.equals("http://" + context.header("Host"));
        boolean changes = !READING.contains(context.method());
        String site = context.header("Sec-Fetch-Site");
        boolean fromElsewhere = site != null && !site.equals("same-origin") && !(site.equals("none") && !changes);
        // A reload after the redirect of a link elsewhere counts as cross-site; the front page alone may be asked for
        // so.
        boolean front = context.path().equals("/") && !changes;
        if (foreign || (fromElsewhere && !front) || (changes && origin == null)) {
            throw new Refused(403, "This request came from another page and was refused; nothing was changed.");
        }
    }
}
