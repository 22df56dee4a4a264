package lungwort.report;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.OffsetDateTime;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import java.util.stream.Collectors;
import lungwort.diary.Note;
import lungwort.diary.Round;
import lungwort.examine.Examination;
import lungwort.guidance.Condition;
import lungwort.guidance.DangerSign;
import lungwort.guidance.Guidance;
import lungwort.guidance.RateSource;
import lungwort.guidance.Vitals;
import lungwort.json.Json;
import lungwort.round.RoundView;
import org.jspecify.annotations.Nullable;

/**
 * The report as a FHIR R4 Bundle of type collection: Patient, Device, Observations (vital signs, danger signs, suggestions, next step) and Media, linked by {@code derivedFrom}. Suggestions
 * of the software are {@code preliminary}, for nobody has checked them; what people measured or answered is {@code final}.
 * Each resource tells what it holds in words, too ({@link FhirNarrative}).
 */
final class FhirReport {
    private static final DateTimeFormatter TIME = DateTimeFormatter.ofPattern("yyyy-MM-dd'T'HH:mm:ssxxx");
    private static final String ELSEWHERE =
            "pictures, the comparison with earlier days, and the limits that hold for this person as a list, which are in the report as a page and as PDF";
    private static final String CATEGORIES = "http://terminology.hl7.org/CodeSystem/observation-category";

    private final ReportContent content;
    private final ArrayNode entries = Json.array();
    private final UUID patient;
    private final UUID device;

    private FhirReport(ReportContent content) {
        this.content = content;
        this.patient = content.id("patient");
        this.device = content.id("device");
    }

    static String write(ReportContent content) {
        return Json.pretty(new FhirReport(content).bundle()) + "\n";
    }

    static String time(OffsetDateTime time) {
        return TIME.format(time);
    }

    private ObjectNode bundle() {
        addPatient();
        addDevice();
        content.rounds().forEach(this::round);
        ObjectNode bundle = Json.object().put("resourceType", "Bundle");
        bundle.putObject("identifier")
                .put("system", "urn:ietf:rfc:3986")
                .put("value", FhirJson.urn(content.id("bundle " + content.first() + " " + content.last())));
        bundle.put("type", "collection").put("timestamp", time(content.newestTime()));
        bundle.set("entry", entries);
        return bundle;
    }

    /** Adds a resource; the same id for the same purpose. */
    private void add(UUID id, ObjectNode resource) {
        ObjectNode entry = Json.object().put("fullUrl", FhirJson.urn(id));
        entry.set("resource", FhirNarrative.told(resource));
        entries.add(entry);
    }

    private void addPatient() {
        ObjectNode node = Json.object().put("resourceType", "Patient");
        if (content.options().name()) {
            node.set(
                    "name",
                    FhirJson.list(Json.object()
                            .put("use", "nickname")
                            .put("text", FhirJson.string(content.person().nickname()))));
            node.put("birthDate", content.person().birthMonth().toString());
        }
        add(patient, node);
    }

    private void addDevice() {
        ObjectNode node = Json.object().put("resourceType", "Device").put("status", "active");
        node.set(
                "deviceName",
                FhirJson.list(Json.object().put("name", "Lungwort").put("type", "user-friendly-name")));
        node.set("type", FhirJson.concept("Software that measures and suggests extra chest sounds"));
        ArrayNode versions = node.putArray("version");
        content.makers().forEach(m -> versions.addObject().put("value", FhirJson.string(m)));
        versions.addObject().put("value", RulesVersion.words());
        ArrayNode notes = node.putArray("note");
        notes.addObject().put("text", Examination.CAUTION);
        String rates = String.join("\n", CardSection.errorRates(content.card())).strip();
        notes.addObject().put("text", rates.isEmpty() ? CardSection.NO_CARD : rates);
        notes.addObject().put("text", leftOut());
        add(device, node);
    }

    /** What was to be left out, and what only the other formats of the report have. */
    private String leftOut() {
        List<String> out = new ArrayList<>(content.options().leftOut());
        if (content.options().audio() && content.hidden() > 0) {
            out.add("the sound of %d takes, to keep the file small".formatted(content.hidden()));
        }
        out.add(ELSEWHERE);
        return "Left out: %s.".formatted(String.join("; ", out));
    }

    private void round(ReportRound round) {
        RoundView view = round.view();
        List<UUID> grounds = new ArrayList<>();
        List<UUID> media = new ArrayList<>();
        FhirSounds sounds = new FhirSounds(this, content.options().audio());
        for (ReportTake take : round.takes()) {
            sounds.take(view.round(), take, media, grounds);
        }
        conditions(view, grounds);
        words(view, grounds);
        dangerSigns(view, grounds);
        vitals(view, media, grounds);
        step(round, grounds);
    }

    /** What whoever keeps the diary knows of: an answer, for no clinician has written it down as a condition. */
    private void conditions(RoundView view, List<UUID> grounds) {
        for (Condition condition : view.person().conditions().known()) {
            ObjectNode node = observation(
                    "final",
                    "survey",
                    FhirJson.concept("Known condition, as told at home"),
                    view.round().startedAt());
            node.put("valueString", condition.words());
            grounds.add(put(node, view.round(), "condition " + condition.id()));
        }
    }

    /** Free words of the family, which a report tells unless they were to be left out. */
    private void words(RoundView view, List<UUID> grounds) {
        if (!view.person().about().isBlank()) {
            told(
                    "About this person, in the family's words",
                    view.person().about(),
                    view.round().startedAt(),
                    view,
                    grounds);
        }
        for (Note note : view.notes()) {
            told("Note, in the family's words", note.words(), note.writtenAt(), view, grounds);
        }
    }

    private void told(String what, String words, OffsetDateTime at, RoundView view, List<UUID> grounds) {
        ObjectNode node = observation("final", "survey", FhirJson.concept(what), at);
        node.put("valueString", FhirJson.string(words));
        grounds.add(put(node, view.round(), "%s %s %s".formatted(what, at, words)));
    }

    /** In the words in which each was asked: those for a baby ask for other things than those for an adult. */
    private void dangerSigns(RoundView view, List<UUID> grounds) {
        Round round = view.round();
        for (DangerSign sign : Guidance.allDangerSigns()) {
            boolean yes = round.dangerSigns().yes().contains(sign.id());
            if (yes || round.dangerSigns().no().contains(sign.id())) {
                ObjectNode node =
                        observation("final", "survey", FhirJson.concept(sign.question(view.age())), round.startedAt());
                node.put("valueBoolean", yes);
                grounds.add(put(node, round, "danger " + sign.id()));
            }
        }
    }

    private void vitals(RoundView view, List<UUID> media, List<UUID> grounds) {
        Vitals v = view.vitals();
        Round round = view.round();
        vital(round, v.spo2Percent(), "%", "%", grounds, "SpO2", FhirCodes.SPO2, FhirCodes.SPO2_OXIMETRY);
        vital(round, v.pulsePerMinute(), "beats/minute", "/min", grounds, "Pulse", FhirCodes.PULSE);
        vital(round, v.temperatureCelsius(), "C", "Cel", grounds, "Body temperature", FhirCodes.TEMPERATURE);
        vital(round, v.oxygenLitresPerMinute(), "L/min", "L/min", grounds, "Oxygen flow", FhirCodes.OXYGEN_FLOW);
        vital(round, v.weightKg(), "kg", "kg", grounds, "Body weight", FhirCodes.BODY_WEIGHT);
        if (v.systolicMmHg() != null) {
            grounds.add(put(bloodPressure(round, v.systolicMmHg()), round, "Systolic blood pressure"));
        }
        FhirAnswers.of(round).forEach((question, answer) -> {
            ObjectNode node = observation("final", "survey", FhirJson.concept(question), round.startedAt());
            FhirAnswers.put(node, answer);
            grounds.add(put(node, round, "answer " + question));
        });
        vital(round, v.peakFlowLitresPerMinute(), "L/min", "L/min", grounds, "Peak flow, best of three");
        rate(round, v, media, grounds);
    }

    /** R4 asks for a panel with both pressures; the lower one was not asked for. */
    private ObjectNode bloodPressure(Round round, int systolicMmHg) {
        ObjectNode node = observation(
                "final",
                "vital-signs",
                FhirJson.concept("Blood pressure", FhirCodes.BLOOD_PRESSURE),
                round.startedAt());
        ArrayNode components = node.putArray("component");
        ObjectNode systolic = components.addObject();
        systolic.set("code", FhirJson.concept("Systolic blood pressure", FhirCodes.SYSTOLIC));
        systolic.set("valueQuantity", FhirJson.quantity(systolicMmHg, "mmHg", "mm[Hg]"));
        ObjectNode diastolic = components.addObject();
        diastolic.set("code", FhirJson.concept("Diastolic blood pressure", FhirCodes.DIASTOLIC));
        diastolic.set("dataAbsentReason", FhirJson.concept("Not asked for", FhirCodes.NOT_ASKED));
        return node;
    }

    private void rate(Round round, Vitals v, List<UUID> media, List<UUID> grounds) {
        Integer perMinute = v.respiratoryRatePerMinute();
        if (perMinute == null) {
            return;
        }
        boolean heard = v.rateSource() == RateSource.HEARD;
        ObjectNode node = observation(
                heard ? "preliminary" : "final",
                "vital-signs",
                FhirJson.concept("Respiratory rate", FhirCodes.RESPIRATORY_RATE),
                round.startedAt());
        node.set("valueQuantity", FhirJson.quantity(perMinute, "breaths/minute", "/min"));
        node.set(
                "method",
                FhirJson.concept(heard ? "Heard in recordings by software, not counted" : "Counted by a person"));
        if (heard) {
            node.set("device", FhirJson.reference(device));
            node.putArray("note").addObject().put("text", Examination.CAUTION);
            derivedFrom(node, media);
        }
        grounds.add(put(node, round, "rate"));
    }

    private void vital(
            Round round,
            @Nullable Number value,
            String unit,
            String ucum,
            List<UUID> grounds,
            String name,
            FhirCodes.Code... codes) {
        if (value != null) {
            ObjectNode node = observation("final", "vital-signs", FhirJson.concept(name, codes), round.startedAt());
            node.set("valueQuantity", FhirJson.quantity(value.doubleValue(), unit, ucum));
            grounds.add(put(node, round, name));
        }
    }

    private void step(ReportRound round, List<UUID> grounds) {
        ObjectNode node = observation(
                "preliminary",
                "survey",
                FhirJson.concept("Next step by the guidance of Lungwort"),
                round.view().round().startedAt());
        node.set("valueCodeableConcept", FhirJson.concept(round.step().outcome().words()));
        node.set("device", FhirJson.reference(device));
        ArrayNode notes = node.putArray("note");
        notes.addObject().put("text", round.step().outcome().meaning());
        notKnown(round, notes);
        round.step()
                .reasons()
                .forEach(r -> notes.addObject()
                        .put(
                                "text",
                                FhirJson.string("%s%s Source: %s."
                                        .formatted(
                                                r.text(),
                                                r.limit().isEmpty() ? "" : " Limit: %s.".formatted(r.limit()),
                                                ReportWords.sources(r.citations())))));
        round.step().cautions().forEach(c -> notes.addObject().put("text", FhirJson.string(c)));
        notes.addObject().put("text", Examination.CAUTION);
        notes.addObject().put("text", leftOut());
        derivedFrom(node, grounds);
        put(node, round.view().round(), "next step");
    }

    /** What was not answered or measured has no resource of its own: without a word, whoever reads could take it for absent or usual. */
    private static void notKnown(ReportRound round, ArrayNode notes) {
        RoundView view = round.view();
        if (!view.dangerSignsOpen().isEmpty()) {
            notes.addObject()
                    .put(
                            "text",
                            "Danger signs not answered, not taken as absent: "
                                    + view.dangerSignsOpen().stream()
                                            .map(s -> s.question(view.age()))
                                            .collect(Collectors.joining(" ")));
        }
        if (!round.step().missing().isEmpty()) {
            notes.addObject().put("text", ReportWords.notKnown(round.step()));
        }
    }

    /** An Observation of this patient. */
    ObjectNode observation(String status, String category, ObjectNode code, OffsetDateTime at) {
        ObjectNode node = Json.object().put("resourceType", "Observation").put("status", status);
        ObjectNode concept = Json.object();
        concept.putArray("coding").addObject().put("system", CATEGORIES).put("code", category);
        node.set("category", FhirJson.list(concept));
        node.set("code", code);
        node.set("subject", FhirJson.reference(patient));
        return node.put("effectiveDateTime", time(at));
    }

    static void derivedFrom(ObjectNode node, List<UUID> sources) {
        if (!sources.isEmpty()) {
            ArrayNode links = node.putArray("derivedFrom");
            sources.forEach(s -> links.add(FhirJson.reference(s)));
        }
    }

    /** Adds a resource of a round and gives its id. */
    UUID put(ObjectNode node, Round round, String purpose) {
        UUID id = content.id("%s %s".formatted(round.id(), purpose));
        add(id, node);
        return id;
    }

    UUID patientId() {
        return patient;
    }

    UUID deviceId() {
        return device;
    }
}
