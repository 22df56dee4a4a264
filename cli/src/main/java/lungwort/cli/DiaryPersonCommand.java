package lungwort.cli;

import com.fasterxml.jackson.databind.node.ArrayNode;
import java.io.PrintWriter;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import lungwort.BadInput;
import lungwort.diary.Diary;
import lungwort.diary.Person;
import lungwort.guidance.ClinicianLimits;
import lungwort.guidance.ClinicianLimits.Limit;
import lungwort.guidance.ClinicianLimits.StatedUsual;
import lungwort.guidance.Condition;
import lungwort.guidance.Conditions;
import lungwort.json.Json;
import lungwort.round.RoundJson;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Who is looked after. */
@Command(
        name = "person",
        mixinStandardHelpOptions = true,
        description = "Add, change or list the persons of the diary.",
        subcommands = {DiaryPersonCommand.Add.class, DiaryPersonCommand.Change.class, DiaryPersonCommand.ListAll.class},
        footer = {"", "Example: lungwort diary person add Mia --born 2021-04 --condition asthma"})
final class DiaryPersonCommand implements Callable<Integer> {
    @Spec
    private @Nullable CommandSpec spec;

    @Override
    public Integer call() {
        throw new ParameterException(
                Objects.requireNonNull(spec).commandLine(), "Say what to do with persons: add, set or list.");
    }

    /** What is known of a person, as options. */
    static final class About {
        /** For which values a usual was stated. */
        enum Breathing {
            air(false),
            oxygen(true),
            either(null);

            private final @Nullable Boolean onOxygen;

            Breathing(@Nullable Boolean onOxygen) {
                this.onOxygen = onOxygen;
            }
        }

        private static final Pattern PAIR = Pattern.compile("(\\d+)\\s*,\\s*(\\d+)");

        @Option(
                names = "--born",
                paramLabel = "YYYY-MM",
                description = "Month of birth: every limit depends on the age.")
        private @Nullable String born;

        @Option(
                names = "--condition",
                paramLabel = "ID",
                description =
                        "asthma, copd, heart-failure, hypercapnia-risk, pregnancy (repeat for several; 'none' clears).")
        private List<String> conditions = new ArrayList<>();

        @Option(
                names = "--about",
                paramLabel = "WORDS",
                description = "Anything else worth knowing, in your own words.")
        private @Nullable String about;

        @Option(
                names = "--spo2-limits",
                paramLabel = "TODAY,EMERGENCY",
                description =
                        "Limits that a clinician set: SpO2 at or below which to be seen today, and which is an emergency (88,85).")
        private @Nullable String spo2;

        @Option(
                names = "--rate-limits",
                paramLabel = "TODAY,EMERGENCY",
                description =
                        "Limits that a clinician set: breathing rate a minute at or above which to be seen today, and which is an emergency (30,40).")
        private @Nullable String rate;

        @Option(
                names = "--pulse-limits",
                paramLabel = "TODAY,EMERGENCY",
                description =
                        "Limits that a clinician set: pulse a minute at or above which to be seen today, and which is an emergency (120,140).")
        private @Nullable String pulse;

        @Option(
                names = "--spo2-scale-2",
                paramLabel = "yes|no",
                description = "Only where a clinician said so: an SpO2 target of 88 to 92 %%.")
        private AnswerOptions.@Nullable YesNo scale2;

        @Option(names = "--best-peak-flow", paramLabel = "L", description = "This person's best, in litres a minute.")
        private @Nullable Integer bestPeakFlow;

        @Option(
                names = "--usual-spo2",
                paramLabel = "PERCENT",
                description =
                        "The SpO2 that a clinician calls usual for this person from now on, as after an illness that left the chest changed ('none' clears). Days measured until then make no usual any more.")
        private @Nullable String usualSpo2;

        @Option(
                names = "--usual-spo2-from",
                paramLabel = "DATE",
                description = "From which day the usual SpO2 counts, if not from today.")
        private @Nullable String usualSpo2From;

        @Option(
                names = "--usual-spo2-breathing",
                paramLabel = "air|oxygen|either",
                description =
                        "For which values the usual SpO2 was stated: in air, on extra oxygen, or either (unless said: either). Only one on oxygen says that to need oxygen is usual for this person.")
        private @Nullable Breathing usualSpo2Breathing;

        @Option(
                names = "--usual-spo2-by",
                paramLabel = "NAME",
                description = "Which clinician stated the usual SpO2, if not who set the limits.")
        private @Nullable String usualSpo2By;

        @Option(names = "--usual-spo2-stated", paramLabel = "DATE", description = "When the usual SpO2 was stated.")
        private @Nullable String usualSpo2Stated;

        @Option(
                names = "--limits-by",
                paramLabel = "NAME",
                description = "Which clinician set the limits; given with a usual alone: who stated that.")
        private @Nullable String setBy;

        @Option(names = "--limits-on", paramLabel = "DATE", description = "When the limits were set.")
        private @Nullable String setOn;

        @Option(names = "--no-clinician-limits", description = "Go back to the general limits.")
        private boolean noLimits;

        Person apply(Person person, LocalDate today) {
            Person changed = born == null ? person : person.withBirthMonth(month(born));
            changed = conditions.isEmpty() ? changed : changed.withConditions(conditions(conditions));
            changed = about == null ? changed : changed.withAbout(about);
            return changed.withLimits(limits(changed.limits(), today));
        }

        @Nullable
        String born() {
            return born;
        }

        static YearMonth month(String text) {
            try {
                return YearMonth.parse(text.strip());
            } catch (DateTimeException e) {
                throw new BadInput("birth month: \"%s\" cannot be read; write it as 2021-04.".formatted(text), e);
            }
        }

        private static Conditions conditions(List<String> ids) {
            Set<Condition> known = ids.stream()
                    .filter(id -> !id.equals("none"))
                    .map(Condition::ofId)
                    .collect(Collectors.toSet());
            return new Conditions(known);
        }

        private ClinicianLimits limits(ClinicianLimits before, LocalDate today) {
            ClinicianLimits base = noLimits ? ClinicianLimits.NONE : before;
            return new ClinicianLimits(
                    spo2 == null ? base.spo2Below() : limit("--spo2-limits", spo2),
                    rate == null ? base.respiratoryRateAbove() : limit("--rate-limits", rate),
                    pulse == null ? base.pulseAbove() : limit("--pulse-limits", pulse),
                    scale2 == null ? base.spo2Scale2() : scale2 == AnswerOptions.YesNo.yes,
                    bestPeakFlow == null ? base.bestPeakFlowLitresPerMinute() : bestPeakFlow,
                    usual(base, today),
                    setBy == null || onlyUsual() ? base.setBy() : setBy,
                    setOn == null || onlyUsual() ? base.setOn() : setOn);
        }

        private @Nullable StatedUsual usual(ClinicianLimits base, LocalDate today) {
            StatedUsual before = base.usualSpo2();
            if (!statesUsual() || "none".equals(usualSpo2)) {
                return "none".equals(usualSpo2) ? null : before;
            }
            if (usualSpo2 == null && before == null) {
                throw new BadInput("--usual-spo2-..: say the usual SpO2 itself, too: --usual-spo2 93.");
            }
            // What was said of an earlier number says nothing of another.
            StatedUsual kept = usualSpo2 == null ? before : null;
            return new StatedUsual(
                    kept == null ? percent(Objects.requireNonNull(usualSpo2)) : kept.percent(),
                    usualSpo2From != null ? day(usualSpo2From) : kept == null ? today : kept.on(),
                    usualSpo2Breathing != null ? usualSpo2Breathing.onOxygen : kept == null ? null : kept.onOxygen(),
                    usualSpo2By != null ? usualSpo2By : usualBy(base, kept),
                    usualSpo2Stated != null ? usualSpo2Stated : usualStated(kept));
        }

        private boolean statesUsual() {
            return usualSpo2 != null
                    || usualSpo2From != null
                    || usualSpo2Breathing != null
                    || usualSpo2By != null
                    || usualSpo2Stated != null;
        }

        /** True if only a usual is stated: then whoever is named stated that, and did not set the limits that stand. */
        private boolean onlyUsual() {
            return statesUsual() && spo2 == null && rate == null && pulse == null && scale2 == null;
        }

        private String usualBy(ClinicianLimits base, @Nullable StatedUsual kept) {
            if (setBy != null) {
                return setBy;
            }
            return kept == null ? base.setBy() : kept.setBy();
        }

        private String usualStated(@Nullable StatedUsual kept) {
            if (setOn != null) {
                return setOn;
            }
            return kept == null ? "" : kept.setOn();
        }

        private static int percent(String text) {
            try {
                return Integer.parseInt(text.strip());
            } catch (NumberFormatException e) {
                throw new BadInput(
                        "--usual-spo2: \"%s\" cannot be read; give a whole number of %%, or none.".formatted(text), e);
            }
        }

        private static LocalDate day(String text) {
            try {
                return LocalDate.parse(text.strip());
            } catch (DateTimeException e) {
                throw new BadInput(
                        "--usual-spo2-from: \"%s\" cannot be read; write it as 2026-03-14.".formatted(text), e);
            }
        }

        private static Limit limit(String option, String text) {
            Matcher pair = PAIR.matcher(text.strip());
            if (!pair.matches() || text.length() > 12) {
                throw new BadInput(
                        "%s: \"%s\" cannot be read; give two whole numbers, first to be seen today, then emergency: 88,85."
                                .formatted(option, text));
            }
            return new Limit(Integer.parseInt(pair.group(1)), Integer.parseInt(pair.group(2)));
        }
    }

    /** Adds a person. */
    @Command(
            name = "add",
            mixinStandardHelpOptions = true,
            description = "Add a person.",
            footer = {"", "Example: lungwort diary person add Mia --born 2021-04 --condition asthma"})
    static final class Add implements Callable<Integer> {
        @Spec
        private @Nullable CommandSpec spec;

        @Parameters(paramLabel = "NICKNAME", description = "What the person is called here; no full name is needed.")
        private String nickname = "";

        @Mixin
        private final DiaryOption diaryOption = new DiaryOption();

        @Mixin
        private final About about = new About();

        @Override
        public Integer call() {
            String born = about.born();
            if (born == null) {
                throw new ParameterException(
                        Objects.requireNonNull(spec).commandLine(),
                        "The month of birth is missing (--born YYYY-MM): every limit depends on the age.");
            }
            try (Diary diary = diaryOption.open()) {
                Person person = diary.together(() -> {
                    Person added =
                            diary.persons().add(nickname, About.month(born), Conditions.NONE, "", ClinicianLimits.NONE);
                    Person whole = about.apply(added, LocalDate.now(diary.clock()));
                    if (!whole.equals(added)) {
                        diary.persons().change(whole);
                    }
                    return whole;
                });
                PrintWriter out = Objects.requireNonNull(spec).commandLine().getOut();
                print(person, diary, out);
                if (diary.settings().emergencyNumber().isEmpty()) {
                    out.println(
                            "The emergency number is not known yet; give it once: lungwort diary settings --emergency-number NUMBER");
                }
                out.flush();
                return 0;
            }
        }
    }

    /** Changes a person. */
    @Command(
            name = "set",
            mixinStandardHelpOptions = true,
            description = "Change what is known of a person; what was known before is kept.",
            footer = {
                "",
                "Example: lungwort diary person set Mia --spo2-limits 90,87 --limits-by 'Dr A. Example' --limits-on 2026-03-14"
            })
    static final class Change implements Callable<Integer> {
        @Spec
        private @Nullable CommandSpec spec;

        @Parameters(paramLabel = "NICKNAME", description = "Who.")
        private String nickname = "";

        @Option(names = "--nickname", paramLabel = "NEW", description = "Another nickname.")
        private @Nullable String newNickname;

        @Mixin
        private final DiaryOption diaryOption = new DiaryOption();

        @Mixin
        private final About about = new About();

        @Override
        public Integer call() {
            try (Diary diary = diaryOption.open()) {
                Person before = diary.persons().need(nickname);
                Person person = about.apply(
                        newNickname == null ? before : before.withNickname(newNickname), LocalDate.now(diary.clock()));
                diary.persons().change(person);
                PrintWriter out = Objects.requireNonNull(spec).commandLine().getOut();
                print(person, diary, out);
                out.flush();
                return 0;
            }
        }
    }

    /** Lists the persons. */
    @Command(
            name = "list",
            mixinStandardHelpOptions = true,
            description = "List the persons.",
            footer = {"", "Example: lungwort diary person list"})
    static final class ListAll implements Callable<Integer> {
        @Spec
        private @Nullable CommandSpec spec;

        @Mixin
        private final DiaryOption diaryOption = new DiaryOption();

        @Option(names = "--json", description = "Print JSON instead of text.")
        private boolean json;

        @Override
        public Integer call() {
            PrintWriter out = Objects.requireNonNull(spec).commandLine().getOut();
            try (Diary diary = diaryOption.open()) {
                LocalDate today = LocalDate.now(diary.clock());
                if (json) {
                    ArrayNode array = Json.array();
                    diary.persons().all().forEach(p -> array.add(RoundJson.listed(p, today)));
                    out.println(Json.pretty(array));
                } else if (diary.persons().all().isEmpty()) {
                    out.println("Nobody yet; add a person: lungwort diary person add NICKNAME --born YYYY-MM");
                } else {
                    diary.persons().all().forEach(p -> print(p, diary, out));
                }
                out.flush();
                return 0;
            }
        }
    }

    private static void print(Person person, Diary diary, PrintWriter out) {
        out.printf(
                "%s, %s (born %s)%s%n",
                person.nickname(),
                person.ageWords(LocalDate.now(diary.clock())),
                person.birthMonth(),
                person.conditions().known().isEmpty()
                        ? ""
                        : "; "
                                + String.join(
                                        ", ",
                                        person.conditions().known().stream()
                                                .map(Condition::words)
                                                .toList()));
        if (!person.about().isEmpty()) {
            out.printf("  %s%n", person.about());
        }
        limits(person.limits(), out);
    }

    private static void limits(ClinicianLimits limits, PrintWriter out) {
        if (limits.equals(ClinicianLimits.NONE)) {
            return;
        }
        List<String> parts = new ArrayList<>();
        add(parts, "SpO2 at or below", limits.spo2Below());
        add(parts, "breathing rate at or above", limits.respiratoryRateAbove());
        add(parts, "pulse at or above", limits.pulseAbove());
        if (limits.spo2Scale2()) {
            parts.add("SpO2 scale 2 (target 88-92 %)");
        }
        StatedUsual usual = limits.usualSpo2();
        if (usual != null) {
            out.printf(
                    "  stated by %s%s: %s%n",
                    usual.setBy(), usual.setOn().isBlank() ? "" : " on " + usual.setOn(), usual.words());
        }
        if (limits.bestPeakFlowLitresPerMinute() != null) {
            out.printf("  best peak flow %d l/min%n", limits.bestPeakFlowLitresPerMinute());
        }
        if (parts.isEmpty()) {
            return;
        }
        out.printf(
                "  limits set by %s%s: %s%n",
                limits.setBy().isBlank() ? "nobody named" : limits.setBy(),
                limits.setOn().isBlank() ? "" : " on " + limits.setOn(),
                String.join("; ", parts));
    }

    private static void add(List<String> parts, String what, @Nullable Limit limit) {
        if (limit != null) {
            parts.add("%s %d: be seen today, %d: emergency".formatted(what, limit.seenToday(), limit.emergency()));
        }
    }
}
