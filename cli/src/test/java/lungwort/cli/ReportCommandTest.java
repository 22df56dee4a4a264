package lungwort.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFileAttributeView;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.YearMonth;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import lungwort.diary.Diary;
import lungwort.diary.Examples;
import lungwort.diary.Round;
import lungwort.guidance.DangerAnswers;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;

/** {@code lungwort report}: what it writes, and how it refuses. */
class ReportCommandTest {
    @TempDir
    Path temp;

    private record Result(int exit, String out, String err) {}

    private Result run(String... arguments) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        CommandLine main = Main.commandLine(Examples::service, writer -> null);
        main.setOut(new PrintWriter(out));
        main.setErr(new PrintWriter(err));
        List<String> all = new ArrayList<>(List.of(arguments));
        all.add("--diary");
        all.add(temp.resolve("diary").toString());
        return new Result(main.execute(all.toArray(String[]::new)), out.toString(), err.toString());
    }

    @BeforeEach
    void mia() {
        run(
                "diary",
                "person",
                "add",
                "Mia",
                "--born",
                YearMonth.now().minusMonths(40).toString());
    }

    private String file(String name) {
        return temp.resolve(name).toString();
    }

    @Test
    void writesTheNewestRoundAndSaysWhatWasLeftOut() throws Exception {
        run("round", "start", "--person", "Mia", "--no-other-danger-signs", "--spo2", "95");

        Result result = run("report", "--person", "mia", "--without-name", "--out", file("r.html"));

        assertThat(result.exit()).as(result.err()).isZero();
        assertThat(result.out()).contains("left out: the name").contains("does not diagnose");
        assertThat(Files.readString(temp.resolve("r.html"))).contains("95 %").doesNotContain("Mia");
        try (Stream<Path> left = Files.list(temp)) {
            assertThat(left).noneMatch(file -> file.toString().endsWith(".part"));
        }
    }

    /** A clinician who is shown the round of a year to come for the newest reads good numbers beside which today's stand nowhere. */
    @Test
    void aRoundDatedByAClockThatWentAheadIsNotToldForTheNewest() throws Exception {
        Instant ahead = Instant.now().plus(Duration.ofDays(400));
        try (Diary diary = Diary.open(temp.resolve("diary"), Clock.fixed(ahead, ZoneOffset.UTC))) {
            Round round = diary.rounds().start(diary.persons().need("Mia").id());
            diary.rounds().change(round.with(new DangerAnswers(Set.of(), Set.of("blue"))));
        }
        String day = ahead.toString().substring(0, 10);
        run("round", "start", "--person", "Mia", "--no-other-danger-signs", "--spo2", "91");

        Result newest = run("report", "--person", "mia", "--out", file("r.html"));
        Result days = run("report", "--person", "mia", "--from", "2026-01-01", "--out", file("d.html"));

        assertThat(newest.exit()).as(newest.err()).isZero();
        assertThat(newest.out()).doesNotContain("holds nothing yet");
        assertThat(Files.readString(temp.resolve("r.html"))).contains("91 %").doesNotContain(day);
        assertThat(days.exit()).as(days.err()).isZero();
        assertThat(Files.readString(temp.resolve("d.html"))).contains("91 %").doesNotContain(day);
    }

    /** A report holds health data; who else has an account on the computer must not read it. */
    @Test
    void onlyTheOwnerCanReadIt() throws Exception {
        Assumptions.assumeTrue(
                Files.getFileAttributeView(temp, PosixFileAttributeView.class) != null,
                "skipped: this file system knows no POSIX permissions");
        run("round", "start", "--person", "Mia", "--no-other-danger-signs", "--spo2", "95");
        Path report = Files.writeString(temp.resolve("r.csv"), "person,age_months,an older one that all can read");
        Files.setPosixFilePermissions(report, PosixFilePermissions.fromString("rw-r--r--"));

        assertThat(run("report", "--person", "Mia", "--out", file("r.csv")).exit())
                .isZero();

        assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(report)))
                .isEqualTo("rw-------");
        assertThat(Files.readString(report)).contains("spo2");
    }

    @Test
    void aReportIsNeverWrittenOverTheDiaryOrARecording() throws Exception {
        run("round", "start", "--person", "Mia", "--no-other-danger-signs");
        Path diary = temp.resolve("diary").resolve("diary.sqlite");
        byte[] before = Files.readAllBytes(diary);

        Result result = run("report", "--person", "Mia", "--format", "html", "--out", diary.toString());

        assertThat(result.exit()).isEqualTo(1);
        assertThat(result.err()).contains("this is not a report as HTML").hasLineCount(1);
        assertThat(diary).hasBinaryContent(before);
    }

    @Test
    void refusesInOneSentence() {
        Result none = run("report", "--person", "Mia", "--out", file("r.html"));
        assertThat(none.exit()).isEqualTo(1);
        assertThat(none.err())
                .startsWith("lungwort: There is no round of Mia yet")
                .hasLineCount(1);

        run("round", "start", "--person", "Mia", "--no-other-danger-signs");
        Result format = run("report", "--person", "Mia", "--out", file("r.docx"));
        assertThat(format.exit()).isEqualTo(1);
        assertThat(format.err()).contains("use one of html, pdf, json, csv").hasLineCount(1);

        Result folder = run("report", "--person", "Mia", "--out", file("nowhere/r.csv"));
        assertThat(folder.exit()).isEqualTo(1);
        assertThat(folder.err())
                .contains("a report as CSV cannot be written there")
                .hasLineCount(1);

        Result backwards =
                run("report", "--person", "Mia", "--from", "2026-03-02", "--to", "2026-03-01", "--out", file("r.csv"));
        assertThat(backwards.exit()).isEqualTo(1);
    }

    @Test
    void aRoundAndDaysTogetherAreBadUsage() {
        Result both = run("report", "--person", "Mia", "--round", "ab", "--from", "2026-03-02", "--out", file("r.csv"));
        assertThat(both.exit()).isEqualTo(2);
        assertThat(both.err()).contains("not both");
    }
}
