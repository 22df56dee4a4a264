package lungwort.score;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Map;

/** A {@link ScoreReport} as JSON: fractions 0..1, undefined figures null, the same bytes for the same report. */
public final class ScoreJson {
    private static final ObjectMapper JSON = new ObjectMapper();

    /** Points of a risk-coverage curve that are written. */
    private static final int CURVE_STEPS = 100;

    private ScoreJson() {}

    /** The report as a tree, keys in a fixed order. */
    public static ObjectNode tree(ScoreReport report) {
        ObjectNode root = JsonNodeFactory.instance.objectNode();
        root.put("database", report.database().title());
        root.put("split", report.split());
        root.put("model", report.model());
        root.put("recordings", report.recordings());
        root.put("events", report.events());
        root.put("patients", report.patients());
        root.put("leftOutRecordings", report.leftOutRecordings());
        root.set("tasks", tasks(report));
        root.set("auc", auc(report));
        root.set("ci95", intervals(report));
        root.set("calibrationError", calibration(report));
        root.set("reliability", reliability(report));
        root.set("confusion", confusions(report));
        root.set("devices", devices(report));
        root.set("alone", alone(report.alone()));
        if (!report.detection().isEmpty()) {
            root.set("detection", detection(report));
        }
        return root;
    }

    /** The report with what it was made of and with, as text, indented, with a newline at its end. */
    public static String text(ScoreReport report, Provenance provenance) {
        ObjectNode root = tree(report);
        root.set("madeWith", provenance(provenance));
        return text(root);
    }

    private static ObjectNode provenance(Provenance provenance) {
        ObjectNode node = JsonNodeFactory.instance.objectNode();
        node.put("lungwort", provenance.version());
        node.put("java", provenance.java());
        node.put("processor", provenance.processor());
        node.set("scored", data(provenance.scored()));
        if (provenance.learntFromToo() != null) {
            node.set("learntFromToo", data(provenance.learntFromToo()));
        }
        node.put(provenance.answeredBy().kind(), provenance.answeredBy().sha256());
        node.put("altered", provenance.altered());
        return node;
    }

    private static ObjectNode data(Provenance.Data data) {
        return JsonNodeFactory.instance
                .objectNode()
                .put("annotations", data.annotations())
                .put("audio", data.audio());
    }

    /** Any tree in the same form. */
    public static String text(JsonNode tree) {
        try {
            return JSON.writerWithDefaultPrettyPrinter().writeValueAsString(tree) + "\n";
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static ObjectNode tasks(ScoreReport report) {
        ObjectNode tasks = JsonNodeFactory.instance.objectNode();
        report.tasks().forEach((name, figures) -> {
            TaskScore score = figures.value();
            ObjectNode task = tasks.putObject(name);
            put(task, "SE", score.sensitivity());
            put(task, "SP", score.specificity());
            put(task, "AS", score.averageScore());
            put(task, "HS", score.harmonicScore());
            put(task, "score", ScoreReport.headline(name, score));
        });
        return tasks;
    }

    private static ObjectNode auc(ScoreReport report) {
        ObjectNode auc = JsonNodeFactory.instance.objectNode();
        ObjectNode event = auc.putObject("event");
        report.eventAuc().forEach((name, figure) -> put(event, name, figure.value()));
        ObjectNode recording = auc.putObject("recording");
        report.recordingAuc().forEach((name, figure) -> put(recording, name, figure.value()));
        return auc;
    }

    private static ObjectNode intervals(ScoreReport report) {
        ObjectNode ci95 = JsonNodeFactory.instance.objectNode();
        ci95.put("method", "percentile, patients resampled with replacement");
        ci95.put("resamples", report.resamples());
        ci95.put("seed", report.seed());
        ObjectNode tasks = ci95.putObject("tasks");
        report.tasks().forEach((name, figures) -> {
            ObjectNode task = tasks.putObject(name);
            put(task, "SE", figures.se());
            put(task, "SP", figures.sp());
            put(task, "AS", figures.as());
            put(task, "HS", figures.hs());
            put(task, "score", ScoreReport.headline(name, figures));
        });
        ObjectNode auc = ci95.putObject("auc");
        putAll(auc.putObject("event"), report.eventAuc());
        putAll(auc.putObject("recording"), report.recordingAuc());
        return ci95;
    }

    private static ObjectNode calibration(ScoreReport report) {
        ObjectNode errors = JsonNodeFactory.instance.objectNode();
        report.calibration().forEach((name, error) -> put(errors, name, error));
        return errors;
    }

    private static ObjectNode confusions(ScoreReport report) {
        ObjectNode all = JsonNodeFactory.instance.objectNode();
        report.confusions().forEach((name, confusion) -> {
            ObjectNode one = all.putObject(name);
            one.set("classes", JSON.valueToTree(confusion.classes()));
            one.set("counts", JSON.valueToTree(confusion.counts()));
        });
        return all;
    }

    private static ArrayNode devices(ScoreReport report) {
        ArrayNode devices = JsonNodeFactory.instance.arrayNode();
        for (ScoreReport.DeviceFigures figures : report.devices()) {
            ObjectNode device = devices.addObject();
            device.put("device", figures.device());
            device.put("recordings", figures.recordings());
            device.put("events", figures.events());
            ObjectNode auc = device.putObject("auc");
            put(auc, "continuous", figures.continuous().value());
            put(auc, "discontinuous", figures.discontinuous().value());
            ObjectNode ci95 = device.putObject("ci95");
            put(ci95, "continuous", figures.continuous().ci95());
            put(ci95, "discontinuous", figures.discontinuous().ci95());
        }
        return devices;
    }

    /** Bins that hold nothing are left out. */
    private static ObjectNode reliability(ScoreReport report) {
        ObjectNode all = JsonNodeFactory.instance.objectNode();
        report.reliability().forEach((name, bins) -> {
            ArrayNode array = all.putArray(name);
            bins.stream()
                    .filter(bin -> bin.count() > 0)
                    .forEach(bin -> array.addObject()
                            .put("low", bin.low())
                            .put("high", bin.high())
                            .put("count", bin.count())
                            .put("meanProbability", bin.meanProbability())
                            .put("observedShare", bin.observedShare()));
        });
        return all;
    }

    private static ObjectNode alone(AloneFigures figures) {
        ObjectNode alone = JsonNodeFactory.instance.objectNode();
        alone.put("answered", figures.answered());
        figures.shares().forEach(share -> put(alone, share.id(), share.figure().value()));
        ObjectNode auc = alone.putObject("auc");
        figures.auc().forEach((name, figure) -> put(auc, name, figure.value()));
        ObjectNode ci95 = alone.putObject("ci95");
        figures.shares().forEach(share -> put(ci95, share.id(), share.figure().ci95()));
        putAll(ci95.putObject("auc"), figures.auc());
        ObjectNode curves = alone.putObject("riskCoverage");
        figures.riskCoverage().forEach((name, curve) -> {
            ObjectNode one = curves.putObject(name);
            put(one, "area", curve.area());
            ArrayNode points = one.putArray("points");
            curve.thinned(CURVE_STEPS)
                    .forEach(p -> points.addObject()
                            .put("threshold", p.threshold())
                            .put("coverage", p.coverage())
                            .put("risk", p.risk()));
        });
        return alone;
    }

    private static ObjectNode detection(ScoreReport report) {
        ObjectNode all = JsonNodeFactory.instance.objectNode();
        report.detection().forEach((name, figures) -> {
            ObjectNode one = all.putObject(name);
            one.put("rule", figures.rule());
            counts(one, figures.counts());
            ObjectNode ci95 = one.putObject("ci95");
            put(ci95, "F", figures.f().ci95());
            put(ci95, "precision", figures.precision().ci95());
            put(ci95, "recall", figures.recall().ci95());
            ObjectNode kinds = one.putObject("byKind");
            figures.byKind().forEach((kind, counts) -> counts(kinds.putObject(kind), counts));
        });
        return all;
    }

    private static void counts(ObjectNode node, EventMatching.Counts counts) {
        node.put("annotated", counts.annotated());
        node.put("found", counts.found());
        node.put("matched", counts.matched());
        put(node, "F", counts.f());
        put(node, "precision", counts.precision());
        put(node, "recall", counts.recall());
    }

    private static void putAll(ObjectNode node, Map<String, Figure> figures) {
        figures.forEach((name, figure) -> put(node, name, figure.ci95()));
    }

    private static void put(ObjectNode node, String name, double value) {
        if (Double.isFinite(value)) {
            node.put(name, value);
        } else {
            node.putNull(name);
        }
    }

    private static void put(ObjectNode node, String name, Interval interval) {
        if (Double.isFinite(interval.low())) {
            node.putArray(name).add(interval.low()).add(interval.high());
        } else {
            node.putNull(name);
        }
    }
}
