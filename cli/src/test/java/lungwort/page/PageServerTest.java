package lungwort.page;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.net.InetAddress;
import java.net.NetworkInterface;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.YearMonth;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Objects;
import java.util.UUID;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.CyclicBarrier;
import java.util.concurrent.TimeUnit;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;
import lungwort.BadInput;
import lungwort.audio.RecordingReader;
import lungwort.audio.WavWriter;
import lungwort.diary.Diary;
import lungwort.diary.Examples;
import lungwort.diary.Person;
import lungwort.diary.Round;
import lungwort.examine.Examination;
import lungwort.guidance.ClinicianLimits;
import lungwort.guidance.Conditions;
import lungwort.guidance.DangerAnswers;
import lungwort.guidance.Outcome;
import lungwort.json.Json;
import lungwort.practice.PracticeScenes;
import lungwort.round.RoundService;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class PageServerTest {
    @TempDir
    Path temp;

    private final List<Exception> faults = new ArrayList<>();
    private Diary diary;
    private RoundService service;
    private PageServer server;
    private Person person;
    private Round round;
    private String cookie = "";
    private UnaryOperator<Examination> examining = examination -> examination;

    @BeforeEach
    void start() throws IOException {
        diary = Diary.open(temp.resolve("diary"));
        service = new RoundService(diary, RecordingReader::read, r -> examining.apply(Examples.examination(2, 0)));
        server = PageServer.start(service, 0, faults::add);
        person = Examples.person(diary, "Mia");
        round = service.start(person);
        cookie = "Cookie: "
                + raw().get(path(server.address())).header("Set-Cookie").split(";", 2)[0];
    }

    @AfterEach
    void stop() {
        server.close();
        diary.close();
    }

    private RawHttp raw() {
        return new RawHttp(server.port());
    }

    /** As the page itself asks. */
    private RawHttp page() {
        return raw().with(cookie).with("Origin: http://127.0.0.1:" + server.port());
    }

    private static String path(String address) {
        return address.substring(address.indexOf('/', "http://".length()));
    }

    private static byte[] wav(String scene) {
        return WavWriter.toBytes(PracticeScenes.of(scene).scene().synthesise().recording(), WavWriter.Encoding.PCM_16);
    }

    private String rounds(String rest) {
        return "/api/rounds/" + round.id() + rest;
    }

    @Test
    void theKeyIsExchangedForACookieThatScriptsAndOtherPagesCannotUse() throws IOException {
        RawHttp.Response entered = raw().get(path(server.address()));

        assertThat(entered.status()).isEqualTo(303);
        assertThat(entered.header("Location")).endsWith("/").doesNotContain("key");
        assertThat(entered.header("Set-Cookie"))
                .contains("HttpOnly")
                .contains("SameSite=Strict")
                .contains("Path=/");
        assertThat(page().get("/api/start").status()).isEqualTo(200);
    }

    @Test
    void theKeyForOpeningOpensOnce() throws IOException {
        String path = path(server.addressForOpening());

        assertThat(raw().get(path).status()).isEqualTo(303);
        assertThat(raw().get(path).status()).isEqualTo(403);
    }

    @ParameterizedTest
    @ValueSource(strings = {"/", "/api/start", "/js/main.js", "/texts/en.json"})
    void withoutTheCookieNothingIsServed(String path) throws IOException {
        assertThat(raw().get(path).status()).isEqualTo(403);
        assertThat(raw().with("Cookie: lungwort-" + server.port() + "=guess")
                        .get(path)
                        .status())
                .isEqualTo(403);
        assertThat(raw().get("/enter?key=guess").status()).isEqualTo(403);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {"Host: example.org", "Host: 127.0.0.1", "Host: 127.0.0.1:1", "Host: example.org:80", "Host:"})
    void anotherHostIsRefusedAlsoWithTheCookie(String host) throws IOException {
        RawHttp.Response refused = raw().with(host).with(cookie).get("/api/start");

        assertThat(refused.status()).isIn(400, 403);
        assertThat(refused.body()).doesNotContain("Mia");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "Origin: http://example.org",
                "Origin: null",
                "Origin: http://127.0.0.1:1",
                "Sec-Fetch-Site: cross-site",
                "Sec-Fetch-Site: same-site"
            })
    void anotherOriginIsRefusedAlsoWithTheCookie(String header) throws IOException {
        assertThat(raw().with(header).with(cookie).get("/api/start").status()).isEqualTo(403);
        assertThat(raw().with(header)
                        .with(cookie)
                        .send("POST", rounds("/finish"), "{}")
                        .status())
                .isEqualTo(403);
        assertThat(diary.rounds().get(round.id()).open()).isTrue();
    }

    @Test
    void aChangeWithoutOriginIsRefused() throws IOException {
        assertThat(raw().with(cookie).send("POST", rounds("/finish"), "{}").status())
                .isEqualTo(403);
    }

    @Test
    void everyAnswerForbidsInlineScriptsFramesAndOtherHosts() throws IOException {
        for (String path : List.of("/", "/api/start", "/nowhere", "/api/nowhere")) {
            RawHttp.Response answer = page().get(path);

            assertThat(answer.header("Content-Security-Policy"))
                    .contains("default-src 'none'", "script-src 'self'", "frame-ancestors 'none'")
                    .doesNotContain("unsafe", "http:", "*");
            assertThat(answer.header("X-Content-Type-Options")).isEqualTo("nosniff");
            assertThat(answer.header("Cache-Control")).isEqualTo("no-store");
        }
    }

    @Test
    void itListensOnTheLoopbackAddressOnly() throws IOException {
        List<InetAddress> others = Collections.list(NetworkInterface.getNetworkInterfaces()).stream()
                .flatMap(n -> Collections.list(n.getInetAddresses()).stream())
                .filter(a -> !a.isLoopbackAddress())
                .toList();
        for (InetAddress other : others) {
            assertThatThrownBy(() -> new Socket(other, server.port()).close()).isInstanceOf(IOException.class);
        }
        try (Socket here = new Socket("127.0.0.1", server.port())) {
            assertThat(here.isConnected()).isTrue();
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "/../../etc/passwd",
                "/js/../index.html",
                "/%2e%2e/diary.sqlite",
                "/js/%2e%2e%2f%2e%2e%2fpage",
                "/lungwort/cli/Main.class",
                "/lib/",
                "/js"
            })
    void onlyThePagesOwnFilesAreServed(String path) throws IOException {
        assertThat(page().get(path).status()).isIn(400, 403, 404);
    }

    @Test
    void aPortInUseIsOneSentence() {
        assertThatThrownBy(() -> PageServer.start(service, server.port(), faults::add))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("is taken");
    }

    @Test
    void aHugeFileIsRefusedBeforeItIsRead() throws IOException {
        String path = rounds("/files?site=back-lower-left&take=first&name=a.wav");

        RawHttp.Response refused = page().send("POST", path, new byte[100], 5_000_000_000L);

        assertThat(refused.status()).isEqualTo(413);
        assertThat(Json.parse(refused.body(), "answer").get("error").asText()).contains("64 MB");
    }

    @Test
    void aFormThatIsTooLongIsRefused() throws IOException {
        String words = "a".repeat(Body.MAX_FORM_BYTES);

        assertThat(page().send("POST", rounds("/notes"), "{\"words\":\"" + words + "\"}")
                        .status())
                .isEqualTo(413);
        assertThat(diary.notes().ofRound(round.id())).isEmpty();
    }

    @Test
    void aDamagedFileIsOneSentenceAndNothingIsStored() throws IOException {
        byte[] cut = java.util.Arrays.copyOf(wav("wheeze"), 40);
        String path = rounds("/files?site=back-lower-left&take=first&name=cut.wav");

        RawHttp.Response refused = page().send("POST", path, cut, cut.length);

        assertThat(refused.status()).isEqualTo(415);
        assertThat(Json.parse(refused.body(), "answer").get("error").asText()).startsWith("cut.wav");
        assertThat(diary.takes().ofRound(round.id())).isEmpty();
        assertThat(faults).isEmpty();
    }

    @Test
    void aFullMemoryIsOneSentenceAndThePageGoesOn() throws IOException {
        byte[] wav = wav("wheeze");
        String path = rounds("/files?site=back-lower-left&take=first&name=long.wav");
        examining = examination -> {
            throw new OutOfMemoryError("Java heap space");
        };

        RawHttp.Response refused = page().send("POST", path, wav, wav.length);

        assertThat(refused.status()).isEqualTo(400);
        assertThat(Json.parse(refused.body(), "answer").get("error").asText())
                .contains("long.wav: it is kept in the diary")
                .contains("too little memory");
        RawHttp.Response finished = page().send("POST", rounds("/finish"), "{}");
        assertThat(finished.status()).isEqualTo(200);
        assertThat(Json.parse(finished.body(), "answer").get("nextStep").get("actions"))
                .isNotEmpty();
    }

    @Test
    void aFileNameIsALabelAndNeverAPath() throws IOException {
        byte[] wav = wav("wheeze");
        String path = rounds("/files?site=back-lower-left&take=first&name=..%2F..%2Fescaped.wav");

        assertThat(page().send("POST", path, wav, wav.length).status()).isEqualTo(200);

        assertThat(diary.takes().ofRound(round.id()))
                .singleElement()
                .extracting(t -> t.fileName())
                .isEqualTo("escaped.wav");
        try (Stream<Path> files = Files.walk(temp)) {
            assertThat(files.map(p -> String.valueOf(p.getFileName()))).doesNotContain("escaped.wav");
        }
    }

    @Test
    void theSameFileTwiceAtOnePlaceIsSaidAndKeptOnce() throws IOException {
        byte[] wav = wav("wheeze");
        String path = rounds("/files?site=back-lower-left&take=first&name=a.wav");

        assertThat(page().send("POST", path, wav, wav.length).status()).isEqualTo(200);
        assertThat(page().send("POST", path, wav, wav.length).status()).isEqualTo(409);

        assertThat(diary.takes().ofRound(round.id())).hasSize(1);
    }

    @Test
    void wordsThatAreNotJsonAndUnknownFieldsAreSentences() throws IOException {
        assertThat(page().send("PUT", rounds("/answers"), "{").status()).isEqualTo(400);
        assertThat(page().send("PUT", rounds("/answers"), "[]").status()).isEqualTo(400);
        assertThat(page().send("PUT", rounds("/answers"), "{\"vitals\":{\"sp02Percent\":95}}")
                        .body())
                .contains("sp02Percent");
        assertThat(page().send("PUT", rounds("/answers"), "{\"vitals\":{\"spo2Percent\":9}}")
                        .body())
                .contains("30 to 100");
        assertThat(page().get("/api/rounds/not-an-id").status()).isEqualTo(404);
        assertThat(page().get("/api/rounds/" + UUID.randomUUID()).status()).isEqualTo(404);
        assertThat(faults).isEmpty();
    }

    /** What is of the wrong kind was given, so it is not passed over as if it had not been. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "{\"vitals\":\"95 %\"}",
                "{\"vitals\":[95]}",
                "{\"symptoms\":true}",
                "{\"vital\":{\"spo2Percent\":80}}",
                "{\"medicines\":{\"name\":\"two puffs\"}}",
                "{\"symptomWords\":5}",
                "{\"vitals\":{\"spo2Percent\":95},\"vitals\":{}}"
            })
    void whatIsOfTheWrongKindIsRefusedAndNothingIsChanged(String form) throws IOException {
        page().send("PUT", rounds("/answers"), "{\"vitals\":{\"spo2Percent\":91},\"medicines\":\"none yet\"}");
        Round before = diary.rounds().get(round.id());

        RawHttp.Response answer = page().send("PUT", rounds("/answers"), form);

        assertThat(answer.status()).isEqualTo(400);
        assertThat(answer.body()).startsWith("{\"error\":");
        assertThat(diary.rounds().get(round.id())).isEqualTo(before);
        assertThat(faults).isEmpty();
    }

    @Test
    void twoTabsThatFillInDifferentPartsLoseNothing() throws IOException {
        page().send("PUT", rounds("/answers"), "{\"vitals\":{\"spo2Percent\":95}}");
        page().send("PUT", rounds("/answers"), "{\"vitals\":{\"pulsePerMinute\":110},\"medicines\":\"two puffs\"}");
        page().send("PUT", rounds("/danger-signs"), "{\"yes\":[],\"no\":[\"blue\"]}");
        page().send("PUT", rounds("/danger-signs"), "{\"yes\":[\"grunting\"],\"no\":[]}");

        Round now = diary.rounds().get(round.id());

        assertThat(now.vitals().spo2Percent()).isEqualTo(95);
        assertThat(now.vitals().pulsePerMinute()).isEqualTo(110);
        assertThat(now.medicines()).isEqualTo("two puffs");
        assertThat(now.dangerSigns().no()).containsExactly("blue");
        assertThat(now.dangerSigns().yes()).containsExactly("grunting");
    }

    /** "None of them" means those that stood there without an answer; whoever pressed it did not see the yes of another window. */
    @Test
    void noneOfThemTakesBackNoYesOfAnotherTab() throws IOException {
        page().send("PUT", rounds("/danger-signs"), "{\"yes\":[\"blue\"],\"no\":[]}");

        RawHttp.Response now = page().send(
                        "PUT", rounds("/danger-signs"), "{\"yes\":[],\"no\":[],\"noneOf\":[\"blue\",\"grunting\"]}");

        assertThat(Json.parse(now.body(), "round")
                        .get("nextStep")
                        .get("outcome")
                        .asText())
                .isEqualTo("emergency-now");
        assertThat(diary.rounds().get(round.id()).dangerSigns().yes()).containsExactly("blue");
        assertThat(diary.rounds().get(round.id()).dangerSigns().no()).containsExactly("grunting");
    }

    /** A form that stood open would put back what another window changed meanwhile, such as the limit that a clinician set today. */
    @Test
    void twoTabsThatChangeThePersonLoseNothing() throws IOException {
        String path = "/api/persons/" + person.id();
        JsonNode seen = Json.parse(page().get("/api/start").body(), "start")
                .get("persons")
                .get(0);
        String limits =
                "\"limits\":{\"spo2Below\":{\"seenToday\":%d,\"emergency\":85},\"spo2Scale2\":false,\"setBy\":\"Dr. A\",\"setOn\":\"2026-03-01\"}";
        assertThat(page().send("PUT", path, "{%s,\"before\":%s}".formatted(limits.formatted(88), seen))
                        .status())
                .isEqualTo(200);

        RawHttp.Response late = page().send("PUT", path, "{%s,\"before\":%s}".formatted(limits.formatted(92), seen));
        assertThat(late.status()).isEqualTo(409);
        assertThat(late.body())
                .contains("changed in another window")
                .contains("Limits")
                .contains("Nothing was stored");
        page().send("PUT", path, "{\"about\":\"sleeps upright\",\"before\":%s}".formatted(seen));

        Person now = diary.persons().get(person.id());
        assertThat(now.limits().spo2Below()).isNotNull();
        assertThat(Objects.requireNonNull(now.limits().spo2Below()).seenToday()).isEqualTo(88);
        assertThat(now.about()).isEqualTo("sleeps upright");
        assertThat(page().send("PUT", path, "{\"about\":\"\",\"before\":%s}".formatted(seen))
                        .status())
                .isEqualTo(409);
    }

    /** Whoever called for help in the middle of a round did not finish it: the diary must not show it as a round in which nothing was found. */
    @Test
    void theDiarySaysOfAnUnfinishedRoundWhatIsToBeDoneByWhatIsKnown() throws IOException {
        page().send("PUT", rounds("/danger-signs"), "{\"yes\":[\"blue\"],\"no\":[]}");
        String diaryOfMia = "/api/persons/" + person.id() + "/diary";

        JsonNode open =
                Json.parse(page().get(diaryOfMia).body(), "diary").get("rounds").get(0);
        assertThat(open.at("/nextStepSoFar/outcome").asText()).isEqualTo("emergency-now");
        assertThat(open.get("nextStepWhenFinished").isNull()).isTrue();
        assertThat(open.get("breathingStopped").asBoolean()).isFalse();
        assertThat(Json.parse(page().get("/api/start").body(), "start")
                        .at("/persons/0/openRound/nextStepSoFar/outcome")
                        .asText())
                .as("the first screen, too, goes on with the alarm")
                .isEqualTo("emergency-now");

        page().send("POST", rounds("/finish"), "{}");
        JsonNode finished =
                Json.parse(page().get(diaryOfMia).body(), "diary").get("rounds").get(0);
        assertThat(finished.at("/nextStepWhenFinished/outcome").asText()).isEqualTo("emergency-now");
        assertThat(finished.has("nextStepSoFar")).isFalse();
    }

    /** A "no" that was pressed by mistake goes back to "nobody looked", not to "not there". */
    @Test
    void anAnswerToADangerSignCanBeTakenBack() throws IOException {
        page().send("PUT", rounds("/danger-signs"), "{\"yes\":[\"grunting\"],\"no\":[\"blue\"]}");
        JsonNode view = Json.parse(
                page().send("PUT", rounds("/danger-signs"), "{\"yes\":[],\"no\":[],\"notSure\":[\"blue\"]}")
                        .body(),
                "view");

        assertThat(diary.rounds().get(round.id()).dangerSigns()).isEqualTo(DangerAnswers.yes("grunting"));
        assertThat(view.get("dangerSigns"))
                .filteredOn(s -> s.get("id").asText().equals("blue"))
                .singleElement()
                .matches(s -> s.get("answer").isNull());
        assertThat(page().send("PUT", rounds("/danger-signs"), "{\"yes\":[],\"no\":[],\"notSure\":[\"green\"]}")
                        .status())
                .isBetween(400, 499);
    }

    @Test
    void aDangerSignIsAnEmergencyAtOnce() throws IOException {
        JsonNode view = Json.parse(
                page().send("PUT", rounds("/danger-signs"), "{\"yes\":[\"blue\"],\"no\":[]}")
                        .body(),
                "view");

        assertThat(view.at("/nextStep/outcome").asText()).isEqualTo("emergency-now");
    }

    /** Danger signs that were absent yesterday say nothing of today: common practice [C]. */
    @Test
    void aRoundOfYesterdayIsNotGoneOnWith() throws IOException {
        JsonNode begun = Json.parse(page().get("/api/start").body(), "start");
        assertThat(begun.at("/persons/0/openRound/id").asText())
                .isEqualTo(round.id().toString());
        assertThat(Json.parse(page().get(rounds("")).body(), "round")
                        .get("longAgo")
                        .asBoolean())
                .isFalse();

        diary.rounds()
                .change(round.finished(
                        diary.clock().instant(), service.view(round.id()).nextStep()));
        Round old = diary.rounds().start(person.id(), round.startedAt().minusHours(13));

        JsonNode later = Json.parse(page().get("/api/start").body(), "start");
        assertThat(later.at("/persons/0/openRound").isNull()).isTrue();
        assertThat(Json.parse(page().get("/api/rounds/" + old.id()).body(), "round")
                        .get("longAgo")
                        .asBoolean())
                .isTrue();
    }

    /** Whoever begins anew or comes back the next day meets what the finished round asked for, until a later one asks for less, and not for weeks. */
    @Test
    void theFirstScreenSaysWhatTheFinishedRoundAskedFor() throws IOException {
        page().send("PUT", rounds("/danger-signs"), "{\"yes\":[\"blue\"],\"no\":[]}");
        assertThat(said().isNull()).as("not finished").isTrue();
        page().send("POST", rounds("/finish"), "{}");
        assertThat(said().get("words").asText()).isEqualTo(Outcome.EMERGENCY_NOW.words());
        assertThat(said().get("round").asText()).isEqualTo(round.id().toString());

        Round milder = diary.rounds().start(person.id());
        assertThat(said().get("round").asText())
                .as("a new round that holds nothing takes nothing back")
                .isEqualTo(round.id().toString());
        diary.rounds()
                .change(milder.finished(
                        diary.clock().instant(), service.view(milder.id()).nextStep()));
        assertThat(said().isNull()).as("that of the newest is milder").isTrue();

        Person noor = Examples.person(diary, "Noor");
        Round weeksAgo = diary.rounds().start(noor.id(), round.startedAt().minusDays(3));
        diary.rounds()
                .change(weeksAgo.finished(
                        diary.clock().instant(),
                        Objects.requireNonNull(diary.rounds().get(round.id()).nextStep())));
        assertThat(said("Noor").isNull()).isTrue();
    }

    private JsonNode said() throws IOException {
        return said("Mia");
    }

    private JsonNode said(String nickname) throws IOException {
        for (JsonNode p : Json.parse(page().get("/api/start").body(), "start").get("persons")) {
            if (p.get("nickname").asText().equals(nickname)) {
                return p.get("said");
            }
        }
        throw new AssertionError(nickname);
    }

    /** A computer whose battery is empty wakes up years ago: the others can still be listened to, and the person can be opened to correct the month of birth. */
    @Test
    void whoWasNotBornByTheClockDoesNotHideTheOthers() {
        Path folder = temp.resolve("other");
        try (Diary today = Diary.open(folder, Clock.systemDefaultZone())) {
            today.persons().add("Pip", YearMonth.of(2021, 4), Conditions.NONE, "", ClinicianLimits.NONE);
            today.persons().add("Ned", YearMonth.of(1950, 4), Conditions.NONE, "", ClinicianLimits.NONE);
        }
        try (Diary past = Diary.open(folder, Clock.fixed(Instant.parse("2009-03-01T10:00:00Z"), ZoneOffset.UTC))) {
            JsonNode persons = PageJson.start(Examples.service(past)).get("persons");
            assertThat(persons).hasSize(2);
            for (JsonNode listed : persons) {
                boolean born = listed.get("nickname").asText().equals("Ned");
                assertThat(listed.get("ageMonths").isNull()).isEqualTo(!born);
                assertThat(listed.get("age").asText())
                        .isEqualTo(born ? "58 years" : "age not known: this computer's clock says 2009-03-01");
            }
        }
    }

    @Test
    void whatIsSaidOfATakeAfterTheEndOpensTheRoundAgain() throws IOException {
        byte[] wav = wav("wheeze");
        page().send("POST", rounds("/files?site=back-lower-left&take=first&name=a.wav"), wav, wav.length);
        String take = "/api/takes/" + diary.takes().ofRound(round.id()).get(0).id();
        page().send("POST", rounds("/finish"), "{}");

        page().send("PUT", take, "{\"knownToClinician\":false}");
        assertThat(diary.rounds().get(round.id()).open()).as("nothing new").isFalse();

        page().send("PUT", take, "{\"breathHeard\":false}");
        assertThat(diary.rounds().get(round.id()).open()).isTrue();
        assertThat(diary.rounds().get(round.id()).nextStep()).isNull();
    }

    @Test
    void aRecordingIsStoredSecondBySecondAndBecomesATake() throws IOException {
        String id = begin();
        byte[] second = new byte[2 * 8000];
        second[1] = 10;

        page().send("POST", "/api/recordings/" + id + "/samples?from=0", second, second.length);
        // The answer got lost and the part is sent again with the next one.
        byte[] both = new byte[4 * 8000];
        JsonNode verdict = Json.parse(
                page().send("POST", "/api/recordings/" + id + "/samples?from=0", both, both.length)
                        .body(),
                "verdict");

        assertThat(verdict.get("samples").asInt()).isEqualTo(16_000);
        assertThat(page().get(rounds("")).body()).contains(id);
        RawHttp.Response take = page().send("POST", "/api/recordings/" + id + "/finish", "{}");
        assertThat(take.status()).isEqualTo(200);
        var stored = diary.takes().ofRound(round.id()).get(0);
        var recording = RecordingReader.read(diary.recordings().read(stored.recordingSha256()), "take");
        assertThat(recording.length()).isEqualTo(16_000);
        assertThat(recording.sampleRateHz()).isEqualTo(8_000);
        assertThat(recording.sample(0)).isEqualTo(10 * 256 / 32_768.0);
        assertThat(page().get(rounds("")).body()).doesNotContain(id);
    }

    /** Its window still shows the round; an erasure that came between must not be outlasted by a file. */
    @Test
    void aRecordingOfAnErasedRoundIsNotBegun() throws IOException {
        assertThat(page().get(rounds("")).status()).isEqualTo(200);
        diary.eraser().person(person.id());

        assertThat(page().get(rounds("")).status()).isEqualTo(404);
        String form = "{\"site\":\"back-lower-left\",\"take\":\"first\",\"sampleRateHz\":8000}";
        RawHttp.Response refused = page().send("POST", rounds("/recordings"), form);
        assertThat(refused.status()).isEqualTo(404);
        assertThat(refused.body()).contains("it was erased");
        try (Stream<Path> files = Files.walk(temp.resolve("diary"))) {
            assertThat(files.filter(f -> f.toString().contains("unfinished")).filter(Files::isRegularFile))
                    .isEmpty();
        }
    }

    /** Two pages on one diary, each a process of its own: both looked, and neither saw the take of the other. */
    @Test
    void aRecordingThatTwoPagesAreAskedForAtOnceIsStoredOnce() throws Exception {
        String id = begin();
        page().send("POST", "/api/recordings/" + id + "/samples?from=0", new byte[16_000], 16_000);
        CyclicBarrier both = new CyclicBarrier(2);
        List<CompletableFuture<Integer>> answers = new ArrayList<>();
        List<AutoCloseable> opened = new ArrayList<>();
        for (int i = 0; i < 2; i++) {
            Diary own = Diary.open(temp.resolve("diary"));
            RoundService its = new RoundService(
                    own,
                    (content, name) -> {
                        meet(both);
                        return RecordingReader.read(content, name);
                    },
                    r -> Examples.examination(2, 0));
            PageServer one = PageServer.start(its, 0, faults::add);
            opened.addAll(List.of(one, own));
            RawHttp http = new RawHttp(one.port());
            String let = http.get(path(one.address())).header("Set-Cookie").split(";", 2)[0];
            RawHttp asking = http.with("Cookie: " + let).with("Origin: http://127.0.0.1:" + one.port());
            answers.add(CompletableFuture.supplyAsync(() -> {
                try {
                    return asking.send("POST", "/api/recordings/" + id + "/finish", "{}")
                            .status();
                } catch (IOException e) {
                    throw new java.io.UncheckedIOException(e);
                }
            }));
        }
        for (CompletableFuture<Integer> answer : answers) {
            assertThat(answer.get(40, TimeUnit.SECONDS)).isEqualTo(200);
        }
        for (AutoCloseable one : opened) {
            one.close();
        }
        assertThat(diary.takes().ofRound(round.id()))
                .singleElement()
                .satisfies(take -> assertThat(take.examined()).isNotNull());
        assertThat(page().get(rounds("")).body()).doesNotContain(id);
    }

    private static void meet(CyclicBarrier barrier) {
        try {
            barrier.await(20, TimeUnit.SECONDS);
        } catch (Exception e) {
            throw new IllegalStateException("the other page did not come", e);
        }
    }

    @Test
    void aGapInARecordingIsRefused() throws IOException {
        String id = begin();

        assertThat(page().send("POST", "/api/recordings/" + id + "/samples?from=100", new byte[20], 20)
                        .status())
                .isEqualTo(409);
    }

    /** Two windows, or an impatient second press: the first is still being examined when the second asks. */
    @Test
    void aRecordingThatIsAskedForTwiceAtOnceIsStoredOnce() throws Exception {
        CountDownLatch examining = new CountDownLatch(1);
        CountDownLatch asked = new CountDownLatch(1);
        server.close();
        service = new RoundService(diary, RecordingReader::read, r -> {
            examining.countDown();
            await(asked);
            return Examples.examination(2, 0);
        });
        server = PageServer.start(service, 0, faults::add);
        cookie = "Cookie: "
                + raw().get(path(server.address())).header("Set-Cookie").split(";", 2)[0];
        String id = begin();
        page().send("POST", "/api/recordings/" + id + "/samples?from=0", new byte[16_000], 16_000);
        String finish = "/api/recordings/" + id + "/finish";

        CompletableFuture<Integer> first = CompletableFuture.supplyAsync(() -> {
            try {
                return page().send("POST", finish, "{}").status();
            } catch (IOException e) {
                throw new java.io.UncheckedIOException(e);
            }
        });
        await(examining);
        RawHttp.Response second = page().send("POST", finish, "{}");
        asked.countDown();

        assertThat(second.status()).isEqualTo(409);
        assertThat(second.body()).contains("is being examined already");
        assertThat(first.get(20, TimeUnit.SECONDS)).isEqualTo(200);
        assertThat(diary.takes().ofRound(round.id())).hasSize(1);
    }

    private static void await(CountDownLatch latch) {
        try {
            if (!latch.await(20, TimeUnit.SECONDS)) {
                throw new IllegalStateException("waited too long");
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    @Test
    void anUnfinishedRecordingSurvivesAFallOfTheProgram() throws IOException {
        String id = begin();
        page().send("POST", "/api/recordings/" + id + "/samples?from=0", new byte[16_000], 16_000);
        server.close();

        server = PageServer.start(service, 0, faults::add);
        cookie = "Cookie: "
                + raw().get(path(server.address())).header("Set-Cookie").split(";", 2)[0];

        JsonNode waiting = Json.parse(page().get(rounds("")).body(), "view").get("unfinished");
        assertThat(waiting).hasSize(1);
        assertThat(waiting.get(0).get("seconds").asDouble()).isEqualTo(1);
    }

    /** Another page kept or threw one away between two looks, or a loss of power emptied its file: the round and its other recordings must not be hidden by it. */
    @ParameterizedTest
    @ValueSource(strings = {"", "{", "{\"round\":\"x\"}", "gone"})
    void anUnfinishedRecordingThatCannotBeReadHidesNoRound(String about) throws IOException {
        String damaged = begin();
        String whole = begin();
        for (String id : List.of(damaged, whole)) {
            page().send("POST", "/api/recordings/" + id + "/samples?from=0", new byte[16_000], 16_000);
        }
        Path folder = temp.resolve("diary/unfinished");
        if (about.equals("gone")) {
            Files.delete(folder.resolve(damaged + ".pcm"));
        } else {
            Files.writeString(folder.resolve(damaged + ".json"), about);
        }

        RawHttp.Response view = page().get(rounds(""));

        assertThat(view.status()).as(view.body()).isEqualTo(200);
        JsonNode waiting = Json.parse(view.body(), "view").get("unfinished");
        assertThat(waiting).hasSize(1);
        assertThat(waiting.get(0).get("id").asText()).isEqualTo(whole);
        assertThat(faults).isEmpty();
    }

    @Test
    void erasingWantsTheNicknameAndTakesUnfinishedRecordingsToo() throws IOException {
        String id = begin();
        page().send("POST", "/api/recordings/" + id + "/samples?from=0", new byte[16_000], 16_000);

        assertThat(page().send("POST", "/api/persons/" + person.id() + "/erase", "{\"nickname\":\"mia\"}")
                        .status())
                .isEqualTo(400);
        assertThat(diary.persons().all()).hasSize(1);

        assertThat(page().send("POST", "/api/persons/" + person.id() + "/erase", "{\"nickname\":\"Mia\"}")
                        .status())
                .isEqualTo(200);
        assertThat(diary.persons().all()).isEmpty();
        try (Stream<Path> files = Files.walk(temp.resolve("diary/unfinished"))) {
            assertThat(files.filter(Files::isRegularFile)).isEmpty();
        }
    }

    @Test
    void theExportIsAnArchiveAndLeavesNothingBehind() throws IOException {
        RawHttp.Response export = page().get("/api/persons/" + person.id() + "/export");

        assertThat(export.status()).isEqualTo(200);
        assertThat(export.body()).startsWith("PK");
        try (Stream<Path> files = Files.list(temp.resolve("diary"))) {
            assertThat(files.map(p -> String.valueOf(p.getFileName()))).noneMatch(n -> n.contains("export"));
        }
    }

    @Test
    void anExportIsTakenInElsewhereAndTwiceChangesNothing() throws IOException {
        Path archive = temp.resolve("there.zip");
        try (Diary there = Diary.open(temp.resolve("there"))) {
            Person ben = Examples.person(there, "Ben");
            there.rounds().start(ben.id());
            there.archive().write(archive, ben.id());
        }
        byte[] bytes = Files.readAllBytes(archive);

        RawHttp.Response first = page().send("POST", "/api/import?name=ben.zip", bytes, bytes.length);
        RawHttp.Response again = page().send("POST", "/api/import?name=ben.zip", bytes, bytes.length);

        assertThat(first.status()).isEqualTo(200);
        assertThat(first.body()).contains("\"persons\":1", "\"rounds\":1", "\"changed\":0");
        assertThat(again.body()).contains("\"persons\":0", "\"rounds\":0", "\"changed\":0");
        assertThat(page().get("/api/start").body()).contains("Ben", "Mia");
        assertThat(imports()).isEmpty();
    }

    @Test
    void whatIsNoWholeExportIsRefusedByItsNameAndStoresNothing() throws IOException {
        Path archive = temp.resolve("there.zip");
        try (Diary there = Diary.open(temp.resolve("there"))) {
            there.archive().write(archive, Examples.person(there, "Ben").id());
        }
        byte[] bytes = Files.readAllBytes(archive);
        byte[] cut = Arrays.copyOf(bytes, bytes.length - 100);

        RawHttp.Response cutShort = page().send("POST", "/api/import?name=ben.zip", cut, cut.length);
        RawHttp.Response sound = page().send("POST", "/api/import?name=chest.wav", wav("usual"), wav("usual").length);
        RawHttp.Response nothing = page().send("POST", "/api/import?name=empty.zip", new byte[0], 0);

        for (RawHttp.Response refused : List.of(cutShort, sound, nothing)) {
            assertThat(refused.status()).isEqualTo(400);
            assertThat(refused.body()).contains("nothing was stored").doesNotContain(temp.toString());
        }
        assertThat(cutShort.body()).contains("ben.zip");
        assertThat(sound.body()).contains("chest.wav");
        assertThat(page().get("/api/start").body()).doesNotContain("Ben");
        assertThat(imports()).isEmpty();
        assertThat(raw().with(cookie)
                        .with("Origin: http://example.org")
                        .send("POST", "/api/import?name=ben.zip", bytes, bytes.length)
                        .status())
                .as("not from another page")
                .isEqualTo(403);
    }

    private List<String> imports() throws IOException {
        try (Stream<Path> files = Files.list(temp.resolve("diary"))) {
            return files.map(p -> String.valueOf(p.getFileName()))
                    .filter(name -> name.contains("import"))
                    .toList();
        }
    }

    @Test
    void reportsAreShownWithoutAnyRightToRunAndSavedUnderANameThatTellsNobodysName() throws IOException {
        byte[] wav = wav("wheeze");
        page().send("POST", rounds("/files?site=back-lower-left&take=first&name=a.wav"), wav, wav.length);

        RawHttp.Response shown = page().get(rounds("/report/html"));
        RawHttp.Response nameless = page().get(rounds("/report/html?name=no&notes=no&audio=no"));
        RawHttp.Response saved = page().get("/api/persons/" + person.id() + "/report/csv");

        assertThat(shown.status()).isEqualTo(200);
        assertThat(shown.header("Content-Security-Policy"))
                .contains("default-src 'none'", "sandbox")
                .doesNotContain("script-src");
        assertThat(shown.body()).contains("Mia", "data:audio");
        assertThat(nameless.body()).doesNotContain("data:audio");
        // In the letters of a picture any three may meet by chance.
        assertThat(nameless.body().replaceAll("data:[a-z]+/[a-z]+;base64,[A-Za-z0-9+/=]+", ""))
                .doesNotContain("Mia");
        assertThat(saved.status()).isEqualTo(200);
        assertThat(saved.header("Content-Disposition")).contains("lungwort-report.csv");
        assertThat(page().get(rounds("/report/exe")).status()).isEqualTo(400);
    }

    @Test
    void theSheetOfPaperIsSavedUnderANameThatTellsNobodysName() throws IOException {
        RawHttp.Response sheet = page().get("/api/persons/" + person.id() + "/sheet");

        assertThat(sheet.status()).isEqualTo(200);
        assertThat(sheet.header("Content-Type")).contains("application/pdf");
        assertThat(sheet.header("Content-Disposition")).isEqualTo("attachment; filename=\"lungwort-sheet.pdf\"");
        assertThat(sheet.body()).startsWith("%PDF-");
    }

    @Test
    void aFaultInsideIsASentenceWithoutAStackTrace() throws IOException {
        server.close();
        service = new RoundService(diary, RecordingReader::read, r -> {
            throw new IllegalStateException("inner words");
        });
        server = PageServer.start(service, 0, faults::add);
        cookie = "Cookie: "
                + raw().get(path(server.address())).header("Set-Cookie").split(";", 2)[0];
        byte[] wav = wav("wheeze");

        RawHttp.Response answer =
                page().send("POST", rounds("/files?site=neck&take=first&name=a.wav"), wav, wav.length);

        assertThat(answer.status()).isEqualTo(500);
        assertThat(answer.body())
                .contains("went wrong")
                .doesNotContain("inner words")
                .doesNotContain("at lungwort");
        assertThat(faults).singleElement().isInstanceOf(IllegalStateException.class);
    }

    private String begin() throws IOException {
        String form = "{\"site\":\"back-lower-left\",\"take\":\"first\",\"sampleRateHz\":8000}";
        return Json.parse(page().send("POST", rounds("/recordings"), form).body(), "recording")
                .get("id")
                .asText();
    }

    @Test
    void hostileNamesComeBackAsTheyAreInJsonAndNotAsMarkup() throws IOException {
        String name = "<script>alert(1)</script>";
        page().send(
                        "POST",
                        "/api/persons",
                        Json.compact(Json.object().put("nickname", name).put("birthMonth", "2020-01")));

        RawHttp.Response start = page().get("/api/start");

        assertThat(start.header("Content-Type")).startsWith("application/json");
        assertThat(start.body().getBytes(StandardCharsets.UTF_8)).isNotEmpty();
        assertThat(raw().get("/enter?key=" + "%3Cscript%3E").body()).doesNotContain("<script>");
    }
}
