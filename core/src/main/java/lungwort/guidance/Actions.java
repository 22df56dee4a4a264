package lungwort.guidance;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** What to do now, in plain words and in order. Common practice; treatment is left to the care plan and the clinicians. */
final class Actions {
    private Actions() {}

    static List<String> of(Outcome outcome, Situation situation, List<Missing> missing, List<String> ofRules) {
        List<String> actions = new ArrayList<>();
        switch (outcome) {
            case EMERGENCY_NOW -> {
                actions.add(
                        "Call " + number(situation)
                                + " now. Say that the person is having trouble breathing or shows a danger sign, and how old they are.");
                actions.add(
                        "Stay with the person. Let them sit in the position in which they breathe most easily; keep a baby upright against you.");
                actions.add("If a care plan says what to do in an attack, do it while help is on its way.");
                actions.add("Do not wait for a recording, another measurement or a reply from Lungwort.");
            }
            case BE_SEEN_TODAY -> {
                if (emergencySignsOpen(situation)) {
                    actions.add(
                            "First answer the danger-sign questions that are still open: one yes may make this an emergency.");
                }
                missing.stream().filter(Actions::atOnce).forEach(m -> actions.add(m.text()));
                actions.add(
                        "Call the person's clinician, or the advice line where you live, and arrange that they are seen or assessed today.");
                actions.add(
                        "Tell them the reasons listed here, and when it began. Show the recordings and the report.");
                actions.add("If a care plan covers this, follow it while you wait.");
                actions.add("If a danger sign appears or it gets worse, call " + number(situation) + ".");
            }
            case NEXT_TAKE -> {
                missing.stream().filter(Missing::needed).forEach(m -> actions.add(m.text()));
                takes(actions, situation);
                actions.addAll(ofRules);
                actions.add(
                        "Then look at the next step again. If a danger sign appears, call " + number(situation) + ".");
            }
            case KEEP_WATCHING -> {
                actions.add(
                        "Stay near and look again: danger signs first, then count the breaths, then listen. Before the night, and again whenever something changes.");
                actions.add("Follow the care plan, and keep the appointments that are made.");
                actions.add("If a danger sign appears, call " + number(situation) + ".");
            }
        }
        return actions;
    }

    /** Whether a danger sign that would be an emergency was asked about and is not answered yet. */
    private static boolean emergencySignsOpen(Situation situation) {
        DangerAnswers answers = situation.dangerSigns();
        return Guidance.dangerSigns(situation.age(), situation.conditions()).stream()
                .filter(sign -> sign.outcome() == Outcome.EMERGENCY_NOW)
                .anyMatch(sign ->
                        !answers.yes().contains(sign.id()) && !answers.no().contains(sign.id()));
    }

    /** What may make it an emergency, and is known by looking. */
    private static boolean atOnce(Missing missing) {
        return missing.id().equals("counted-rate")
                || missing.id().equals("pause")
                || missing.id().equals("breath-heard");
    }

    private static String number(Situation situation) {
        @Nullable EmergencyNumber number = situation.emergencyNumber();
        return number == null ? "your local emergency number" : number.digits();
    }

    private static void takes(List<String> actions, Situation situation) {
        if (situation.sounds().stream().anyMatch(SoundFinding::tonesToHearAgain)) {
            actions.add(TakeReason.keepVoicesOut(situation.age()));
        }
        for (SoundFinding sound : situation.sounds()) {
            String where = sound.site() == null
                    ? "At the same spot"
                    : "At " + sound.site().words();
            TakeReason next = sound.nextTake();
            if (next == null && sound.unsure()) {
                actions.add(
                        where
                                + ": after a cough too it cannot be told whether an extra sound is there. Have a clinician listen there, soon if the person is unwell.");
            } else if (next == TakeReason.FIRST) {
                actions.add(
                        where
                                + ": the recording could not be judged. Quieten the room, hold the stethoscope still on bare skin, and record again.");
            } else if (next != null) {
                String found = sound.unsure()
                        ? ": it cannot be told whether an extra sound is there; why stands beside the take. Listen there yourself. "
                        : ": an extra sound was heard. ";
                actions.add(where + found + next.instruction(situation.age()));
            }
        }
    }
}
