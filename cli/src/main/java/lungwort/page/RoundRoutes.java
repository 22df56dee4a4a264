package lungwort.page;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import java.util.function.UnaryOperator;
import lungwort.diary.Diary;
import lungwort.diary.Round;
import lungwort.guidance.DangerAnswers;
import lungwort.guidance.UsualSpo2;
import lungwort.json.GuidanceJson;
import lungwort.json.Json;
import lungwort.round.RoundService;
import lungwort.round.RoundView;

/** A round: danger signs, vitals, symptoms, the view of it all, its end. */
final class RoundRoutes {
    private static final Set<String> FIELDS = Set.of("vitals", "symptoms", "symptomWords", "medicines");

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
        routes.get("/api/rounds/{id}", this::look);
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

    /** A page that shows a round looks again whether it is still there. */
    private void look(Context context) {
        UUID id = Ids.of(context);
        if (!diary.rounds().has(id)) {
            throw Refused.erasedRound();
        }
        answer(context, service.view(id));
    }

    private void dangerSigns(Context context) {
        JsonNode body = Body.json(context);
        Json.requireFields(body, "the form", Set.of("yes", "no", "notSure", "noneOf"));
        DangerAnswers given = GuidanceJson.dangerAnswers(body);
        List<String> takenBack = ids(body, "notSure");
        DangerAnswers none = new DangerAnswers(Set.of(), Set.copyOf(ids(body, "noneOf")));
        // What another tab answered stays, unless the same question is answered again; a yes that whoever says "none of
        // them" has not seen is no such question.
        change(
                context,
                round -> round.with(round.dangerSigns()
                        .without(takenBack)
                        .correctedBy(given)
                        .and(none)));
    }

    private static List<String> ids(JsonNode body, String field) {
        List<String> ids = new ArrayList<>();
        if (body.has(field)) {
            Json.list(body, field).forEach(id -> ids.add(id.asText()));
        }
        return ids;
    }

    /** Only fields that were sent are changed. */
    private void answers(Context context) {
        JsonNode form = Body.json(context);
        Json.requireFields(form, "the form", FIELDS);
        JsonNode vitals = form.get("vitals");
        JsonNode symptoms = form.get("symptoms");
        String words = Json.optionalText(form, "symptomWords");
        String medicines = Json.optionalText(form, "medicines");
        change(context, round -> {
            Round changed = vitals == null ? round : round.with(GuidanceJson.vitals(round.vitals(), vitals));
            changed = symptoms == null ? changed : changed.with(GuidanceJson.symptoms(round.symptoms(), symptoms));
            changed = words == null ? changed : changed.withSymptomWords(words);
            return medicines == null ? changed : changed.withMedicines(medicines);
        });
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
        ObjectNode node = PageJson.round(view, service, unfinished);
        UsualSpo2 usual = view.usualSpo2();
        node.put("usualSpo2", usual == null ? null : usual.words());
        Answer.json(context, node);
    }
}
