package lungwort.page;

import com.fasterxml.jackson.databind.JsonNode;
import io.javalin.http.Context;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import lungwort.json.Json;

/** Answers. */
final class Answer {
    private Answer() {}

    static void json(Context context, JsonNode node) {
        context.contentType("application/json; charset=utf-8").result(Json.compact(node));
    }

    /** A sentence: as JSON where a script asked, else as a page. */
    static void sentence(Context context, int status, String sentence) {
        context.status(status);
        if (context.path().startsWith("/api/")) {
            json(context, Json.object().put("error", sentence));
        } else {
            context.html(
                    "<!DOCTYPE html><html lang=\"en\"><meta charset=\"utf-8\"><meta name=\"viewport\" content=\"width=device-width\">"
                            + "<title>Lungwort</title><h1>Lungwort</h1><p>" + escaped(sentence) + "</p></html>");
        }
    }

    /** A sentence as JSON, where the request's own context is lost. */
    static void error(HttpServletResponse response, int status, String sentence) throws IOException {
        response.setStatus(status);
        response.setContentType("application/json; charset=utf-8");
        byte[] body = Json.compact(Json.object().put("error", sentence)).getBytes(StandardCharsets.UTF_8);
        response.getOutputStream().write(body);
    }

    private static String escaped(String text) {
        return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;");
    }
}
