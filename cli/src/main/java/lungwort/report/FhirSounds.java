package lungwort.report;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.UUID;
import lungwort.diary.Measures;
import lungwort.diary.Round;
import lungwort.examine.BreathingPause;
import lungwort.examine.Examination;
import lungwort.examine.Suggestion;
import lungwort.json.Json;
import lungwort.picture.Words;
import lungwort.sound.SoundKind;

/** Takes in the bundle: the sound as Media, each suggestion as an Observation derived from it. */
final class FhirSounds {
    private static final String ABSENT = "http://terminology.hl7.org/CodeSystem/data-absent-reason";
    private static final String MODALITY = "Sound recording of the chest made at home";

    private final FhirReport report;
    private final boolean audio;

    FhirSounds(FhirReport report, boolean audio) {
        this.report = report;
        this.audio = audio;
    }

    void take(Round round, ReportTake take, List<UUID> media, List<UUID> grounds) {
        List<UUID> sources = new ArrayList<>();
        byte[] wav = audio && take.shown() ? Media.wav(take) : null;
        if (wav != null) {
            UUID id = media(round, take, wav);
            sources.add(id);
            media.add(id);
        }
        Examination e = take.take().examination().orElse(null);
        if (e != null) {
            suggestions(round, take, e, sources, grounds);
        }
    }

    private UUID media(Round round, ReportTake take, byte[] wav) {
        ObjectNode node = Json.object().put("resourceType", "Media").put("status", "completed");
        node.set("modality", FhirJson.concept(MODALITY));
        node.set("subject", FhirJson.reference(report.patientId()));
        node.put("createdDateTime", FhirReport.time(take.heardAt(round.startedAt())));
        node.set("bodySite", FhirJson.concept(take.take().site().words()));
        node.putObject("content")
                .put("contentType", "audio/wav")
                .put("data", Base64.getEncoder().encodeToString(wav))
                .put("hash", sha1(wav))
                .put("title", take.place());
        node.putArray("note")
                .addObject()
                .put(
                        "text",
                        "Copy at up to %d Hz. SHA-256 of the stored recording: %s"
                                .formatted(Media.AUDIO_RATE_HZ, take.take().recordingSha256()));
        return report.put(node, round, "media " + take.take().id());
    }

    private void suggestions(Round round, ReportTake take, Examination e, List<UUID> sources, List<UUID> grounds) {
        Suggestion s = e.suggestion();
        if (s.continuous()) {
            ObjectNode node = suggestion(round, take, e, sources);
            node.set("valueCodeableConcept", FhirJson.concept("continuous extra sound suggested", continuous(e)));
            grounds.add(report.put(node, round, "continuous " + take.take().id()));
        }
        if (s.discontinuous()) {
            ObjectNode node = suggestion(round, take, e, sources);
            node.set("valueCodeableConcept", FhirJson.concept("crackles suggested", FhirCodes.CRACKLES));
            grounds.add(report.put(node, round, "crackles " + take.take().id()));
        }
        if (s.namesNone()) {
            ObjectNode node = suggestion(round, take, e, sources);
            node.set("valueCodeableConcept", FhirJson.concept(Words.headline(e)));
            grounds.add(report.put(node, round, "none " + take.take().id()));
        }
        if (s == Suggestion.CANNOT_TELL) {
            ObjectNode node = suggestion(round, take, e, sources);
            node.set(
                    "dataAbsentReason",
                    FhirJson.concept(ReportWords.quality(e), new FhirCodes.Code(ABSENT, "unknown", "Unknown")));
            grounds.add(report.put(node, round, "cannot tell " + take.take().id()));
        }
    }

    private ObjectNode suggestion(Round round, ReportTake take, Examination e, List<UUID> sources) {
        ObjectNode node = report.observation(
                "preliminary",
                "exam",
                FhirJson.concept("Auscultation of the chest, suggestion of software", FhirCodes.AUSCULTATION),
                take.heardAt(round.startedAt()));
        node.set("bodySite", FhirJson.concept(take.take().site().words()));
        node.set("method", FhirJson.concept(take.place() + "; examined by software, checked by nobody"));
        node.set("device", FhirJson.reference(report.deviceId()));
        ArrayNode notes = node.putArray("note");
        notes.addObject().put("text", FhirJson.string(ReportWords.quality(e)));
        notes.addObject()
                .put("text", "SHA-256 of the stored recording: " + take.take().recordingSha256());
        if (take.addedLater(round.startedAt())) {
            notes.addObject()
                    .put(
                            "text",
                            "The recording was added to the diary only at %s; the time given is the beginning of its round."
                                    .formatted(ReportWords.time(take.take().recordedAt())));
        }
        ReportWords.listenThere(e).ifPresent(words -> notes.addObject().put("text", FhirJson.string(words)));
        // What a refused recording resembles says nothing of the chest.
        (e.quality().usable() ? e.reasons() : List.<String>of())
                .forEach(r -> notes.addObject().put("text", FhirJson.string(r)));
        if (take.take().breathHeard() != null) {
            notes.addObject()
                    .put(
                            "text",
                            take.take().breathHeard()
                                    ? "Listener: breath clearly heard."
                                    : "Listener: hardly any breath heard.");
        }
        if (take.take().knownToClinician()) {
            notes.addObject().put("text", "A clinician calls this sound usual here for this person.");
        }
        if (take.take().breathingStopped() != null) {
            notes.addObject()
                    .put(
                            "text",
                            take.take().breathingStopped()
                                    ? "Listener: the breathing stopped by itself in the stretch without a breath."
                                    : "Listener: in the stretch without a breath it was held, too soft, or the chest piece lifted.");
        }
        notes.addObject().put("text", Examination.CAUTION);
        FhirReport.derivedFrom(node, sources);
        ArrayNode components = Json.array();
        components(components, e);
        if (!components.isEmpty()) {
            node.set("component", components);
        }
        return node;
    }

    private static FhirCodes.Code continuous(Examination e) {
        int wheezes = ReportWords.count(e, SoundKind.WHEEZE);
        int rhonchi = ReportWords.count(e, SoundKind.RHONCHUS);
        if (wheezes > 0 && rhonchi == 0) {
            return FhirCodes.WHEEZING;
        }
        return rhonchi > 0 && wheezes == 0 ? FhirCodes.RHONCHI : FhirCodes.WHEEZE_RHONCHI;
    }

    private static void components(ArrayNode components, Examination e) {
        Measures m = Measures.of(e);
        if (e.tellsProbability(true)) {
            add(
                    components,
                    "probability of a continuous sound, calibrated",
                    100 * e.probabilities().continuous(),
                    0,
                    "%",
                    "%");
        }
        if (e.tellsProbability(false)) {
            add(
                    components,
                    "probability of crackles, calibrated",
                    100 * e.probabilities().discontinuous(),
                    0,
                    "%",
                    "%");
        }
        for (SoundKind kind : SoundKind.values()) {
            if (e.tellsNumber(kind.continuous())) {
                add(components, "measured: " + Words.kind(kind), ReportWords.count(e, kind), 0, "sounds", "{count}");
            }
        }
        if (e.tellsNumber(true)) {
            add(components, "share of the time that continuous sounds fill", 100 * m.wheezeShare(), 0, "%", "%");
        }
        if (e.tellsNumber(false) && m.cracklesPerBreath() != null) {
            add(components, "crackles a breath", m.cracklesPerBreath(), 1, "crackles a breath", "{count}");
        }
        if (e.tellsNumber(true) && m.dominantHz() != null) {
            add(components, "dominant frequency, median", m.dominantHz(), 0, "Hz", "Hz");
        }
        e.longestPause().ifPresent(pause -> {
            // What is cut lasted at least as long: whole seconds below, never above.
            boolean cut = pause.cut() != BreathingPause.Cut.NONE;
            double seconds = cut ? Math.floor(pause.seconds()) : pause.seconds();
            add(components, "longest stretch without a breath heard", seconds, 0, "seconds", "s");
            if (cut) {
                // FHIR R4, Quantity: the actual value is greater than or equal to the given value.
                ((ObjectNode) components.get(components.size() - 1).get("valueQuantity")).put("comparator", ">=");
            }
        });
        if (m.ratePerMinute() != null) {
            add(components, "breathing rate heard in this take", m.ratePerMinute(), 0, "breaths/minute", "/min");
        }
    }

    /** With the decimals that the report for people has, so that both say the same. */
    private static void add(ArrayNode components, String name, double value, int decimals, String unit, String ucum) {
        ObjectNode component = components.addObject();
        component.set("code", FhirJson.concept(name));
        component.set("valueQuantity", FhirJson.quantity(value, decimals, unit, ucum));
    }

    /** FHIR R4, Attachment: "the calculated hash of the data using SHA-1", in base64; no secret hangs on it. */
    private static String sha1(byte[] bytes) {
        try {
            return Base64.getEncoder()
                    .encodeToString(MessageDigest.getInstance("SHA-1").digest(bytes));
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException(e);
        }
    }
}
