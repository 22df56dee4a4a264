package lungwort.page;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.time.Clock;
import java.time.Instant;
import java.util.Base64;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.jspecify.annotations.Nullable;

/**
 * Who may enter: made anew at every start. An address with a key is exchanged for a cookie that scripts cannot read. The key printed for the person holds until the
 * program ends; the key handed to the program that opens the browser stands in the list of running programs for a moment, so it opens once and soon goes stale.
 */
final class Keys {
    static final long OPENING_KEY_SECONDS = 120;

    private static final int KEY_BYTES = 32;
    private static final SecureRandom RANDOM = new SecureRandom();

    private final Clock clock;
    private final String printed = random();
    private final String cookie = random();
    private final Map<String, Instant> opening = new ConcurrentHashMap<>();

    Keys(Clock clock) {
        this.clock = clock;
    }

    /** The key that holds until the program ends. */
    String printed() {
        return printed;
    }

    /** What the cookie holds. */
    String cookie() {
        return cookie;
    }

    /** A key that opens once within {@value #OPENING_KEY_SECONDS} seconds. */
    String forOpening() {
        String key = random();
        opening.put(key, clock.instant().plusSeconds(OPENING_KEY_SECONDS));
        return key;
    }

    /** True if the key opens. */
    boolean opens(@Nullable String key) {
        if (key == null) {
            return false;
        }
        Instant until = opening.remove(key);
        return same(printed, key) || (until != null && clock.instant().isBefore(until));
    }

    /** True if the cookie is the one given out. */
    boolean knows(@Nullable String value) {
        return value != null && same(cookie, value);
    }

    /** Compared in constant time. */
    private static boolean same(String a, String b) {
        return MessageDigest.isEqual(a.getBytes(StandardCharsets.UTF_8), b.getBytes(StandardCharsets.UTF_8));
    }

    private static String random() {
        byte[] bytes = new byte[KEY_BYTES];
        RANDOM.nextBytes(bytes);
        return Base64.getUrlEncoder().withoutPadding().encodeToString(bytes);
    }
}
