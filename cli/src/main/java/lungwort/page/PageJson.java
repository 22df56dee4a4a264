package lungwort.page;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.UUID;
import java.util.function.Function;
import java.util.stream.Collectors;
import lungwort.LungwortVersion;
import lungwort.diary.Diary;
import lungwort.diary.Person;
import lungwort.diary.Round;
import lungwort.diary.Settings.TemperatureUnit;
import lungwort.diary.Take;
import lungwort.examine.Examination;
import lungwort.examine.Suggestion;
import lungwort.guidance.Age;
import lungwort.guidance.Breathlessness;
import lungwort.guidance.Condition;
import lungwort.guidance.Consciousness;
import lungwort.guidance.DangerSign;
import lungwort.guidance.Guidance;
import lungwort.guidance.Outcome;
import lungwort.guidance.Site;
import lungwort.guidance.Sites;
import lungwort.guidance.TakeReason;
import lungwort.guidance.Vital;
import lungwort.json.Json;
import lungwort.json.NextStepJson;
import lungwort.round.RoundJson;
import lungwort.round.RoundService;
import lungwort.round.RoundView;
import lungwort.round.RoundWords;
import lungwort.round.TakingOut;
import lungwort.round.Told;
import org.jspecify.annotations.Nullable;

/** What the page is told, as JSON: what {@link RoundJson} says, and what a screen needs beside it. */
final class PageJson {
    /** For so many days the first screen says what a finished round asked for. Common practice. */
    private static final int DAYS_SAID = 3;

    private PageJson() {}

    /** For the first screen: who is known, what is set, and the lists that forms offer. */
    static ObjectNode start(RoundService service) {
        Diary diary = service.diary();
        ObjectNode node = Json.object();
        node.put("version", LungwortVersion.CURRENT);
        node.put("caution", Examination.CAUTION);
        node.set("settings", settings(diary));
        LocalDate today = LocalDate.now(diary.clock());
        ArrayNode persons = node.putArray("persons");
        for (Person person : diary.persons().all()) {
            ObjectNode p = RoundJson.listed(person, today);
            Round open = RoundService.goingOn(diary, person).orElse(null);
            p.set("openRound", open == null ? null : openRound(diary, open, service.briefs(person)));
            Round newest = diary.rounds().newest(person.id()).orElse(null);
            p.put("newestRoundAt", newest == null ? null : newest.startedAt().toString());
            p.set("said", said(diary, person));
            persons.add(p);
        }
        lists(node.putObject("lists"));
        return node;
    }

    /** What the newest finished round asked for, where that was a clinician: whoever begins anew, or comes back the next day, is not to lose it. */
    private static @Nullable ObjectNode said(Diary diary, Person person) {
        return diary.rounds()
                .newestFinished(person.id())
                .filter(round ->
                        round.nextStep() != null && round.nextStep().outcome().atLeast(Outcome.BE_SEEN_TODAY))
                .filter(round ->
                        round.day().isAfter(LocalDate.now(diary.clock()).minusDays(DAYS_SAID)))
                .map(round -> Json.object()
                        .put("round", round.id().toString())
                        .put("startedAt", round.startedAt().toString())
                        .put(
                                "words",
                                Objects.requireNonNull(round.nextStep())
                                        .outcome()
                                        .words()))
                .orElse(null);
    }

    /** What holds for all persons. */
    static ObjectNode settings(Diary diary) {
        ObjectNode node = Json.object();
        node.put(
                "emergencyNumber",
                diary.settings().emergencyNumber().map(n -> n.digits()).orElse(null));
        node.put("temperatureUnit", diary.settings().temperatureUnit().name().toLowerCase(java.util.Locale.ROOT));
        node.put("equipment", diary.settings().get(EquipmentRoutes.SETTING).orElse(null));
        return node;
    }

    private static void lists(ObjectNode node) {
        ArrayNode conditions = node.putArray("conditions");
        for (Condition c : Condition.values()) {
            conditions.addObject().put("id", c.id()).put("words", c.words());
        }
        ArrayNode breathless = node.putArray("breathlessness");
        for (Breathlessness b : Breathlessness.values()) {
            breathless.addObject().put("id", b.id()).put("words", b.words());
        }
        ArrayNode awake = node.putArray("consciousness");
        for (Consciousness c : Consciousness.values()) {
            awake.addObject().put("id", c.id()).put("words", c.words());
        }
        ObjectNode vitals = node.putObject("vitals");
        for (Vital v : Vital.values()) {
            vitals.putObject(v.id())
                    .put("words", v.words())
                    .put("unit", v.unit())
                    .put("lowest", v.lowest())
                    .put("highest", v.highest());
        }
        vitals.withObject("/" + Vital.TEMPERATURE.id())
                .putObject("likeFahrenheit")
                .put("lowest", TemperatureUnit.LOWEST_LIKE_FAHRENHEIT)
                .put("highest", TemperatureUnit.HIGHEST_LIKE_FAHRENHEIT);
    }

    /** A round with the questions, the sites and the recordings that wait. */
    static ObjectNode round(RoundView view, RoundService service, Unfinished unfinished) {
        Diary diary = service.diary();
        TakingOut.InRound takingOut = service.takingOut().inRound(view.round());
        ObjectNode node = RoundJson.toJson(view);
        questions(node.putArray("dangerSigns"), view);
        ArrayNode plan = node.putArray("plan");
        Sites.round(view.age()).forEach(s -> plan.add(s.id()));
        ObjectNode places = node.putObject("places");
        Sites.catalogue().forEach(s -> places.set(s.id(), place(s)));
        ArrayNode before = node.putArray("beforeTheRound");
        Sites.beforeTheRound(view.age()).forEach(before::add);
        ArrayNode reasons = node.putArray("takeReasons");
        for (TakeReason reason : TakeReason.values()) {
            reasons.addObject().put("id", reason.id()).put("instruction", reason.instruction(view.age()));
        }
        ArrayNode waiting = node.putArray("unfinished");
        unfinished.ofRound(view.round().id()).forEach(e -> waiting.add(unfinished(e)));
        node.put("longAgo", RoundService.longAgo(diary, view.round()));
        node.set("settings", settings(diary));
        Map<String, Take> takes = view.sites().stream()
                .flatMap(site -> site.takes().stream())
                .collect(Collectors.toMap(take -> take.id().toString(), Function.identity()));
        for (var site : node.get("sites")) {
            for (var take : site.get("takes")) {
                Take told = Objects.requireNonNull(takes.get(take.get("id").asText()));
                words((ObjectNode) take, told);
                ((ObjectNode) take).put("mayTakeOut", takingOut.stays(told).isEmpty());
                ((ObjectNode) take).put("whatGoes", TakingOut.whatGoes(told));
                ((ObjectNode) take)
                        .put(
                                "hardlyAnyBreath",
                                told.examination()
                                        .filter(Examination::hardlyAnyBreath)
                                        .isPresent());
                // Thousands of numbers that only the take's own screen shows.
                if (take.get("examination") instanceof ObjectNode examination) {
                    examination.remove(List.of("evidence", "breaths"));
                }
            }
        }
        return node;
    }

    private static void questions(ArrayNode array, RoundView view) {
        Age age = view.age();
        for (DangerSign sign : Guidance.dangerSigns(age, view.person().conditions())) {
            var answers = view.round().dangerSigns();
            String answer =
                    answers.yes().contains(sign.id()) ? "yes" : answers.no().contains(sign.id()) ? "no" : null;
            array.addObject()
                    .put("id", sign.id())
                    .put("question", sign.question(age))
                    .put("answer", answer)
                    .put("outcome", sign.outcome().id())
                    .put(
                            "sources",
                            String.join(
                                    "; ",
                                    sign.sources().stream()
                                            .map(Object::toString)
                                            .toList()));
        }
    }

    private static ObjectNode place(Site site) {
        return Json.object()
                .put("words", site.words())
                .put("face", site.face().id())
                .put("placement", Sites.placement(site));
    }

    static ObjectNode unfinished(Unfinished.Entry entry) {
        ObjectNode node = Json.object();
        node.put("id", entry.id().toString());
        node.put("site", entry.site().id());
        node.put("words", entry.site().words());
        node.put("take", entry.reason().id());
        node.put("samples", entry.samples());
        Json.put(node, "seconds", entry.seconds());
        node.put("active", entry.active());
        return node;
    }

    /** A take in full. */
    static ObjectNode take(Take take) {
        ObjectNode node = RoundJson.toJson(take);
        words(node, take);
        node.put("round", take.roundId().toString());
        node.put("siteWords", take.site().words());
        take.examination().ifPresent(e -> {
            node.set("tellsNumber", RoundJson.told(Told.of(e)));
            node.put(
                    "otherKindMissed",
                    e.quality().usable()
                            && e.unlikeLearnt()
                            && (e.suggestion() == Suggestion.CONTINUOUS || e.suggestion() == Suggestion.DISCONTINUOUS));
            ArrayNode listen = node.putArray("listenFor");
            (e.quality().usable() ? e.listenFor() : List.<String>of()).forEach(listen::add);
        });
        return node;
    }

    /** Adds the suggestion as the command line words it. */
    private static void words(ObjectNode node, Take take) {
        take.examination()
                .ifPresent(e -> node.put("suggestionWords", RoundWords.suggestion(e))
                        .put("hardlyABreath", e.noneInHardlyABreath()));
    }

    /** One that nobody finished, as when help was called in its middle, says what to do by what is known. */
    private static ObjectNode openRound(Diary diary, Round round, Function<Round, RoundView> brief) {
        ObjectNode node = RoundJson.round(round);
        boolean ageKnown =
                diary.persons().get(round.personId()).ageIfKnown(round.day()).isPresent();
        if (round.open() && ageKnown) {
            node.set("nextStepSoFar", NextStepJson.toJson(brief.apply(round).nextStep()));
        }
        return node;
    }

    /** A round in one line of the diary. */
    static ObjectNode brief(Diary diary, Round round, Function<Round, RoundView> brief) {
        ObjectNode node = openRound(diary, round, brief);
        List<Take> takes = diary.takes().ofRound(round.id());
        node.put("breathingStopped", takes.stream().anyMatch(Take::stoppedByItself));
        ArrayNode array = node.putArray("takes");
        for (Take take : takes) {
            ObjectNode t = array.addObject();
            t.put("id", take.id().toString());
            t.put("site", take.site().id());
            t.put("siteWords", take.site().words());
            t.put("take", take.reason().id());
            t.put("recordedAt", take.recordedAt().toString());
            take.examination()
                    .ifPresent(e -> t.put("suggestion", e.suggestion().id())
                            .put("suggestionWords", RoundWords.suggestion(e))
                            .put("namesSound", e.suggestion().namesSound())
                            .put("pauses", e.pauses().size()));
        }
        ArrayNode notes = node.putArray("notes");
        diary.notes().ofRound(round.id()).forEach(n -> notes.add(RoundJson.toJson(n)));
        return node;
    }

    static Person personOf(Diary diary, UUID roundId) {
        return diary.persons().get(diary.rounds().get(roundId).personId());
    }
}
