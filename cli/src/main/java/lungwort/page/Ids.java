package lungwort.page;

import io.javalin.http.Context;
import java.util.UUID;

/** Ids in addresses. */
final class Ids {
    private Ids() {}

    /** @throws Refused with 404 if it is none */
    static UUID of(Context context) {
        return parse(context.pathParam("id"));
    }

    static UUID parse(String text) {
        try {
            return UUID.fromString(text);
        } catch (IllegalArgumentException e) {
            throw new Refused(404, "There is nothing at this address; go back to the start.");
        }
    }
}
