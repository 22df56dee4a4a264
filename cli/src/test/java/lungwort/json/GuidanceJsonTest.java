package lungwort.json;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.LocalDate;
import java.util.List;
import java.util.Set;
import lungwort.BadInput;
import lungwort.examine.Suggestion;
import lungwort.guidance.Age;
import lungwort.guidance.Breathlessness;
import lungwort.guidance.ClinicianLimits;
import lungwort.guidance.Condition;
import lungwort.guidance.Conditions;
import lungwort.guidance.Consciousness;
import lungwort.guidance.DangerAnswers;
import lungwort.guidance.Guidance;
import lungwort.guidance.NextStep;
import lungwort.guidance.RateSource;
import lungwort.guidance.Site;
import lungwort.guidance.Situation;
import lungwort.guidance.SoundFinding;
import lungwort.guidance.Symptoms;
import lungwort.guidance.Vitals;
import org.junit.jupiter.api.Test;

class GuidanceJsonTest {
    private static JsonNode again(JsonNode node) {
        return Json.parse(Json.compact(node), "text");
    }

    @Test
    void vitalsComeBackWithTheirGaps() {
        Vitals all = new Vitals(
                93, true, 28, RateSource.HEARD, true, 110, 38.4, 105, Consciousness.CONFUSED, 240, 72.4, 2.5);

        assertThat(GuidanceJson.vitals(again(GuidanceJson.toJson(all)))).isEqualTo(all);
        assertThat(GuidanceJson.vitals(again(GuidanceJson.toJson(Vitals.NONE)))).isEqualTo(Vitals.NONE);
        assertThat(GuidanceJson.vitals(Json.parse("{\"spo2Percent\":93}", "text")))
                .isEqualTo(Vitals.NONE.withSpo2(93));
    }

    /** As a diary holds them that was kept before weights were. */
    @Test
    void vitalsWithoutAWeightAreReadAsBefore() {
        ObjectNode before = GuidanceJson.toJson(Vitals.NONE.withSpo2(93).withPeakFlow(240));
        before.remove("weightKg");
        assertThat(GuidanceJson.vitals(again(before)))
                .isEqualTo(Vitals.NONE.withSpo2(93).withPeakFlow(240));
        assertThat(GuidanceJson.vitals(Vitals.NONE.withWeight(72.4), Json.parse("{\"spo2Percent\":93}", "text")))
                .isEqualTo(Vitals.NONE.withWeight(72.4).withSpo2(93));
        assertThatThrownBy(() -> GuidanceJson.vitals(Json.parse("{\"weightKg\":724}", "text")))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("weight: 724 is outside 1 to 350 kg");
    }

    /** As a diary holds them that was kept before flows of oxygen were; and a flow goes with the oxygen. */
    @Test
    void vitalsWithoutAFlowOfOxygenAreReadAsBefore() {
        Vitals oxygen = Vitals.NONE.withSpo2(93).withOnOxygen(true);
        ObjectNode before = GuidanceJson.toJson(oxygen);
        before.remove("oxygenLitresPerMinute");
        assertThat(GuidanceJson.vitals(again(before))).isEqualTo(oxygen);
        Vitals flow = oxygen.withOxygenFlow(2.5);
        for (String off : List.of("false", "null")) {
            assertThat(GuidanceJson.vitals(flow, Json.parse("{\"onOxygen\":%s}".formatted(off), "text"))
                            .oxygenLitresPerMinute())
                    .isNull();
        }
        assertThat(GuidanceJson.vitals(flow, Json.parse("{\"onOxygen\":true,\"spo2Percent\":94}", "text")))
                .isEqualTo(flow.withSpo2(94));
        assertThatThrownBy(() -> GuidanceJson.vitals(
                        flow, Json.parse("{\"onOxygen\":false,\"oxygenLitresPerMinute\":3}", "text")))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("oxygen flow: 3 litres a minute is given, and that no extra oxygen was on");
    }

    @Test
    void aVitalOutOfRangeOrOfTheWrongTypeIsASentence() {
        assertThatThrownBy(() -> GuidanceJson.vitals(Json.parse("{\"spo2Percent\":930}", "text")))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("930 is outside");
        assertThatThrownBy(() -> GuidanceJson.vitals(Json.parse("{\"spo2Percent\":\"93\"}", "text")))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("spo2Percent");
        assertThatThrownBy(() -> GuidanceJson.vitals(Json.parse("{\"consciousness\":\"sleepy\"}", "text")))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("use one of alert, confused, voice, pain, unresponsive");
    }

    @Test
    void symptomsDangerSignsConditionsAndLimitsComeBack() {
        Symptoms symptoms = new Symptoms(Breathlessness.AT_REST, null, false, true);
        DangerAnswers answers = DangerAnswers.noneOf(
                Age.ofYears(3),
                List.of(Guidance.dangerSigns(Age.ofYears(3)).get(0).id()));
        Conditions conditions = Conditions.of(Condition.COPD, Condition.HYPERCAPNIA_RISK);
        ClinicianLimits limits = new ClinicianLimits(
                new ClinicianLimits.Limit(87, 84),
                null,
                new ClinicianLimits.Limit(120, 135),
                true,
                310,
                new ClinicianLimits.StatedUsual(91, LocalDate.of(2026, 3, 14), true, "Nurse B. Example", "2026-03-12"),
                "Dr A. Example",
                "2026-03-14");

        assertThat(GuidanceJson.symptoms(again(GuidanceJson.toJson(symptoms)))).isEqualTo(symptoms);
        assertThat(GuidanceJson.dangerAnswers(again(GuidanceJson.toJson(answers))))
                .isEqualTo(answers);
        assertThat(GuidanceJson.conditions(again(GuidanceJson.toJson(conditions))))
                .isEqualTo(conditions);
        assertThat(GuidanceJson.limits(again(GuidanceJson.toJson(limits)))).isEqualTo(limits);
        assertThat(GuidanceJson.limits(again(GuidanceJson.toJson(ClinicianLimits.NONE))))
                .isEqualTo(ClinicianLimits.NONE);
    }

    /** Diaries of an older Lungwort know no stated usual. */
    @Test
    void limitsWithoutAStatedUsualAreRead() {
        ObjectNode old = GuidanceJson.toJson(ClinicianLimits.NONE);
        old.remove("usualSpo2");

        assertThat(GuidanceJson.limits(old)).isEqualTo(ClinicianLimits.NONE);
    }

    /** In older diaries a stated usual shared name and day with the limits, and nobody said how it was measured. */
    @Test
    void aStatedUsualOfAnOlderDiaryHasTheNameAndDayOfTheLimits() {
        ObjectNode old = GuidanceJson.toJson(ClinicianLimits.NONE);
        old.putObject("usualSpo2").put("percent", 93).put("on", "2026-03-14");
        old.put("setBy", "Dr A. Example").put("setOn", "2026-03-10");

        assertThat(GuidanceJson.limits(old).usualSpo2())
                .isEqualTo(new ClinicianLimits.StatedUsual(
                        93, LocalDate.of(2026, 3, 14), null, "Dr A. Example", "2026-03-10"));
    }

    @Test
    void aStatedUsualWithoutADayIsASentence() {
        ObjectNode limits = GuidanceJson.toJson(ClinicianLimits.NONE);
        limits.putObject("usualSpo2").put("percent", 93).put("on", "in March");

        assertThatThrownBy(() -> GuidanceJson.limits(limits))
                .isInstanceOf(BadInput.class)
                .hasMessage("usual SpO2: the day \"in March\" cannot be read; write it as 2026-03-14.");
    }

    @Test
    void aSignAnsweredBothWaysIsASentence() {
        String id = Guidance.allDangerSigns().get(0).id();
        String both = Json.compact(GuidanceJson.toJson(new DangerAnswers(Set.of(id), Set.of())))
                .replace("\"no\":[]", "\"no\":[\"" + id + "\"]");

        assertThatThrownBy(() -> GuidanceJson.dangerAnswers(Json.parse(both, "text")))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("with yes and with no");
    }

    @Test
    void aNextStepComesBackAsItWasSaid() {
        NextStep adult = Guidance.decide(Situation.of(Age.ofYears(70))
                .with(Vitals.NONE.withSpo2(93).withPulse(118).withOnOxygen(false))
                .plus(SoundFinding.first(Site.NECK, Suggestion.CONTINUOUS)));
        NextStep child = Guidance.decide(Situation.of(Age.ofMonths(4)));

        assertThat(adult.news2()).isNotNull();
        assertThat(adult.reasons()).isNotEmpty();
        assertThat(NextStepJson.fromJson(again(NextStepJson.toJson(adult)))).isEqualTo(adult);
        assertThat(NextStepJson.fromJson(again(NextStepJson.toJson(child)))).isEqualTo(child);
    }
}
