package lungwort.json;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import lungwort.BadInput;
import lungwort.audio.SourceFormat;
import lungwort.breath.Breath;
import lungwort.breath.BreathPhase;
import lungwort.breath.Breathing;
import lungwort.breath.PhaseSpan;
import lungwort.classify.HeardEvent;
import lungwort.examine.BreathSummary;
import lungwort.examine.BreathingPause;
import lungwort.examine.Evidence;
import lungwort.examine.Examination;
import lungwort.examine.Examination.Probabilities;
import lungwort.examine.PhaseSummary;
import lungwort.examine.Suggestion;
import lungwort.quality.Quality;
import lungwort.quality.QualityIssue;
import lungwort.sound.ContinuousSound;
import lungwort.sound.ContinuousSound.TrackPoint;
import lungwort.sound.Crackle;
import lungwort.sound.MeasuredSound;
import lungwort.sound.SoundKind;
import org.jspecify.annotations.Nullable;

/**
 * An examination as a JSON object and back, without loss: {@code fromJson(toJson(e)).equals(e)}, except that a number that is not finite
 * comes back as NaN.
 *
 * <p>Keys: {@code file, suggestion, probabilities{continuous, discontinuous, poorQuality}, quality{usable, issues[id], findings[..], events[..]}, breaths[..],
 * respiratoryRatePerMinute, respiratoryRate{low, high, confidence}, evidence[{kind, startSeconds, endSeconds, phase, ..}], heard[{continuous, startSeconds, endSeconds, probability}], pauses[{startSeconds, endSeconds, seconds, cut, words}], tellsNumber{continuous, crackles}, tellsProbability{continuous, crackles}, byPhase[{phase, seconds, continuousShare, crackles}], durationSeconds, source, reasons,
 * model, caution}. The numbers of byPhase and perBreath are null where {@link Examination#tellsNumber} says that they say nothing. Times are seconds within the recording, frequencies Hz, widths ms, levels dB, probabilities 0 to 1; null stands for "not measured".
 */
public final class ExaminationJson {
    private ExaminationJson() {}

    /** One examination as an object. */
    public static ObjectNode toJson(Examination e) {
        ObjectNode node = Json.object();
        node.put("file", e.origin());
        node.put("suggestion", e.suggestion().id());
        node.set("probabilities", probabilities(e.probabilities()));
        node.set("quality", quality(e.quality()));
        node.set("breaths", breaths(e.breathing()));
        rate(node, e.breathing().rate());
        node.set("evidence", evidence(e.evidence()));
        node.set("heard", heard(e.events()));
        node.set("pauses", pauses(e.pauses()));
        node.set("tellsNumber", both(e.tellsNumber(true), e.tellsNumber(false)));
        node.set("tellsProbability", both(e.tellsProbability(true), e.tellsProbability(false)));
        node.set("byPhase", byPhase(e));
        BreathSummary.of(e).forEach(summary -> node.set("perBreath", perBreath(e, summary)));
        ArrayNode reasons = node.putArray("reasons");
        e.reasons().forEach(reasons::add);
        Json.put(node, "durationSeconds", e.durationSeconds());
        node.set("source", source(e.source()));
        node.put("model", e.model());
        node.put("caution", Examination.CAUTION);
        return node;
    }

    private static ObjectNode both(boolean continuous, boolean crackles) {
        return Json.object().put("continuous", continuous).put("crackles", crackles);
    }

    private static ObjectNode perBreath(Examination e, BreathSummary summary) {
        ObjectNode node = Json.object();
        node.put("breaths", summary.breaths());
        Json.put(node, "continuousShare", e.tellsNumber(true) ? summary.continuousShare() : Double.NaN);
        Json.put(node, "crackles", e.tellsNumber(false) ? summary.cracklesPerBreath() : Double.NaN);
        node.put("monophonic", e.tellsNumber(true) ? (Integer) summary.monophonic() : null);
        node.put("polyphonic", e.tellsNumber(true) ? (Integer) summary.polyphonic() : null);
        return node;
    }

    private static ArrayNode byPhase(Examination e) {
        ArrayNode array = Json.array();
        for (PhaseSummary summary : PhaseSummary.of(e)) {
            ObjectNode node = array.addObject();
            node.put("phase", summary.phase().name().toLowerCase(Locale.ROOT));
            Json.put(node, "seconds", summary.seconds());
            Json.put(node, "continuousShare", e.tellsNumber(true) ? summary.continuousShare() : Double.NaN);
            node.put("crackles", e.tellsNumber(false) ? (Integer) summary.crackles() : null);
        }
        return array;
    }

    /** Several examinations as an array, as {@code examine --json} prints them. */
    public static ArrayNode toJson(List<Examination> examinations) {
        ArrayNode array = Json.array();
        examinations.forEach(e -> array.add(toJson(e)));
        return array;
    }

    /**
     * Reads what {@link #toJson(Examination)} wrote; keys it does not know are passed over.
     *
     * @throws BadInput if a field is missing, of the wrong type, or names something this version does not know
     */
    public static Examination fromJson(JsonNode node) {
        try {
            return new Examination(
                    Json.text(node, "file"),
                    Json.number(node, "durationSeconds"),
                    source(Json.need(node, "source")),
                    suggestion(Json.text(node, "suggestion")),
                    probabilities(Json.need(node, "probabilities")),
                    quality(Json.need(node, "quality")),
                    breathing(node),
                    evidence(Json.list(node, "evidence")),
                    heard(node),
                    pauses(node),
                    texts(Json.list(node, "reasons")),
                    Json.text(node, "model"));
        } catch (IllegalArgumentException e) {
            throw new BadInput(
                    "this examination holds a value that is not possible (%s); examine the recording again."
                            .formatted(e.getMessage()),
                    e);
        }
    }

    private static ArrayNode heard(List<HeardEvent> events) {
        ArrayNode array = Json.array();
        for (HeardEvent event : events) {
            ObjectNode node = array.addObject().put("continuous", event.continuous());
            span(node, event.startSeconds(), event.endSeconds());
            Json.put(node, "probability", event.probability());
        }
        return array;
    }

    private static List<HeardEvent> heard(JsonNode node) {
        List<HeardEvent> events = new ArrayList<>();
        // Examinations that were stored before single sounds were looked for have none.
        for (JsonNode e : node.path("heard")) {
            events.add(new HeardEvent(
                    Json.number(e, "startSeconds"),
                    Json.number(e, "endSeconds"),
                    Json.bool(e, "continuous"),
                    Json.number(e, "probability")));
        }
        return events;
    }

    private static ArrayNode pauses(List<BreathingPause> pauses) {
        ArrayNode array = Json.array();
        for (BreathingPause pause : pauses) {
            ObjectNode node = array.addObject();
            span(node, pause.startSeconds(), pause.endSeconds());
            Json.put(node, "seconds", pause.seconds());
            node.put("cut", pause.cut().name().toLowerCase(Locale.ROOT));
            node.put("words", pause.words());
        }
        return array;
    }

    private static List<BreathingPause> pauses(JsonNode node) {
        List<BreathingPause> pauses = new ArrayList<>();
        // Examinations that were stored before pauses were looked for have none.
        for (JsonNode p : node.path("pauses")) {
            pauses.add(new BreathingPause(Json.number(p, "startSeconds"), Json.number(p, "endSeconds"), cut(p)));
        }
        return pauses;
    }

    /** Examinations that were stored before such pauses were told have none that is cut. */
    private static BreathingPause.Cut cut(JsonNode pause) {
        String cut = pause.path("cut").asText(BreathingPause.Cut.NONE.name());
        return BreathingPause.Cut.valueOf(cut.toUpperCase(Locale.ROOT));
    }

    private static ObjectNode probabilities(Probabilities p) {
        ObjectNode node = Json.object();
        Json.put(node, "continuous", p.continuous());
        Json.put(node, "discontinuous", p.discontinuous());
        Json.put(node, "poorQuality", p.poorQuality());
        return node;
    }

    private static Probabilities probabilities(JsonNode node) {
        return new Probabilities(
                Json.number(node, "continuous"), Json.number(node, "discontinuous"), Json.number(node, "poorQuality"));
    }

    private static ObjectNode quality(Quality quality) {
        ObjectNode node = Json.object();
        node.put("usable", quality.usable());
        ArrayNode issues = node.putArray("issues");
        ArrayNode findings = node.putArray("findings");
        for (Quality.Finding finding : quality.findings()) {
            issues.add(finding.issue().id());
            findings.addObject()
                    .put("issue", finding.issue().id())
                    .put("grave", finding.grave())
                    .put("detail", finding.detail())
                    .put("reason", finding.issue().reason())
                    .put("remedy", finding.issue().remedy());
        }
        ArrayNode events = node.putArray("events");
        for (Quality.Event event : quality.events()) {
            events.addObject()
                    .put("kind", event.kind().name().toLowerCase(Locale.ROOT))
                    .put("startSeconds", event.startSeconds())
                    .put("endSeconds", event.endSeconds());
        }
        return node;
    }

    private static Quality quality(JsonNode node) {
        List<Quality.Finding> findings = new ArrayList<>();
        for (JsonNode f : Json.list(node, "findings")) {
            findings.add(
                    new Quality.Finding(issue(Json.text(f, "issue")), Json.bool(f, "grave"), Json.text(f, "detail")));
        }
        List<Quality.Event> events = new ArrayList<>();
        // Examinations that were stored before events were written have none.
        for (JsonNode e : node.path("events")) {
            events.add(new Quality.Event(
                    Quality.EventKind.valueOf(Json.text(e, "kind").toUpperCase(Locale.ROOT)),
                    Json.number(e, "startSeconds"),
                    Json.number(e, "endSeconds")));
        }
        return new Quality(Json.bool(node, "usable"), findings, events);
    }

    private static ArrayNode breaths(Breathing breathing) {
        ArrayNode array = Json.array();
        for (Breath breath : breathing.breaths()) {
            ObjectNode node = array.addObject();
            span(node, breath.startSeconds(), breath.endSeconds());
            Json.put(node, "confidence", breath.confidence());
            ArrayNode phases = node.putArray("phases");
            for (PhaseSpan phase : breath.phases()) {
                ObjectNode p = phases.addObject().put("phase", id(phase.phase()));
                span(p, phase.startSeconds(), phase.endSeconds());
                Json.put(p, "confidence", phase.confidence());
            }
        }
        return array;
    }

    private static void rate(ObjectNode node, Breathing.@Nullable Rate rate) {
        if (rate == null) {
            node.putNull("respiratoryRatePerMinute").putNull("respiratoryRate");
            return;
        }
        Json.put(node, "respiratoryRatePerMinute", rate.perMinute());
        ObjectNode interval = node.putObject("respiratoryRate");
        Json.put(interval, "low", rate.low());
        Json.put(interval, "high", rate.high());
        Json.put(interval, "confidence", rate.confidence());
    }

    private static Breathing breathing(JsonNode node) {
        List<Breath> breaths = new ArrayList<>();
        for (JsonNode b : Json.list(node, "breaths")) {
            List<PhaseSpan> phases = new ArrayList<>();
            for (JsonNode p : Json.list(b, "phases")) {
                phases.add(new PhaseSpan(
                        Json.number(p, "startSeconds"),
                        Json.number(p, "endSeconds"),
                        phase(Json.text(p, "phase")),
                        Json.number(p, "confidence")));
            }
            breaths.add(new Breath(
                    Json.number(b, "startSeconds"),
                    Json.number(b, "endSeconds"),
                    phases,
                    Json.number(b, "confidence")));
        }
        return new Breathing(breaths, rate(node));
    }

    private static Breathing.@Nullable Rate rate(JsonNode node) {
        JsonNode interval = node.get("respiratoryRate");
        return interval == null || interval.isNull()
                ? null
                : new Breathing.Rate(
                        Json.number(node, "respiratoryRatePerMinute"),
                        Json.number(interval, "low"),
                        Json.number(interval, "high"),
                        Json.number(interval, "confidence"));
    }

    private static ArrayNode evidence(List<Evidence> evidence) {
        ArrayNode array = Json.array();
        for (Evidence e : evidence) {
            ObjectNode node = array.addObject().put("kind", e.sound().kind().id());
            span(node, e.sound().startSeconds(), e.sound().endSeconds());
            node.put("phase", id(e.phase()));
            Json.put(node, "positionInPhase", e.position());
            Json.put(node, "prominenceDb", e.sound().prominenceDb());
            if (e.sound() instanceof ContinuousSound sound) {
                continuous(node, sound);
            } else if (e.sound() instanceof Crackle crackle) {
                Json.put(node, "initialDeflectionWidthMs", crackle.initialDeflectionWidthMs());
                Json.put(node, "twoCycleDurationMs", crackle.twoCycleDurationMs());
                Json.put(node, "largestDeflectionWidthMs", crackle.largestDeflectionWidthMs());
            }
        }
        return array;
    }

    private static void continuous(ObjectNode node, ContinuousSound sound) {
        Json.put(node, "dominantHz", sound.dominantHz());
        node.put("harmonics", sound.harmonics());
        node.put("polyphonic", sound.polyphonic());
        Json.put(node, "continuity", sound.continuity());
        ArrayNode track = node.putArray("track");
        for (TrackPoint point : sound.track()) {
            ObjectNode p = track.addObject();
            Json.put(p, "seconds", point.seconds());
            Json.put(p, "hz", point.hz());
        }
    }

    private static List<Evidence> evidence(JsonNode array) {
        List<Evidence> evidence = new ArrayList<>();
        for (JsonNode node : array) {
            SoundKind kind = SoundKind.ofId(Json.text(node, "kind"));
            MeasuredSound sound = kind.continuous() ? continuous(kind, node) : crackle(kind, node);
            evidence.add(new Evidence(sound, phase(Json.text(node, "phase")), Json.number(node, "positionInPhase")));
        }
        return evidence;
    }

    private static ContinuousSound continuous(SoundKind kind, JsonNode node) {
        List<TrackPoint> track = new ArrayList<>();
        for (JsonNode p : Json.list(node, "track")) {
            track.add(new TrackPoint(Json.number(p, "seconds"), Json.number(p, "hz")));
        }
        return new ContinuousSound(
                kind,
                Json.number(node, "startSeconds"),
                Json.number(node, "endSeconds"),
                track,
                Json.number(node, "dominantHz"),
                Json.integer(node, "harmonics"),
                Json.bool(node, "polyphonic"),
                Json.number(node, "continuity"),
                Json.number(node, "prominenceDb"));
    }

    private static Crackle crackle(SoundKind kind, JsonNode node) {
        return new Crackle(
                kind,
                Json.number(node, "startSeconds"),
                Json.number(node, "endSeconds"),
                Json.number(node, "initialDeflectionWidthMs"),
                Json.number(node, "twoCycleDurationMs"),
                Json.number(node, "largestDeflectionWidthMs"),
                Json.number(node, "prominenceDb"));
    }

    private static ObjectNode source(SourceFormat source) {
        ObjectNode node = Json.object()
                .put("container", source.container())
                .put("encoding", source.encoding())
                .put("sampleRateHz", source.sampleRateHz())
                .put("bitsPerSample", source.bitsPerSample())
                .put("channels", source.channels());
        source.remarks().forEach(node.putArray("remarks")::add);
        return node;
    }

    private static SourceFormat source(JsonNode node) {
        return new SourceFormat(
                Json.text(node, "container"),
                Json.text(node, "encoding"),
                Json.integer(node, "sampleRateHz"),
                Json.integer(node, "bitsPerSample"),
                Json.integer(node, "channels"),
                // Examinations kept before there were remarks have none.
                texts(node.path("remarks")));
    }

    private static List<String> texts(JsonNode array) {
        List<String> texts = new ArrayList<>();
        array.forEach(text -> texts.add(text.asText()));
        return texts;
    }

    private static void span(ObjectNode node, double startSeconds, double endSeconds) {
        Json.put(node, "startSeconds", startSeconds);
        Json.put(node, "endSeconds", endSeconds);
    }

    private static String id(BreathPhase phase) {
        return phase.name().toLowerCase(Locale.ROOT);
    }

    private static BreathPhase phase(String id) {
        return BreathPhase.valueOf(id.toUpperCase(Locale.ROOT));
    }

    private static Suggestion suggestion(String id) {
        for (Suggestion suggestion : Suggestion.values()) {
            if (suggestion.id().equals(id)) {
                return suggestion;
            }
        }
        throw new IllegalArgumentException("no suggestion is called " + id);
    }

    private static QualityIssue issue(String id) {
        for (QualityIssue issue : QualityIssue.values()) {
            if (issue.id().equals(id)) {
                return issue;
            }
        }
        throw new IllegalArgumentException("no quality issue is called " + id);
    }
}
