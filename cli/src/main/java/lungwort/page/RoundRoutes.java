package lungwort.page;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.UUID;
import java.util.function.UnaryOperator;
import lungwort.BadInput;
import lungwort.diary.Diary;
import lungwort.diary.Round;
import lungwort.guidance.DangerAnswers;
import lungwort.guidance.Symptoms;
import lungwort.guidance.Vitals;
import lungwort.json.GuidanceJson;
import lungwort.json.Json;
import lungwort.round.RoundService;
import lungwort.round.RoundView;
import org.jspecify.annotations.Nullable;

/** A round: danger signs, vitals, symptoms, the view of it all, its end. */
final class RoundRoutes {
    private final RoundService service;
    private final Diary diary;
    private final Unfinished unfinished;

    RoundRoutes(RoundService service, Unfinished unfinished) {
        this.service = service;
        this.diary = service.diary();
        this.unfinished = unfinished;
    }

    void add(RoutesConfig routes) {
        routes.post("/api/persons/{id}/rounds", context -> {
            Body.json(context);
            answer(
                    context,
                    service.view(
                            service.start(diary.persons().get(Ids.of(context))).id()));
        });
        routes.get("/api/rounds/{id}", context -> answer(context, service.view(Ids.of(context))));
        routes.put("/api/rounds/{id}/danger-signs", this::dangerSigns);
        routes.put("/api/rounds/{id}/answers", this::answers);
        routes.post("/api/rounds/{id}/notes", this::note);
        routes.post("/api/rounds/{id}/finish", context -> {
            Body.json(context);
            // The answer shows which takes stay without an examination.
            List<String> unused = service.examinePending(Ids.of(context));
            answer(context, service.finish(Ids.of(context)));
        });
    }

    private void dangerSigns(Context context) {
        JsonNode body = Body.json(context);
        DangerAnswers given = GuidanceJson.dangerAnswers(body);
        List<String> takenBack = new ArrayList<>();
        if (body.has("notSure")) {
            Json.list(body, "notSure").forEach(id -> takenBack.add(id.asText()));
        }
        change(context, round -> round.with(onto(round.dangerSigns().without(takenBack), given)));
    }

    /** What another tab answered stays, unless the same question is answered again. */
    private static DangerAnswers onto(DangerAnswers before, DangerAnswers given) {
        Set<String> yes = new TreeSet<>(before.yes());
        yes.removeAll(given.no());
        yes.addAll(given.yes());
        Set<String> no = new TreeSet<>(before.no());
        no.removeAll(given.yes());
        no.addAll(given.no());
        return new DangerAnswers(yes, no);
    }

    private void answers(Context context) {
        JsonNode form = Body.json(context);
        change(context, round -> {
            Vitals vitals = GuidanceJson.vitals(onto(GuidanceJson.toJson(round.vitals()), form.get("vitals")));
            Symptoms symptoms =
                    GuidanceJson.symptoms(onto(GuidanceJson.toJson(round.symptoms()), form.get("symptoms")));
            return round.with(vitals)
                    .with(symptoms)
                    .withSymptomWords(form.path("symptomWords").asText(round.symptomWords()))
                    .withMedicines(form.path("medicines").asText(round.medicines()));
        });
    }

    /** Only fields that were sent are changed; a name that is not known is refused, not passed over as if it had not been measured. */
    private static ObjectNode onto(ObjectNode before, @Nullable JsonNode sent) {
        if (sent == null || sent.isNull()) {
            return before;
        }
        for (var field : sent.properties()) {
            if (!before.has(field.getKey())) {
                throw new BadInput("The field \"%s\" is not known.".formatted(field.getKey()));
            }
            before.set(field.getKey(), field.getValue());
        }
        return before;
    }

    private void change(Context context, UnaryOperator<Round> change) {
        answer(context, service.change(Ids.of(context), change));
    }

    private void note(Context context) {
        UUID id = Ids.of(context);
        String words = Json.text(Body.json(context), "words");
        diary.notes().add(diary.rounds().get(id).personId(), id, words);
        answer(context, service.view(id));
    }

    private void answer(Context context, RoundView view) {
        ObjectNode node = PageJson.round(view, diary, unfinished);
        node.put(
                "usualSpo2Percent",
                service.usualSpo2(view.person(), view.round().day()));
        Answer.json(context, node);
    }
}
