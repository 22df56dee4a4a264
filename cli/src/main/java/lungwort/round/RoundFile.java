package lungwort.round;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import lungwort.BadInput;
import lungwort.diary.Round;
import lungwort.guidance.Age;
import lungwort.guidance.Conditions;
import lungwort.guidance.DangerAnswers;
import lungwort.guidance.Site;
import lungwort.guidance.Sites;
import lungwort.guidance.Symptoms;
import lungwort.guidance.TakeReason;
import lungwort.guidance.Vitals;
import lungwort.json.GuidanceJson;
import lungwort.json.Json;
import org.jspecify.annotations.Nullable;

/**
 * The small file {@value #NAME} that turns a folder of recordings into a round:
 *
 * <pre>{@code
 * {
 *   "person": "Mia",
 *   "startedAt": "2026-03-01T07:30",
 *   "dangerSigns": {"yes": [], "no": ["blue", "grunting"]},
 *   "vitals": {"spo2Percent": 95, "onOxygen": false, "respiratoryRatePerMinute": 28, "pulsePerMinute": 110, "temperatureCelsius": 37.2},
 *   "symptoms": {"breathlessness": "on-effort", "chestPain": false, "fever": false, "chestInfection": true},
 *   "symptomWords": "coughs at night", "medicines": "two puffs at 7", "note": "slept badly",
 *   "takes": [
 *     {"file": "1.wav", "site": "back-lower-left", "take": "first", "breathHeard": true},
 *     {"file": "2.wav", "site": "back-lower-left", "take": "after-cough"}
 *   ]
 * }
 * }</pre>
 *
 * Everything but {@code takes} may be left out: what is left out was not asked or not measured. {@code "dangerSigns": "none"} says that every sign asked at this age was
 * looked for and is not there. {@code take} is {@code first} where it is left out.
 *
 * @param person nickname, or null
 * @param startedAt when the round began, or null for now; written as local time, or with an offset from UTC
 * @param noDangerSigns true for {@code "none"}
 * @param dangerSigns answers given one by one
 * @param vitals what was measured
 * @param symptoms what was asked
 * @param symptomWords free words
 * @param medicines free words
 * @param note a note, or null
 * @param takes the recordings in order
 */
public record RoundFile(
        @Nullable String person,
        @Nullable OffsetDateTime startedAt,
        boolean noDangerSigns,
        DangerAnswers dangerSigns,
        Vitals vitals,
        Symptoms symptoms,
        String symptomWords,
        String medicines,
        @Nullable String note,
        List<FileTake> takes) {
    /** What the file is called. */
    public static final String NAME = "round.json";

    private static final long MAX_BYTES = 1_000_000;
    private static final Set<String> FIELDS = Set.of(
            "person", "startedAt", "dangerSigns", "vitals", "symptoms", "symptomWords", "medicines", "note", "takes");
    private static final Set<String> TAKE_FIELDS = Set.of("file", "site", "take", "breathHeard", "knownToClinician");

    /**
     * One recording of the folder.
     *
     * @param file where it lies
     * @param site where it was made
     * @param reason why
     * @param breathHeard whether breath sounds were clearly heard; null where nobody said
     * @param knownToClinician true if a clinician calls the sound there usual
     */
    public record FileTake(
            Path file,
            Site site,
            TakeReason reason,
            @Nullable Boolean breathHeard,
            boolean knownToClinician) {}

    public RoundFile {
        takes = List.copyOf(takes);
    }

    /** A round with what this file says; what the file leaves out stays as it is, and so does a danger sign that was seen: a file may be added again after it. */
    public Round onto(Round round, Age age, Conditions known) {
        DangerAnswers answers = noDangerSigns ? DangerAnswers.noneOf(age, known) : dangerSigns;
        Round changed = round.with(round.dangerSigns().and(answers))
                .with(GuidanceJson.vitals(round.vitals(), given(GuidanceJson.toJson(vitals))))
                .with(GuidanceJson.symptoms(round.symptoms(), given(GuidanceJson.toJson(symptoms))));
        changed = symptomWords.isBlank() ? changed : changed.withSymptomWords(symptomWords);
        return medicines.isBlank() ? changed : changed.withMedicines(medicines);
    }

    private static ObjectNode given(ObjectNode all) {
        all.properties().removeIf(field -> field.getValue().isNull());
        return all;
    }

    /**
     * Reads the file of a folder.
     *
     * @param zone of times that carry no offset
     * @throws BadInput if it is missing, cannot be read, or holds what is not known; names the field
     */
    public static RoundFile read(Path folder, ZoneId zone) {
        Path file = folder.resolve(NAME);
        String text;
        try {
            if (!Files.isRegularFile(file)) {
                throw new BadInput(
                        "%s: there is no %s in this folder; see `lungwort round add --help`.".formatted(folder, NAME));
            }
            if (Files.size(file) > MAX_BYTES) {
                throw new BadInput("%s is larger than 1 MB; it should only list the takes.".formatted(file));
            }
            text = Files.readString(file, StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new BadInput("%s cannot be read (%s); it must be UTF-8 text.".formatted(file, e.getMessage()), e);
        }
        JsonNode node = Json.parse(text, file.toString());
        try {
            return read(node, folder, zone);
        } catch (BadInput e) {
            throw new BadInput("%s: %s".formatted(file, e.getMessage()), e);
        }
    }

    private static RoundFile read(JsonNode node, Path folder, ZoneId zone) {
        Json.requireFields(node, "the file", FIELDS);
        Vitals vitals = GuidanceJson.vitals(Vitals.NONE, objectOrNone(node, "vitals"));
        Symptoms symptoms = GuidanceJson.symptoms(Symptoms.NOT_ASKED, objectOrNone(node, "symptoms"));
        JsonNode signs = node.path("dangerSigns");
        boolean none = signs.isTextual() && signs.asText().equals("none");
        List<FileTake> takes = new ArrayList<>();
        for (JsonNode take : Json.list(node, "takes")) {
            takes.add(take(take, folder));
        }
        if (takes.isEmpty()) {
            throw new BadInput("the field \"takes\" is an empty list; name at least one recording.");
        }
        return new RoundFile(
                Json.optionalText(node, "person"),
                time(Json.optionalText(node, "startedAt"), zone),
                none,
                none || signs.isMissingNode() ? DangerAnswers.NOT_ASKED : dangerAnswers(signs),
                vitals,
                symptoms,
                words(node, "symptomWords"),
                words(node, "medicines"),
                note(node),
                takes);
    }

    private static DangerAnswers dangerAnswers(JsonNode signs) {
        Json.requireFields(signs, "the field \"dangerSigns\"", Set.of("yes", "no"));
        return GuidanceJson.dangerAnswers(signs);
    }

    private static JsonNode objectOrNone(JsonNode node, String field) {
        JsonNode value = node.get(field);
        return value == null || value.isNull() ? Json.object() : value;
    }

    private static String words(JsonNode node, String field) {
        return Objects.requireNonNullElse(Json.optionalText(node, field), "");
    }

    /** An empty note is none. */
    private static @Nullable String note(JsonNode node) {
        String note = Json.optionalText(node, "note");
        return note == null || note.isBlank() ? null : note;
    }

    private static FileTake take(JsonNode take, Path folder) {
        Json.requireFields(take, "a take", TAKE_FIELDS);
        String name = Json.text(take, "file");
        if (name.isBlank() || name.contains("/") || name.contains("\\") || name.equals("..")) {
            throw new BadInput("the file \"%s\" must be the plain name of a file in the same folder.".formatted(name));
        }
        String reason = Json.optionalText(take, "take");
        return new FileTake(
                folder.resolve(name),
                Sites.of(Json.text(take, "site")),
                reason == null ? TakeReason.FIRST : TakeReason.ofId(reason),
                take.has("breathHeard") ? (Boolean) Json.bool(take, "breathHeard") : null,
                take.has("knownToClinician") && Json.bool(take, "knownToClinician"));
    }

    private static @Nullable OffsetDateTime time(@Nullable String text, ZoneId zone) {
        if (text == null) {
            return null;
        }
        try {
            return text.matches(".*(Z|[+-]\\d\\d:?\\d\\d)")
                    ? OffsetDateTime.parse(text)
                    : local(LocalDateTime.parse(text), zone);
        } catch (DateTimeException e) {
            throw new BadInput(
                    "the time \"%s\" cannot be read; write it as 2026-03-01T07:30, or with its offset from UTC as 2026-03-01T07:30+01:00."
                            .formatted(text),
                    e);
        }
    }

    /** Two rounds in the hour that comes twice must not be taken for one. */
    private static OffsetDateTime local(LocalDateTime time, ZoneId zone) {
        List<ZoneOffset> offsets = zone.getRules().getValidOffsets(time);
        return switch (offsets.size()) {
            case 1 -> time.atOffset(offsets.get(0));
            case 0 ->
                throw new BadInput(
                        "the time \"%s\" never was, as clocks in %s went forward past it; correct it, or add its offset from UTC (%s%s)."
                                .formatted(time, zone, time, zone.getRules().getOffset(time)));
            default ->
                throw new BadInput(
                        "the time \"%s\" came twice, as clocks in %s went back; write %s%s for the first, %s%s for the second."
                                .formatted(time, zone, time, offsets.get(0), time, offsets.get(1)));
        };
    }
}
