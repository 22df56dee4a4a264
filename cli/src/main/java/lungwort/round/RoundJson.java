package lungwort.round;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.LocalDate;
import java.util.List;
import lungwort.compare.Comparison;
import lungwort.compare.ComparisonJson;
import lungwort.compare.Usual;
import lungwort.diary.Examined;
import lungwort.diary.Measures;
import lungwort.diary.MeasuresJson;
import lungwort.diary.Note;
import lungwort.diary.Person;
import lungwort.diary.Round;
import lungwort.diary.Take;
import lungwort.diary.Trend;
import lungwort.examine.Examination;
import lungwort.guidance.Age;
import lungwort.guidance.DangerSign;
import lungwort.guidance.Site;
import lungwort.guidance.SlowChange;
import lungwort.guidance.UsualFlow;
import lungwort.json.ExaminationJson;
import lungwort.json.GuidanceJson;
import lungwort.json.Json;
import lungwort.json.NextStepJson;
import org.jspecify.annotations.Nullable;

/** What a round says as JSON, for {@code --json} and the page. Null stands for not given, not measured, or not there. */
public final class RoundJson {
    private RoundJson() {}

    /** All of a view: danger signs and the next step first. */
    public static ObjectNode toJson(RoundView view) {
        ObjectNode node = Json.object();
        node.set("nextStep", NextStepJson.toJson(view.nextStep()));
        node.set("dangerSignsOpen", dangerSigns(view.dangerSignsOpen(), view.age()));
        node.set("person", person(view.person(), view.age()));
        node.set("round", round(view.round()));
        node.set("vitalsUsed", GuidanceJson.toJson(view.vitals()));
        ArrayNode sites = node.putArray("sites");
        view.sites().forEach(s -> sites.add(site(s)));
        ArrayNode open = node.putArray("sitesOpen");
        view.sitesOpen().forEach(s -> open.add(s.id()));
        ArrayNode sides = node.putArray("sides");
        view.sides().forEach(s -> sides.add(side(s)));
        node.set("asked", asked(view.asked()));
        ArrayNode usual = node.putArray("usual");
        view.usual().forEach(u -> usual.add(usual(u)));
        node.set("slowChanges", slowChanges(view.earlier().slowChanges()));
        ArrayNode weights = node.putArray("earlierWeights");
        view.earlier()
                .weights()
                .forEach(w -> weights.addObject()
                        .put("day", w.day().toString())
                        .put("daysBefore", w.daysBefore())
                        .put("kg", w.kg())
                        .put("words", w.words()));
        UsualFlow flow = view.earlier().usualFlow();
        if (flow == null) {
            node.putNull("earlierFlow");
        } else {
            node.putObject("earlierFlow")
                    .put("litresPerMinute", flow.litresPerMinute())
                    .put("spo2Percent", flow.spo2Percent())
                    .put("words", flow.words());
        }
        ArrayNode notes = node.putArray("notes");
        view.notes().forEach(n -> notes.add(toJson(n)));
        node.put("caution", Examination.CAUTION);
        return node;
    }

    /** Questions as {@code [{id, question}]}. */
    public static ArrayNode dangerSigns(List<DangerSign> signs, Age age) {
        ArrayNode array = Json.array();
        signs.forEach(s -> array.addObject().put("id", s.id()).put("question", s.question(age)));
        return array;
    }

    /** A person with the age on a day. */
    public static ObjectNode person(Person person, Age age) {
        return person(person, age.months(), age.words());
    }

    /** A person in a list: where the age cannot be known, {@code ageMonths} is null and {@code age} says so. */
    public static ObjectNode listed(Person person, LocalDate today) {
        Integer months = person.ageIfKnown(today).map(Age::months).orElse(null);
        return person(person, months, person.ageWords(today));
    }

    private static ObjectNode person(Person person, @Nullable Integer ageMonths, String age) {
        ObjectNode node = Json.object();
        node.put("id", person.id().toString());
        node.put("nickname", person.nickname());
        node.put("birthMonth", person.birthMonth().toString());
        node.put("ageMonths", ageMonths);
        node.put("age", age);
        node.set("conditions", GuidanceJson.toJson(person.conditions()));
        node.put("about", person.about());
        node.set("limits", GuidanceJson.toJson(person.limits()));
        return node;
    }

    /** A round without its takes. */
    public static ObjectNode round(Round round) {
        ObjectNode node = Json.object();
        node.put("id", round.id().toString());
        node.put("startedAt", round.startedAt().toString());
        node.put(
                "finishedAt",
                round.finishedAt() == null ? null : round.finishedAt().toString());
        node.set("dangerSigns", GuidanceJson.toJson(round.dangerSigns()));
        node.set("vitals", GuidanceJson.toJson(round.vitals()));
        node.set("symptoms", GuidanceJson.toJson(round.symptoms()));
        node.put("symptomWords", round.symptomWords());
        node.put("medicines", round.medicines());
        node.set("nextStepWhenFinished", round.nextStep() == null ? null : NextStepJson.toJson(round.nextStep()));
        return node;
    }

    /** A note. */
    public static ObjectNode toJson(Note note) {
        ObjectNode node = Json.object();
        node.put("id", note.id().toString());
        node.put("round", note.roundId() == null ? null : note.roundId().toString());
        node.put("writtenAt", note.writtenAt().toString());
        node.put("words", note.words());
        return node;
    }

    /** A take with its newest examination. */
    public static ObjectNode toJson(Take take) {
        ObjectNode node = Json.object();
        node.put("id", take.id().toString());
        node.put("site", take.site().id());
        node.put("take", take.reason().id());
        node.put("recordedAt", take.recordedAt().toString());
        node.put("file", take.fileName());
        node.put("recordingSha256", take.recordingSha256());
        node.put("breathHeard", take.breathHeard());
        node.put("knownToClinician", take.knownToClinician());
        node.put("breathingStopped", take.breathingStopped());
        Examined examined = take.examined();
        node.put("examinedAt", examined == null ? null : examined.at().toString());
        node.put("examinedBy", examined == null ? null : examined.lungwortVersion());
        node.set("measures", examined == null ? null : toJson(Measures.of(examined.examination())));
        node.set("examination", examined == null ? null : ExaminationJson.toJson(examined.examination()));
        return node;
    }

    /** The numbers that are followed. */
    public static ObjectNode toJson(Measures measures) {
        return MeasuresJson.toJson(measures);
    }

    /** A trend: every day of the span, nulls in the gaps, and what is usual. */
    public static ObjectNode toJson(Trend trend) {
        ObjectNode node = Json.object();
        node.put("first", trend.first().toString());
        node.put("last", trend.last().toString());
        ArrayNode days = node.putArray("days");
        trend.days()
                .forEach(d -> days.addObject()
                        .put("day", d.day().toString())
                        .put("rounds", d.rounds())
                        .put("wheezeShare", d.wheezeShare())
                        .put("cracklesPerBreath", d.cracklesPerBreath())
                        .put("ratePerMinute", d.ratePerMinute())
                        .put("rateHeard", d.rateHeard())
                        .put("spo2Percent", d.spo2Percent())
                        .put("spo2OnOxygen", d.spo2OnOxygen())
                        .put("peakFlowLitresPerMinute", d.peakFlowLitresPerMinute())
                        .put("weightKg", d.weightKg())
                        .put("oxygenLitresPerMinute", d.oxygenLitresPerMinute())
                        .put("spo2LitresPerMinute", d.spo2LitresPerMinute())
                        .put("wheezePlaces", d.wheezePlaces())
                        .put("cracklePlaces", d.cracklePlaces()));
        ObjectNode usual = node.putObject("usual");
        for (Trend.Measure measure : Trend.Measure.values()) {
            Trend.Usual u = trend.usual(measure);
            usual.set(measure.id(), u == null ? null : usual(u));
        }
        node.set("slowChanges", slowChanges(trend.slowChanges()));
        node.put("placesWords", trend.placesWords());
        node.put("newestFlowWords", trend.newestFlowWords());
        node.put("weightWords", trend.toldWords(Trend.Measure.WEIGHT));
        node.put("oxygenFlowWords", trend.toldWords(Trend.Measure.OXYGEN_FLOW));
        return node;
    }

    private static ArrayNode slowChanges(List<SlowChange> changes) {
        ArrayNode array = Json.array();
        changes.forEach(c -> array.addObject()
                .put("vital", c.vital().id())
                .put("how", c.how())
                .put("then", c.then())
                .put("when", c.when())
                .put("now", c.now())
                .put("of", c.of())
                .put("words", c.words()));
        return array;
    }

    /** A take against earlier ones at its site. */
    public static ObjectNode toJson(UsualAtSite usual) {
        ObjectNode node = Json.object();
        node.put("take", usual.take().id().toString());
        node.put("site", usual.take().site().id());
        ArrayNode earlier = node.putArray("earlier");
        usual.earlier().forEach(t -> earlier.add(t.id().toString()));
        node.put("ofWellDays", usual.ofWellDays());
        node.put("earlierWords", RoundWords.earlier(usual));
        node.put("newKind", usual.newKind());
        node.put("enough", Usual.ENOUGH_TAKES);
        node.set("measures", ComparisonJson.usual(usual.measures()));
        node.put("caution", Comparison.CAUTION);
        return node;
    }

    /** Two takes beside one another. */
    public static ObjectNode toJson(Compared compared) {
        ObjectNode node = ComparisonJson.toJson(compared.comparison());
        node.put("firstTake", compared.first().id().toString());
        node.put("firstSite", compared.first().site().id());
        node.put("secondTake", compared.second().id().toString());
        node.put("secondSite", compared.second().site().id());
        node.set("clearing", ComparisonJson.toJson(compared.clearings()));
        return node;
    }

    private static ObjectNode site(SiteView view) {
        ObjectNode node = Json.object();
        putSite(node, view.site());
        node.put(
                "clearing",
                view.finding() == null
                        ? null
                        : view.finding()
                                .clearing()
                                .name()
                                .toLowerCase(java.util.Locale.ROOT)
                                .replace('_', '-'));
        ArrayNode takes = node.putArray("takes");
        view.takes().forEach(t -> takes.add(toJson(t)));
        ArrayNode changes = node.putArray("changes");
        for (BeforeAfter change : view.changes()) {
            ObjectNode c = changes.addObject();
            c.put("before", change.before().id().toString());
            c.put("after", change.after().id().toString());
            c.put("cleared", change.cleared());
            c.set("measuresBefore", toJson(change.measuresBefore()));
            c.set("measuresAfter", toJson(change.measuresAfter()));
            c.set("tellsNumberBefore", told(change.toldBefore()));
            c.set("tellsNumberAfter", told(change.toldAfter()));
            c.set("clearings", ComparisonJson.toJson(change.clearings()));
            c.put("words", change.words());
        }
        return node;
    }

    /** Which numbers say something. */
    public static ObjectNode told(Told told) {
        return Json.object().put("continuous", told.continuous()).put("crackles", told.crackles());
    }

    private static void putSite(ObjectNode node, Site site) {
        node.put("site", site.id());
        node.put("words", site.words());
    }

    private static ObjectNode side(SidePair pair) {
        ObjectNode node = Json.object();
        node.put("left", pair.left().id());
        node.put("right", pair.right().id());
        node.put("takeLeft", pair.takeLeft().toString());
        node.put("takeRight", pair.takeRight().toString());
        node.set("measuresLeft", toJson(pair.measuresLeft()));
        node.set("measuresRight", toJson(pair.measuresRight()));
        node.set("tellsNumberLeft", told(pair.toldLeft()));
        node.set("tellsNumberRight", told(pair.toldRight()));
        node.put("words", pair.words());
        node.put("noise", Noise.ofSides());
        return node;
    }

    /** The take asked for next, or null. */
    public static @Nullable ObjectNode asked(@Nullable Asked asked) {
        if (asked == null) {
            return null;
        }
        ObjectNode node = Json.object();
        putSite(node, asked.site());
        node.put("take", asked.reason().id());
        node.put("because", asked.because());
        ArrayNode instructions = node.putArray("instructions");
        asked.instructions().forEach(instructions::add);
        return node;
    }

    private static ObjectNode usual(AgainstUsual against) {
        ObjectNode node = Json.object();
        node.put("measure", against.measure().id());
        node.put("value", against.value());
        node.put("how", against.how());
        node.put("outside", against.outside());
        node.put("changed", against.changed());
        node.put("twoTakesDifferBy", Noise.ofTwoTakes(against.measure()));
        node.set("usual", usual(against.usual()));
        return node;
    }

    private static ObjectNode usual(Trend.Usual usual) {
        ObjectNode node = Json.object();
        Json.put(node, "median", usual.median());
        Json.put(node, "lowest", usual.lowest());
        Json.put(node, "highest", usual.highest());
        node.put("days", usual.days());
        node.put("ofWellDays", usual.ofWellDays());
        node.put("how", usual.how());
        node.put("first", usual.first().toString());
        node.put("last", usual.last().toString());
        node.put("daysWords", usual.daysWords());
        node.put("daysBrief", usual.daysBrief());
        return node;
    }
}
