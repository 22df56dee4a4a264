package lungwort.page;

import com.fasterxml.jackson.databind.JsonNode;
import io.javalin.http.Context;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.channels.Channels;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import lungwort.BadInput;
import lungwort.diary.OwnerOnly;
import lungwort.json.Json;

/** Reads what a browser sends: never more than is allowed, and not for longer. */
final class Body {
    /** Longest form, in bytes. */
    static final int MAX_FORM_BYTES = 200_000;

    /** Longest time for sending a body. */
    static final Duration MAX_TIME = Duration.ofSeconds(60);

    private static final int BLOCK_BYTES = 1 << 16;

    /**
     * What is too long by no more than this is read to its end and thrown away before it is refused: an answer that comes while the other side still sends closes the connection
     * under it, and the sentence is lost.
     */
    private static final long DISCARDED_BYTES = 1 << 20;

    private Body() {}

    /** A form as JSON. */
    static JsonNode json(Context context) {
        JsonNode node = Json.parse(new String(bytes(context, MAX_FORM_BYTES), StandardCharsets.UTF_8), "the form");
        if (!node.isObject()) {
            throw new BadInput("The form is not a JSON object.");
        }
        return node;
    }

    /**
     * @param maxBytes most that is read
     * @throws Refused with 413 if there is more, with 408 if it takes too long
     */
    static byte[] bytes(Context context, int maxBytes) {
        long announced = context.req().getContentLengthLong();
        if (announced > maxBytes) {
            if (announced - maxBytes <= DISCARDED_BYTES) {
                discard(context);
            }
            throw tooLarge(context, maxBytes);
        }
        ByteArrayOutputStream all = new ByteArrayOutputStream((int) Math.max(BLOCK_BYTES, announced));
        try {
            copy(context, all, maxBytes, MAX_TIME, "longer than a minute");
        } catch (IOException e) {
            throw new Refused(400, "Sending was cut off; try again.");
        }
        return all.toByteArray();
    }

    /**
     * Writes what comes to a new file that its owner alone can read.
     *
     * @param maxBytes most that is taken
     * @param maxTime longest time for sending it
     * @throws Refused with 413 if there is more, with 408 if it takes too long, with 507 if it cannot be written
     */
    static void toFile(Context context, Path file, long maxBytes, Duration maxTime) {
        if (context.req().getContentLengthLong() > maxBytes) {
            throw tooLarge(context, maxBytes);
        }
        try (OutputStream out = Channels.newOutputStream(OwnerOnly.create(file))) {
            copy(context, out, maxBytes, maxTime, "too long");
        } catch (IOException e) {
            throw new Refused(507, "The file could not be taken in whole; check the free space, and try again.");
        }
    }

    /** @param tooLong how long sending took where it took longer than that, as words */
    private static void copy(Context context, OutputStream out, long maxBytes, Duration maxTime, String tooLong)
            throws IOException {
        long deadline = System.nanoTime() + maxTime.toNanos();
        byte[] block = new byte[BLOCK_BYTES];
        long all = 0;
        try (InputStream in = context.bodyInputStream()) {
            for (int n = in.read(block); n >= 0; n = in.read(block)) {
                all += n;
                if (all > maxBytes) {
                    throw tooLarge(context, maxBytes);
                }
                out.write(block, 0, n);
                if (System.nanoTime() - deadline > 0) {
                    context.header("Connection", "close");
                    throw new Refused(408, "Sending took %s and was ended; try again.".formatted(tooLong));
                }
            }
        }
    }

    private static void discard(Context context) {
        try (InputStream in = context.bodyInputStream()) {
            in.transferTo(OutputStream.nullOutputStream());
        } catch (IOException e) {
            // Whoever stops sending gets the same answer, if it can still be given.
            context.header("Connection", "close");
        }
    }

    private static Refused tooLarge(Context context, long maxBytes) {
        context.header("Connection", "close");
        return new Refused(
                413,
                maxBytes >= 1_000_000
                        ? "This file is larger than the %d MB that the page takes%s."
                                .formatted(
                                        maxBytes / 1_000_000,
                                        maxBytes > Integer.MAX_VALUE ? "" : "; cut it to the breaths that matter")
                        : "This form is too long.");
    }
}
