package lungwort.page;

import com.fasterxml.jackson.databind.JsonNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.List;
import lungwort.BadInput;
import lungwort.diary.Diary;
import lungwort.diary.Person;
import lungwort.diary.Settings.TemperatureUnit;
import lungwort.guidance.ClinicianLimits;
import lungwort.guidance.Conditions;
import lungwort.guidance.EmergencyNumber;
import lungwort.json.GuidanceJson;
import lungwort.json.Json;
import lungwort.round.RoundJson;
import lungwort.round.RoundService;
import org.jspecify.annotations.Nullable;

/** Persons and what holds for all of them. */
final class PersonRoutes {
    private final RoundService service;
    private final Diary diary;

    PersonRoutes(RoundService service) {
        this.service = service;
        this.diary = service.diary();
    }

    void add(RoutesConfig routes) {
        routes.get("/api/start", context -> Answer.json(context, PageJson.start(service)));
        routes.post("/api/persons", this::addPerson);
        routes.put("/api/persons/{id}", this::changePerson);
        routes.put("/api/settings", this::settings);
    }

    private void addPerson(Context context) {
        JsonNode form = Body.json(context);
        Person person = diary.persons()
                .add(
                        Json.text(form, "nickname"),
                        month(Json.text(form, "birthMonth")),
                        conditions(form, Conditions.NONE),
                        form.path("about").asText(""),
                        limits(form, ClinicianLimits.NONE));
        answer(context, person);
    }

    private void changePerson(Context context) {
        JsonNode form = Body.json(context);
        Person changed = diary.together(() -> {
            Person person = diary.persons().get(Ids.of(context));
            refuseChangedMeanwhile(form, person);
            Person now = person.withNickname(form.path("nickname").asText(person.nickname()))
                    .withBirthMonth(form.has("birthMonth") ? month(Json.text(form, "birthMonth")) : person.birthMonth())
                    .withConditions(conditions(form, person.conditions()))
                    .withAbout(form.path("about").asText(person.about()))
                    .withLimits(limits(form, person.limits()));
            diary.persons().change(now);
            return now;
        });
        answer(context, changed);
    }

    /** Two windows that change the same thing of a person: the second would take back what the first one wrote, without having seen it. */
    private static void refuseChangedMeanwhile(JsonNode form, Person stored) {
        JsonNode before = form.path("before");
        List<String> changed = new ArrayList<>();
        if (form.has("conditions") && !conditions(before, stored.conditions()).equals(stored.conditions())) {
            changed.add("\"Known conditions\"");
        }
        if (form.has("about") && !before.path("about").asText(stored.about()).equals(stored.about())) {
            changed.add("\"Anything else worth knowing\"");
        }
        if (form.has("limits") && !limits(before, stored.limits()).equals(stored.limits())) {
            changed.add("\"Limits that a clinician set\"");
        }
        if (!changed.isEmpty()) {
            throw new Refused(
                    409,
                    "This was changed in another window meanwhile: %s. Nothing was stored; open this page again, look at what stands there now, and change that."
                            .formatted(String.join(", ", changed)));
        }
    }

    private void answer(Context context, Person person) {
        Answer.json(context, RoundJson.person(person, person.age(LocalDate.now(diary.clock()))));
    }

    private void settings(Context context) {
        JsonNode form = Body.json(context);
        String number = Json.optionalText(form, "emergencyNumber");
        if (number != null) {
            diary.settings().setEmergencyNumber(new EmergencyNumber(number));
        }
        String unit = Json.optionalText(form, "temperatureUnit");
        if (unit != null) {
            diary.settings().setTemperatureUnit(unit(unit));
        }
        Answer.json(context, PageJson.settings(diary));
    }

    private static TemperatureUnit unit(String name) {
        return switch (name) {
            case "celsius" -> TemperatureUnit.CELSIUS;
            case "fahrenheit" -> TemperatureUnit.FAHRENHEIT;
            default -> throw new BadInput("The unit \"%s\" is not known; use celsius or fahrenheit.".formatted(name));
        };
    }

    private static Conditions conditions(JsonNode form, Conditions otherwise) {
        return form.has("conditions") ? GuidanceJson.conditions(Json.list(form, "conditions")) : otherwise;
    }

    private static ClinicianLimits limits(JsonNode form, ClinicianLimits otherwise) {
        JsonNode limits = form.get("limits");
        return limits == null || limits.isNull() ? otherwise : GuidanceJson.limits(limits);
    }

    private static YearMonth month(@Nullable String text) {
        try {
            return YearMonth.parse(text == null ? "" : text.strip());
        } catch (DateTimeException e) {
            throw new BadInput("The month of birth \"%s\" cannot be read; give a year and a month.".formatted(text), e);
        }
    }
}
