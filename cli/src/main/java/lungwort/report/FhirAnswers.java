package lungwort.report;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.LinkedHashMap;
import java.util.Map;
import lungwort.diary.Round;
import lungwort.guidance.Consciousness;
import lungwort.guidance.Symptoms;

/** What was asked and answered beside the danger signs. What was not asked is left out: nobody may take it for a no. */
final class FhirAnswers {
    private FhirAnswers() {}

    /** Question and answer: a Boolean, or words. */
    static Map<String, Object> of(Round round) {
        Map<String, Object> answers = new LinkedHashMap<>();
        Symptoms s = round.symptoms();
        put(
                answers,
                "Breathes extra oxygen while the oxygen saturation is measured",
                round.vitals().onOxygen());
        Consciousness awake = round.vitals().consciousness();
        put(answers, "How awake and clear", awake == null ? null : awake.words());
        put(
                answers,
                "The breathing rate was taken asleep",
                round.vitals().respiratoryRatePerMinute() == null
                        ? null
                        : round.vitals().asleep());
        put(
                answers,
                "Breathlessness, more than usual",
                s.breathlessness() == null ? null : s.breathlessness().words());
        put(answers, "New pain or tightness in the chest", s.chestPain());
        put(answers, "Feels feverish, or had a fever today", s.fever());
        put(
                answers,
                "Signs of a chest infection: new or worse cough, thick or coloured phlegm, shivering, feeling ill",
                s.chestInfection());
        put(
                answers,
                "What was seen, in the family's words",
                round.symptomWords().isBlank() ? null : round.symptomWords());
        put(answers, "Medicines taken, in the family's words", round.medicines().isBlank() ? null : round.medicines());
        return answers;
    }

    private static void put(
            Map<String, Object> answers, String question, @org.jspecify.annotations.Nullable Object answer) {
        if (answer != null) {
            answers.put(question, answer);
        }
    }

    static void put(ObjectNode node, Object answer) {
        if (answer instanceof Boolean yes) {
            node.put("valueBoolean", yes);
        } else {
            node.put("valueString", FhirJson.string(answer.toString()));
        }
    }
}
