package lungwort.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.StringReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import java.util.function.Function;
import javax.xml.parsers.DocumentBuilderFactory;
import lungwort.BadInput;
import lungwort.audio.Recording;
import lungwort.audio.RecordingReader;
import lungwort.audio.WavWriter;
import lungwort.diary.Diary;
import lungwort.diary.Examples;
import lungwort.diary.NewTake;
import lungwort.diary.Person;
import lungwort.diary.Round;
import lungwort.diary.Take;
import lungwort.diary.Trend;
import lungwort.examine.Examination;
import lungwort.guidance.Age;
import lungwort.guidance.Breathlessness;
import lungwort.guidance.ClinicianLimits;
import lungwort.guidance.Condition;
import lungwort.guidance.Conditions;
import lungwort.guidance.Consciousness;
import lungwort.guidance.DangerAnswers;
import lungwort.guidance.DangerSign;
import lungwort.guidance.Guidance;
import lungwort.guidance.Site;
import lungwort.guidance.Sites;
import lungwort.guidance.Symptoms;
import lungwort.guidance.TakeReason;
import lungwort.guidance.Vitals;
import lungwort.picture.Words;
import lungwort.round.RoundService;
import lungwort.round.RoundWords;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;

/** What a report holds, what it leaves out, and that it is the same each time. The person is invented, the sound a synthesised tone. */
class ReportTest {
    private static final String HOSTILE = "<script>alert(1)</script>\" onload='x' & \u202Egnp";
    private static final Site LEFT = new Site(Site.Face.BACK, Site.Height.LOWER, Site.Side.LEFT);

    @TempDir
    Path temp;

    private final Examples.MovingClock clock = new Examples.MovingClock();
    private Diary diary;
    private RoundService rounds;
    private ReportService reports;

    @BeforeEach
    void open() {
        diary = Diary.open(temp.resolve("diary"), clock);
        rounds = new RoundService(diary, RecordingReader::read, ReportTest::examine);
        reports = new ReportService(rounds, RecordingReader::read);
    }

    @AfterEach
    void close() {
        diary.close();
    }

    /** Loud tones stand for wheezes, so that tests choose what is suggested: one of 0.5 and more suggests two. */
    private static Examination examine(Recording recording) {
        return Examples.examination(recording.sample(50) > 0.4 ? 2 : 0, 0);
    }

    /** The same with a reason that names its take's level, as each take has its own. */
    private static Examination examineWithReasons(Recording recording) {
        Examination e = examine(recording);
        String reason = "A tone near 400 Hz stands %.0f dB out of the sound around it for at least a fifth of a second."
                .formatted(100 * recording.sample(50));
        return new Examination(
                e.origin(),
                e.durationSeconds(),
                e.source(),
                e.suggestion(),
                e.probabilities(),
                e.quality(),
                e.breathing(),
                e.evidence(),
                e.events(),
                e.pauses(),
                List.of(reason),
                e.model());
    }

    private static byte[] wav(double level) {
        double[] samples = new double[4000];
        java.util.Arrays.setAll(samples, i -> i == 50 ? level : level * Math.sin(0.6 * i));
        return WavWriter.toBytes(new Recording(samples, 4000, "tone"), WavWriter.Encoding.PCM_16);
    }

    private Person person(String nickname) {
        ClinicianLimits limits = new ClinicianLimits(
                new ClinicianLimits.Limit(93, 90), null, null, false, null, "Dr Invented", "2026-02-01");
        return diary.persons()
                .add(nickname, YearMonth.of(2021, 4), Conditions.of(Condition.ASTHMA), "likes sailing boats", limits);
    }

    private UUID round(Person person, int spo2, String words) {
        Round round = rounds.start(person);
        rounds.change(
                round.id(),
                now -> now.with(DangerAnswers.noneOf(person.age(round.day())))
                        .with(Vitals.NONE.withSpo2(spo2).withRespiratoryRate(28))
                        .withSymptomWords(words));
        diary.notes().add(person.id(), round.id(), "note: " + words);
        rounds.add(new NewTake(round.id(), LEFT, TakeReason.FIRST, "mias-back.wav"), wav(0.5));
        clock.plusSeconds(60);
        rounds.add(new NewTake(round.id(), LEFT, TakeReason.AFTER_COUGH, "mias-cough.wav"), wav(0.3));
        clock.plusSeconds(60);
        rounds.add(
                new NewTake(round.id(), java.util.Objects.requireNonNull(LEFT.otherSide()), TakeReason.FIRST, "r.wav"),
                wav(0.31));
        rounds.finish(round.id());
        return round.id();
    }

    /** A stretch without a breath, and what it was, stands in every format. */
    @Test
    void aStretchWithoutABreathIsHandedOnWithItsAnswer() {
        RoundService pausing = Examples.service(diary);
        Round round = pausing.start(person("Mia"));
        Take take = pausing.add(
                new NewTake(round.id(), LEFT, TakeReason.FIRST, "pause.wav"),
                "pause 9".getBytes(StandardCharsets.UTF_8));
        diary.takes().sayBreathingStopped(take.id(), true);
        pausing.finish(round.id());
        ReportService service = new ReportService(pausing, RecordingReader::read);
        ReportContent content = service.ofRound(round.id(), ReportOptions.ALL);
        Function<ReportFormat, String> text =
                format -> new String(service.write(content, format), StandardCharsets.UTF_8);
        assertThat(text.apply(ReportFormat.HTML))
                .as("a rate across a pause is none")
                .contains("2 found, rate not told")
                .doesNotContain("15/min heard")
                .contains("NO BREATH FOUND FOR 9 S (2.0 to 11.0 s; LISTENER: THE BREATHING STOPPED BY ITSELF)")
                .contains("Said of a recording: the breathing stopped by itself while a recording was made.");
        pausing.change(round.id(), now -> now.with(DangerAnswers.noneOf(Age.ofYears(4))));
        LocalDate day = LocalDate.of(2026, 3, 1);
        pausing.start(diary.persons().need("Mia"));
        assertThat(new String(
                        service.write(
                                service.ofDays(diary.persons().need("Mia"), day, day, ReportOptions.ALL),
                                ReportFormat.HTML),
                        StandardCharsets.UTF_8))
                .as("no line of days says that no danger sign was there")
                .contains("<td data-label=\"Danger signs\">Said of a recording: the breathing stopped")
                .doesNotContain("all asked, none said to be there");
        assertThat(text.apply(ReportFormat.CSV))
                .containsPattern("longest stretch without a breath,9,s")
                .contains("the breathing stopped by itself there,true");
        assertThat(text.apply(ReportFormat.FHIR))
                .contains("longest stretch without a breath heard")
                .contains("Listener: the breathing stopped by itself");
    }

    /** What could not be told is never passed over as "found no extra sound". */
    @Test
    void theFamilyIsToldWhereItCannotBeTold() {
        RoundService service = Examples.service(diary);
        Round round = service.start(person("Mia"));
        NewTake poor = new NewTake(round.id(), LEFT, TakeReason.FIRST, "poor.wav");
        service.add(poor, "unusable".getBytes(StandardCharsets.UTF_8));
        ReportService reporting = new ReportService(service, RecordingReader::read);
        assertThat(html(reporting, round)).contains("no recording in which it could tell");
        NewTake good = new NewTake(
                round.id(), java.util.Objects.requireNonNull(LEFT.otherSide()), TakeReason.FIRST, "good.wav");
        service.add(good, "wheezes 0".getBytes(StandardCharsets.UTF_8));
        assertThat(html(reporting, round))
                .contains("found no extra sound in some of these recordings. It cannot tell whether there is one here: "
                        + LEFT.words());
        NewTake again = new NewTake(round.id(), LEFT, TakeReason.FIRST, "again.wav");
        service.add(again, "crackles 4".getBytes(StandardCharsets.UTF_8));
        assertThat(html(reporting, round))
                .as("a place is not told to hold a sound and to be open")
                .contains("The program suggests extra sounds here: " + LEFT.words() + ".")
                .doesNotContain("It cannot tell whether there is one here");
    }

    /** The doubt that a good recording left is told, whichever of the takes at its place told something; a refused one that was made again is not dwelt on. */
    @Test
    void doubtAtAPlaceIsNotOutweighedByATakeThatHeardNone() {
        RoundService service = Examples.service(diary);
        ReportService reporting = new ReportService(service, RecordingReader::read);
        Round round = service.start(person("Mia"));
        for (String sound : List.of("unusable", "wheezes 0")) {
            service.add(
                    new NewTake(round.id(), LEFT, TakeReason.FIRST, "a.wav"), sound.getBytes(StandardCharsets.UTF_8));
        }
        assertThat(html(reporting, round)).contains("found no extra sound in these recordings.");
        service.add(
                new NewTake(round.id(), LEFT, TakeReason.AFTER_COUGH, "a.wav"),
                "unsure".getBytes(StandardCharsets.UTF_8));
        assertThat(html(reporting, round))
                .contains("found no extra sound in some of these recordings. It cannot tell whether there is one here: "
                        + LEFT.words());
    }

    /** "Nothing stands out" is never told as if a chest had been listened to and nothing heard, and no reader gets a probability for it. */
    @Test
    void everyReaderIsToldThatARecordingIsUnfamiliar() throws Exception {
        RoundService service = Examples.service(diary);
        ReportService reporting = new ReportService(service, RecordingReader::read);
        Round round = service.start(person("Mia"));
        service.add(
                new NewTake(round.id(), LEFT, TakeReason.FIRST, "a.wav"),
                "unfamiliar".getBytes(StandardCharsets.UTF_8));
        assertThat(html(reporting, round))
                .contains(
                        "No extra sound stood out in these recordings. A recording here sounds unlike nearly all that the program learnt from")
                .contains("That does not mean that all is well")
                .contains("data-label=\"Probability\">not given</td>")
                .doesNotContain("found no extra sound")
                .doesNotContain("continuous 10 %, crackles 10 %");
        ReportContent content = reporting.ofRound(round.id(), ReportOptions.ALL);
        assertThat(pdfText(reporting.write(content, ReportFormat.PDF)).replaceAll("\\s+", " "))
                .contains("no extra sound stands out; this is unlike what Lungwort learnt from")
                .doesNotContain("o extra sound found here")
                .doesNotContain("continuous 10 %, crackles 10 %");
        assertThat(text(reporting, content, ReportFormat.FHIR))
                .contains("no extra sound stands out; this is unlike what Lungwort learnt from")
                .doesNotContain("probability of");
        assertThat(text(reporting, content, ReportFormat.CSV))
                .contains(",suggestion,none-stands-out,")
                .contains(",probability continuous,,,")
                .contains(",probability crackles,,,");
        service.add(
                new NewTake(
                        round.id(), java.util.Objects.requireNonNull(LEFT.otherSide()), TakeReason.FIRST, "poor.wav"),
                "unusable".getBytes(StandardCharsets.UTF_8));
        assertThat(html(reporting, round)).contains("No extra sound stood out in some of these recordings.");
        service.add(
                new NewTake(round.id(), LEFT, TakeReason.AFTER_COUGH, "a.wav"),
                "wheezes 0".getBytes(StandardCharsets.UTF_8));
        content = reporting.ofRound(round.id(), ReportOptions.ALL);
        assertThat(html(reporting, round)).as("beside a take that tells").contains("continuous 10 %, crackles 10 %");
        assertThat(text(reporting, content, ReportFormat.FHIR)).contains("probability of crackles, calibrated");
        assertThat(text(reporting, content, ReportFormat.CSV)).contains(",probability crackles,0.1");
        service.add(
                new NewTake(round.id(), LEFT, TakeReason.AFTER_COUGH, "a.wav"),
                "crackles 4".getBytes(StandardCharsets.UTF_8));
        assertThat(html(reporting, round))
                .contains("The program suggests extra sounds here: " + LEFT.words())
                .contains("A recording here sounds unlike nearly all that the program learnt from");
    }

    /** Four seconds of a tired hand are never told as if a chest had been listened to and nothing heard. */
    @Test
    void everyReaderIsToldThatHardlyABreathWasFound() throws Exception {
        RoundService service = Examples.service(diary);
        ReportService reporting = new ReportService(service, RecordingReader::read);
        Round round = service.start(person("Mia"));
        service.add(new NewTake(round.id(), LEFT, TakeReason.FIRST, "a.wav"), "hasty".getBytes(StandardCharsets.UTF_8));

        assertThat(html(reporting, round))
                .contains("Hardly a whole breath was found in a recording here, so that it says next to nothing: "
                        + LEFT.words());
        ReportContent content = reporting.ofRound(round.id(), ReportOptions.ALL);
        assertThat(pdfText(reporting.write(content, ReportFormat.PDF)).replaceAll("\\s+", " "))
                .contains(Words.HARDLY_A_BREATH)
                .doesNotContain("o extra sound found here");
        assertThat(text(reporting, content, ReportFormat.FHIR))
                .contains(Words.HARDLY_A_BREATH)
                .doesNotContain("o extra sound found here");
    }

    private static String text(ReportService service, ReportContent content, ReportFormat format) {
        return new String(service.write(content, format), StandardCharsets.UTF_8);
    }

    /** A later take in which nothing stands out clears nothing, and the print does not say that it did. */
    @Test
    void whatDoesNotStandOutLaterIsNotPrintedAsGone() {
        RoundService service = Examples.service(diary);
        Round round = service.start(person("Mia"));
        for (String sound : List.of("crackles 4", "unfamiliar")) {
            service.add(
                    new NewTake(
                            round.id(),
                            LEFT,
                            sound.equals("unfamiliar") ? TakeReason.AFTER_COUGH : TakeReason.FIRST,
                            "a.wav"),
                    sound.getBytes(StandardCharsets.UTF_8));
        }
        assertThat(html(new ReportService(service, RecordingReader::read), round))
                .contains("does not stand out, which does not show that it cleared")
                .doesNotContain("not heard any more");
    }

    /** Two kinds of "cannot tell": a recording that is refused, and a good one that leaves it open. The model's reasons are given for the second alone. */
    @Test
    void whatIsRefusedAndWhatIsLeftOpenAreToldApart() throws Exception {
        RoundService service = Examples.service(diary);
        Round round = service.start(person("Mia"));
        // So many that the print draws them together.
        for (Site site : Sites.round(Age.ofYears(4))) {
            // What was measured in a refused recording says nothing, and keeps it in no table.
            for (String sound : List.of("unusable wheezes 1", "unsure", "soft", "wheezes 2")) {
                service.add(
                        new NewTake(round.id(), site, TakeReason.FIRST, "a.wav"),
                        sound.getBytes(StandardCharsets.UTF_8));
            }
        }
        ReportService reporting = new ReportService(service, RecordingReader::read);
        ReportContent content = reporting.ofRound(round.id(), ReportOptions.ALL);
        String print = pdfText(reporting.write(content, ReportFormat.PDF)).replaceAll("\\s+", " ");

        assertThat(print)
                .containsPattern(
                        "Could be judged, and cannot be told: T2 [^;]*\\(the signs are too weak to say either way\\); T3 [^;]*\\(The recording is very quiet\\)")
                .containsPattern("Cannot be judged: T1 [^;]*; T5 ")
                .containsPattern("T2, T3, T6, [T0-9, ]*: Nothing resembles an extra sound");
    }

    /** A saturation without its oxygen, or a chest without who listened, reads better than it is: every format hands on what was answered (common practice). */
    @Test
    void whatWasAnsweredStandsInEveryFormat() {
        RoundService service = Examples.service(diary);
        Round round = service.start(person("Mia"));
        service.change(
                round.id(),
                now -> now.with(Vitals.NONE
                                .withSpo2(95)
                                .withOnOxygen(true)
                                .withRespiratoryRate(20)
                                .withAsleep(true)
                                .withConsciousness(Consciousness.CONFUSED))
                        .with(Symptoms.NOT_ASKED.withFever(true).withBreathlessness(Breathlessness.AT_REST)));
        Take take = service.add(
                new NewTake(round.id(), LEFT, TakeReason.FIRST, "a.wav", false, true),
                "wheezes 2".getBytes(StandardCharsets.UTF_8));
        assertThat(take.breathHeard()).isFalse();
        ReportService reporting = new ReportService(service, RecordingReader::read);
        ReportContent content = reporting.ofRound(round.id(), ReportOptions.ALL);

        assertThat(text(reporting, content, ReportFormat.HTML))
                .contains("on oxygen", "asleep", "newly confused", "HARDLY ANY BREATH HEARD", "A clinician calls this");
        assertThat(text(reporting, content, ReportFormat.CSV))
                .contains(
                        "answer,on-oxygen,yes,",
                        "answer,asleep,yes,",
                        "answer,consciousness,confused,",
                        "answer,breathless,at-rest,",
                        "answer,fever,yes,",
                        "answer,chest-pain,,",
                        "take,breath clearly heard,no,",
                        "take,a clinician calls it usual for this person,yes,");
        assertThat(text(reporting, content, ReportFormat.FHIR))
                .contains(
                        "Breathes extra oxygen",
                        "taken asleep",
                        "newly confused",
                        "short of breath even at rest",
                        "hardly any breath heard",
                        "A clinician calls this");
    }

    /** An emergency call waits for no answer (common practice). */
    @Test
    void beneathCallNowNoQuestionsAreAsked() {
        RoundService service = Examples.service(diary);
        Round round = service.start(person("Mia"));
        ReportService reporting = new ReportService(service, RecordingReader::read);
        String question = " at once if any answer becomes yes.</strong> Are the lips";
        assertThat(html(reporting, round)).contains(question);

        service.change(round.id(), now -> now.with(DangerAnswers.yes("blue")));
        assertThat(html(reporting, round))
                .containsPattern("Call your emergency number now\\.</strong></p>")
                .doesNotContain(question);
    }

    /** What is asked of a family and does not fit is not passed over in silence (common practice). */
    @Test
    void theFamilyIsToldThatMoreIsAskedFor() {
        RoundService service = Examples.service(diary);
        Round round = service.start(person("Mia"));
        service.change(round.id(), now -> now.with(DangerAnswers.noneOf(Age.ofYears(4))));
        for (Site site : Sites.round(Age.ofYears(4))) {
            service.add(
                    new NewTake(round.id(), site, TakeReason.FIRST, "a.wav"),
                    "unusable".getBytes(StandardCharsets.UTF_8));
        }
        int asked = service.view(round.id()).nextStep().actions().size();
        assertThat(asked).isGreaterThan(6);

        assertThat(html(new ReportService(service, RecordingReader::read), round))
                .contains((asked - 5) + " more things are asked for");
    }

    /** What was not told is no zero for whoever reads the data (common practice). */
    @ParameterizedTest
    @ValueSource(strings = {"unsure", "unfamiliar", "unusable"})
    void whereItCannotBeToldTheDataHoldsNoZeros(String sound) throws Exception {
        RoundService service = Examples.service(diary);
        Round round = service.start(person("Mia"));
        service.add(new NewTake(round.id(), LEFT, TakeReason.FIRST, "a.wav"), sound.getBytes(StandardCharsets.UTF_8));
        ReportService reporting = new ReportService(service, RecordingReader::read);
        ReportContent content = reporting.ofRound(round.id(), ReportOptions.ALL);

        assertThat(text(reporting, content, ReportFormat.CSV))
                .contains("take,wheeze share,,", "take,crackles a breath,,");
        assertThat(text(reporting, content, ReportFormat.FHIR))
                .contains("SHA-256 of the stored recording")
                .doesNotContain("measured: wheeze", "measured: fine crackle", "crackles a breath");
    }

    /** Beside a wheeze in a recording unlike what was learnt from no reader gets a zero of crackles, nor the low probability that the model gives them (common practice: a zero reassures). */
    @Test
    void besideASoundInAnUnfamiliarRecordingTheOtherKindHasNoZero() throws Exception {
        RoundService service = Examples.service(diary);
        Round round = service.start(person("Mia"));
        service.add(
                new NewTake(round.id(), LEFT, TakeReason.FIRST, "a.wav"),
                "unlike wheezes 2".getBytes(StandardCharsets.UTF_8));
        service.add(
                new NewTake(round.id(), java.util.Objects.requireNonNull(LEFT.otherSide()), TakeReason.FIRST, "b.wav"),
                "unlike wheezes 1".getBytes(StandardCharsets.UTF_8));
        ReportService reporting = new ReportService(service, RecordingReader::read);
        ReportContent content = reporting.ofRound(round.id(), ReportOptions.ALL);

        for (ReportFormat format : List.of(ReportFormat.HTML, ReportFormat.PDF)) {
            byte[] written = reporting.write(content, format);
            String words = format == ReportFormat.PDF
                    ? pdfText(written).replaceAll("\\s+", " ")
                    : new String(written, StandardCharsets.UTF_8);
            assertThat(words)
                    .contains("continuous 90 %, crackles not told")
                    .contains("not told: unlike what it learnt from, so they can be missed")
                    .contains("400 Hz, crackles not told")
                    .doesNotContain("0.0 crackles", "none that counts", "crackles 10 %");
        }
        assertThat(text(reporting, content, ReportFormat.CSV))
                .contains(",probability continuous,0.9,", ",probability crackles,,,")
                .contains("take,wheeze share,0.125,", "take,crackles a breath,,")
                .contains("take,unlike what the model learnt from,true,", "condition,asthma,yes,");
        assertThat(text(reporting, content, ReportFormat.FHIR))
                .contains("probability of a continuous sound", "measured: wheeze")
                .doesNotContain("probability of crackles", "measured: fine crackle", "crackles a breath");
        Trend trend = Trend.of(diary, round.personId(), round.day(), round.day());
        assertThat(trend.days().get(0).wheezeShare()).isNotNull();
        assertThat(trend.days().get(0).cracklesPerBreath()).isNull();
        assertThat(RoundWords.numbers(
                        diary.takes().ofRound(round.id()).get(0).examination().orElseThrow()))
                .startsWith("wheeze share")
                .doesNotContain("crackles");
    }

    /** What is known at home stands in the data as in the print; the reasons with their limits as sentences; and what sound is missing is said. */
    @Test
    void theDataHoldsWhatThePrintHolds() {
        RoundService service = Examples.service(diary);
        Round round = service.start(person("Mia"));
        service.change(round.id(), now -> now.with(Vitals.NONE.withSpo2(93)));
        for (int i = 0; i < 26; i++) {
            service.add(
                    new NewTake(round.id(), LEFT, TakeReason.FIRST, i + ".wav"),
                    ("wheezes 2 rate " + (10 + i)).getBytes(StandardCharsets.UTF_8));
        }
        ReportService reporting =
                new ReportService(service, (content, name) -> new Recording(new double[] {0.5}, 4000, name));
        ReportContent content = reporting.ofRound(round.id(), ReportOptions.ALL);

        assertThat(text(reporting, content, ReportFormat.HTML))
                .contains("Known conditions: asthma", "pictures and sound of 2 takes, to keep the file small");
        String fhir = text(reporting, content, ReportFormat.FHIR);
        assertThat(fhir)
                .contains("Known condition, as told at home", "\"valueString\" : \"asthma\"")
                .contains("Left out: the sound of 2 takes, to keep the file small")
                .contains(" Limit: SpO2 ")
                .doesNotContain(".  Source");
        assertThat(fhir.split("\"resourceType\" : \"Media\"", -1)).hasSize(24 + 1);
        assertThat(text(
                        reporting,
                        reporting.ofRound(round.id(), new ReportOptions(true, true, false)),
                        ReportFormat.FHIR))
                .doesNotContain("the sound of 2 takes");
    }

    /** Where there is no room for all, a clinician hears those that suggest a sound. */
    @Test
    void takesThatSuggestASoundAreShownFirst() {
        RoundService service = Examples.service(diary);
        Round round = service.start(person("Mia"));
        for (int i = 0; i < 27; i++) {
            service.add(
                    new NewTake(round.id(), LEFT, TakeReason.FIRST, i + ".wav"),
                    ("wheezes %d rate %d".formatted(i % 9 == 8 ? 2 : 0, 10 + i)).getBytes(StandardCharsets.UTF_8));
        }
        List<ReportTake> takes = new ReportService(
                        service, (content, name) -> new Recording(new double[] {0.5}, 4000, name))
                .ofRound(round.id(), ReportOptions.ALL)
                .newest()
                .takes();

        assertThat(takes).extracting(ReportTake::tag).startsWith("T1", "T2").hasSize(27);
        assertThat(takes.stream().filter(take -> !take.shown()).map(ReportTake::tag))
                .containsExactly("T24", "T25", "T26");
    }

    private static String html(ReportService service, Round round) {
        ReportContent content = service.ofRound(round.id(), ReportOptions.ALL);
        return new String(service.write(content, ReportFormat.HTML), StandardCharsets.UTF_8);
    }

    private String html(UUID round, ReportOptions options) {
        return new String(reports.write(reports.ofRound(round, options), ReportFormat.HTML), StandardCharsets.UTF_8);
    }

    private static Document parse(String html) throws Exception {
        DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
        factory.setFeature("http://apache.org/xml/features/nonvalidating/load-external-dtd", false);
        return factory.newDocumentBuilder().parse(new InputSource(new StringReader(html)));
    }

    private static List<Element> elements(Document page, String name) {
        NodeList nodes = page.getElementsByTagName(name);
        List<Element> elements = new ArrayList<>();
        for (int i = 0; i < nodes.getLength(); i++) {
            elements.add((Element) nodes.item(i));
        }
        return elements;
    }

    private static List<String> texts(Document page, String name) {
        return elements(page, name).stream()
                .map(e -> e.getTextContent().strip())
                .toList();
    }

    @Test
    void thePageHasItsHeadingsInOrderDangerSignsBeforeSounds() throws Exception {
        Document page = parse(html(round(person("Mia"), 95, "coughs at night"), ReportOptions.ALL));

        assertThat(texts(page, "h1")).containsExactly("Chest sounds recorded at home");
        assertThat(texts(page, "h2"))
                .containsExactly(
                        "Round of 2026-03-01 08:00 +01:00",
                        "Against what is usual for this person",
                        "What this tool is and is not",
                        "For the family, in plain words");
        assertThat(texts(page, "h3"))
                .startsWith(
                        "Facts: danger signs",
                        "Facts: vital signs, with the limits that hold for this age and person",
                        "Facts: symptoms and words")
                .contains(
                        "Suggestions of the software, site by site, with what it measured",
                        "Before and after, at the same site",
                        "Left against right",
                        "Spectrograms and sound");
        assertThat(page.getDocumentElement().getAttribute("lang")).isEqualTo("en");
        assertThat(texts(page, "title").get(0)).contains("Mia").contains("2026-03-01");
    }

    @Test
    void everyPictureHasWordsEveryTableACaptionAndHeaders() throws Exception {
        Document page = parse(html(round(person("Mia"), 95, ""), ReportOptions.ALL));

        assertThat(elements(page, "img")).hasSize(3).allSatisfy(i -> {
            assertThat(i.getAttribute("src")).startsWith("data:image/png;base64,");
            assertThat(i.getAttribute("alt")).contains("Spectrogram of T").contains("0 to 2000 Hz");
        });
        assertThat(elements(page, "audio")).hasSize(3).allSatisfy(a -> {
            assertThat(a.getAttribute("src")).startsWith("data:audio/wav;base64,");
            assertThat(a.getAttribute("aria-label")).startsWith("Sound of T");
        });
        assertThat(elements(page, "table"))
                .isNotEmpty()
                .allSatisfy(t -> assertThat(t.getElementsByTagName("caption").getLength())
                        .isEqualTo(1));
        assertThat(elements(page, "th"))
                .allSatisfy(h -> assertThat(h.getAttribute("scope")).isIn("col", "row"));
    }

    /** A phone shows the cells of a row below one another: each must say what it is. */
    @Test
    void eachCellNamesItsColumn() throws Exception {
        Document page = parse(html(round(person("Mia"), 92, "coughs at night"), ReportOptions.ALL));
        int cells = 0;
        for (Element table : elements(page, "table")) {
            NodeList heads = ((Element) table.getElementsByTagName("thead").item(0)).getElementsByTagName("th");
            NodeList rows = ((Element) table.getElementsByTagName("tbody").item(0)).getElementsByTagName("tr");
            for (int r = 0; r < rows.getLength(); r++) {
                NodeList row = ((Element) rows.item(r)).getElementsByTagName("td");
                for (int i = 0; i < row.getLength(); i++) {
                    assertThat(((Element) row.item(i)).getAttribute("data-label"))
                            .isEqualTo(heads.item(i + 1).getTextContent());
                    cells++;
                }
            }
        }
        assertThat(cells).isGreaterThan(20);
    }

    @Test
    void thePageAsksNothingOfANetwork() {
        String page = html(round(person("Mia"), 95, ""), ReportOptions.ALL);

        assertThat(page)
                .contains("default-src &#39;none&#39;")
                .doesNotContain("src=\"http")
                .doesNotContain("url(");
        assertThat(page.replace("http://www.w3.org/1999/xhtml", "")).doesNotContain("http:");
    }

    @Test
    void vitalSignsStandBesideTheLimitsOfThisPersonWithTheirSource() {
        String page = html(round(person("Mia"), 93, ""), ReportOptions.ALL);

        assertThat(page)
                .contains("93 %")
                .contains("CROSSED: SpO2 93 % or less: be seen by a clinician today")
                .contains("set for this person by Dr Invented, 2026-02-01 [clinician]")
                .contains("not measured, not taken as normal");
    }

    /** A clinician reads what was asked, not names in files. */
    @Test
    void dangerSignsAreToldInTheWordsThatWereAsked() throws Exception {
        UUID round = round(person("Mia"), 95, "");
        String facts =
                parse(html(round, ReportOptions.ALL)).getDocumentElement().getTextContent();

        assertThat(facts)
                .contains("Asked, and answered with no")
                .contains("Are the lips, tongue or face blue or grey (on dark skin: the tongue")
                .doesNotContain("cannot-finish-sentences", "hard-to-wake");
        DangerSign pauses = Guidance.dangerSign("pauses-in-breathing");
        assertThat(pauses.question(Age.ofYears(4))).isNotEqualTo(pauses.question());
        assertThat(new String(
                        reports.write(reports.ofRound(round, ReportOptions.ALL), ReportFormat.FHIR),
                        StandardCharsets.UTF_8))
                .as("a child's round asks other things than a baby's")
                .contains(pauses.question(Age.ofYears(4)))
                .doesNotContain(pauses.question());
    }

    @Test
    void whoSetTheLimitsAndWhenIsTold() {
        assertThat(html(round(person("Mia"), 95, ""), ReportOptions.ALL))
                .contains("Set for this person by Dr Invented, 2026-02-01:");
        assertThat(html(round(person("Mia2"), 95, ""), new ReportOptions(false, true, true)))
                .contains("Set for this person by a clinician, 2026-02-01:")
                .doesNotContain("Dr Invented");
    }

    /** BTS/SIGN, adult asthma: 75 % of the best or less. Litres and share are one fact, in one row, beside the limit that was crossed; and nobody set the best. */
    @Test
    void thePeakFlowStandsInOneRowWithItsLimitAndFromRoundToRound() throws Exception {
        ClinicianLimits best = new ClinicianLimits(null, null, null, false, 520, "", "");
        Person ned = diary.persons().add("Ned", YearMonth.of(1990, 2), Conditions.of(Condition.ASTHMA), "", best);
        for (int day = 1; day <= 2; day++) {
            clock.set("2026-03-0%dT07:00:00Z".formatted(day));
            Round round = rounds.start(ned);
            int litres = 560 - 105 * day;
            rounds.change(
                    round.id(),
                    now -> now.with(DangerAnswers.noneOf(ned.age(round.day())))
                            .with(Vitals.NONE
                                    .withSpo2(97)
                                    .withRespiratoryRate(15)
                                    .withPeakFlow(litres)));
        }
        String page = new String(
                reports.write(
                        reports.ofDays(ned, LocalDate.of(2026, 3, 1), LocalDate.of(2026, 3, 2), ReportOptions.ALL),
                        ReportFormat.HTML),
                StandardCharsets.UTF_8);

        assertThat(page).doesNotContain("350 litres a minute</td>");
        assertThat(parse(page).getDocumentElement().getTextContent())
                .contains("67.3 % of this person's best (350 litres a minute)")
                .contains("CROSSED: peak flow 75 % of this person's best or less: be seen by a clinician today")
                .contains("rate 15, PEF 455", "rate 15, PEF 350", "PEF: peak flow")
                .contains("Peak flow, litres a minute")
                .contains("This person's best peak flow, as written down: 520 litres a minute.")
                .doesNotContain("Set for this person by");
    }

    /** More than 2 kg in 3 days: European Society of Cardiology, guide for patients with heart failure [P]. The number, what it is held against, and the limit in one row; and how it was weighed. */
    @Test
    void theWeightStandsInOneRowWithWhatItIsHeldAgainst() throws Exception {
        Person pa = diary.persons()
                .add("Pa", YearMonth.of(1948, 5), Conditions.of(Condition.HEART_FAILURE), "", ClinicianLimits.NONE);
        Person ida = diary.persons().add("Ida", YearMonth.of(1948, 5), Conditions.of(), "", ClinicianLimits.NONE);
        List<Double> weights = List.of(70.0, 70.6, 72.4);
        for (Person person : List.of(pa, ida)) {
            for (int day = 1; day <= weights.size(); day++) {
                clock.set("2026-03-0%dT07:00:00Z".formatted(day));
                double kg = weights.get(day - 1);
                rounds.change(
                        rounds.start(person).id(),
                        now -> now.with(DangerAnswers.noneOf(person.age(now.day()), person.conditions()))
                                .with(Vitals.NONE
                                        .withSpo2(97)
                                        .withRespiratoryRate(15)
                                        .withWeight(kg)));
            }
        }

        String page = weighed(pa, ReportFormat.HTML);
        assertThat(parse(page).getDocumentElement().getTextContent())
                .contains("72.4 kg (70.0 kg on 2026-03-01, 2 days before)")
                .contains("CROSSED: be seen by a clinician today")
                .contains("answered with no; the numbers say otherwise")
                .contains("rise within 3 days above 2 kg: be seen today (European Society of Cardiology")
                .contains("How to weigh (common practice): on the same scale")
                .contains("rate 15, 70.6 kg")
                .contains("Weight, kg")
                .contains("lowest 70.0 kg on 2026-03-01, highest 72.4 kg on 2026-03-03")
                .doesNotContain("within this person's earlier days");
        assertThat(parse(weighed(ida, ReportFormat.HTML)).getDocumentElement().getTextContent())
                .contains("judged from 16 years, with heart failure")
                .doesNotContain("none that Lungwort knowsjudged");
        assertThat(weighed(pa, ReportFormat.CSV))
                .contains("vital sign,weight,72.4,kg")
                .doesNotContain("weight-rise");
        assertThat(weighed(pa, ReportFormat.FHIR))
                .contains("\"29463-7\"")
                .containsPattern("\"value\" : 72.4,\\s+\"unit\" : \"kg\"");
    }

    /** Common practice [C]: the flow, what it is held against and that it rose in one row, and beside the comparison of SpO2 at whatever flow; hundredths of babies stay. */
    @Test
    void theFlowOfOxygenStandsWithWhatItIsHeldAgainstAndBesideTheUsualSpo2() throws Exception {
        Person mia = person("Mia");
        List<Double> flows = List.of(0.25, 0.25, 0.25, 0.5);
        for (int day = 1; day <= flows.size(); day++) {
            clock.set("2026-03-0%dT07:00:00Z".formatted(day));
            double flow = flows.get(day - 1);
            rounds.change(
                    rounds.start(mia).id(),
                    now -> now.with(Vitals.NONE.withSpo2(96).withOnOxygen(true).withOxygenFlow(flow)));
        }
        ReportContent content =
                reports.ofDays(mia, LocalDate.of(2026, 3, 1), LocalDate.of(2026, 3, 4), ReportOptions.ALL);

        String page = parse(new String(reports.write(content, ReportFormat.HTML), StandardCharsets.UTF_8))
                .getDocumentElement()
                .getTextContent();
        assertThat(page)
                .contains("0.5 litres a minute (before: 0.25 l/min with SpO2 96 % (of 3 days from 2026-03-01")
                .contains("CROSSED: oxygen flow more than a tenth above 0.25 l/min")
                .contains("96 % on 0.5 l/min of oxygen")
                .contains("on oxygen, measured on more oxygen than before: 0.5 l/min now, 0.25 l/min before")
                .contains("Oxygen, l/min");
        assertThat(new String(reports.write(content, ReportFormat.CSV), StandardCharsets.UTF_8))
                .contains("vital sign,oxygen-flow,0.25,litres a minute", "vital sign,oxygen-flow,0.5,litres a minute");
        assertThat(new String(reports.write(content, ReportFormat.FHIR), StandardCharsets.UTF_8))
                .contains("\"3151-8\"")
                .containsPattern("\"value\" : 0.5,\\s+\"unit\" : \"L/min\"");
        try (PDDocument document = Loader.loadPDF(reports.write(content, ReportFormat.PDF))) {
            assertThat(document.getNumberOfPages()).isLessThanOrEqualTo(PdfReport.MAX_PAGES);
        }
    }

    private String weighed(Person person, ReportFormat format) {
        return new String(
                reports.write(
                        reports.ofDays(person, LocalDate.of(2026, 3, 1), LocalDate.of(2026, 3, 3), ReportOptions.ALL),
                        format),
                StandardCharsets.UTF_8);
    }

    @Test
    void aBabyIsNotToldToHaveBeenAskedTooLittleAboutPain() {
        Person baby = diary.persons().add("Pip", YearMonth.of(2025, 9), Conditions.of(), "", ClinicianLimits.NONE);
        assertThat(html(round(baby, 95, ""), ReportOptions.ALL))
                .contains("fever not asked")
                .doesNotContain("chest pain or tightness");
        assertThat(html(round(person("Mia"), 95, ""), ReportOptions.ALL)).contains("chest pain or tightness not asked");
    }

    /** A place that was not recorded is no place where breath was missing. */
    @Test
    void placesWithoutARecordingAreNotCalledNotHeard() {
        assertThat(html(round(person("Mia"), 95, ""), ReportOptions.ALL))
                .contains("Places of this round that were not recorded")
                .doesNotContain("Not heard");
    }

    @Test
    void eachTakeCanBeFoundAgainByTimeAndHashInEveryFormat() throws Exception {
        UUID round = round(person("Mia"), 95, "");
        ReportContent content = reports.ofRound(round, ReportOptions.ALL);
        Take take = diary.takes().ofRound(round).get(0);
        String clock = "%02d:%02d"
                .formatted(take.recordedAt().getHour(), take.recordedAt().getMinute());

        for (ReportFormat format : List.of(ReportFormat.HTML, ReportFormat.FHIR, ReportFormat.CSV)) {
            assertThat(new String(reports.write(content, format), StandardCharsets.UTF_8))
                    .as(format.name())
                    .contains(take.recordingSha256());
        }
        assertThat(html(round, ReportOptions.ALL)).contains("first take, " + clock);
        assertThat(pdfText(reports.write(content, ReportFormat.PDF)))
                .contains(take.recordingSha256().substring(0, 16));
    }

    /** A round told days afterwards: the time at which a file was added is not taken for the time at which the chest was heard. */
    @Test
    void aTakeAddedLongAfterItsRoundIsNotToldAsRecordedThen() {
        Person mia = person("Mia");
        Round round = rounds.start(mia);
        clock.plusSeconds(3 * 24 * 3600);
        rounds.add(new NewTake(round.id(), LEFT, TakeReason.FIRST, "a.wav"), wav(0.5));

        assertThat(html(round.id(), ReportOptions.ALL))
                .contains("added later, 2026-03-04 08:00 +01:00")
                .doesNotContain("Recorded 2026-03-04");
        String fhir = new String(
                reports.write(reports.ofRound(round.id(), ReportOptions.ALL), ReportFormat.FHIR),
                StandardCharsets.UTF_8);
        assertThat(fhir)
                .contains("\"effectiveDateTime\" : \"2026-03-01T08:00:00+01:00\"")
                .contains("added to the diary only at 2026-03-04 08:00 +01:00")
                .doesNotContain("\"2026-03-04T");
    }

    @Test
    void itCautionsAndNeverReassures() {
        String page = html(round(person("Mia"), 98, ""), ReportOptions.ALL);

        assertThat(page)
                .contains(Html.escape(Examination.CAUTION))
                .contains("no extra sound found here, which does not mean that all is well");
        assertThat(page.toLowerCase(java.util.Locale.ROOT))
                .doesNotContain("nothing to worry")
                .doesNotContain("no need to worry")
                .doesNotContain("lungs are clear")
                .doesNotContain("is healthy");
    }

    @Test
    void theErrorRatesAreTheWordsOfTheModelCard() {
        String card = CardSection.shipped();
        String page = html(round(person("Mia"), 95, ""), ReportOptions.ALL);

        List<String> rates = CardSection.errorRates(card);
        if (rates.isEmpty()) {
            assertThat(page).contains(Html.escape(CardSection.NO_CARD));
        } else {
            assertThat(page).doesNotContain(Html.escape(CardSection.NO_CARD));
        }
        assertThat(CardSection.errorRates("# Card\nx\n## How often it is wrong\nOne in ten.\n### More\ny\n## Next\nz"))
                .containsExactly("One in ten.", "### More", "y");
        assertThat(page).contains("Examined by: Lungwort").contains("test-model 1");
        assertThat(page)
                .containsPattern("Limits shown by: rules of Lungwort [^ ]+ \\(rules.json, SHA-256 [0-9a-f]{16}..\\)");
    }

    @Test
    void theSameRoundGivesTheSameBytesInEveryFormatWhateverTheClock() {
        UUID round = round(person("Mia"), 95, "coughs");
        for (ReportFormat format : ReportFormat.values()) {
            byte[] first = reports.write(reports.ofRound(round, ReportOptions.ALL), format);
            clock.plusSeconds(100_000);
            byte[] second = reports.write(reports.ofRound(round, ReportOptions.ALL), format);
            assertThat(second).as(format.name()).isEqualTo(first);
        }
    }

    @Test
    void whatIsToBeLeftOutIsInNoFormatAndTheReportSaysSo() throws Exception {
        UUID round = round(person("Quintilla"), 93, "saw a heron");
        ReportContent content = reports.ofRound(round, new ReportOptions(false, false, false));

        for (ReportFormat format : ReportFormat.values()) {
            byte[] bytes = reports.write(content, format);
            String text = format == ReportFormat.PDF ? pdfText(bytes) : new String(bytes, StandardCharsets.UTF_8);
            assertThat(text)
                    .as(format.name())
                    .doesNotContain("Quintilla")
                    .doesNotContain("2021-04")
                    .doesNotContain("Dr Invented")
                    .doesNotContain("heron")
                    .doesNotContain("sailing")
                    .doesNotContain("mias-")
                    .doesNotContain("audio/wav");
        }
        assertThat(html(round, new ReportOptions(false, false, false)))
                .contains("Left out: the name, the birth month")
                .contains("all free words")
                .contains("the recordings (their sound");
        assertThat(html(round, ReportOptions.ALL))
                .contains("Quintilla")
                .contains("heron")
                .contains("sailing")
                .contains("Nothing was left out.")
                .doesNotContain("mias-");
        assertThat(html(round, new ReportOptions(false, true, true))).contains("free words were kept and may name");
    }

    @Test
    void hostileWordsStayWords() throws Exception {
        Person person = person("Mia");
        OlderDiary.nickname(temp.resolve("diary"), HOSTILE);
        UUID round = round(diary.persons().get(person.id()), 95, HOSTILE + " ]]> <img src=x onerror=alert(2)> ${7*7}");
        String page = html(round, ReportOptions.ALL);

        Document parsed = parse(page);
        assertThat(elements(parsed, "script")).isEmpty();
        assertThat(elements(parsed, "img"))
                .allSatisfy(i -> assertThat(i.getAttribute("src")).startsWith("data:image/png"));
        assertThat(page).contains("&lt;script&gt;alert(1)").doesNotContain("\u202E");
        byte[] pdf = reports.write(reports.ofRound(round, ReportOptions.ALL), ReportFormat.PDF);
        assertThat(pdfText(pdf)).contains("<script>alert(1)</script>");
    }

    @Test
    void spreadsheetsRunNothing() throws Exception {
        UUID round = round(person("=HYPERLINK(\"x\",\"y\")"), 95, "");
        String csv = new String(
                reports.write(reports.ofRound(round, ReportOptions.ALL), ReportFormat.CSV), StandardCharsets.UTF_8);

        List<CSVRecord> rows = CSVFormat.RFC4180
                .builder()
                .setHeader()
                .setSkipHeaderRecord(true)
                .get()
                .parse(new StringReader(csv))
                .getRecords();
        assertThat(rows).allSatisfy(r -> assertThat(r.get("person")).isEqualTo("'=HYPERLINK(\"x\",\"y\")"));
        assertThat(rows).anySatisfy(r -> {
            assertThat(r.get("measure")).isEqualTo("spo2");
            assertThat(r.get("value")).isEqualTo("95");
            assertThat(r.get("unit")).isEqualTo("%");
        });
        assertThat(rows.stream().filter(r -> r.get("measure").startsWith("wheeze, dominant")))
                .hasSize(2)
                .allSatisfy(r -> assertThat(r.get("value")).isEqualTo("400"));
        List<CSVRecord> heard =
                rows.stream().filter(r -> r.get("kind").equals("heard")).toList();
        assertThat(heard).extracting(r -> r.get("start_seconds")).containsExactly("0.9", "1.9");
        assertThat(heard).extracting(r -> r.get("end_seconds")).containsExactly("1.6", "2.6");
        assertThat(heard).extracting(r -> r.get("measure")).containsOnly("continuous sound, probability");
        assertThat(heard).extracting(r -> r.get("value")).containsOnly("0.6");
        assertThat(rows).anySatisfy(r -> {
            assertThat(r.get("measure")).isEqualTo("pulse");
            assertThat(r.get("value")).isEmpty();
        });
    }

    @Test
    void thePrintIsTaggedTitledInALanguageAndShort() throws Exception {
        UUID round = round(person("Mia"), 95, "coughs at night");
        byte[] pdf = reports.write(reports.ofRound(round, ReportOptions.ALL), ReportFormat.PDF);

        try (PDDocument document = Loader.loadPDF(pdf)) {
            assertThat(document.getNumberOfPages()).isBetween(1, 2);
            var catalog = document.getDocumentCatalog();
            assertThat(catalog.getMarkInfo().isMarked()).isTrue();
            assertThat(catalog.getLanguage()).isEqualTo("en");
            assertThat(catalog.getStructureTreeRoot().getKids()).isNotEmpty();
            assertThat(catalog.getViewerPreferences().displayDocTitle()).isTrue();
            assertThat(document.getDocumentInformation().getTitle()).contains("Mia");
        }
        String raw = new String(pdf, StandardCharsets.ISO_8859_1);
        assertThat(pdfText(pdf))
                .contains("Facts: danger signs")
                .contains("Suggestions of the software")
                .contains("What this tool is and is not")
                .contains("For the family, in plain words")
                .contains("Page 1 of");
        assertThat(raw).startsWith("%PDF-");
    }

    @Test
    void whyEachTakeSuggestsWhatItDoesStandsInThePrint() throws Exception {
        rounds = new RoundService(diary, RecordingReader::read, ReportTest::examineWithReasons);
        reports = new ReportService(rounds, RecordingReader::read);
        UUID round = round(person("Mia"), 95, "coughs at night");
        byte[] pdf = reports.write(reports.ofRound(round, ReportOptions.ALL), ReportFormat.PDF);

        assertThat(pages(pdf)).isEqualTo(PdfReport.MAX_PAGES);
        assertThat(pdfText(pdf).replaceAll("\\s+", " "))
                .contains("Why, take by take")
                .contains(
                        "T1: Listen there first: continuous sound at 0.9 to 1.6 s and 1.9 to 2.6 s. A tone near 400 Hz stands 50 dB out")
                .contains("T2: A tone near 400 Hz stands 30 dB out")
                .contains("T3: A tone near 400 Hz stands 31 dB out")
                .doesNotContain("the reasons under");
    }

    /** Too much for two pages whatever is drawn together: then nothing is saved by leaving reasons out, and each page says of how many it is. */
    @Test
    void aRoundTooLargeForTwoPagesGrowsWithItsReasonsAndNumbersItsPages() throws Exception {
        rounds = new RoundService(diary, RecordingReader::read, ReportTest::examineWithReasons);
        reports = new ReportService(rounds, RecordingReader::read);
        Person pa = diary.persons().add("Pa", YearMonth.of(1950, 3), Conditions.NONE, "", ClinicianLimits.NONE);
        Round round = rounds.start(pa);
        int n = 0;
        for (Site site : Sites.round(pa.age(round.day()))) {
            for (TakeReason reason : TakeReason.values()) {
                for (int again = 0; again < 3; again++) {
                    n++;
                    rounds.add(new NewTake(round.id(), site, reason, "a.wav"), wav(0.5 + n / 1000.0));
                }
            }
        }
        byte[] pdf = reports.write(reports.ofRound(round.id(), ReportOptions.ALL), ReportFormat.PDF);

        assertThat(pages(pdf)).isGreaterThan(PdfReport.MAX_PAGES);
        assertThat(pdfText(pdf).replaceAll("\\s+", " "))
                .contains("Page 1 of " + pages(pdf), "Page %d of %d".formatted(pages(pdf), pages(pdf)))
                .contains("Why, take by take")
                .containsPattern("T" + n
                        + ": Listen there first: [^A]* A tone near 400 Hz stands %.0f dB".formatted(50 + n / 10.0));
    }

    private static int pages(byte[] pdf) throws Exception {
        try (PDDocument document = Loader.loadPDF(pdf)) {
            return document.getNumberOfPages();
        }
    }

    /** An adult's whole round with later takes, all asked and much out of limits: what a clinician gets still has two pages. */
    @Test
    void aLargeRoundIsDrawnTogetherOnTwoPagesAndSaysSo() throws Exception {
        Person pa = diary.persons()
                .add(
                        "Pa",
                        YearMonth.of(1950, 3),
                        Conditions.of(Condition.COPD, Condition.HEART_FAILURE, Condition.ASTHMA),
                        "sleeps in a chair; walks with a frame; lives alone with help twice a day",
                        new ClinicianLimits(
                                new ClinicianLimits.Limit(87, 84),
                                new ClinicianLimits.Limit(28, 34),
                                new ClinicianLimits.Limit(115, 140),
                                false,
                                380,
                                "Dr Invented",
                                "2026-02-01"));
        rounds.change(
                rounds.start(pa).id(),
                now -> now.with(Vitals.NONE
                        .withWeight(80.9)
                        .withSpo2(88)
                        .withOnOxygen(true)
                        .withOxygenFlow(2.0)));
        clock.plusSeconds(86_400);
        Round round = rounds.start(pa);
        Age age = pa.age(round.day());
        rounds.change(
                round.id(),
                now -> now.with(DangerAnswers.noneOf(age))
                        .with(Vitals.NONE
                                .withSpo2(86)
                                .withRespiratoryRate(29)
                                .withPulse(118)
                                .withTemperature(38.4)
                                .withSystolic(105)
                                .withWeight(83.4)
                                .withOnOxygen(true)
                                .withOxygenFlow(3.0))
                        .with(new Symptoms(Breathlessness.ON_EFFORT, false, true, true))
                        .withSymptomWords(
                                "breathes with pursed lips, ankles swollen since Monday, three pillows at night")
                        .withMedicines("blue inhaler two puffs at 7 and 9, white tablet at 8"));
        int n = 0;
        for (Site site : Sites.round(age)) {
            for (TakeReason reason : n % 3 == 0 ? TakeReason.values() : new TakeReason[] {TakeReason.FIRST}) {
                n++;
                rounds.add(
                        new NewTake(round.id(), site, reason, "a.wav"),
                        wav((reason == TakeReason.FIRST && n % 2 == 1 ? 0.5 : 0.3) + n / 1000.0));
            }
        }
        byte[] pdf = reports.write(reports.ofRound(round.id(), ReportOptions.ALL), ReportFormat.PDF);

        try (PDDocument document = Loader.loadPDF(pdf)) {
            assertThat(document.getNumberOfPages()).isEqualTo(PdfReport.MAX_PAGES);
        }
        String text = pdfText(pdf).replaceAll("\\s+", " ");
        assertThat(text)
                .contains(
                        "sound and pictures, which are in the HTML report",
                        "some numbers of takes without an extra sound and of later takes",
                        "the reasons under takes without an extra sound",
                        "T3, 08:00, after deep breaths; T4, 08:00, after a cough wheeze share",
                        "Oxygen flow 3 l/min");
        for (int take = 1; take <= n; take++) {
            assertThat(text).as("each take is named").contains("T" + take + " ");
        }
    }

    private static String pdfText(byte[] pdf) throws Exception {
        try (PDDocument document = Loader.loadPDF(pdf)) {
            return new PDFTextStripper().getText(document);
        }
    }

    /** Beside long words in the other columns, too. */
    @Test
    void aTimeIsNotPrintedInTwoLines() throws Exception {
        RoundService service = Examples.service(diary);
        Person ned = diary.persons()
                .add("Ned", YearMonth.of(1951, 3), Conditions.of(Condition.COPD), "", ClinicianLimits.NONE);
        for (int day = 1; day <= 2; day++) {
            clock.set("2026-03-0%dT07:00:00Z".formatted(day));
            Round round = service.start(ned);
            service.change(
                    round.id(),
                    now -> now.with(DangerAnswers.noneOf(ned.age(round.day())))
                            .with(Vitals.NONE
                                    .withSpo2(95)
                                    .withOnOxygen(false)
                                    .withRespiratoryRate(16)
                                    .withWeight(72.3)));
            for (Site side : List.of(LEFT, java.util.Objects.requireNonNull(LEFT.otherSide()))) {
                service.add(
                        new NewTake(round.id(), side, TakeReason.FIRST, "a.wav"),
                        (side.equals(LEFT) ? "wheezes 2" : "unfamiliar").getBytes(StandardCharsets.UTF_8));
            }
        }
        ReportService reporting =
                new ReportService(service, (content, name) -> new Recording(new double[] {0.5}, 4000, name));

        assertThat(pdfText(reporting.write(
                        reporting.ofDays(ned, LocalDate.of(2026, 3, 1), LocalDate.of(2026, 3, 2), ReportOptions.ALL),
                        ReportFormat.PDF)))
                .contains("2026-03-01 08:00 +01:00", "2026-03-02 08:00 +01:00");
    }

    @Test
    void aSpanTellsEachRoundInALineAndThisPersonsUsual() throws Exception {
        Person mia = person("Mia");
        for (int day = 1; day <= 5; day++) {
            clock.set("2026-03-0%dT07:00:00Z".formatted(day));
            round(mia, day == 5 ? 91 : 96, "day " + day);
        }
        ReportContent content =
                reports.ofDays(mia, LocalDate.of(2026, 3, 1), LocalDate.of(2026, 3, 5), ReportOptions.ALL);
        Document page = parse(new String(reports.write(content, ReportFormat.HTML), StandardCharsets.UTF_8));

        assertThat(texts(page, "h2"))
                .startsWith(
                        "Rounds in these days", "Round of 2026-03-05 08:00 +01:00", "Round of 2026-03-04 08:00 +01:00")
                .contains("Against what is usual for this person");
        assertThat(page.getDocumentElement().getTextContent()).contains("OUTSIDE what is usual for this person");
        String print = pdfText(reports.write(content, ReportFormat.PDF));
        assertThat(print).contains("details of the earlier rounds, which are in the HTML report");
        assertThatThrownBy(() ->
                        reports.ofDays(mia, LocalDate.of(2020, 1, 1), LocalDate.of(2020, 1, 2), ReportOptions.ALL))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("no round of Mia from 2020-01-01 to 2020-01-02");
    }

    @Test
    void aRecordingThatIsGoneIsSaidAndTheRestIsTold() throws Exception {
        UUID round = round(person("Mia"), 95, "");
        var take = diary.takes().ofRound(round).get(0);
        java.nio.file.Files.delete(diary.recordings().path(take.recordingSha256()));

        Document page = parse(html(round, ReportOptions.ALL));

        assertThat(page.getDocumentElement().getTextContent())
                .contains("The stored recording is missing or cannot be read.");
        assertThat(elements(page, "img")).hasSize(2);
    }

    @Test
    void aFormatIsKnownByItsNameOrRefusedWithTheNamesThereAre() {
        assertThat(ReportFormat.ofFile("a/b.PDF")).isEqualTo(ReportFormat.PDF);
        assertThat(ReportFormat.ofName("fhir")).isEqualTo(ReportFormat.FHIR);
        assertThatThrownBy(() -> ReportFormat.ofFile("report.docx"))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("\"docx\" is not a format of a report; use one of html, pdf, json, csv");
    }
}
