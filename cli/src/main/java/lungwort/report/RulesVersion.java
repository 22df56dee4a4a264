package lungwort.report;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.Objects;
import lungwort.LungwortVersion;
import lungwort.guidance.Guidance;

/** Which rules a report goes by, so that who checks a limit can find the very file. */
final class RulesVersion {
    private static final String FILE = "rules.json";
    private static final int DIGITS = 16;
    private static final String WORDS = "rules of Lungwort %s (%s, SHA-256 %s..)"
            .formatted(LungwortVersion.CURRENT, FILE, digest().substring(0, DIGITS));

    private RulesVersion() {}

    static String words() {
        return WORDS;
    }

    private static String digest() {
        try (InputStream in = Objects.requireNonNull(Guidance.class.getResourceAsStream(FILE), FILE)) {
            return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(in.readAllBytes()));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java platform must have SHA-256", e);
        }
    }
}
