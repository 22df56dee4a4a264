package lungwort.page;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.Duration;
import java.time.LocalDate;
import java.util.List;
import java.util.Objects;
import java.util.UUID;
import java.util.function.Function;
import lungwort.BadInput;
import lungwort.diary.Archive;
import lungwort.diary.Diary;
import lungwort.diary.Eraser;
import lungwort.diary.Person;
import lungwort.diary.Round;
import lungwort.diary.Trend;
import lungwort.examine.Examination;
import lungwort.json.Json;
import lungwort.round.Noise;
import lungwort.round.RoundJson;
import lungwort.round.RoundService;
import lungwort.round.RoundView;
import org.jspecify.annotations.Nullable;

/** The diary of a person: days, trends, notes, export, erasing. */
final class DiaryRoutes {
    /** Days shown where no span is given. */
    private static final int USUAL_SPAN_DAYS = 30;

    /** Largest archive that the page takes: thousands of takes. A larger one is taken in by {@code lungwort diary import}. */
    private static final long MAX_ARCHIVE_BYTES = 8_000_000_000L;

    /** Longest time for sending it, from this computer to itself. */
    private static final Duration MAX_ARCHIVE_TIME = Duration.ofMinutes(30);

    private final RoundService service;
    private final Diary diary;

    DiaryRoutes(RoundService service) {
        this.service = service;
        this.diary = service.diary();
    }

    void add(RoutesConfig routes) {
        routes.get("/api/persons/{id}/diary", this::show);
        routes.post("/api/persons/{id}/notes", context -> {
            Person person = person(context);
            diary.notes().add(person.id(), null, Json.text(Body.json(context), "words"));
            Answer.json(context, Json.object());
        });
        routes.put("/api/notes/{id}", context -> {
            diary.notes().change(Ids.of(context), Json.text(Body.json(context), "words"));
            Answer.json(context, Json.object());
        });
        routes.delete("/api/notes/{id}", context -> {
            diary.notes().delete(Ids.of(context));
            Answer.json(context, Json.object());
        });
        routes.get("/api/persons/{id}/export", this::export);
        routes.post("/api/import", this::takeIn);
        routes.post("/api/persons/{id}/erase", context -> {
            Person person = person(context);
            confirm(context, person);
            erased(context, diary.eraser().person(person.id()));
        });
        routes.post("/api/rounds/{id}/erase", context -> {
            UUID round = Ids.of(context);
            confirm(context, PageJson.personOf(diary, round));
            erased(context, diary.eraser().round(round));
        });
    }

    private Person person(Context context) {
        return diary.persons().get(Ids.of(context));
    }

    private void show(Context context) {
        Person person = person(context);
        LocalDate last = day(context.queryParam("to"), diary.lastDay(person.id()));
        LocalDate first = day(context.queryParam("from"), last.minusDays(USUAL_SPAN_DAYS - 1));
        ObjectNode node = Json.object();
        node.set("person", RoundJson.person(person, person.age(LocalDate.now(diary.clock()))));
        Trend trend = Trend.of(diary, person.id(), first, last);
        node.set("trend", RoundJson.toJson(trend));
        ArrayNode measures = node.putArray("measures");
        for (Trend.Measure m : trend.measures()) {
            measures.addObject()
                    .put("id", m.id())
                    .put("words", m.words())
                    .put("unit", m.unit())
                    .put("noise", Noise.words(m));
        }
        node.put("noiseCaution", Noise.CAUTION);
        ArrayNode rounds = node.putArray("rounds");
        List<Round> shown = diary.rounds().ofPerson(person.id(), first, last);
        Function<Round, RoundView> brief = service.briefs(person);
        for (Round round : shown) {
            rounds.insert(0, PageJson.brief(diary, round, brief));
        }
        ArrayNode notes = node.putArray("notes");
        diary.notes().ofPerson(person.id()).forEach(n -> notes.insert(0, RoundJson.toJson(n)));
        node.put("allRounds", diary.rounds().ofPerson(person.id()).size());
        node.set("settings", PageJson.settings(diary));
        node.put("caution", Examination.CAUTION);
        Answer.json(context, node);
    }

    static LocalDate day(@Nullable String text, LocalDate otherwise) {
        try {
            return text == null || text.isBlank() ? otherwise : LocalDate.parse(text);
        } catch (DateTimeException e) {
            throw new BadInput("The day \"%s\" cannot be read; write it as 2026-03-01.".formatted(text), e);
        }
    }

    /** The archive is made in the diary's folder, sent, and deleted again. */
    private void export(Context context) {
        Person person = person(context);
        Path file = diary.passingArchive("export");
        try {
            diary.archive().write(file, person.id());
            InputStream in = Files.newInputStream(file);
            context.contentType("application/zip")
                    .header("Content-Disposition", "attachment; filename=\"lungwort-diary.zip\"")
                    .result(new FilterInputStream(in) {
                        @Override
                        public void close() throws IOException {
                            super.close();
                            Files.deleteIfExists(file);
                        }
                    });
        } catch (IOException e) {
            throw new BadInput("The export could not be made (%s); check the free space.".formatted(e.getMessage()), e);
        }
    }

    /** An archive comes into the diary's folder, is taken in, and deleted again. */
    private void takeIn(Context context) {
        String name = Objects.requireNonNullElse(context.queryParam("name"), "The file");
        Path file = diary.passingArchive("import");
        try {
            Body.toFile(context, file, MAX_ARCHIVE_BYTES, MAX_ARCHIVE_TIME);
            Archive.Imported imported = diary.archive().read(file);
            ObjectNode node = Json.object()
                    .put("persons", imported.added().persons())
                    .put("rounds", imported.added().rounds())
                    .put("takes", imported.added().takes())
                    .put("notes", imported.added().notes())
                    .put("changed", imported.changed());
            ArrayNode remarks = node.putArray("remarks");
            imported.remarks().forEach(remarks::add);
            Answer.json(context, node);
        } catch (BadInput e) {
            // Where it lay for a moment tells nobody anything.
            throw new BadInput(String.valueOf(e.getMessage()).replace(file.toString(), name), e);
        } finally {
            delete(file);
        }
    }

    private static void delete(Path file) {
        try {
            Files.deleteIfExists(file);
        } catch (IOException e) {
            throw new BadInput("%s could not be deleted (%s); delete it yourself.".formatted(file, e.getMessage()), e);
        }
    }

    /** Asked twice: the page asks first, and the nickname must come with the request. */
    private static void confirm(Context context, Person person) {
        JsonNode form = Body.json(context);
        String typed = Json.text(form, "nickname").strip();
        if (!person.isTyped(typed)) {
            throw new BadInput("You typed \"%s\", but the person is called \"%s\"; nothing was erased."
                    .formatted(typed, person.nickname()));
        }
    }

    private static void erased(Context context, Eraser.Erased erased) {
        Answer.json(
                context,
                Json.object()
                        .put("rounds", erased.rounds())
                        .put("takes", erased.takes())
                        .put("recordings", erased.recordings()));
    }
}
