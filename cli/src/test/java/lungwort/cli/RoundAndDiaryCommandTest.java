package lungwort.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.BufferedReader;
import java.io.PrintWriter;
import java.io.StringReader;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.List;
import java.util.TimeZone;
import java.util.UUID;
import javax.imageio.ImageIO;
import lungwort.diary.Diary;
import lungwort.diary.Examples;
import lungwort.diary.Round;
import lungwort.guidance.Site;
import lungwort.guidance.Sites;
import lungwort.guidance.Vitals;
import lungwort.json.Json;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;

/** The commands, from the words typed to the words printed; sound files are words too (see Examples). */
class RoundAndDiaryCommandTest {
    /** Three years old, whenever the test runs. */
    private static final String BORN = YearMonth.now().minusMonths(40).toString();

    @TempDir
    Path temp;

    private String dir = "";

    @BeforeEach
    void nameTheDiary() {
        dir = temp.resolve("diary").toString();
    }

    private record Result(int exit, String out, String err) {}

    private Result run(String... arguments) {
        return runWith(null, arguments);
    }

    private Result runWith(@Nullable String typed, String... arguments) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        CommandLine main = Main.commandLine(
                Examples::service,
                writer -> typed == null ? null : new Questions(new BufferedReader(new StringReader(typed)), writer));
        main.setOut(new PrintWriter(out));
        main.setErr(new PrintWriter(err));
        List<String> all = new ArrayList<>(List.of(arguments));
        if (!all.contains("--help") && !all.contains("sites") && !all.contains("questions") && !all.contains("--age")) {
            all.add("--diary");
            all.add(dir);
        }
        int exit = main.execute(all.toArray(String[]::new));
        return new Result(exit, out.toString(), err.toString());
    }

    private Result good(String... arguments) {
        Result result = run(arguments);
        assertThat(result.exit()).as(result.err()).isZero();
        assertThat(result.err()).isEmpty();
        return result;
    }

    private JsonNode jsonOf(String... arguments) {
        List<String> all = new ArrayList<>(List.of(arguments));
        all.add("--json");
        return Json.parse(good(all.toArray(String[]::new)).out(), "output");
    }

    private String file(String name, String sound) throws Exception {
        return Files.writeString(temp.resolve(name), sound).toString();
    }

    private void mia() {
        good("diary", "person", "add", "Mia", "--born", BORN, "--condition", "asthma");
    }

    /** Who puts a recording at the wrong place need not begin the round anew. */
    @Test
    void aTakePutAtAWrongPlaceIsTakenOutAndPutWhereItBelongs() throws Exception {
        mia();
        String file = file("a.wav", "wheezes 2");
        good("round", "add", file, "--person", "Mia", "--site", "back-lower-right");

        Result refused = run("round", "add", file, "--person", "Mia", "--site", "back-lower-left");
        assertThat(refused.exit()).isEqualTo(Main.EXIT_BAD_INPUT);
        String wayOut = refused.err().replaceFirst("(?s).*take that one out: lungwort (.*)\\R$", "$1");
        assertThat(wayOut)
                .matches("round take-out --person Mia --round [0-9a-f]+ --site back-lower-right --take first");

        Result asked = run(wayOut.split(" "));
        assertThat(asked.exit()).isEqualTo(Main.EXIT_BAD_INPUT);
        assertThat(asked.err())
                .startsWith(
                        "lungwort: To take out back, lower, right, first (a.wav), say so: --yes-take-out. Its recording in this diary is deleted for good")
                .endsWith("Nothing was taken out.\n");

        Result out = good((wayOut + " --yes-take-out").split(" "));
        assertThat(out.out())
                .startsWith("TAKEN OUT: back, lower, right, first (a.wav). Its recording is deleted from the diary.")
                .contains("NEXT TAKE: back, lower, left, --site back-lower-left --take first")
                .doesNotContain("suggests a continuous");
        assertThat(Path.of(file)).exists();
        good("round", "add", file, "--person", "Mia", "--site", "back-lower-left");
    }

    /** As the other commands of a round take it: whose, by age today. */
    @Test
    void theQuestionsAreThoseOfAPerson() {
        mia();
        String hers =
                good("round", "questions", "--person", "Mia", "--diary", dir).out();
        assertThat(hers).contains("head-nodding").doesNotContain("asked with heart failure");
        assertThat(good("round", "questions", "--age", "40 months").out()).startsWith(hers.substring(0, 200));
        good("diary", "person", "add", "Otto", "--born", "1950-01", "--condition", "heart-failure");
        assertThat(good("round", "questions", "--person", "Otto", "--diary", dir)
                        .out())
                .contains("asked with heart failure")
                .doesNotContain("head-nodding");
        for (List<String> wrong : List.of(List.<String>of(), List.of("--age", "3 years", "--person", "Mia"))) {
            List<String> command = new ArrayList<>(List.of("round", "questions", "--diary", dir));
            command.addAll(wrong);
            Result refused = run(command.toArray(String[]::new));
            assertThat(refused.exit()).isEqualTo(Main.EXIT_BAD_USAGE);
            assertThat(refused.err()).startsWith("lungwort: Say for whom: --age or --person, one of them.");
        }
    }

    @Test
    void aSheetOfPaperIsForAPersonOrForAnAge() throws Exception {
        mia();
        String out = temp.resolve("sheet.pdf").toString();

        assertThat(good("round", "sheet", "--person", "Mia", "--out", out).out())
                .contains("sheet.pdf: two pages", "Enter afterwards", "Lungwort suggests, it does not diagnose");
        assertThat(Path.of(out)).content(StandardCharsets.ISO_8859_1).startsWith("%PDF-");
        good("round", "sheet", "--age", "64 years", "--condition", "copd", "--out", out);

        Path recording = Path.of(file("only.wav", "wheezes 2"));
        byte[] before = Files.readAllBytes(recording);
        Result overwriting = run("round", "sheet", "--person", "Mia", "--out", recording.toString());
        assertThat(overwriting.exit()).isEqualTo(Main.EXIT_BAD_INPUT);
        assertThat(overwriting.err()).contains("this is not a sheet as PDF");
        assertThat(recording).hasBinaryContent(before);

        assertThat(run("round", "sheet", "--person", "Mia", "--age", "3 years", "--out", out)
                        .err())
                .startsWith("lungwort: Say for whom: --age or --person, one of them.");
        Result condition = run("round", "sheet", "--person", "Mia", "--condition", "asthma", "--out", out);
        assertThat(condition.exit()).isEqualTo(Main.EXIT_BAD_USAGE);
        assertThat(condition.err()).contains("--condition goes with --age");
    }

    @Test
    void takingOutAsksOnceOnATerminal() throws Exception {
        mia();
        good("round", "add", file("a.wav", "wheezes 2"), "--site", "neck", "--breath-heard", "no");

        Result no = runWith("\n", "round", "take-out", "--person", "Mia", "--site", "neck");
        assertThat(no.exit()).isEqualTo(Main.EXIT_BAD_INPUT);
        assertThat(no.err()).isEqualTo("lungwort: Nothing was taken out.\n");
        assertThat(no.out()).contains("hardly any breath was heard there goes with it");

        Result yes = runWith("y\n", "round", "take-out", "--person", "Mia", "--site", "neck");
        assertThat(yes.exit()).as(yes.err()).isZero();
        assertThat(jsonOf("round", "show").get("sites")).isEmpty();
    }

    @Test
    void aTakeThatIsNotThereOrHasToStayIsASentence() throws Exception {
        mia();
        good("round", "add", file("a.wav", "wheezes 2"), "--site", "neck");
        assertThat(run("round", "take-out", "--site", "back-lower-left", "--yes-take-out")
                        .err())
                .isEqualTo("lungwort: This round holds no take at back-lower-left; it holds neck first.\n");
        assertThat(run("round", "take-out", "--site", "neck", "--take", "after-cough", "--yes-take-out")
                        .err())
                .isEqualTo(
                        "lungwort: This round holds no take at neck that is called after-cough; it holds neck first.\n");
        assertThat(jsonOf("round", "show").get("sites")).hasSize(1);
        good("round", "finish");
        Result finished = runWith("y\n", "round", "take-out", "--site", "neck");
        assertThat(finished.exit()).isEqualTo(Main.EXIT_BAD_INPUT);
        assertThat(finished.out()).as("nobody is asked in vain").isEmpty();
        assertThat(finished.err())
                .contains("stood in this round when it was finished")
                .hasLineCount(1);
    }

    @Test
    void aWholeRoundFromDangerSignsToTheNextStep() throws Exception {
        mia();
        Result started = good("round", "start", "--person", "Mia", "--no-other-danger-signs", "--spo2", "95");
        assertThat(started.out())
                .contains("danger signs: all asked, none said to be there")
                .contains("NEXT TAKE: back, lower, left, --site back-lower-left --take first");

        Result first = good("round", "add", file("a.wav", "wheezes 2"), "--person", "Mia", "--site", "back-lower-left");
        assertThat(first.out())
                .contains("suggests a continuous extra sound")
                .contains("--site back-lower-left --take moved")
                .doesNotContain("why: ")
                .contains("does not diagnose");

        Result cough =
                good("round", "add", file("b.wav", "wheezes 0"), "--site", "back-lower-left", "--take", "after-cough");
        assertThat(cough.out())
                .contains("After a cough: The continuous sound cleared")
                .contains("12.5 % before, 0.0 % after")
                .contains("why: Nothing resembles an extra sound.")
                .contains("NEXT TAKE: back, lower, right");

        Result finished = good("round", "finish");
        assertThat(finished.out())
                .contains("NEXT STEP: ")
                .contains("ANSWER WITH: lungwort round answer --person Mia --rate N ")
                .doesNotContain("NEXT TAKE: ");
        assertThat(good("diary", "show", "--person", "mia").out())
                .contains("1 round")
                .contains("after-cough")
                .contains("does not diagnose");
    }

    /** Numbers of a recording that cannot be judged would look like an answer. */
    @Test
    void ofARefusedTakeNoNumbersAreTold() throws Exception {
        mia();
        good("round", "start", "--person", "Mia", "--no-other-danger-signs");

        Result refused = good("round", "add", file("a.wav", "unusable"), "--site", "back-lower-left");

        assertThat(refused.out()).contains("cannot be judged").doesNotContain("measured: wheeze share");
    }

    /** "0.0 crackles" beside "cannot tell" would take back that it cannot be told. */
    @Test
    void whereItCannotBeToldNoZerosAreTold() throws Exception {
        mia();
        good("round", "start", "--person", "Mia", "--no-other-danger-signs");
        good("round", "add", file("a.wav", "unsure"), "--site", "back-lower-left");

        Result both = good("round", "add", file("b.wav", "unfamiliar"), "--site", "back-lower-right");

        assertThat(both.out())
                .contains("cannot tell whether an extra sound is there", "no extra sound stands out")
                .doesNotContain("measured:", "0.0 crackles");
    }

    @Test
    void withoutATerminalUnansweredDangerSignsAreSaidAndNeverTakenAsAbsent() {
        mia();

        Result started = good("round", "start");

        assertThat(started.out()).contains("DANGER SIGNS NOT ANSWERED: ").doesNotContain("none said to be there");
    }

    @Test
    void aDangerSignComesFirstAndNoTakeIsAskedFor() {
        mia();

        Result started = good("round", "start", "--danger-sign", "blue");

        assertThat(started.out()).contains("DANGER SIGN: Are the lips").doesNotContain("NEXT TAKE");
        assertThat(started.out().indexOf("NEXT STEP: EMERGENCY"))
                .isPositive()
                .isLessThan(started.out().indexOf("vitals:"));
    }

    /** Weight and swelling: European Society of Cardiology, guide for patients with heart failure [P]; lying flat: common practice [C]. */
    @Test
    void aPersonWithHeartFailureIsAskedMore() {
        good("diary", "person", "add", "Pa", "--born", "1948-05", "--condition", "heart-failure");
        assertThat(good("round", "questions", "--age", "78 years").out())
                .containsPattern("fluid-gain +Has the weight risen.*\\(asked with heart failure\\)")
                .containsPattern("confused +Is the person newly confused, or not making sense\\?\\R");

        assertThat(good("round", "start", "--person", "Pa", "--no-danger-sign", "blue")
                        .out())
                .contains("Has the weight risen by more than 2 kg within 3 days");
        Result none = good("round", "answer", "--person", "Pa", "--no-other-danger-signs");
        assertThat(none.out()).contains("danger signs: all asked, none said to be there");
        Result swollen = good("round", "answer", "--person", "Pa", "--danger-sign", "fluid-gain");
        assertThat(swollen.out()).contains("NEXT STEP: BE SEEN BY A CLINICIAN TODAY");
    }

    @Test
    void onATerminalDangerSignsAreAskedFirstAndAYesEndsTheAsking() {
        mia();

        Result started = runWith("n\nperhaps\ny\n", "round", "start");

        assertThat(started.exit()).isZero();
        assertThat(started.out())
                .contains("Danger signs first.")
                .contains("Please answer y, n, or just Enter.")
                .contains("NEXT STEP: EMERGENCY")
                .contains("none of it takes the emergency back, call first:")
                .doesNotContain("What was measured?");
    }

    /** A baby that drinks half may also breathe 75 times a minute, which NICE NG9 [S] calls an emergency: a sign that can wait for the day ends no asking. */
    @Test
    void onATerminalASignThatCanWaitForTheDayLeavesTheRestAsked() {
        good(
                "diary",
                "person",
                "add",
                "Pip",
                "--born",
                YearMonth.now().minusMonths(8).toString());
        List<String> signs = lungwort.guidance.Guidance.dangerSigns(lungwort.guidance.Age.ofMonths(8)).stream()
                .map(lungwort.guidance.DangerSign::id)
                .toList();
        String answers = signs.stream()
                .map(id -> id.equals("half-feeds") ? "y\n" : "n\n")
                .collect(java.util.stream.Collectors.joining());

        Result started = runWith(answers + "\n75\n\n\n", "round", "start", "--person", "Pip");

        assertThat(signs).contains("half-feeds").last().isNotEqualTo("half-feeds");
        assertThat(started.out())
                .contains("What was measured?")
                .contains("three quarters of its usual feeds, or less? Yes.")
                .contains("NEXT STEP: EMERGENCY")
                .doesNotContain("DANGER SIGNS NOT ANSWERED");
    }

    @Test
    void onATerminalAnEmptyAnswerIsNotKnownAndWrongNumbersAreAskedAgain() {
        mia();
        int questions = lungwort.guidance.Guidance.dangerSigns(lungwort.guidance.Age.ofMonths(40))
                .size();

        Result started =
                runWith("\n".repeat(questions) + "950\n95\nn\nmany\n28\n\n\n", "round", "start", "--person", "Mia");

        assertThat(started.out())
                .contains("DANGER SIGNS NOT ANSWERED")
                .contains("950 is outside")
                .contains("A whole number, please")
                .contains("vitals: SpO2 95 %, on room air, breathing rate 28 a minute (counted)");
    }

    /** What the next step asks for is asked where somebody sits, as on the page: else a round stops at "find out more". */
    @Test
    void onATerminalSymptomsAreAskedAfterTheVitals() {
        mia();
        good("round", "start", "--no-other-danger-signs");

        Result asked = runWith("96\nn\n24\n\n36.9\n4\n1\nn\n\ny\n", "round", "answer", "--fever", "no");

        assertThat(asked.out())
                .contains("Short of breath?", "0: no, or no more than usual", "Please answer 0 to 3, or just Enter.")
                .doesNotContain("New pain or tightness", "Feverish now")
                .containsPattern(
                        "symptoms: more short of breath than usual when moving[^\n]*no fever, no signs of a chest infection")
                .doesNotContain("--fever yes|no", "--breathless");
    }

    @Test
    void answersCanBeChangedLater() {
        mia();
        good("round", "start", "--no-other-danger-signs");

        Result answered = good("round", "answer", "--danger-sign", "blue", "--temperature", "101.1F", "--note", "pale");

        assertThat(answered.out())
                .contains("DANGER SIGN: Are the lips")
                .contains("38.4 °C")
                .contains("pale");
        assertThat(good("round", "answer", "--no-danger-sign", "blue").out()).contains("none said to be there");
        assertThat(good("round", "answer", "--not-sure-of-danger-sign", "blue").out())
                .as("nobody is sure any more: it is asked again")
                .doesNotContain("all asked")
                .contains("Are the lips");
        assertThat(run("round", "answer", "--not-sure-of-danger-sign", "blue", "--danger-sign", "blue")
                        .err())
                .contains("answered and taken back");
        assertThat(run("round", "answer", "--temperature", "101,5").err())
                .contains("101.5 looks like degrees Fahrenheit; write it with F: 101.5F.");
    }

    /** What the guidance says must follow from what is known: common practice [C]. */
    @Test
    void anAnswerAfterTheEndOfARoundIsInWhatTheReportSaysToDo() throws Exception {
        mia();
        good("round", "start", "--no-other-danger-signs", "--spo2", "97", "--rate", "26");
        good("round", "add", file("a.wav", "rate 24 pause 9"), "--site", "back-lower-left");
        good("round", "finish");
        String csv = temp.resolve("mia.csv").toString();

        String noted = good("round", "answer", "--note", "slept well").out();
        assertThat(noted).as("a note answers nothing").doesNotContain("OPEN AGAIN", "(open)");

        String blue = good("round", "answer", "--danger-sign", "blue").out();
        assertThat(blue).contains("(open)", "OPEN AGAIN", "lungwort round finish --person Mia --round");
        good("report", "--person", "Mia", "--out", csv);
        assertThat(Files.readString(Path.of(csv))).contains("next step,outcome,emergency-now");

        good("round", "answer", "--no-danger-sign", "blue");
        good("round", "finish");
        good("round", "answer", "--breathing-stopped", "yes");
        good("report", "--person", "Mia", "--out", csv);
        assertThat(Files.readString(Path.of(csv))).contains("next step,outcome,emergency-now");
    }

    /** Who begins a round and stops has told nothing; the clinician gets what was found (common practice). */
    @Test
    void aRoundThatHoldsNothingDoesNotHideTheOneBeforeIt() throws Exception {
        mia();
        String csv = temp.resolve("mia.csv").toString();
        good("round", "start");
        good("report", "--person", "Mia", "--out", csv);
        assertThat(Files.readString(Path.of(csv))).contains("next step,outcome,next-take");

        good("round", "start", "--danger-sign", "blue");
        good("round", "start");

        Result told = good("report", "--person", "Mia", "--out", csv);
        assertThat(told.out()).contains("The newest round, of ", "holds nothing yet");
        assertThat(Files.readString(Path.of(csv))).contains("next step,outcome,emergency-now");

        LocalDate today = LocalDate.now();
        Result days =
                good("report", "--person", "Mia", "--from", today.minusDays(1).toString(), "--out", csv);
        assertThat(days.out()).doesNotContain("holds nothing yet");
        assertThat(Files.readString(Path.of(csv)))
                .contains("next step,outcome,emergency-now")
                .doesNotContain("next step,outcome,next-take");
    }

    /** A silent chest is life-threatening in asthma (BTS/SIGN, adult asthma [P]), and a recording of it is a quiet one. */
    @Test
    void whereHardlyAnyBreathStandsOutItIsAskedWhetherItWasHeard() throws Exception {
        mia();
        good("round", "start", "--no-other-danger-signs", "--rate", "26", "--breathless", "at-rest");
        String quiet = good("round", "add", file("a.wav", "soft"), "--site", "back-lower-left")
                .out();
        assertThat(quiet)
                .contains("NEXT STEP: BE SEEN", "it may be a silent chest", "--breath-heard yes|no")
                .containsPattern("cannot tell whether[^\\n]*\\R +The recording is very quiet\\.");

        String heard = good("round", "answer", "--breath-heard", "yes").out();
        assertThat(heard).contains("NEXT STEP: BE SEEN").doesNotContain("silent chest");

        String unheard = good("round", "answer", "--breath-heard", "no").out();
        assertThat(unheard).contains("NEXT STEP: EMERGENCY", "this may be a silent chest", "HARDLY ANY BREATH HEARD");
    }

    @Test
    void whetherBreathWasHeardIsAnsweredWhereItIsAsked() throws Exception {
        mia();
        good("round", "start", "--no-other-danger-signs");
        good("round", "add", file("a.wav", "wheezes 2"), "--site", "back-lower-left");

        Result refused = run("round", "answer", "--breath-heard", "no");

        assertThat(refused.exit()).isEqualTo(1);
        assertThat(refused.err()).contains("breath stands out in every recording");
    }

    @Test
    void aFolderWithARoundFileIsARoundAndAddingItTwiceDoublesNothing() throws Exception {
        mia();
        Path folder = Files.createDirectory(temp.resolve("monday"));
        Files.writeString(folder.resolve("1.wav"), "crackles 4");
        Files.writeString(folder.resolve("2.wav"), "crackles 0");
        Files.writeString(folder.resolve("round.json"), """
                {"person": "Mia", "startedAt": "2026-03-01T07:30", "dangerSigns": "none",
                 "vitals": {"spo2Percent": 94}, "symptoms": {"fever": false}, "medicines": "two puffs", "note": "slept badly",
                 "takes": [{"file": "1.wav", "site": "back-lower-left"},
                           {"file": "2.wav", "site": "back-lower-left", "take": "after-cough"}]}
                """);

        for (int time = 0; time < 2; time++) {
            JsonNode json =
                    Json.parse(good("round", "add", folder.toString(), "--json").out(), "output");
            assertThat(json.at("/round/startedAt").asText()).startsWith("2026-03-01T07:30");
            assertThat(json.at("/sites/0/takes")).hasSize(2);
            assertThat(json.at("/sites/0/clearing").asText()).isEqualTo("cleared");
            assertThat(json.at("/notes")).hasSize(1);
            assertThat(json.at("/dangerSignsOpen")).isEmpty();
            assertThat(json.at("/nextStep/outcome").asText()).isNotEmpty();
        }
        assertThat(good("diary", "show", "--person", "Mia", "--to", "2026-03-02")
                        .out())
                .contains("1 round");
    }

    private String nightRound(String name, String startedAt, int spo2) throws Exception {
        Path folder = Files.createDirectory(temp.resolve(name));
        Files.writeString(folder.resolve("1.wav"), "crackles " + spo2);
        Files.writeString(
                folder.resolve("round.json"),
                "{\"person\": \"Mia\", \"startedAt\": \"%s\", \"vitals\": {\"spo2Percent\": %d}, \"takes\": [{\"file\": \"1.wav\", \"site\": \"neck\"}]}"
                        .formatted(startedAt, spo2));
        return folder.toString();
    }

    /** The night of 2025-10-26 in Berlin, when 02:30 came twice (IANA time zone database, as zdump prints it). [P] */
    @Test
    void twoRoundsInTheHourThatComesTwiceStayTwoAndCanBeTold() throws Exception {
        TimeZone before = TimeZone.getDefault();
        TimeZone.setDefault(TimeZone.getTimeZone("Europe/Berlin"));
        try {
            mia();
            Result asked = run("round", "add", nightRound("unclear", "2025-10-26T02:30", 90));
            assertThat(asked.exit()).isEqualTo(1);
            assertThat(asked.err())
                    .contains("came twice, as clocks in Europe/Berlin went back; write 2025-10-26T02:30+02:00");

            good("round", "add", nightRound("second", "2025-10-26T02:30+01:00", 92));
            good("round", "add", nightRound("first", "2025-10-26T02:30+02:00", 95));

            String shown = good("diary", "show", "--person", "Mia", "--to", "2025-10-27")
                    .out();
            assertThat(shown).contains("2 rounds from 2025-09-30 to 2025-10-27");
            assertThat(shown.indexOf("2025-10-26 02:30 +02:00  round"))
                    .isPositive()
                    .isLessThan(shown.indexOf("2025-10-26 02:30 +01:00  round"));
            assertThat(good("diary", "trend", "--person", "Mia", "--to", "2025-10-27", "--days", "3")
                            .out())
                    .containsPattern("2025-10-26 .* 92 %")
                    .contains("no round on 1 day");
        } finally {
            TimeZone.setDefault(before);
        }
    }

    /** A day that a clock on the way has already left is still shown: at UTC+14 it begins 26 hours before it ends at UTC-12. */
    @Test
    void aRoundOfTomorrowsDateMadeOnAJourneyIsShownAndReportedToday() throws Exception {
        TimeZone before = TimeZone.getDefault();
        try {
            TimeZone.setDefault(TimeZone.getTimeZone("Pacific/Kiritimati"));
            mia();
            good("round", "start", "--person", "Mia", "--no-other-danger-signs", "--spo2", "91");
            String there = LocalDate.now().toString();
            TimeZone.setDefault(TimeZone.getTimeZone("Etc/GMT+12"));
            assertThat(LocalDate.now().toString()).isLessThan(there);

            assertThat(good("diary", "show", "--person", "Mia").out()).contains("1 round from", "to " + there);
            assertThat(good("diary", "trend", "--person", "Mia", "--days", "3").out())
                    .containsPattern(there + " .* 91 %");
            good("round", "start", "--person", "Mia", "--no-other-danger-signs", "--spo2", "93");
            Path csv = temp.resolve("days.csv");
            good("report", "--person", "Mia", "--from", "2020-01-01", "--out", csv.toString());
            assertThat(Files.readString(csv)).contains(there).contains("+14:00").contains("-12:00");
        } finally {
            TimeZone.setDefault(before);
        }
    }

    @Test
    void aMisspeltFieldOfARoundFileIsRefused() throws Exception {
        mia();
        Path folder = Files.createDirectory(temp.resolve("monday"));
        Files.writeString(folder.resolve("round.json"), "{\"vitals\":{\"spo2\":94},\"takes\":[]}");

        Result refused = run("round", "add", folder.toString());

        assertThat(refused.exit()).isEqualTo(1);
        assertThat(refused.err())
                .contains("round.json: the field \"spo2\" is not known; use")
                .contains("spo2Percent");
    }

    @Test
    void aRoundFileAddsToWhatTheRoundHeldAndTakesNothingAway() throws Exception {
        mia();
        Path folder = Files.createDirectories(temp.resolve("later"));
        Files.writeString(folder.resolve("1.wav"), "wheezes 0 crackles 0");
        Files.writeString(folder.resolve("round.json"), """
                {"dangerSigns": {"yes": [], "no": ["blue", "grunting"]}, "vitals": {"spo2Percent": 96},
                 "symptoms": {"fever": false}, "takes": [{"file": "1.wav", "site": "neck"}]}""");
        JsonNode started = jsonOf(
                "round", "start", "--person", "Mia", "--danger-sign", "blue", "--rate", "44", "--chest-pain", "yes");

        JsonNode added = jsonOf(
                "round",
                "add",
                folder.toString(),
                "--round",
                started.at("/round/id").asText());

        assertThat(added.at("/round/dangerSigns/yes")).hasToString("[\"blue\"]");
        assertThat(added.at("/round/dangerSigns/no")).hasToString("[\"grunting\"]");
        assertThat(added.at("/round/vitals/respiratoryRatePerMinute").asInt()).isEqualTo(44);
        assertThat(added.at("/round/vitals/spo2Percent").asInt()).isEqualTo(96);
        assertThat(added.at("/round/symptoms/chestPain").asBoolean()).isTrue();
        assertThat(added.at("/nextStep/outcome").asText()).isEqualTo("emergency-now");
    }

    /** What else is wrong with a command, or with the disk, does not hide the emergency that it tells of. */
    @Test
    void anEmergencyIsToldWhereTheCommandFails() {
        mia();
        Result start = run("round", "start", "--person", "Mia", "--danger-sign", "blue", "--breathing-stopped", "yes");
        good("round", "start", "--person", "Mia", "--no-other-danger-signs");
        Result answer = run("round", "answer", "--person", "Mia", "--spo2", "80", "--breath-heard", "no");

        for (Result failed : List.of(start, answer)) {
            assertThat(failed.exit()).isEqualTo(1);
            assertThat(failed.err())
                    .startsWith("lungwort: EMERGENCY: Call your local emergency number now.")
                    .contains("recording")
                    .hasLineCount(1);
        }
        Result calm = run("round", "answer", "--person", "Mia", "--breath-heard", "no");
        assertThat(calm.err()).startsWith("lungwort: --breath-heard: ");
    }

    @Test
    void oneSignAnsweredBothWaysIsRefused() {
        mia();
        Result both = run("round", "start", "--person", "Mia", "--danger-sign", "blue", "--no-danger-sign", "blue");

        assertThat(both.exit()).isEqualTo(1);
        assertThat(both.err()).contains("danger sign blue: it is answered with yes and with no; keep one.");
    }

    @Test
    void aRoundFileCannotReachOutOfItsFolder() throws Exception {
        mia();
        Path folder = Files.createDirectory(temp.resolve("monday"));
        Files.writeString(folder.resolve("round.json"), "{\"takes\":[{\"file\":\"../a.wav\",\"site\":\"neck\"}]}");

        assertThat(run("round", "add", folder.toString()).err()).contains("must be the plain name of a file");
    }

    @Test
    void theSiteCanStandInTheFilesName() throws Exception {
        mia();

        Result added = good(
                "round",
                "add",
                file("back-lower-left.wav", "wheezes 1"),
                file("back-lower-left-after-cough.wav", "wheezes 0"),
                "--json");

        JsonNode json = Json.parse(added.out(), "output");
        assertThat(json.at("/sites/0/takes/1/take").asText()).isEqualTo("after-cough");
        assertThat(run("round", "add", file("x.wav", "wheezes 1")).err()).contains("at which site was it made?");
    }

    @Test
    void oneBadFileDoesNotLoseTheOthers() throws Exception {
        mia();

        Result added =
                run("round", "add", file("back-lower-left.wav", "letter"), file("back-lower-right.wav", "wheezes 1"));

        assertThat(added.exit()).isEqualTo(1);
        assertThat(added.err()).contains("back-lower-left.wav was not added").contains("not a sound file");
        assertThat(added.out()).contains("back, lower, right");
    }

    @Test
    void trendShowsGapsAsGapsAndDrawsAPicture() throws Exception {
        mia();
        good("round", "add", file("back-lower-left.wav", "wheezes 2"), "--spo2", "93");
        Path picture = temp.resolve("trend.png");

        Result trend = good("diary", "trend", "--person", "Mia", "--days", "7", "--picture", picture.toString());

        assertThat(trend.out())
                .contains("no round on 6 days")
                .contains("93 %")
                .contains("13 %")
                .contains("usual SpO2: not known yet")
                .contains("does not diagnose");
        assertThat(ImageIO.read(picture.toFile()).getWidth()).isEqualTo(1000);
        JsonNode json = Json.parse(
                good("diary", "trend", "--person", "Mia", "--days", "7", "--json")
                        .out(),
                "output");
        assertThat(json.at("/days/0/spo2Percent").isNull()).isTrue();
        assertThat(json.at("/days/6/spo2Percent").asInt()).isEqualTo(93);
    }

    @Test
    void aClinicianIsNamedWithTheLimitsSetAndLimitsCanBeTakenBack() {
        mia();
        assertThat(run("diary", "person", "set", "Mia", "--spo2-limits", "90,87")
                        .err())
                .contains("the name of who set them is missing");

        assertThat(good("diary", "person", "set", "Mia", "--spo2-limits", "90,87", "--limits-by", "Dr A. Example")
                        .out())
                .contains("limits set by Dr A. Example: SpO2 at or below 90: be seen today, 87: emergency");
        assertThat(good("diary", "person", "set", "Mia", "--no-clinician-limits")
                        .out())
                .doesNotContain("limits set by");
        assertThat(good("diary", "person", "list", "--json").out()).contains("\"asthma\"");
    }

    /** Common practice: what is usual after an illness that left the chest changed, whoever has examined it says. */
    @Test
    void aUsualThatAClinicianStatedIsSetWithItsDayAndTakenBack() {
        mia();
        assertThat(run("diary", "person", "set", "Mia", "--usual-spo2", "98").err())
                .contains("the name of the clinician who stated it is missing");
        assertThat(run("diary", "person", "set", "Mia", "--usual-spo2-from", "2026-03-01")
                        .err())
                .contains("say the usual SpO2 itself, too");
        assertThat(run("diary", "person", "set", "Mia", "--usual-spo2", "ninety", "--limits-by", "Dr A. Example")
                        .err())
                .contains("\"ninety\" cannot be read");
        assertThat(run("diary", "person", "set", "Mia", "--usual-spo2", "39", "--limits-by", "Dr A. Example")
                        .err())
                .contains("39 % is too low to be usual for anybody");
        assertThat(run(
                                "diary",
                                "person",
                                "set",
                                "Mia",
                                "--usual-spo2",
                                "98",
                                "--usual-spo2-from",
                                "2999-01-01",
                                "--limits-by",
                                "Dr A. Example")
                        .err())
                .contains("which is after today");
        assertThat(run(
                                "diary",
                                "person",
                                "set",
                                "Mia",
                                "--usual-spo2",
                                "98",
                                "--usual-spo2-from",
                                "0202-03-14",
                                "--limits-by",
                                "Dr A. Example")
                        .err())
                .contains("from 0202-03-14 on, which is before the birth");

        assertThat(good(
                                "diary",
                                "person",
                                "set",
                                "Mia",
                                "--usual-spo2",
                                "98",
                                "--usual-spo2-from",
                                "2024-03-14",
                                "--limits-by",
                                "Dr A. Example")
                        .out())
                .contains("stated by Dr A. Example: usual SpO2 98 % from 2024-03-14 on");
        Result round = good("round", "start", "--spo2", "95");
        assertThat(round.out())
                .contains("own usual, 98 % (stated by a clinician, from 2024-03-14 on)")
                .contains("NEXT STEP: BE SEEN BY A CLINICIAN TODAY");
        assertThat(good("diary", "trend", "--person", "Mia").out())
                .contains(
                        "Dr A. Example stated usual SpO2 98 % from 2024-03-14 on; days until then make none any more");
        assertThat(good("diary", "person", "set", "Mia", "--usual-spo2", "none").out())
                .doesNotContain("usual SpO2");
    }

    /** Who stated the usual need not be who set the limits: neither takes the other's name or day. */
    @Test
    void aStatedUsualHasItsOwnNameAndDay() {
        mia();
        good(
                "diary",
                "person",
                "set",
                "Mia",
                "--rate-limits",
                "40,50",
                "--limits-by",
                "Dr A. Example",
                "--limits-on",
                "2025-01-02");

        assertThat(good(
                                "diary",
                                "person",
                                "set",
                                "Mia",
                                "--usual-spo2",
                                "93",
                                "--usual-spo2-from",
                                "2026-03-14",
                                "--usual-spo2-breathing",
                                "oxygen",
                                "--usual-spo2-by",
                                "Nurse B. Example",
                                "--usual-spo2-stated",
                                "2026-03-12")
                        .out())
                .contains("stated by Nurse B. Example on 2026-03-12: usual SpO2 93 % on oxygen from 2026-03-14 on")
                .contains("limits set by Dr A. Example on 2025-01-02: breathing rate");
        assertThat(good("diary", "person", "set", "Mia", "--usual-spo2-breathing", "air")
                        .out())
                .contains("stated by Nurse B. Example on 2026-03-12: usual SpO2 93 % in air from 2026-03-14 on");
        assertThat(good("diary", "person", "set", "Mia", "--usual-spo2", "92", "--limits-by", "Dr C. Example")
                        .out())
                .as("with a usual alone the name is of who stated it")
                .contains("stated by Dr C. Example: usual SpO2 92 % from")
                .contains("limits set by Dr A. Example on 2025-01-02: breathing rate");
        assertThat(run("diary", "person", "set", "Mia", "--usual-spo2-stated", "2999-01-01")
                        .err())
                .contains("it cannot have been stated on 2999-01-01, which is after today");
    }

    /** The best peak flow is no limit of a clinician: whoever blows into a meter knows it. */
    @Test
    void theBestPeakFlowIsNoLimitThatNobodySet() {
        assertThat(good("diary", "person", "add", "Ned", "--born", "1990-02", "--best-peak-flow", "520")
                        .out())
                .contains("best peak flow 520 l/min")
                .doesNotContain("limits set by");
        good("round", "start", "--person", "Ned", "--no-other-danger-signs", "--peak-flow", "400");
        assertThat(good("diary", "trend", "--person", "Ned", "--days", "2").out())
                .containsPattern("peak flow l/min\\n(.*\\n)*.* 400\\n")
                .contains("SpO2 and peak flow: the lowest of the day")
                .contains("They too can be days of illness");
        good("diary", "person", "add", "Pip", "--born", BORN);
        assertThat(good("diary", "trend", "--person", "Pip").out()).doesNotContain("peak flow");
    }

    @Test
    void theEmergencyNumberIsAskedForUntilItIsGiven() {
        assertThat(good("diary", "person", "add", "Mia", "--born", BORN).out())
                .contains("emergency number is not known yet");
        good("diary", "settings", "--emergency-number", "000 000");
        assertThat(good("round", "start", "--danger-sign", "blue").out()).contains("Call 000 000 now.");
    }

    @Test
    void temperaturesAreShownInTheUnitThatWasSet() {
        mia();
        assertThat(good("round", "start", "--temperature", "38.4").out()).contains("38.4 °C");
        good("diary", "settings", "--temperature-unit", "fahrenheit");
        assertThat(good("round", "show").out()).contains("101.1 °F").doesNotContain("°C,");
    }

    /** More than 2 kg in 3 days: European Society of Cardiology, guide for patients with heart failure [P]. */
    @Test
    void aRisenWeightIsToBeSeenTodayWhateverTheQuestionWasAnswered() {
        good("diary", "person", "add", "Pa", "--born", "1948-05", "--condition", "heart-failure");
        Result first = good("round", "start", "--person", "Pa", "--no-other-danger-signs", "--weight", "70,0");
        assertThat(first.out())
                .contains("vitals: weight 70.0 kg")
                .contains("No weight of the last 3 days is known that this one can be held against");

        Result risen = good("round", "start", "--person", "Pa", "--no-other-danger-signs", "--weight", "72.4 kg");

        assertThat(risen.out())
                .contains("NEXT STEP: BE SEEN BY A CLINICIAN TODAY")
                .contains("It is 72.4 kg now and was 70.0 kg on ")
                .contains("answered with no; the numbers say otherwise, and they count")
                .contains("Limit: rise of weight within 3 days above 2 kg, from 16 years.")
                .contains("European Society of Cardiology");
        JsonNode json =
                Json.parse(good("round", "show", "--person", "Pa", "--json").out(), "view");
        assertThat(json.at("/round/vitals/weightKg").asDouble()).isEqualTo(72.4);
        assertThat(json.at("/earlierWeights/0/kg").asDouble()).isEqualTo(70.0);
        assertThat(good("diary", "trend", "--person", "Pa", "--days", "2").out())
                .containsPattern("weight kg\\n(.*\\n)*.* 72\\.4\\n")
                .contains("weight: one day is known; nothing can be told of it alone")
                .doesNotContain("usual weight");
        Result corrected = good("round", "answer", "--person", "Pa", "--weight", "71.9");
        assertThat(corrected.out())
                .doesNotContain("BE SEEN BY A CLINICIAN")
                .contains("Weight above 72.0 kg, more than 2 kg above 70.0 kg on ");

        String zip = temp.resolve("copy.zip").toString();
        good("diary", "export", zip);
        dir = temp.resolve("other").toString();
        good("diary", "import", zip);
        assertThat(good("round", "show", "--person", "Pa").out()).contains("weight 71.9 kg");
    }

    @Test
    void aWeightInPoundsMistypedOrOutOfRangeIsNotBelieved() {
        good("diary", "person", "add", "Pa", "--born", "1948-05", "--condition", "heart-failure");
        good("round", "start", "--person", "Pa", "--no-other-danger-signs", "--weight", "70");
        for (String wrong : List.of("724", "0.5")) {
            assertThat(run("round", "start", "--person", "Pa", "--weight", wrong)
                            .err())
                    .contains("weight: " + wrong + " is outside 1 to 350 kg");
        }
        assertThat(run("round", "start", "--person", "Pa", "--weight", "154lb").err())
                .contains("is in pounds; it is kept in kg: 154 lb are 69.9 kg");
        for (String wrong : List.of("much", "", "11 st", "7 0", "-70", "1e2", "NaN")) {
            assertThat(run("round", "start", "--person", "Pa", "--weight", wrong)
                            .err())
                    .as(wrong)
                    .contains("\"%s\" cannot be read; write it in kg, as 72.4".formatted(wrong));
        }

        Result pounds = good("round", "start", "--person", "Pa", "--no-other-danger-signs", "--weight", "154");
        assertThat(pounds.out())
                .contains("NEXT STEP: FIND OUT MORE")
                .contains("Weight 154.0 kg is far from 70.0 kg on ")
                .contains("Weigh again, and write the weight in kg")
                .doesNotContain("NEXT STEP: BE SEEN");
    }

    @Test
    void onATerminalAPersonWithHeartFailureIsAskedForTheWeight() {
        good("diary", "person", "add", "Pa", "--born", "1948-05", "--condition", "heart-failure");

        Result started = runWith(
                "97\nn\n16\n70\n37\n154 lb\n69,9\n", "round", "start", "--person", "Pa", "--no-other-danger-signs");

        assertThat(started.out())
                .contains("Weight in kg (72.4)")
                .contains("154 lb are 69.9 kg")
                .contains("weight 69.9 kg");
        mia();
        assertThat(runWith("97\nn\n16\n70\n37\n", "round", "start", "--person", "Mia", "--no-other-danger-signs")
                        .out())
                .doesNotContain("Weight in kg");
    }

    /** Common practice [C]: more oxygen for the same SpO2 is a change that the SpO2 hides. */
    @Test
    void moreOxygenThanOnEarlierDaysIsToBeSeenTodayThoughSpo2IsAsItWas() {
        mia();
        try (Diary diary = Diary.open(Path.of(dir))) {
            UUID mia = diary.persons().all().get(0).id();
            for (int before = 3; before >= 1; before--) {
                Round round = diary.rounds().start(mia, OffsetDateTime.now().minusDays(before));
                diary.rounds()
                        .change(round.with(
                                Vitals.NONE.withSpo2(96).withOnOxygen(true).withOxygenFlow(2.0)));
            }
        }
        Result same = good(
                "round",
                "start",
                "--no-other-danger-signs",
                "--spo2",
                "96",
                "--on-oxygen",
                "yes",
                "--oxygen-flow",
                "2");
        assertThat(same.out())
                .contains("SpO2 96 %, on 2 l/min of oxygen")
                .contains(
                        "Oxygen flow more than a tenth above 2 l/min, for the same SpO2 or a lower one: be seen today")
                .contains("Change the flow of the oxygen only as the clinician who ordered it said")
                .doesNotContain("NEXT STEP: BE SEEN");

        Result more = good("round", "answer", "--oxygen-flow", "3 l/min");

        assertThat(more.out())
                .contains("NEXT STEP: BE SEEN BY A CLINICIAN TODAY")
                .contains("Oxygen flow 3 l/min now with SpO2 96 %, and was 2 l/min with SpO2 96 % (of 3 days from ")
                .contains("96 on oxygen, measured on more oxygen than before: 3 l/min now, 2 l/min before");
        assertThat(good("diary", "trend", "--person", "Mia", "--days", "5").out())
                .containsPattern("SpO2 +oxygen l/min\\n(.*\\n)*.* 96 % on oxygen +3\\n")
                .contains("SpO2 of the newest day: measured on more oxygen than before: 3 l/min now, 2 l/min before.")
                .containsPattern("oxygen flow: 3 l/min on .*; lowest 2 l/min on .*, highest 3 l/min on ")
                .contains("Rate and flow of oxygen: the highest of the day");
        JsonNode json = Json.parse(good("round", "show", "--json").out(), "view");
        assertThat(json.at("/round/vitals/oxygenLitresPerMinute").asDouble()).isEqualTo(3.0);
        assertThat(json.at("/earlierFlow/litresPerMinute").asDouble()).isEqualTo(2.0);
        assertThat(good("round", "answer", "--on-oxygen", "no").out()).doesNotContain("l/min of oxygen");
    }

    @Test
    void aFlowOfOxygenIsAskedOnATerminalAndRefusedWithoutOxygen() {
        mia();
        assertThat(run("round", "start", "--oxygen-flow", "2").err())
                .contains("oxygen flow: 2 litres a minute is given, but not whether extra oxygen was on");
        assertThat(run("round", "start", "--on-oxygen", "no", "--oxygen-flow", "2")
                        .err())
                .contains("and that no extra oxygen was on; say that extra oxygen was on, or leave the flow out.");
        for (String wrong : List.of("0", "16")) {
            assertThat(run("round", "start", "--on-oxygen", "yes", "--oxygen-flow", wrong)
                            .err())
                    .contains("is outside 0.01 to 15 litres a minute");
        }
        for (String wrong : List.of("two", "", "-2", "2 3", "NaN", "40 %")) {
            assertThat(run("round", "start", "--on-oxygen", "yes", "--oxygen-flow", wrong)
                            .err())
                    .as(wrong)
                    .contains("\"%s\" cannot be read; write it in litres a minute, as 2 or 0.5".formatted(wrong));
        }
        assertThat(run("round", "start", "--on-oxygen", "yes", "--oxygen-flow", "125 mL/min")
                        .err())
                .contains("\"125 mL/min\" is in millilitres; it is kept in litres a minute: 125 ml are 0.125 l.");
        assertThat(good("round", "start", "--spo2", "97", "--on-oxygen", "yes", "--oxygen-flow", ".125")
                        .out())
                .contains("SpO2 97 %, on 0.125 l/min of oxygen");
        assertThat(runWith("97\ny\n20\n0,25\n22\n90\n37\n", "round", "start", "--no-other-danger-signs")
                        .out())
                .contains("Flow of the oxygen in litres a minute")
                .contains("flow: 20 is outside 0.01 to 15 litres a minute; look again at what is set")
                .contains("SpO2 97 %, on 0.25 l/min of oxygen");
        assertThat(runWith("97\nn\n22\n90\n37\n", "round", "start", "--no-other-danger-signs")
                        .out())
                .doesNotContain("Flow of the oxygen");
    }

    @Test
    void exportAndImportCarryARoundToAnotherDiary() throws Exception {
        mia();
        good("round", "add", file("back-lower-left.wav", "wheezes 2"));
        String zip = temp.resolve("copy.zip").toString();
        assertThat(good("diary", "export", zip).out())
                .contains("1 round, 1 take, 1 recording")
                .contains("not encrypted");
        assertThat(run("diary", "export", zip).err()).contains("exists already");

        dir = temp.resolve("other").toString();
        assertThat(good("diary", "import", zip).out())
                .contains("new here: 1 person, 1 round, 1 take, 1 examination, 0 notes, 1 recording");
        assertThat(good("round", "show", "--person", "Mia").out()).contains("suggests a continuous");
    }

    @Test
    void erasingAsksTwice() {
        mia();
        assertThat(run("diary", "erase", "--person", "Mia").err())
                .contains("--yes-erase Mia")
                .contains("Nothing was erased");
        assertThat(run("diary", "erase", "--person", "Mia", "--yes-erase", "Tom")
                        .exit())
                .isEqualTo(1);
        assertThat(runWith("y\nTom\n", "diary", "erase", "--person", "Mia").err())
                .contains("Nothing was erased");
        assertThat(runWith("\nMia\n", "diary", "erase", "--person", "Mia").err())
                .contains("Nothing was erased");
        assertThat(good("diary", "person", "list").out()).contains("Mia");

        Result erased = runWith("y\nMia\n", "diary", "erase", "--person", "Mia");

        assertThat(erased.exit()).isZero();
        assertThat(erased.out()).contains("Copies made elsewhere");
        assertThat(good("diary", "person", "list").out()).contains("Nobody yet");
    }

    @Test
    void reExamineSaysWhatChanged() throws Exception {
        mia();
        good("round", "add", file("back-lower-left.wav", "wheezes 2"));

        assertThat(good("diary", "re-examine").out()).contains("1 take examined again, 0 with another suggestion");
    }

    @Test
    void takesOfTheDiaryCanBeCompared() throws Exception {
        mia();
        JsonNode json = Json.parse(
                good(
                                "round",
                                "add",
                                file("back-lower-left.wav", "wheezes 2"),
                                file("back-lower-right.wav", "wheezes 0"),
                                "--json")
                        .out(),
                "output");
        String left = json.at("/sites/0/takes/0/id").asText();
        String right = json.at("/sites/1/takes/0/id").asText().substring(0, 8);

        assertThat(good("diary", "compare", "--person", "Mia", left, right).out())
                .contains("left: ")
                .contains("A difference is no diagnosis");
        assertThat(good("diary", "compare", "--person", "Mia", left).out()).contains("0 earlier take(s)");
        assertThat(run("diary", "compare", "--person", "Mia", "zzzz").err()).contains("No take of this person");
        assertThat(good("round", "show").out()).contains("Beside one another");
        assertThat(Json.parse(good("round", "show", "--json").out(), "output")
                        .at("/comparisons/0/relation")
                        .asText())
                .isEqualTo("left-right");
        assertThat(good("diary", "show", "--person", "Mia").out()).contains("take " + right);
    }

    @Test
    void aMisusedCommandExitsWithTwoAndABadValueWithOne() {
        mia();
        assertThat(run("round").exit()).isEqualTo(2);
        assertThat(run("diary").exit()).isEqualTo(2);
        assertThat(run("diary", "person", "add", "Tom").exit()).isEqualTo(2);
        assertThat(run("round", "start", "--spo2", "much").exit()).isEqualTo(2);
        assertThat(run("round", "start", "--spo2", "930").exit()).isEqualTo(1);
        assertThat(run("round", "start", "--danger-sign", "green").err())
                .contains("\"green\" is not known; use one of");
        assertThat(run("round", "show", "--person", "Tom").err()).contains("it knows Mia");
        assertThat(run("round", "show").err()).contains("There is no round of Mia yet");
    }

    @Test
    void everyCommandHasHelpWithAnExample() {
        for (String command : List.of(
                "round",
                "round start",
                "round answer",
                "round add",
                "round show",
                "round finish",
                "round sites",
                "round questions",
                "diary",
                "diary person",
                "diary person add",
                "diary person set",
                "diary person list",
                "diary show",
                "diary trend",
                "diary compare",
                "diary note",
                "diary settings",
                "diary export",
                "diary import",
                "diary erase",
                "diary re-examine")) {
            Result help = run((command + " --help").split(" "));
            assertThat(help.exit()).as(command).isZero();
            assertThat(help.out()).as(command).contains("Example:");
        }
    }

    @Test
    void sitesAndQuestionsFollowTheAge() {
        assertThat(good("round", "sites", "--age", "3 years").out())
                .contains("back-lower-left")
                .doesNotContain("neck");
        assertThat(good("round", "sites", "--age", "64y").out()).contains("neck");
        // As the help of --site and the sentence about an unknown one send people there.
        assertThat(good("round", "sites").out().lines().map(line -> line.split(" +")[0]))
                .containsExactlyElementsOf(
                        Sites.catalogue().stream().map(Site::id).toList());
        assertThat(good("round", "questions", "--age", "3 years").out())
                .contains("blue")
                .contains("head-nodding");
        assertThat(good("round", "questions", "--age", "64y").out()).doesNotContain("head-nodding");
    }

    /** Else an empty round would be the newest: the one that is finished and reported. */
    @Test
    void aWrongFileAloneBeginsNoRoundAndIsOneSentence() throws Exception {
        mia();
        Result wrong = run("round", "add", file("letter.wav", "letter"), "--person", "Mia", "--site", "neck");

        assertThat(wrong.exit()).isEqualTo(Main.EXIT_BAD_INPUT);
        assertThat(wrong.out()).isEmpty();
        assertThat(wrong.err().lines())
                .singleElement()
                .asString()
                .contains("letter.wav was not added: letter.wav: this is not a sound file.");
        assertThat(good("diary", "show", "--person", "Mia").out()).contains("0 rounds");
    }

    /** As on a disk that is full: there the round still fits, and the recording does not. */
    @Test
    void aRecordingThatCannotBeStoredLeavesNoRoundBehindAndTakesNoneAway() throws Exception {
        mia();
        Path recordings = temp.resolve("diary/recordings");
        Files.writeString(recordings, "in the way");
        String sound = file("back-lower-right.wav", "wheezes 1");

        Result none = run("round", "add", sound, "--person", "Mia");

        assertThat(none.exit()).isEqualTo(Main.EXIT_BAD_INPUT);
        assertThat(none.out()).isEmpty();
        assertThat(none.err().lines())
                .singleElement()
                .asString()
                .contains("could not be stored")
                .contains("nothing stored was changed");
        assertThat(good("diary", "show", "--person", "Mia").out()).contains("0 rounds");

        assertThat(run("round", "add", sound, "--person", "Mia", "--spo2", "95").exit())
                .isEqualTo(Main.EXIT_BAD_INPUT);
        assertThat(good("diary", "show", "--person", "Mia").out())
                .as("an answer is kept, and the round with it")
                .contains("1 round");
    }

    @Test
    void oneGoodFileBesideAWrongOneIsKept() throws Exception {
        mia();
        Result both = run(
                "round",
                "add",
                file("back-lower-left.wav", "letter"),
                file("back-lower-right.wav", "wheezes 1"),
                "--person",
                "Mia");

        assertThat(both.exit()).isEqualTo(Main.EXIT_BAD_INPUT);
        assertThat(both.out()).contains("back, lower, right").contains("suggests a continuous extra sound");
        assertThat(both.err()).contains("back-lower-left.wav was not added");
    }

    @Test
    void aDangerSignInTheDiaryIsToldInTheWordsThatWereAsked() {
        mia();
        good("round", "start", "--person", "Mia", "--danger-sign", "blue");

        assertThat(good("diary", "show", "--person", "Mia").out())
                .contains("DANGER SIGN: Are the lips, tongue or face blue or grey")
                .contains("? Yes.");
    }

    @Test
    void aStretchWithoutABreathIsAskedAboutUntilSomebodySaysWhatItWas() throws Exception {
        mia();
        good("round", "start", "--person", "Mia", "--no-other-danger-signs");
        String asked = good(
                        "round",
                        "add",
                        file("a.wav", "rate 24 pause 9"),
                        "--person",
                        "Mia",
                        "--site",
                        "back-lower-left")
                .out();
        assertThat(asked)
                .contains("PAUSE: From 2.0 to 11.0 s, for about 9 s, no breath was found")
                .contains("Was the breath held")
                .contains("--breathing-stopped yes|no")
                .as("a rate across a pause is none")
                .contains("vitals: none measured")
                .contains("NEXT STEP: ");

        String held = good("round", "answer", "--person", "Mia", "--breathing-stopped", "no")
                .out();
        assertThat(held).contains("Said: the breathing did not stop by itself").doesNotContain("--breathing-stopped");

        String stopped = good("round", "answer", "--person", "Mia", "--breathing-stopped", "yes")
                .out();
        assertThat(stopped)
                .contains("NEXT STEP: EMERGENCY")
                .doesNotContain("none said to be there")
                .contains("The breathing stopped by itself for about 9 s");
        assertThat(good("diary", "show", "--person", "Mia").out())
                .as("a list of rounds hides it neither")
                .contains("DANGER SIGN: the breathing stopped by itself while a recording was made.")
                .contains("NO BREATH FOUND FOR 9 s");
    }

    @Test
    void aPauseThatNoRecordingHoldsIsRefusedWithTheDangerSignThatSaysIt() {
        mia();
        good("round", "start", "--person", "Mia");

        Result refused = run("round", "answer", "--person", "Mia", "--breathing-stopped", "yes");
        assertThat(refused.exit()).isEqualTo(Main.EXIT_BAD_INPUT);
        assertThat(refused.err()).contains("--danger-sign pauses-in-breathing");
    }

    @Test
    void daysOfAReportThatGoBackwardsAreSaidToGoBackwards() {
        mia();

        assertThat(run("report", "--person", "Mia", "--from", "2026-03-02", "--to", "2026-03-01", "--out", "x.html")
                        .err())
                .contains("The days go backwards, from 2026-03-02 to 2026-03-01");
    }

    /** A screen of options would push the sentence out of sight. */
    @Test
    void aCommandLineThatCannotBeUnderstoodIsASentenceInPlainWords() {
        mia();
        Result rate = run("round", "start", "--person", "Mia", "--rate", "abc");
        Result day = run("diary", "show", "--person", "Mia", "--to", "2026-13-44");
        Result misspelt = run("round", "start", "--sp02", "95");

        assertThat(rate.exit()).isEqualTo(Main.EXIT_BAD_USAGE);
        assertThat(rate.err().lines())
                .containsExactly(
                        "lungwort: Invalid value for option '--rate': 'abc' is not a whole number.",
                        "See: lungwort round start --help");
        assertThat(day.err())
                .contains("'2026-13-44' is not a date; write it as 2026-03-14")
                .doesNotContain("java");
        assertThat(misspelt.err()).contains("'--sp02'", "--spo2");
    }

    @Test
    void whatIsMissingIsToldWithTheCommandThatGivesIt() {
        mia();
        Result asked = good("round", "start", "--person", "Mia", "--no-other-danger-signs", "--rate", "28");
        assertThat(asked.out())
                .contains(
                        "ANSWER WITH: lungwort round answer --person Mia "
                                + "--breathless none|on-effort|at-rest|cannot-finish-sentences --fever yes|no --chest-infection yes|no\n");

        Result answered = good(
                "round",
                "answer",
                "--person",
                "Mia",
                "--breathless",
                "none",
                "--fever",
                "no",
                "--chest-infection",
                "no");

        assertThat(answered.out()).doesNotContain("ANSWER WITH");
    }

    @Test
    void datesInTheFutureAreRefusedInOneSentence() {
        String nextYear = YearMonth.now().plusYears(1).toString();
        Result born = run("diary", "person", "add", "Mia", "--born", nextYear);
        Result set = run(
                "diary",
                "person",
                "add",
                "Mia",
                "--born",
                BORN,
                "--spo2-limits",
                "90,87",
                "--limits-by",
                "Dr Example",
                "--limits-on",
                nextYear + "-01");

        assertThat(born.err())
                .contains("birth month: " + nextYear + " lies after ", "check the year.")
                .as("no example that could be taken for what to write")
                .doesNotContain("2023-04");
        assertThat(set.err()).contains("cannot have been set on " + nextYear + "-01");
        assertThat(good("diary", "person", "list").out()).doesNotContain("Mia");
    }
}
