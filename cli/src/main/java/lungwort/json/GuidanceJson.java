package lungwort.json;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.stream.Collectors;
import lungwort.BadInput;
import lungwort.guidance.Breathlessness;
import lungwort.guidance.ClinicianLimits;
import lungwort.guidance.ClinicianLimits.Limit;
import lungwort.guidance.ClinicianLimits.StatedUsual;
import lungwort.guidance.Condition;
import lungwort.guidance.Conditions;
import lungwort.guidance.Consciousness;
import lungwort.guidance.DangerAnswers;
import lungwort.guidance.RateSource;
import lungwort.guidance.Symptoms;
import lungwort.guidance.Vitals;
import org.jspecify.annotations.Nullable;

/**
 * What the guidance is asked with, as JSON objects and back without loss. A value that was not given is null or missing, and stays not given. Keys are the names of the
 * records' fields, with their units.
 */
public final class GuidanceJson {
    private GuidanceJson() {}

    /** Vitals. */
    public static ObjectNode toJson(Vitals v) {
        ObjectNode node = Json.object();
        node.put("spo2Percent", v.spo2Percent());
        node.put("onOxygen", v.onOxygen());
        node.put("respiratoryRatePerMinute", v.respiratoryRatePerMinute());
        node.put("rateSource", id(v.rateSource(), RateSource::id));
        node.put("asleep", v.asleep());
        node.put("pulsePerMinute", v.pulsePerMinute());
        node.put("temperatureCelsius", v.temperatureCelsius());
        node.put("systolicMmHg", v.systolicMmHg());
        node.put("consciousness", id(v.consciousness(), Consciousness::id));
        node.put("peakFlowLitresPerMinute", v.peakFlowLitresPerMinute());
        node.put("weightKg", v.weightKg());
        node.put("oxygenLitresPerMinute", v.oxygenLitresPerMinute());
        return node;
    }

    /** @throws BadInput if a value is of the wrong type or out of range */
    public static Vitals vitals(JsonNode node) {
        return new Vitals(
                integer(node, "spo2Percent"),
                bool(node, "onOxygen"),
                integer(node, "respiratoryRatePerMinute"),
                named(node, "rateSource", RateSource.values(), RateSource::id),
                bool(node, "asleep"),
                integer(node, "pulsePerMinute"),
                Json.optionalNumber(node, "temperatureCelsius"),
                integer(node, "systolicMmHg"),
                named(node, "consciousness", Consciousness.values(), Consciousness::id),
                integer(node, "peakFlowLitresPerMinute"),
                Json.optionalNumber(node, "weightKg"),
                Json.optionalNumber(node, "oxygenLitresPerMinute"));
    }

    /**
     * Vitals with what came later; fields that were not sent stay.
     *
     * @throws BadInput if a value is of the wrong type or out of range, or a field is not known
     */
    public static Vitals vitals(Vitals before, JsonNode sent) {
        ObjectNode node = toJson(before);
        if (sent.has("respiratoryRatePerMinute")) {
            // Where the earlier rate came from says nothing of this one.
            node.putNull("rateSource");
        }
        if (sent.has("onOxygen") && !sent.get("onOxygen").asBoolean()) {
            // Without oxygen there is no flow of it.
            node.putNull("oxygenLitresPerMinute");
        }
        return vitals(onto(node, "the field \"vitals\"", sent));
    }

    private static ObjectNode onto(ObjectNode before, String name, JsonNode sent) {
        Json.requireFields(sent, name, Json.names(before));
        before.setAll((ObjectNode) sent);
        return before;
    }

    /** Symptoms. */
    public static ObjectNode toJson(Symptoms s) {
        ObjectNode node = Json.object();
        node.put("breathlessness", id(s.breathlessness(), Breathlessness::id));
        node.put("chestPain", s.chestPain());
        node.put("fever", s.fever());
        node.put("chestInfection", s.chestInfection());
        return node;
    }

    /** @throws BadInput if a value is of the wrong type */
    public static Symptoms symptoms(JsonNode node) {
        return new Symptoms(
                named(node, "breathlessness", Breathlessness.values(), Breathlessness::id),
                bool(node, "chestPain"),
                bool(node, "fever"),
                bool(node, "chestInfection"));
    }

    /**
     * Symptoms with what came later; fields that were not sent stay.
     *
     * @throws BadInput if a value is of the wrong type, or a field is not known
     */
    public static Symptoms symptoms(Symptoms before, JsonNode sent) {
        return symptoms(onto(toJson(before), "the field \"symptoms\"", sent));
    }

    /** Answers to the danger-sign questions: {@code {"yes":[ids],"no":[ids]}}. */
    public static ObjectNode toJson(DangerAnswers answers) {
        ObjectNode node = Json.object();
        node.set("yes", ids(answers.yes()));
        node.set("no", ids(answers.no()));
        return node;
    }

    /** @throws BadInput if a sign is not known or answered both ways */
    public static DangerAnswers dangerAnswers(JsonNode node) {
        return new DangerAnswers(
                new TreeSet<>(texts(Json.list(node, "yes"))), new TreeSet<>(texts(Json.list(node, "no"))));
    }

    /** Known conditions: a list of ids. */
    public static ArrayNode toJson(Conditions conditions) {
        return ids(conditions.known().stream().map(Condition::id).toList());
    }

    /** @throws BadInput if a condition is not known */
    public static Conditions conditions(JsonNode node) {
        Set<Condition> known = texts(node).stream().map(Condition::ofId).collect(Collectors.toSet());
        return new Conditions(known);
    }

    /** A clinician's limits: each limit as {@code {"seenToday":n,"emergency":n}}, a usual SpO2 as {@code {"percent":n,"on":"2026-03-14","onOxygen":true|false|null,"setBy":"..","setOn":".."}}. */
    public static ObjectNode toJson(ClinicianLimits limits) {
        ObjectNode node = Json.object();
        node.set("spo2Below", limit(limits.spo2Below()));
        node.set("respiratoryRateAbove", limit(limits.respiratoryRateAbove()));
        node.set("pulseAbove", limit(limits.pulseAbove()));
        node.put("spo2Scale2", limits.spo2Scale2());
        node.put("bestPeakFlowLitresPerMinute", limits.bestPeakFlowLitresPerMinute());
        StatedUsual usual = limits.usualSpo2();
        node.set(
                "usualSpo2",
                usual == null
                        ? null
                        : Json.object()
                                .put("percent", usual.percent())
                                .put("on", usual.on().toString())
                                .put("onOxygen", usual.onOxygen())
                                .put("setBy", usual.setBy())
                                .put("setOn", usual.setOn()));
        node.put("setBy", limits.setBy());
        node.put("setOn", limits.setOn());
        return node;
    }

    /** @throws BadInput if a limit is out of range or in the wrong order, or nobody is named who set it */
    public static ClinicianLimits limits(JsonNode node) {
        return new ClinicianLimits(
                limit(node, "spo2Below"),
                limit(node, "respiratoryRateAbove"),
                limit(node, "pulseAbove"),
                Json.bool(node, "spo2Scale2"),
                integer(node, "bestPeakFlowLitresPerMinute"),
                usual(node, node.get("usualSpo2")),
                Json.text(node, "setBy"),
                Json.text(node, "setOn"));
    }

    private static @Nullable ObjectNode limit(@Nullable Limit limit) {
        return limit == null
                ? null
                : Json.object().put("seenToday", limit.seenToday()).put("emergency", limit.emergency());
    }

    private static @Nullable Limit limit(JsonNode node, String field) {
        JsonNode value = node.get(field);
        return value == null || value.isNull()
                ? null
                : new Limit(Json.integer(value, "seenToday"), Json.integer(value, "emergency"));
    }

    /** Null too where the field is missing: older diaries have none. In others it has no name and no date of its own: there those of the limits stand for it. */
    private static @Nullable StatedUsual usual(JsonNode limits, @Nullable JsonNode node) {
        if (node == null || node.isNull()) {
            return null;
        }
        String on = Json.text(node, "on");
        try {
            return new StatedUsual(
                    Json.integer(node, "percent"),
                    LocalDate.parse(on),
                    bool(node, "onOxygen"),
                    Json.text(node.has("setBy") ? node : limits, "setBy"),
                    Json.text(node.has("setBy") ? node : limits, "setOn"));
        } catch (DateTimeException e) {
            throw new BadInput("usual SpO2: the day \"%s\" cannot be read; write it as 2026-03-14.".formatted(on), e);
        }
    }

    private static ArrayNode ids(Collection<String> ids) {
        ArrayNode array = Json.array();
        ids.forEach(array::add);
        return array;
    }

    private static List<String> texts(JsonNode array) {
        List<String> texts = new ArrayList<>();
        array.forEach(text -> texts.add(text.asText()));
        return texts;
    }

    private static <T> @Nullable String id(@Nullable T value, Function<T, String> id) {
        return value == null ? null : id.apply(value);
    }

    private static <T> @Nullable T named(JsonNode node, String field, T[] values, Function<T, String> id) {
        String wanted = Json.optionalText(node, field);
        if (wanted == null) {
            return null;
        }
        List<String> known = new ArrayList<>();
        for (T value : values) {
            if (id.apply(value).equals(wanted)) {
                return value;
            }
            known.add(id.apply(value));
        }
        throw new BadInput(
                "the field \"%s\" is \"%s\"; use one of %s.".formatted(field, wanted, String.join(", ", known)));
    }

    private static @Nullable Integer integer(JsonNode node, String field) {
        JsonNode value = node.get(field);
        return value == null || value.isNull() ? null : (Integer) Json.integer(node, field);
    }

    private static @Nullable Boolean bool(JsonNode node, String field) {
        JsonNode value = node.get(field);
        return value == null || value.isNull() ? null : (Boolean) Json.bool(node, field);
    }
}
