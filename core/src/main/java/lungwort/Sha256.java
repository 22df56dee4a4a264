package lungwort;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;

/** SHA-256 (FIPS 180-4) in 64 lower-case hexadecimal digits, as {@code sha256sum} prints it. */
public final class Sha256 {
    private static final int BLOCK_BYTES = 1 << 16;

    private Sha256() {}

    /** A digest to feed bit by bit; {@link #hex(MessageDigest)} ends it. */
    public static MessageDigest start() {
        try {
            return MessageDigest.getInstance("SHA-256");
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java platform must have SHA-256", e);
        }
    }

    /** The digits of what was fed; the digest then begins anew. */
    public static String hex(MessageDigest fed) {
        return HexFormat.of().formatHex(fed.digest());
    }

    /** The digits of some bytes. */
    public static String hex(byte[] bytes) {
        return HexFormat.of().formatHex(start().digest(bytes));
    }

    /** The digits of a text in UTF-8. */
    public static String hex(String text) {
        return hex(text.getBytes(StandardCharsets.UTF_8));
    }

    /** The digits of a stream to its end; it stays open. */
    public static String hex(InputStream in) throws IOException {
        MessageDigest digest = start();
        byte[] block = new byte[BLOCK_BYTES];
        for (int n = in.read(block); n >= 0; n = in.read(block)) {
            digest.update(block, 0, n);
        }
        return hex(digest);
    }
}
