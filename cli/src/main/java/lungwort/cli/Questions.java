package lungwort.cli;

import java.io.BufferedReader;
import java.io.Console;
import java.io.IOException;
import java.io.PrintWriter;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.BiFunction;
import java.util.function.ToDoubleFunction;
import lungwort.BadInput;
import lungwort.guidance.Age;
import lungwort.guidance.Breathlessness;
import lungwort.guidance.Condition;
import lungwort.guidance.Conditions;
import lungwort.guidance.DangerAnswers;
import lungwort.guidance.DangerSign;
import lungwort.guidance.Guidance;
import lungwort.guidance.Outcome;
import lungwort.guidance.Symptoms;
import lungwort.guidance.Vitals;
import org.jspecify.annotations.Nullable;

/** Asks on a terminal, danger signs first. An empty answer is "not known", never "no". */
final class Questions {
    private final BufferedReader in;
    private final PrintWriter out;

    /** Below, the words are those for a baby's parent. */
    private static final int BABY_MONTHS = 24;

    Questions(BufferedReader in, PrintWriter out) {
        this.in = in;
        this.out = out;
    }

    /** On this terminal, or null where nobody sits at one. */
    static @Nullable Questions onTerminal(PrintWriter out) {
        Console console = System.console();
        return console == null || !isTerminal(console)
                ? null
                : new Questions(new BufferedReader(console.reader()), out);
    }

    /** From Java 22 on a console may be there without a terminal; before, it could not, and had no such method. */
    private static boolean isTerminal(Console console) {
        try {
            return (boolean) Console.class.getMethod("isTerminal").invoke(console);
        } catch (NoSuchMethodException e) {
            return true;
        } catch (ReflectiveOperationException e) {
            return false;
        }
    }

    /** Asks the open danger signs; stops at one that is an emergency, for then nothing else matters. One that can wait for the day does not answer the others. Returns what was answered now. */
    DangerAnswers dangerSigns(List<DangerSign> open, Age age) {
        Set<String> yes = new TreeSet<>();
        Set<String> no = new TreeSet<>();
        out.println("Danger signs first. Answer y (yes), n (no), or just Enter if you are not sure.");
        for (DangerSign sign : open) {
            Boolean answer = yesOrNo(sign.question(age));
            if (answer != null) {
                (answer ? yes : no).add(sign.id());
            }
            if (answer != null && answer && sign.outcome() == Outcome.EMERGENCY_NOW) {
                break;
            }
        }
        return new DangerAnswers(yes, no);
    }

    /** Asks the vitals that are not known yet, the weight of people with heart failure; returns the known ones with what was answered now. */
    Vitals vitals(Vitals known, Conditions conditions) {
        out.println("What was measured? Just Enter where it was not.");
        Vitals v = known;
        v = v.spo2Percent() == null ? number(v, "SpO2 in %", Vitals::withSpo2) : v;
        if (v.spo2Percent() != null && v.onOxygen() == null) {
            v = v.withOnOxygen(yesOrNo("On extra oxygen while it was measured?"));
        }
        if (Objects.equals(v.onOxygen(), true) && v.oxygenLitresPerMinute() == null) {
            v = decimal(
                    v,
                    "Flow of the oxygen in litres a minute, as it is set (2, or 0.5)",
                    AnswerOptions::litres,
                    Vitals::withOxygenFlow);
        }
        v = v.respiratoryRatePerMinute() == null
                ? number(v, "Breaths counted over a whole calm minute", Vitals::withRespiratoryRate)
                : v;
        v = v.pulsePerMinute() == null ? number(v, "Pulse a minute", Vitals::withPulse) : v;
        v = v.temperatureCelsius() == null
                ? decimal(v, "Temperature (38.4, or 101.1F)", AnswerOptions::celsius, Vitals::withTemperature)
                : v;
        v = v.weightKg() == null && conditions.has(Condition.HEART_FAILURE)
                ? decimal(
                        v,
                        "Weight in kg (72.4), weighed as every morning",
                        AnswerOptions::kilograms,
                        Vitals::withWeight)
                : v;
        return v;
    }

    /** Vitals as they are stored by now, with those that were asked here where nothing is stored. */
    static Vitals filled(Vitals stored, Vitals given) {
        Vitals v = stored;
        v = v.spo2Percent() == null ? v.withSpo2(given.spo2Percent()) : v;
        v = v.onOxygen() == null && v.spo2Percent() != null ? v.withOnOxygen(given.onOxygen()) : v;
        v = v.oxygenLitresPerMinute() == null && Objects.equals(v.onOxygen(), true)
                ? v.withOxygenFlow(given.oxygenLitresPerMinute())
                : v;
        v = v.respiratoryRatePerMinute() == null
                ? v.withRespiratoryRate(given.respiratoryRatePerMinute(), given.rateSource())
                : v;
        v = v.pulsePerMinute() == null ? v.withPulse(given.pulsePerMinute()) : v;
        v = v.temperatureCelsius() == null ? v.withTemperature(given.temperatureCelsius()) : v;
        return v.weightKg() == null ? v.withWeight(given.weightKg()) : v;
    }

    /** Asks the symptoms that are not known yet, in the words for the age; returns the known ones with what was answered now. Who cannot say yet that something hurts is not asked. */
    Symptoms symptoms(Symptoms known, Age age) {
        out.println("What do you see, and what does the person feel? Just Enter if you are not sure.");
        Symptoms s = known;
        s = s.breathlessness() == null ? s.withBreathlessness(breathlessness(age)) : s;
        if (s.chestPain() == null && Guidance.asksForChestPain(age)) {
            s = s.withChestPain(yesOrNo("New pain or tightness in the chest?"));
        }
        s = s.fever() == null ? s.withFever(yesOrNo("Feverish now, or a fever today?")) : s;
        if (s.chestInfection() == null) {
            s = s.withChestInfection(yesOrNo(
                    age.months() < BABY_MONTHS
                            ? "New or worse cough, rattling or blocked nose, shivering, feeding or playing less than usual?"
                            : "New or worse cough, thick or coloured phlegm, shivering, feeling ill?"));
        }
        return s;
    }

    /** Symptoms as they are stored by now, with those that were asked here where nothing is stored. */
    static Symptoms filled(Symptoms stored, Symptoms given) {
        Symptoms s = stored;
        s = s.breathlessness() == null ? s.withBreathlessness(given.breathlessness()) : s;
        s = s.chestPain() == null ? s.withChestPain(given.chestPain()) : s;
        s = s.fever() == null ? s.withFever(given.fever()) : s;
        return s.chestInfection() == null ? s.withChestInfection(given.chestInfection()) : s;
    }

    private @Nullable Breathlessness breathlessness(Age age) {
        out.println("Short of breath?");
        Breathlessness[] levels = Breathlessness.values();
        for (int i = 0; i < levels.length; i++) {
            // "No more short of breath" could be read as "not short of breath any more".
            out.printf(
                    "  %d: %s%n",
                    i, levels[i] == Breathlessness.NONE ? "no, or no more than usual" : levels[i].words(age));
        }
        while (true) {
            String answer = ask("[0 to %d] ".formatted(levels.length - 1));
            if (answer.isEmpty() || answer.equals("?")) {
                return null;
            }
            for (Breathlessness level : levels) {
                if (answer.equals(String.valueOf(level.ordinal())) || answer.equals(level.id())) {
                    return level;
                }
            }
            out.printf("  Please answer 0 to %d, or just Enter.%n", levels.length - 1);
        }
    }

    private Vitals number(Vitals before, String question, BiFunction<Vitals, @Nullable Integer, Vitals> with) {
        while (true) {
            String answer = ask(question + ": ");
            try {
                return answer.isEmpty() ? before : with.apply(before, Integer.valueOf(answer));
            } catch (NumberFormatException e) {
                out.println("  A whole number, please, or just Enter.");
            } catch (BadInput e) {
                out.println("  " + e.getMessage());
            }
        }
    }

    private Vitals decimal(
            Vitals before,
            String question,
            ToDoubleFunction<String> read,
            BiFunction<Vitals, @Nullable Double, Vitals> with) {
        while (true) {
            String answer = ask(question + ": ");
            try {
                return answer.isEmpty() ? before : with.apply(before, read.applyAsDouble(answer));
            } catch (BadInput e) {
                out.println("  " + e.getMessage());
            }
        }
    }

    /** Yes, no, or null for "not sure". */
    @Nullable
    Boolean yesOrNo(String question) {
        while (true) {
            String answer = ask(question + " [y/n] ").toLowerCase(Locale.ROOT);
            if (answer.isEmpty() || answer.equals("?")) {
                return null;
            }
            if (answer.equals("y") || answer.equals("yes")) {
                return true;
            }
            if (answer.equals("n") || answer.equals("no")) {
                return false;
            }
            out.println("  Please answer y, n, or just Enter.");
        }
    }

    /** A line of text without blanks at its ends; empty at the end of the input. */
    String ask(String prompt) {
        out.print(prompt);
        out.flush();
        try {
            String line = in.readLine();
            return line == null ? "" : line.strip();
        } catch (IOException e) {
            throw new BadInput("The terminal cannot be read; give the answers as options (see --help).", e);
        }
    }
}
