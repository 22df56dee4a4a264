package lungwort.page;

import io.javalin.config.RoutesConfig;
import java.util.Objects;
import java.util.UUID;
import lungwort.round.RoundJson;
import lungwort.round.RoundService;
import org.jspecify.annotations.Nullable;

/** Any two takes beside each other, as the commands put them. */
final class CompareRoutes {
    private final RoundService service;

    CompareRoutes(RoundService service) {
        this.service = service;
    }

    void add(RoutesConfig routes) {
        routes.get(
                "/api/compare",
                context -> Answer.json(
                        context,
                        RoundJson.toJson(
                                service.comparing().takes(id(context.queryParam("a")), id(context.queryParam("b"))))));
    }

    private static UUID id(@Nullable String text) {
        return Ids.parse(Objects.requireNonNullElse(text, ""));
    }
}
