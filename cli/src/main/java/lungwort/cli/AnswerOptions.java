package lungwort.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.UUID;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import lungwort.BadInput;
import lungwort.diary.Diary;
import lungwort.diary.Person;
import lungwort.diary.Round;
import lungwort.diary.Settings.TemperatureUnit;
import lungwort.diary.Take;
import lungwort.guidance.Age;
import lungwort.guidance.Breathlessness;
import lungwort.guidance.Conditions;
import lungwort.guidance.Consciousness;
import lungwort.guidance.DangerAnswers;
import lungwort.guidance.Symptoms;
import lungwort.guidance.Vital;
import lungwort.guidance.Vitals;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;

/** Danger signs, vitals and symptoms as options. What is not given stays as it was. */
final class AnswerOptions {
    private static final Pattern WEIGHT = Pattern.compile("([0-9]{1,4}(?:[.][0-9]+)?) ?(|kg|lbs?|pounds?)");

    private static final Pattern FLOW =
            Pattern.compile("([0-9]{1,4}(?:[.][0-9]+)?|[.][0-9]+) ?(|l|l/min|lpm|ml|ml/min)");

    private static final double KG_OF_A_POUND = 0.45359237;

    /** The option that gives what the guidance misses, with what may stand behind it; empty where there is none. */
    static String forMissing(String id) {
        return switch (id) {
            case "respiratory-rate", "counted-rate" -> "--rate N";
            case "breathlessness" -> "--breathless none|on-effort|at-rest|cannot-finish-sentences";
            case "fever" -> "--fever yes|no";
            case "chest-pain" -> "--chest-pain yes|no";
            case "chest-infection" -> "--chest-infection yes|no";
            case "pause" -> "--breathing-stopped yes|no";
            case "breath-heard" -> "--breath-heard yes|no";
            case "on-oxygen" -> "--on-oxygen yes|no";
            case "oxygen-flow" -> "--oxygen-flow L";
            case "weight" -> "--weight KG";
            default -> "";
        };
    }

    @Option(
            names = "--danger-sign",
            paramLabel = "ID",
            description =
                    "A danger sign that is there (repeat for several; `lungwort round questions --age AGE` lists them).")
    private List<String> dangerSigns = new ArrayList<>();

    @Option(
            names = "--no-danger-sign",
            paramLabel = "ID",
            description = "A danger sign that you looked for and that is not there (repeat for several).")
    private List<String> absentSigns = new ArrayList<>();

    @Option(
            names = "--not-sure-of-danger-sign",
            paramLabel = "ID",
            description = "Takes back what was answered to a danger sign: nobody is sure (repeat for several).")
    private List<String> unsureSigns = new ArrayList<>();

    @Option(
            names = "--no-other-danger-signs",
            description = "You looked for every danger sign that is asked, and those not named are not there.")
    private boolean noOtherSigns;

    @Option(names = "--spo2", paramLabel = "PERCENT", description = "Oxygen saturation by pulse oximeter, in %%.")
    private @Nullable Integer spo2;

    @Option(
            names = "--on-oxygen",
            paramLabel = "yes|no",
            description = "Whether extra oxygen was on while SpO2 was measured.")
    private @Nullable YesNo onOxygen;

    @Option(
            names = "--oxygen-flow",
            paramLabel = "L",
            description =
                    "Flow of the extra oxygen in litres a minute, as it is set (2 or 0.5); with --on-oxygen yes. Change it only as the clinician who ordered the oxygen said.")
    private @Nullable String oxygenFlow;

    @Option(names = "--rate", paramLabel = "N", description = "Breaths counted over a whole calm minute.")
    private @Nullable Integer rate;

    @Option(
            names = "--asleep",
            paramLabel = "yes|no",
            description = "Whether breathing rate and pulse were counted asleep.")
    private @Nullable YesNo asleep;

    @Option(names = "--pulse", paramLabel = "N", description = "Heart beats a minute.")
    private @Nullable Integer pulse;

    @Option(
            names = "--temperature",
            paramLabel = "T",
            description = "Body temperature in degrees Celsius (38.4), or with F in Fahrenheit (101.1F).")
    private @Nullable String temperature;

    @Option(names = "--systolic", paramLabel = "MMHG", description = "Upper blood pressure, in mmHg.")
    private @Nullable Integer systolic;

    @Option(names = "--peak-flow", paramLabel = "L", description = "Best of three blows, in litres a minute.")
    private @Nullable Integer peakFlow;

    @Option(
            names = "--weight",
            paramLabel = "KG",
            description =
                    "Body weight in kg (72.4): on the same scale, in the morning, after passing water, before breakfast, in the same clothes.")
    private @Nullable String weight;

    @Option(
            names = "--consciousness",
            paramLabel = "LEVEL",
            description = "alert, confused, voice (answers when spoken to), pain (answers to pain only), unresponsive.")
    private @Nullable String consciousness;

    @Option(
            names = "--breathless",
            paramLabel = "LEVEL",
            description = "Shorter of breath than usual: none, on-effort, at-rest, cannot-finish-sentences.")
    private @Nullable String breathless;

    @Option(names = "--chest-pain", paramLabel = "yes|no", description = "New pain or tightness in the chest.")
    private @Nullable YesNo chestPain;

    @Option(names = "--fever", paramLabel = "yes|no", description = "Feels feverish, or had a fever today.")
    private @Nullable YesNo fever;

    @Option(
            names = "--chest-infection",
            paramLabel = "yes|no",
            description = "New or worse cough, thick or coloured phlegm, shivering, feeling ill.")
    private @Nullable YesNo chestInfection;

    @Option(
            names = "--breathing-stopped",
            paramLabel = "yes|no",
            description =
                    "What a stretch without a breath in the recordings was: yes if the breathing stopped by itself; no if it was held, too soft to be heard, or the chest piece lifted.")
    private @Nullable YesNo breathingStopped;

    @Option(names = "--seen", paramLabel = "WORDS", description = "What else was seen or felt, in your own words.")
    private @Nullable String seen;

    @Option(names = "--medicines", paramLabel = "WORDS", description = "Medicines taken, in your own words.")
    private @Nullable String medicines;

    /** Yes or no; an option that is left out was not asked. */
    enum YesNo {
        yes,
        no
    }

    /** True if any danger-sign question is answered here. */
    boolean answersDangerSigns() {
        return noOtherSigns || !dangerSigns.isEmpty() || !absentSigns.isEmpty() || !unsureSigns.isEmpty();
    }

    /**
     * The round with what was given.
     *
     * @throws BadInput if a value is out of range or an id is not known
     */
    Round apply(Round round, Person person) {
        Round changed = round.with(dangerSigns(round.dangerSigns(), person.age(round.day()), person.conditions()))
                .with(vitals(round.vitals()))
                .with(symptoms(round.symptoms()));
        changed = seen == null ? changed : changed.withSymptomWords(seen);
        return medicines == null ? changed : changed.withMedicines(medicines);
    }

    /**
     * Says of every take of the round that holds a stretch without a breath what it was, if that is answered here.
     *
     * @throws BadInput if it is answered and no take holds one
     */
    void sayWhatPausesWere(Diary diary, UUID roundId) {
        if (breathingStopped == null) {
            return;
        }
        List<Take> paused = diary.takes().ofRound(roundId).stream()
                .filter(take ->
                        take.examination().filter(e -> !e.pauses().isEmpty()).isPresent())
                .toList();
        if (paused.isEmpty()) {
            throw new BadInput(
                    "--breathing-stopped: no recording of this round holds a stretch without a breath. If the breathing stopped while you watched, answer --danger-sign pauses-in-breathing.");
        }
        paused.forEach(take -> diary.takes().sayBreathingStopped(take.id(), truth(breathingStopped)));
    }

    private DangerAnswers dangerSigns(DangerAnswers before, Age age, Conditions known) {
        if (!answersDangerSigns()) {
            return before;
        }
        for (String id : unsureSigns) {
            if (dangerSigns.contains(id) || absentSigns.contains(id)) {
                throw BadInput.of("danger sign %s: it is answered and taken back; keep one.", id);
            }
        }
        DangerAnswers named = new DangerAnswers(Set.copyOf(dangerSigns), Set.copyOf(absentSigns));
        DangerAnswers answers = before.without(unsureSigns).correctedBy(named);
        if (!noOtherSigns) {
            return answers;
        }
        DangerAnswers others = DangerAnswers.noneOf(age, known, answers.yes()).without(unsureSigns);
        return answers.correctedBy(new DangerAnswers(Set.of(), others.no()));
    }

    private Vitals vitals(Vitals before) {
        Vitals v = before;
        v = spo2 == null ? v : v.withSpo2(spo2);
        v = onOxygen == null ? v : v.withOnOxygen(truth(onOxygen));
        v = oxygenFlow == null ? v : v.withOxygenFlow(litres(oxygenFlow));
        v = rate == null ? v : v.withRespiratoryRate(rate);
        v = asleep == null ? v : v.withAsleep(truth(asleep));
        v = pulse == null ? v : v.withPulse(pulse);
        v = temperature == null ? v : v.withTemperature(celsius(temperature));
        v = systolic == null ? v : v.withSystolic(systolic);
        v = peakFlow == null ? v : v.withPeakFlow(peakFlow);
        v = weight == null ? v : v.withWeight(kilograms(weight));
        return consciousness == null
                ? v
                : v.withConsciousness(
                        named("--consciousness", consciousness, List.of(Consciousness.values()), Consciousness::id));
    }

    private Symptoms symptoms(Symptoms before) {
        Symptoms s = before;
        s = breathless == null
                ? s
                : s.withBreathlessness(
                        named("--breathless", breathless, List.of(Breathlessness.values()), Breathlessness::id));
        s = chestPain == null ? s : s.withChestPain(truth(chestPain));
        s = fever == null ? s : s.withFever(truth(fever));
        return chestInfection == null ? s : s.withChestInfection(truth(chestInfection));
    }

    private static boolean truth(YesNo answer) {
        return answer == YesNo.yes;
    }

    /**
     * Degrees Celsius of {@code 38.4} or {@code 101.1F}.
     *
     * @throws BadInput if it cannot be read, or has no letter and can only be a body temperature in Fahrenheit
     */
    static double celsius(String text) {
        String t = text.strip().toUpperCase(Locale.ROOT).replace(',', '.');
        try {
            if (t.endsWith("F")) {
                double fahrenheit =
                        Double.parseDouble(t.substring(0, t.length() - 1).strip());
                return Math.round((fahrenheit - 32) / 1.8 * 10) / 10.0;
            }
            double celsius = Double.parseDouble(
                    t.endsWith("C") ? t.substring(0, t.length() - 1).strip() : t);
            if (!t.endsWith("C") && TemperatureUnit.likeFahrenheit(celsius)) {
                throw new BadInput(
                        "temperature: %s looks like degrees Fahrenheit; write it with F: %sF.".formatted(t, t));
            }
            return celsius;
        } catch (NumberFormatException e) {
            throw new BadInput("temperature: \"%s\" cannot be read; write it as 38.4 or 101.1F.".formatted(text), e);
        }
    }

    /**
     * Kilograms of {@code 72.4}, {@code 72,4} or {@code 72.4 kg}.
     *
     * @throws BadInput if it cannot be read, or is in pounds or another unit
     */
    static double kilograms(String text) {
        Matcher written = WEIGHT.matcher(text.strip().toLowerCase(Locale.ROOT).replace(',', '.'));
        if (!written.matches()) {
            throw new BadInput("weight: \"%s\" cannot be read; write it in kg, as 72.4.".formatted(text));
        }
        double number = Double.parseDouble(written.group(1));
        String unit = written.group(2);
        if (unit.startsWith("lb") || unit.startsWith("pound")) {
            throw new BadInput("weight: \"%s\" is in pounds; it is kept in kg: %s lb are %s kg."
                    .formatted(text, written.group(1), Math.round(number * KG_OF_A_POUND * 10) / 10.0));
        }
        return number;
    }

    /**
     * Litres a minute of {@code 2}, {@code 0,5}, {@code .5} or {@code 2 l/min}.
     *
     * @throws BadInput if it cannot be read, or is in millilitres, as on meters for babies
     */
    static double litres(String text) {
        Matcher written = FLOW.matcher(text.strip().toLowerCase(Locale.ROOT).replace(',', '.'));
        if (!written.matches()) {
            throw new BadInput(
                    "oxygen flow: \"%s\" cannot be read; write it in litres a minute, as 2 or 0.5.".formatted(text));
        }
        double number = Double.parseDouble(written.group(1));
        if (written.group(2).startsWith("ml")) {
            throw new BadInput("oxygen flow: \"%s\" is in millilitres; it is kept in litres a minute: %s ml are %s l."
                    .formatted(text, written.group(1), Vital.number(number / 1000)));
        }
        return number;
    }

    private static <T> T named(
            String option, String wanted, List<T> values, java.util.function.Function<T, String> id) {
        return values.stream()
                .filter(v -> id.apply(v).equals(wanted))
                .findFirst()
                .orElseThrow(() -> new BadInput("%s: \"%s\" is not known; use one of %s."
                        .formatted(
                                option,
                                wanted,
                                String.join(", ", values.stream().map(id).toList()))));
    }
}
