package lungwort.tests.page;

import static lungwort.tests.page.BrowserOnPage.words;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.YearMonth;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Map;
import lungwort.audio.Recording;
import lungwort.audio.WavWriter;
import lungwort.cli.ShippedExaminer;
import lungwort.diary.Diary;
import lungwort.diary.NewTake;
import lungwort.diary.Person;
import lungwort.diary.Round;
import lungwort.diary.Take;
import lungwort.examine.Suggestion;
import lungwort.guidance.Breathlessness;
import lungwort.guidance.ClinicianLimits;
import lungwort.guidance.ClinicianLimits.StatedUsual;
import lungwort.guidance.Condition;
import lungwort.guidance.Conditions;
import lungwort.guidance.DangerAnswers;
import lungwort.guidance.Outcome;
import lungwort.guidance.Sites;
import lungwort.guidance.Symptoms;
import lungwort.guidance.TakeReason;
import lungwort.guidance.Vitals;
import lungwort.round.RoundService;
import lungwort.tests.page.BrowserOnPage.Size;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.openqa.selenium.By;
import org.openqa.selenium.Keys;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.WindowType;
import org.openqa.selenium.interactions.Actions;
import org.openqa.selenium.support.ui.Select;

/** Rounds made as a caregiver makes them, in a real browser whose microphone plays synthesised recordings. */
class PageInBrowserTest extends InBrowser {
    private static void record(BrowserOnPage page, int seconds) {
        startRecording(page);
        page.waiting()
                .until(d -> page.see(By.cssSelector(".seconds strong"))
                        .getText()
                        .matches("(%d|%d) s".formatted(seconds, seconds + 1)));
        page.press(By.id("stop"));
        page.see(By.cssSelector(".result"));
    }

    @ParameterizedTest
    @EnumSource
    void aWholeRoundFromDangerSignsToTheNextStep(Size size) throws IOException {
        try (BrowserOnPage page = new BrowserOnPage(browser, temp, "wheeze", size)) {
            begin(page);
            answerAndMeasure(page);
            page.title("Listen to the chest");
            page.checkScreen("chest");
            page.press(By.id("record"));
            page.checkScreen("record");
            record(page, 9);
            looksAndListens(page);
            page.press(By.id("next"));
            record(page, 6);
            page.press(words("To the drawing"));
            assertThat(page.see(By.cssSelector(".spot:has(.extra)")).getDomAttribute("aria-label"))
                    .as("a place with a wheeze is marked")
                    .endsWith("an extra sound was suggested there");
            page.press(words("Stop listening here"));
            page.title("Next step");
            nothingIsAskedTwice(page);
            page.checkScreen("end");
            page.press(By.cssSelector(".beside-link"));
            page.title("Two takes beside each other");
            page.see(By.cssSelector(".picture .tone"));
            page.checkScreen("compare");
            page.driver().navigate().back();
            page.title("Next step");
            looksAtTheReport(page);
            page.press(By.id("finish"));
            page.title("Diary of Mia");
            page.checkScreen("diary");
            assertThat(page.driver().findElement(By.id("status")).getDomProperty("textContent"))
                    .as("what a screen reader was told of the take is not said of the diary")
                    .isEmpty();

            keptInTheDiary(page);
            assertThat(page.faults()).isEmpty();
        }
    }

    private static void begin(BrowserOnPage page) throws IOException {
        page.checkScreen("start-empty");
        page.see(By.id("number")).sendKeys("999 111");
        page.press(words("Keep the number"));
        page.press(words("Add a person"));
        page.see(By.id("nickname")).sendKeys("Mia");
        new Select(page.see(By.id("month"))).selectByValue("04");
        page.see(By.id("year")).sendKeys("2021");
        page.press(words("asthma"));
        page.checkScreen("person");
        page.press(words("Keep"));
        page.press(words("Start a round for Mia"));
    }

    private static void answerAndMeasure(BrowserOnPage page) throws IOException {
        page.title("Danger signs first");
        page.checkScreen("signs");
        page.press(words("I looked for all of these"));
        page.title("Measured and seen");
        page.checkScreen("vitals");
        page.see(By.id("spo2")).sendKeys("95");
        page.see(By.id("rate")).sendKeys("26");
        page.press(words("Go on to the chest"));
    }

    private static void looksAndListens(BrowserOnPage page) throws IOException {
        assertThat(page.see(By.cssSelector(".result h2")).getText()).contains("suggests a continuous extra sound");
        page.see(By.cssSelector(".picture .tone"));
        page.checkScreen("take");
        assertThat(page.driver()
                        .executeScript("return document.querySelector('input[name=heard]').getBoundingClientRect().top"
                                + " < document.getElementById('next').getBoundingClientRect().top"))
                .as("whether breath was heard is asked before the next take is offered")
                .isEqualTo(true);
        page.press(By.cssSelector("#stretches button"));
        page.waiting().until(d -> Double.parseDouble(d.findElement(By.id("now")).getDomAttribute("x1")) > 0);
        page.see(By.cssSelector("#stretches button.chosen"));
        // A line has no height, so to the driver it is never visible.
        assertThat(page.driver().findElements(By.cssSelector(".picture .heard.continuous.chosen")))
                .hasSize(1);
        page.press(By.cssSelector(".evidence:not(#stretches) button"));
        page.see(By.cssSelector(".picture .tone.chosen"));
        assertThat(page.driver().findElements(By.cssSelector("#stretches button.chosen")))
                .isEmpty();
        new Select(page.see(By.id("zoom"))).selectByValue("4");
        new Select(page.see(By.id("speed"))).selectByValue("0.5");
        new Select(page.see(By.id("band"))).selectByValue("wheeze");
        page.checkScreen("take-zoomed");
    }

    private static void nothingIsAskedTwice(BrowserOnPage page) {
        List<String> asked = page.driver().findElements(By.cssSelector("main li")).stream()
                .map(WebElement::getText)
                .filter(words -> words.startsWith("Say whether"))
                .toList();
        assertThat(asked).isNotEmpty().doesNotHaveDuplicates();
    }

    private static void looksAtTheReport(BrowserOnPage page) throws IOException {
        String round = page.driver().getWindowHandle();
        page.press(By.id("report"));
        page.waiting().until(d -> d.getWindowHandles().size() == 2);
        String report = page.driver().getWindowHandles().stream()
                .filter(h -> !h.equals(round))
                .findFirst()
                .orElseThrow();
        page.driver().switchTo().window(report);
        page.waiting().until(d -> d.getTitle().contains("Mia"));
        assertThat(page.see(By.tagName("main")).getText()).contains("Mia", "SpO2");
        page.picture("report");
        page.driver().close();
        page.driver().switchTo().window(round);
    }

    private static void keptInTheDiary(BrowserOnPage page) {
        Person mia = page.diary().persons().need("Mia");
        Round round = page.diary().rounds().newest(mia.id()).orElseThrow();
        List<Take> takes = page.diary().takes().ofRound(round.id());
        assertThat(takes).extracting(Take::reason).containsExactly(TakeReason.FIRST, TakeReason.MOVED);
        assertThat(takes)
                .extracting(t -> t.examination().orElseThrow().suggestion())
                .containsOnly(Suggestion.CONTINUOUS);
        assertThat(takes.get(0).examination().orElseThrow().durationSeconds()).isBetween(8.5, 14.0);
        assertThat(round.vitals().spo2Percent()).isEqualTo(95);
        assertThat(round.open()).isFalse();
        assertThat(round.nextStep()).isNotNull();
        assertThat(page.diary().settings().emergencyNumber().orElseThrow().digits())
                .isEqualTo("999 111");
    }

    @ParameterizedTest
    @EnumSource
    void oneDangerSignIsAnEmergencyAtOnceAndNothingIsToBeRecorded(Size size) throws IOException {
        try (BrowserOnPage page = new BrowserOnPage(browser, temp, "usual", size)) {
            Person child = child(page);
            page.driver().navigate().refresh();
            page.press(words("Start a round for Mia"));
            page.title("Danger signs first");
            page.press(By.xpath("//fieldset[contains(., 'blue')]//label[contains(., 'Yes')]"));

            WebElement alarm = page.see(By.cssSelector(".alarm[role=alert]"));
            assertThat(alarm.getText()).contains("Call your emergency number now", "Do not record anything");
            assertThat(page.driver().findElements(words("I looked for"))).isEmpty();
            page.checkScreen("alarm");
            page.press(words("What to do, and why"));
            page.title("Next step");
            assertThat(page.see(By.cssSelector(".alarm")).getText()).contains(Outcome.EMERGENCY_NOW.words());
            assertThat(page.see(By.cssSelector(".step.emergency-now")).getText())
                    .startsWith("What to do")
                    .contains("emergency number");
            page.checkScreen("alarm-end");

            page.press(words("3 Chest"));
            page.title("Listen to the chest");
            assertThat(page.see(By.id("nothing-now")).getText()).contains("get help first");
            assertThat(page.driver().findElements(By.id("record")))
                    .as("no button says the opposite of the alarm")
                    .isEmpty();
            page.checkScreen("alarm-chest");
            page.driver().executeScript("location.hash = arguments[0]", "/diary/" + child.id());
            page.title("Diary of Mia");
            assertThat(page.see(By.cssSelector(".card .warn")).getText())
                    .as("a round that nobody finished")
                    .contains("Not finished", Outcome.EMERGENCY_NOW.words());
            page.driver().executeScript("location.hash = '#/'");
            page.title("Who is it about?");
            page.driver().navigate().refresh();
            assertThat(page.see(By.cssSelector("#main section")).getText())
                    .as("whoever comes back meets the alarm first")
                    .contains(Outcome.EMERGENCY_NOW.words(), "Call your emergency number now");
            page.checkScreen("alarm-start");
            page.press(words("What to do, and why"));
            page.title("Next step");
        }
    }

    /** A diary moves to another computer without a terminal on either. */
    @Test
    void anExportedDiaryIsBroughtInFromTheStart() throws IOException {
        Path archive = temp.resolve("ben.zip");
        try (Diary there = Diary.open(temp.resolve("there"))) {
            Person ben = there.persons()
                    .add("Ben", YearMonth.of(1947, 5), Conditions.of(Condition.COPD), "", ClinicianLimits.NONE);
            there.rounds().start(ben.id());
            there.archive().write(archive, ben.id());
        }
        Path sound = Files.write(temp.resolve("chest.zip"), new byte[] {1, 2, 3});
        try (BrowserOnPage page = new BrowserOnPage(browser, temp, "usual", Size.PHONE)) {
            page.press(words("Bring in a diary"));
            page.checkScreen("import");
            page.driver().findElement(By.id("import")).sendKeys(sound.toString());
            assertThat(page.see(By.cssSelector(".error")).getText()).contains("chest.zip", "nothing was stored");
            page.driver().findElement(By.id("import")).sendKeys(archive.toString());
            page.see(words("Diary of Ben"));
            assertThat(page.see(By.id("brought")).getText()).contains("ben.zip", "persons 1, rounds 1");
            assertThat(page.driver().findElements(By.cssSelector(".error"))).isEmpty();
            page.checkScreen("imported");
            assertThat(page.faults()).isEmpty();
        }
    }

    @Test
    void aReloadInTheMiddleOfARecordingLosesNothingThatWasSaved() throws IOException {
        try (BrowserOnPage page = new BrowserOnPage(browser, temp, "wheeze", Size.DESKTOP)) {
            Round round = ready(page);
            String chest = "#/round/" + round.id() + "/chest";
            page.driver().get("http://127.0.0.1:%d/%s".formatted(page.server().port(), chest));
            page.press(By.id("record"));
            startRecording(page);
            page.waiting()
                    .until(d -> page.see(By.cssSelector(".seconds strong"))
                            .getText()
                            .matches("([5-9]) s"));

            page.driver().navigate().refresh();
            page.see(By.id("open"));
            page.driver().get("http://127.0.0.1:%d/%s".formatted(page.server().port(), chest));
            page.see(words("Keep and examine it"));
            page.checkScreen("unfinished");
            page.press(words("Throw it away"));
            assertThat(page.see(By.id("drop-recording")).getText()).contains("gone then");
            page.checkScreen("unfinished-drop");
            page.press(words("Cancel"));
            page.press(words("Keep and examine it"));

            page.see(By.cssSelector(".result"));
            assertThat(page.diary().takes().ofRound(round.id()))
                    .singleElement()
                    .satisfies(t -> assertThat(t.examination().orElseThrow().durationSeconds())
                            .isGreaterThanOrEqualTo(5));
        }
    }

    /** Else a shorter recording than the one that was made would be judged, and the rest of it be gone. */
    @Test
    void whatCouldNotBeSentIsKeptUntilItCan() throws IOException {
        try (BrowserOnPage page = new BrowserOnPage(browser, temp, "wheeze", Size.PHONE)) {
            Round round = ready(page);
            firstTake(page, round, "back-lower-left");
            startRecording(page);
            page.waiting()
                    .until(d -> page.see(By.cssSelector(".seconds strong"))
                            .getText()
                            .matches("[3-9] s"));
            page.block("*/samples*");
            page.waiting()
                    .until(d -> page.see(By.cssSelector(".error[role=alert]"))
                            .getText()
                            .contains("cannot reach Lungwort"));
            assertThat(page.see(By.cssSelector(".advice")).getText())
                    .as("what was said of the part before holds no longer")
                    .startsWith("What is recorded now is not judged yet");
            sleepSeconds(2);
            page.press(By.id("stop"));
            page.see(By.id("send"));
            assertThat(page.diary().takes().ofRound(round.id())).isEmpty();

            page.block();
            page.checkScreen("unsent");
            page.press(By.id("send"));
            page.see(By.cssSelector(".result"));
            assertThat(page.diary().takes().ofRound(round.id()))
                    .singleElement()
                    .satisfies(t -> assertThat(t.examination().orElseThrow().durationSeconds())
                            .isGreaterThan(5.5));
        }
    }

    /** Whether breath was heard through a muted microphone is no question. */
    @Test
    void nobodyIsAskedWhetherBreathWasHeardInARecordingThatHoldsNoSound() throws IOException {
        try (BrowserOnPage page = new BrowserOnPage(browser, temp, "wheeze", Size.PHONE)) {
            Round round = ready(page);
            byte[] muted =
                    WavWriter.toBytes(new Recording(new double[8 * 4000], 4000, "muted"), WavWriter.Encoding.PCM_16);
            byte[] heard = Files.readAllBytes(temp.resolve("microphone.wav"));
            RoundService service = ShippedExaminer.rounds(page.diary());
            String address = "http://127.0.0.1:%d/#/take/%s";
            for (byte[] sound : List.of(muted, heard)) {
                Take take = service.add(
                        new NewTake(round.id(), Sites.of("back-lower-left"), TakeReason.FIRST, "a.wav"), sound);
                page.driver().get(address.formatted(page.server().port(), take.id()));
                page.waiting()
                        .until(d -> page.see(By.cssSelector(".result"))
                                .getText()
                                .contains(sound == muted ? "no sound" : "suggests"));
                assertThat(page.driver().findElements(By.name("heard")).isEmpty())
                        .isEqualTo(sound == muted);
            }
        }
    }

    /** Weight and swelling: European Society of Cardiology, guide for patients with heart failure [P]. A sign that can wait for the day closes neither the other questions nor the round. */
    @Test
    void aManWithHeartFailureIsAskedForWaterAndTheOthersStayAsked() throws IOException {
        try (BrowserOnPage page = new BrowserOnPage(browser, temp, "usual", Size.PHONE)) {
            Person father = page.diary()
                    .persons()
                    .add(
                            "Father",
                            YearMonth.of(1948, 5),
                            Conditions.of(Condition.HEART_FAILURE),
                            "",
                            ClinicianLimits.NONE);
            Round round = page.diary().rounds().start(father.id());
            page.driver()
                    .get("http://127.0.0.1:%d/#/round/%s/signs"
                            .formatted(page.server().port(), round.id()));
            page.press(By.cssSelector("label:has(input[name=fluid-gain][value=yes])"));
            assertThat(page.see(By.cssSelector(".verdict")).getText()).contains("Be seen by a clinician today");
            page.press(words("I looked for the others too"));
            page.press(words("Go on"));
            page.title("Measured and seen");
            assertThat(page.see(By.cssSelector("main")).getText()).contains("no, or no more than usual");
            assertThat(page.diary().rounds().get(round.id()).dangerSigns().no())
                    .contains("blue", "breathless-lying-flat");
            assertThat(page.diary().rounds().get(round.id()).dangerSigns().yes())
                    .containsExactly("fluid-gain");
        }
    }

    /** Target of 88 to 92 % where hypercapnia is a risk, set by a clinician: BTS oxygen targets [P]. 92 % or less at home is an emergency otherwise: UK home oximetry [S]. */
    @Test
    void aManWithCopdIsToldWhereHisOxygenTargetIsWrittenDown() throws IOException {
        try (BrowserOnPage page = new BrowserOnPage(browser, temp, "usual", Size.PHONE)) {
            page.press(words("Add a person"));
            page.see(By.id("nickname")).sendKeys("Karl");
            new Select(page.see(By.id("month"))).selectByValue("05");
            page.see(By.id("year")).sendKeys("1960");
            assertThat(page.driver().findElements(By.id("limits-target"))).isEmpty();
            page.press(words("COPD"));
            assertThat(page.see(By.id("limits-target")).getText()).contains("88 to 92 %", "clinician");
            assertThat(page.see(By.name("scale2")).isDisplayed()).isTrue();
            assertThat(page.see(By.id("nickname")).getDomProperty("value")).isEqualTo("Karl");
            page.checkScreen("person-copd");
            page.press(words("Keep"));
            page.press(words("Start a round for Karl"));
            page.press(words("I looked for all of these"));
            page.see(By.id("spo2")).sendKeys("90");
            page.press(words("Go on to the chest"));
            assertThat(page.see(By.cssSelector(".alarm")).getText()).contains("Emergency");
            assertThat(page.see(By.id("oxygen-target")).getText())
                    .contains("If none is set, the alarm holds", "Change what is known about Karl");
            page.checkScreen("vitals-copd");
            page.press(words("What to do, and why"));
            page.title("Next step");
            page.see(By.id("oxygen-target"));
            page.press(words("Change what is known about Karl"));
            page.press(By.name("scale2"));
            page.see(By.id("setBy")).sendKeys("Dr Invented");
            assertThat(page.driver().findElement(By.id("usual")).isDisplayed())
                    .as("what few have does not stand before \"Keep\"")
                    .isFalse();
            page.press(words("Other limits"));
            page.see(By.id("usual")).sendKeys("91");
            page.see(By.id("usualBreathing")).sendKeys("on extra oxygen");
            page.checkScreen("person-usual");
            page.press(words("Keep"));
            page.title("Next step");
            assertThat(page.driver().findElements(By.cssSelector(".alarm"))).isEmpty();
            assertThat(page.driver().findElements(By.id("oxygen-target"))).isEmpty();
            Person karl = page.diary().persons().all().get(0);
            assertThat(karl.limits().usualSpo2())
                    .isEqualTo(new StatedUsual(91, LocalDate.now(), true, "Dr Invented", ""));
            page.driver()
                    .get("http://127.0.0.1:%d/#/round/%s/vitals"
                            .formatted(
                                    page.server().port(),
                                    page.diary()
                                            .rounds()
                                            .newest(karl.id())
                                            .orElseThrow()
                                            .id()));
            page.see(By.id("spo2"));
            assertThat(page.see(By.cssSelector("main")).getText())
                    .contains("This person's own usual: 91 % (on oxygen, stated by a clinician, from " + LocalDate.now()
                            + " on)");
            page.checkScreen("vitals-usual");
            page.driver()
                    .get("http://127.0.0.1:%d/#/diary/%s"
                            .formatted(page.server().port(), karl.id()));
            page.title("Diary of Karl");
            assertThat(page.see(By.xpath("//figcaption[contains(., 'SpO2')]")).getText())
                    .contains("Dr Invented stated a usual of 91 % on oxygen from " + LocalDate.now() + " on.");
            anotherUsualCountsFromToday(page, karl);
        }
    }

    private static void anotherUsualCountsFromToday(BrowserOnPage page, Person person) {
        LocalDate longAgo = LocalDate.now().minusDays(40);
        page.diary()
                .persons()
                .change(person.withLimits(
                        person.limits().withUsualSpo2(new StatedUsual(94, longAgo, null, "Dr Invented", ""))));
        page.driver()
                .get("http://127.0.0.1:%d/#/person/%s".formatted(page.server().port(), person.id()));
        page.title("What is known about Karl");
        page.see(By.id("usual")).clear();
        page.see(By.id("usual")).sendKeys("91");
        assertThat(page.see(By.id("usualFrom")).getDomProperty("value"))
                .isEqualTo(LocalDate.now().toString());
        page.see(By.id("usual")).clear();
        page.see(By.id("usual")).sendKeys("94");
        assertThat(page.see(By.id("usualFrom")).getDomProperty("value")).isEqualTo(longAgo.toString());
    }

    @Test
    void whatSpoilsARecordingIsSaidWhileItIsMade() throws IOException {
        try (BrowserOnPage page = new BrowserOnPage(browser, temp, "clipped", Size.PHONE)) {
            Round round = ready(page);
            firstTake(page, round, "back-lower-left");
            startRecording(page);
            page.waiting()
                    .until(d -> page.see(By.cssSelector(".live.warn .advice"))
                            .getText()
                            .contains("overdriven"));
            page.checkScreen("spoilt");
            page.press(By.id("stop"));
            assertThat(page.see(By.cssSelector(".result")).getText())
                    .contains("cannot be judged")
                    .contains("overdriven")
                    .contains("Nothing is said about the chest")
                    .doesNotContain("What moved the suggestion most")
                    .doesNotContain("What left it open");
            assertThat(page.see(By.cssSelector(".asked")).getText())
                    .as("what is to be mended stands above already")
                    .doesNotContain("overdriven");
            page.checkScreen("take-spoilt");
        }
    }

    /** Five days, one of them without a round and one with fever, as trends show them. */
    @Test
    void theDiaryShowsDaysTrendsAndTwoTakesOfDifferentDays() throws IOException {
        try (BrowserOnPage page = new BrowserOnPage(browser, temp, "wheeze", Size.PHONE)) {
            Person mia = child(page);
            byte[] wheeze = Files.readAllBytes(temp.resolve("microphone.wav"));
            RoundService service = ShippedExaminer.rounds(page.diary());
            for (int daysAgo : new int[] {5, 4, 3, 1, 0}) {
                Round round = page.diary()
                        .rounds()
                        .start(mia.id(), OffsetDateTime.now().minusDays(daysAgo));
                page.diary()
                        .rounds()
                        .change(round.with(Vitals.NONE.withSpo2(97 - daysAgo).withRespiratoryRate(24 + daysAgo)));
                service.add(new NewTake(round.id(), Sites.of("back-lower-left"), TakeReason.FIRST, "a.wav"), wheeze);
            }
            page.driver()
                    .get("http://127.0.0.1:%d/#/diary/%s"
                            .formatted(page.server().port(), mia.id()));
            page.title("Diary of Mia");
            page.see(By.cssSelector(".plot[data-measure=spo2] canvas"));
            page.press(words("The same as a table"));
            assertThat(page.driver().findElements(By.cssSelector("figure.trend canvas")))
                    .hasSize(3);
            assertThat(page.see(By.cssSelector(".plot[data-measure=crackles-per-breath]"))
                            .getText())
                    .as(
                            "synthesised sounds are unlike what was learnt from: beside a wheeze no zero of crackles is told")
                    .isEqualTo("No values in these days.");
            assertThat(page.driver().findElements(By.cssSelector("details[open] tbody tr")))
                    .hasSize(5);
            page.checkScreen("diary-days");
            page.press(words("Takes: 1"));
            assertThat(page.driver().findElements(By.cssSelector("button[aria-pressed]")))
                    .as("to whoever hears them, each of them has a name of its own")
                    .extracting(button -> button.getDomAttribute("aria-label"))
                    .doesNotContainNull()
                    .hasSizeGreaterThan(2)
                    .doesNotHaveDuplicates();
            page.press(words("Compare"));
            page.press(By.xpath("(//summary[contains(., 'Takes: 1')])[2]"));
            page.press(words("Compare with this"));
            page.title("Two takes beside each other");
            page.checkScreen("compare-days");
            usualBesideTheTake(page, mia);
        }
    }

    /** The newest of five takes of the same sound: four earlier ones make its usual, and nothing lies outside it. */
    private static void usualBesideTheTake(BrowserOnPage page, Person mia) throws IOException {
        Round newest = page.diary().rounds().newest(mia.id()).orElseThrow();
        String address = "http://127.0.0.1:%d/#/".formatted(page.server().port());
        page.driver()
                .get(address + "take/"
                        + page.diary().takes().ofRound(newest.id()).get(0).id());
        String usual = page.see(By.cssSelector("#usual table")).getText();
        assertThat(page.see(By.id("usual")).getText())
                .containsPattern(
                        "Earlier first takes here, [0-9-]{10} to [0-9-]{10}, of days that asked for no clinician: 4 with a continuous extra sound suggested\\.")
                .doesNotContain("unusual");
        assertThat(usual).contains("share of the breathing filled by continuous sounds", "breathing rate heard");
        page.checkScreen("take-usual");
        page.driver().get(address + "round/" + newest.id() + "/end");
        page.title("Next step");
        assertThat(page.see(By.xpath("//tr[contains(., 'SpO2')][@class='unusual']"))
                        .getText())
                .as("SpO2 rose from 92 to 97 in these days")
                .contains("97", "outside");
        page.checkScreen("end-usual");
    }

    /** A danger sign outranks everything, also a page that has lost its program: common practice [C]. */
    @Test
    void aDangerSignThatCannotBeKeptIsAnEmergencyAllTheSame() throws IOException {
        try (BrowserOnPage page = new BrowserOnPage(browser, temp, "wheeze", Size.PHONE)) {
            Round round = page.diary().rounds().start(child(page).id());
            page.driver()
                    .get("http://127.0.0.1:%d/#/round/%s/signs"
                            .formatted(page.server().port(), round.id()));
            page.title("Danger signs first");
            page.online(false);
            try {
                page.press(By.cssSelector("label:has(input[name=choking-or-swelling][value=no])"));
                assertThat(page.see(By.cssSelector(".error")).getText()).contains("cannot reach Lungwort");
                assertThat(page.driver()
                                .findElement(By.cssSelector("input[name=choking-or-swelling][value=no]"))
                                .isSelected())
                        .as("what is not kept is not shown as answered")
                        .isFalse();
                page.press(By.cssSelector("label:has(input[name=choking-or-swelling][value=yes])"));
                assertThat(page.see(By.id("not-kept")).getText())
                        .contains("Call your emergency number now", "could not be kept");
                assertThat(
                                page.driver()
                                        .executeScript(
                                                "const r = document.getElementById('not-kept').getBoundingClientRect(); return r.bottom > 0 && r.top < innerHeight"))
                        .as("it is on the screen")
                        .isEqualTo(true);
            } finally {
                page.online(true);
            }
        }
    }

    @Test
    void twoTabsOfOneRoundBothKeepWhatTheyEntered() throws IOException {
        try (BrowserOnPage page = new BrowserOnPage(browser, temp, "wheeze", Size.DESKTOP)) {
            Round round = ready(page);
            String vitals = "http://127.0.0.1:%d/#/round/%s/vitals"
                    .formatted(page.server().port(), round.id());
            page.driver().get(vitals);
            page.see(By.id("pulse")).sendKeys("120");
            String first = page.driver().getWindowHandle();
            page.driver().switchTo().newWindow(WindowType.TAB);
            firstTake(page, round, "neck");
            record(page, 4);
            page.driver().switchTo().window(first);
            page.press(words("Go on to the chest"));
            page.title("Listen to the chest");

            assertThat(page.driver().findElement(By.tagName("main")).getText())
                    .contains("neck, over the windpipe, first take");
            assertThat(page.diary().takes().ofRound(round.id())).hasSize(1);
            assertThat(page.diary().rounds().get(round.id()).vitals().pulsePerMinute())
                    .isEqualTo(120);
        }
    }

    /** A step pressed instead of the button, a reload, another window: none of them may lose a number, least of all one that is an emergency. */
    @Test
    void whatWasMeasuredIsKeptAsItIsEntered() throws IOException {
        try (BrowserOnPage page = new BrowserOnPage(browser, temp, "wheeze", Size.PHONE)) {
            Round round = ready(page);
            String vitals = "http://127.0.0.1:%d/#/round/%s/vitals"
                    .formatted(page.server().port(), round.id());
            page.driver().get(vitals);
            page.see(By.id("spo2")).sendKeys("95");
            page.press(words("3 Chest"));
            page.title("Listen to the chest");
            assertThat(measured(page, round).spo2Percent()).isEqualTo(95);

            page.driver().navigate().back();
            page.title("Measured and seen");
            assertThat(page.see(By.id("spo2")).getDomProperty("value")).isEqualTo("95");
            page.see(By.id("pulse")).sendKeys("120");
            page.driver().navigate().refresh();
            page.title("Measured and seen");
            page.waiting().until(d -> measured(page, round).pulsePerMinute() != null);
            page.driver().navigate().refresh();
            page.title("Measured and seen");
            assertThat(page.see(By.id("pulse")).getDomProperty("value")).isEqualTo("120");

            String first = page.driver().getWindowHandle();
            page.driver().switchTo().newWindow(WindowType.TAB);
            page.driver().get(vitals);
            page.see(By.id("temperature")).sendKeys("38.5");
            page.press(By.cssSelector("label:has(input[name=fever][value=true])"));
            page.waiting().until(d -> measured(page, round).temperatureCelsius() != null);
            page.driver().switchTo().window(first);
            page.see(By.id("rate")).sendKeys("27");
            page.press(words("Go on to the chest"));
            page.title("Listen to the chest");
            assertThat(measured(page, round).respiratoryRatePerMinute()).isEqualTo(27);
            assertThat(measured(page, round).temperatureCelsius())
                    .as("kept meanwhile in another window")
                    .isEqualTo(38.5);
            assertThat(page.diary().rounds().get(round.id()).symptoms().fever()).isTrue();

            page.driver().get(vitals);
            WebElement spo2 = page.see(By.id("spo2"));
            spo2.clear();
            spo2.sendKeys("85", Keys.TAB);
            assertThat(page.see(By.cssSelector(".alarm")).getText()).contains("SpO2 85 %");
            assertThat(page.faults()).isEmpty();
        }
    }

    /** Half the world writes 38,4; thermometers show °F in some places. Neither may become another number, or vanish. */
    @Test
    void aNumberIsReadAsPeopleWriteItAndAWrongOneIsSaidBesideIt() throws IOException {
        try (BrowserOnPage page = new BrowserOnPage(browser, temp, "wheeze", Size.PHONE)) {
            Round round = ready(page);
            page.driver()
                    .get("http://127.0.0.1:%d/#/round/%s/vitals"
                            .formatted(page.server().port(), round.id()));
            page.see(By.id("temperature")).sendKeys("38,4", Keys.TAB);
            page.see(By.id("spo2")).sendKeys("96 %", Keys.TAB);
            page.waiting().until(d -> measured(page, round).spo2Percent() != null);
            assertThat(measured(page, round).temperatureCelsius()).isEqualTo(38.4);
            assertThat(measured(page, round).spo2Percent()).isEqualTo(96);

            WebElement temperature = page.see(By.id("temperature"));
            temperature.clear();
            temperature.sendKeys("101.5", Keys.TAB);
            assertThat(page.see(By.id("temperature-fault")).getText()).contains("looks like °F");
            page.see(By.id("rate")).sendKeys("240", Keys.TAB);
            assertThat(page.see(By.id("rate-fault")).getText()).startsWith("240 is outside");
            page.see(By.id("pulse")).sendKeys("9x", Keys.TAB);
            assertThat(page.see(By.id("pulse-fault")).getText()).startsWith("Write a number");
            page.checkScreen("vitals-wrong");
            page.press(words("Go on to the chest"));
            assertThat(page.driver().getCurrentUrl())
                    .as("nobody goes on past a number that is not kept")
                    .endsWith("/vitals");
            assertThat(measured(page, round).respiratoryRatePerMinute()).isNull();

            WebElement rate = page.see(By.id("rate"));
            rate.clear();
            rate.sendKeys("24", Keys.TAB);
            page.waiting().until(d -> measured(page, round).respiratoryRatePerMinute() != null);
            assertThat(page.driver().findElement(By.id("rate-fault")).getText()).isEmpty();
        }
    }

    /** A limit read wrongly would raise a false alarm, or none: 9,2 is no 92. */
    @Test
    void aLimitIsReadAsAMeasuredNumberIs() throws IOException {
        try (BrowserOnPage page = new BrowserOnPage(browser, temp, "wheeze", Size.PHONE)) {
            Person mia = child(page);
            page.driver().navigate().refresh();
            page.press(words("Change what is known about Mia"));
            page.press(words("Limits that a clinician set"));
            page.see(By.id("setBy")).sendKeys("Dr Invented");
            page.see(By.id("spo2-today")).sendKeys("9,2", Keys.TAB);
            assertThat(page.see(By.id("spo2-today-fault")).getText()).startsWith("9,2 is outside");
            page.see(By.id("rate-today")).sendKeys("40,5", Keys.TAB);
            assertThat(page.see(By.id("rate-today-fault")).getText()).startsWith("Write a whole number");
            page.checkScreen("person-wrong");
            page.press(words("Limits that a clinician set"));
            page.press(words("Keep"));
            page.title("What is known about Mia");
            assertThat(page.see(By.id("rate-today")).isDisplayed())
                    .as("what is wrong is not folded away")
                    .isTrue();
            assertThat(page.diary().persons().get(mia.id()).limits()).isEqualTo(ClinicianLimits.NONE);

            page.driver().findElement(By.id("rate-today")).clear();
            page.driver().findElement(By.id("spo2-today")).clear();
            page.see(By.id("spo2-today")).sendKeys("92 %", Keys.TAB);
            page.see(By.id("spo2-emergency")).sendKeys("88,0", Keys.TAB);
            page.press(words("Keep"));
            page.title("Who is it about?");
            assertThat(page.diary().persons().get(mia.id()).limits().spo2Below())
                    .isEqualTo(new ClinicianLimits.Limit(92, 88));
        }
    }

    /** A double press is one press: the second must not stop a recording that it began, nor answer the next screen. */
    @Test
    void aDoublePressPressesNothingThatCameUnderTheFinger() throws IOException {
        try (BrowserOnPage page = new BrowserOnPage(browser, temp, "wheeze", Size.PHONE)) {
            Round round = ready(page);
            firstTake(page, round, "back-lower-left");
            page.press(By.id("open"));
            WebElement start = page.see(By.id("start"));
            page.driver().executeScript("arguments[0].scrollIntoView({block:'center'})", start);
            pressTwice(page, start);
            page.waiting()
                    .until(d -> page.see(By.cssSelector(".seconds strong"))
                            .getText()
                            .matches("[2-9] s"));
            page.press(By.id("stop"));
            page.see(By.cssSelector(".result"));
            assertThat(page.diary().takes().ofRound(round.id()))
                    .singleElement()
                    .satisfies(t -> assertThat(t.examination().orElseThrow().durationSeconds())
                            .isGreaterThan(1.5));
        }
    }

    /** Both presses reach the page, a quarter of a second apart, at the place where the element stood. */
    private static void pressTwice(BrowserOnPage page, WebElement element) {
        new Actions(page.driver())
                .moveToElement(element)
                .click()
                .pause(Duration.ofMillis(250))
                .click()
                .perform();
    }

    private static Vitals measured(BrowserOnPage page, Round round) {
        return page.diary().rounds().get(round.id()).vitals();
    }

    /** BTS/SIGN's peak-flow limits are shares of the best: without it they say nothing. */
    @Test
    void aManWithAsthmaIsAskedForHisPeakFlowAndItsBest() throws IOException {
        try (BrowserOnPage page = new BrowserOnPage(browser, temp, "wheeze", Size.DESKTOP)) {
            Person ned = page.diary()
                    .persons()
                    .add("Ned", YearMonth.of(1990, 2), Conditions.of(Condition.ASTHMA), "", ClinicianLimits.NONE);
            Round round = page.diary().rounds().start(ned.id());
            page.diary().rounds().change(round.with(DangerAnswers.noneOf(ned.age(round.day()))));
            page.driver().navigate().refresh();
            page.press(words("Go on with the round"));
            page.title("Measured and seen");
            assertThat(page.see(By.id("peak-flow-hint")).getText()).contains("not written down yet");

            page.driver().executeScript("location.hash = arguments[0]", "/person/" + ned.id());
            page.title("What is known about Ned");
            page.see(By.id("best")).sendKeys("520");
            page.press(words("Keep"));
            page.title("Measured and seen");
            assertThat(page.see(By.id("peak-flow-hint")).getText()).contains("520");
            page.see(By.id("peak-flow")).sendKeys("250", Keys.TAB);
            assertThat(page.see(By.cssSelector(".alarm")).getText()).contains("Peak flow");
        }
    }

    /** More than 2 kg in 3 days: European Society of Cardiology, guide for patients with heart failure [P]. What is made of the number stands beside it at once; pounds and typing errors are seen beside the last one. */
    @Test
    void aManWithHeartFailureIsWeighedAndEveryWeightIsHeldAgainstThoseOfTheLastDays() throws IOException {
        try (BrowserOnPage page = new BrowserOnPage(browser, temp, "wheeze", Size.DESKTOP)) {
            Person pa = page.diary()
                    .persons()
                    .add("Pa", YearMonth.of(1948, 5), Conditions.of(Condition.HEART_FAILURE), "", ClinicianLimits.NONE);
            double[] before = {70.4, 70.0, 70.3};
            for (int i = 0; i < before.length; i++) {
                Round day = page.diary()
                        .rounds()
                        .start(pa.id(), OffsetDateTime.now().minusDays(before.length - i));
                page.diary().rounds().change(day.with(day.vitals().withWeight(before[i])));
            }
            Round round = page.diary().rounds().start(pa.id());
            page.diary().rounds().change(round.with(DangerAnswers.noneOf(pa.age(round.day()), pa.conditions())));
            page.driver().executeScript("location.hash = arguments[0]", "/round/" + round.id() + "/vitals");
            page.title("Measured and seen");
            assertThat(page.see(By.id("weight-hint")).getText())
                    .contains("Last: 70.3 kg on ", "the day before", "same scale", "does not mean well");

            weigh(page, "154");
            assertThat(page.see(By.id("said-weight-far")).getText()).contains("Weight 154.0 kg is far from 70.3 kg");
            weigh(page, "72,4");
            assertThat(page.see(By.id("said-weight-rise")).getText())
                    .startsWith("Be seen today.")
                    .contains("It is 72.4 kg now and was 70.0 kg on ", "2 days before", "the numbers say");
            assertThat(page.driver().findElements(By.id("said-weight-far"))).isEmpty();
            page.checkScreen("weight");

            weigh(page, "724");
            assertThat(page.see(By.id("weight-fault")).getText()).contains("724", "1 to 350 kg");
            assertThat(measured(page, round).weightKg()).isEqualTo(72.4);
            weigh(page, "72,4");

            page.driver().executeScript("location.hash = arguments[0]", "/diary/" + pa.id());
            page.title("Diary of Pa");
            assertThat(page.see(By.id("weight-words")).getText())
                    .contains("72.4 kg on ", "lowest 70.0 kg", "Told here, not judged");
            page.see(By.cssSelector("[data-measure=weight] canvas"));
            page.picture("weight-trend");
            assertThat(page.faults()).isEmpty();
        }
    }

    /** Common practice [C]: more oxygen for the same SpO2 is a change. The flow is asked only with oxygen, and what is made of it stands beside it at once. */
    @Test
    void theFlowOfOxygenIsAskedWithOxygenAloneAndHeldAgainstThatOfEarlierDays() throws IOException {
        try (BrowserOnPage page = new BrowserOnPage(browser, temp, "wheeze", Size.PHONE)) {
            Person pa = page.diary()
                    .persons()
                    .add("Pa", YearMonth.of(1948, 5), Conditions.of(Condition.COPD), "", ClinicianLimits.NONE);
            for (int before = 3; before >= 1; before--) {
                Round day = page.diary()
                        .rounds()
                        .start(pa.id(), OffsetDateTime.now().minusDays(before));
                page.diary()
                        .rounds()
                        .change(day.with(
                                day.vitals().withSpo2(96).withOnOxygen(true).withOxygenFlow(2.0)));
            }
            Round round = page.diary().rounds().start(pa.id());
            page.diary().rounds().change(round.with(DangerAnswers.noneOf(pa.age(round.day()), pa.conditions())));
            page.driver().executeScript("location.hash = arguments[0]", "/round/" + round.id() + "/vitals");
            page.title("Measured and seen");
            assertThat(page.driver().findElements(By.id("oxygen-flow"))).isEmpty();

            page.see(By.id("spo2")).sendKeys("96", Keys.TAB);
            page.press(By.cssSelector("label:has(input[name=oxygen][value=true])"));
            assertThat(page.see(By.id("oxygen-flow-hint")).getText())
                    .contains("Before: 2 l/min with SpO2 96 %", "only as the clinician who ordered the oxygen said");
            page.see(By.id("oxygen-flow")).sendKeys("3,5", Keys.TAB);
            assertThat(page.see(By.id("said-more-oxygen")).getText())
                    .startsWith("Be seen today.")
                    .contains("3.5 l/min now with SpO2 96 %, and was 2 l/min");
            page.checkScreen("oxygen-flow");

            page.press(By.cssSelector("label:has(input[name=oxygen][value=false])"));
            page.waiting().until(d -> measured(page, round).oxygenLitresPerMinute() == null);
            assertThat(page.driver().findElements(By.id("oxygen-flow"))).isEmpty();
            assertThat(page.driver().findElements(By.id("said-more-oxygen"))).isEmpty();
            page.press(By.cssSelector("label:has(input[name=oxygen][value=true])"));
            assertThat(page.see(By.id("oxygen-flow")).getDomProperty("value")).isEmpty();
            page.see(By.id("oxygen-flow")).sendKeys("3", Keys.TAB);
            page.see(By.id("said-more-oxygen"));
            assertThat(measured(page, round).oxygenLitresPerMinute()).isEqualTo(3.0);

            page.driver().executeScript("location.hash = arguments[0]", "/diary/" + pa.id());
            page.title("Diary of Pa");
            assertThat(page.see(By.id("oxygen-flow-words")).getText())
                    .contains("3 l/min on ", "lowest 2 l/min", "Told here, not judged");
            assertThat(page.see(By.id("newest-flow-words")).getText())
                    .as("within the usual SpO2, but on more oxygen")
                    .isEqualTo(
                            "SpO2 of the newest day: measured on more oxygen than before: 3 l/min now, 2 l/min before.");
            page.see(By.cssSelector("[data-measure=oxygen-flow] canvas"));
            page.picture("oxygen-flow-trend");
            assertThat(page.faults()).isEmpty();
        }
    }

    /** A baby has hundredths of a litre: on a scale that ends at a whole litre a flow that doubles would look flat. */
    @Test
    void aFlowThatDoublesLooksDoubledHoweverSmallItIs() throws IOException {
        try (BrowserOnPage page = new BrowserOnPage(browser, temp, "wheeze", Size.PHONE)) {
            Person kim = page.diary()
                    .persons()
                    .add("Kim", YearMonth.now().minusMonths(6), Conditions.NONE, "", ClinicianLimits.NONE);
            double[] flows = {0.06, 0.06, 0.125};
            for (int i = 0; i < flows.length; i++) {
                Round day = page.diary()
                        .rounds()
                        .start(kim.id(), OffsetDateTime.now().minusDays(flows.length - i));
                page.diary()
                        .rounds()
                        .change(day.with(
                                day.vitals().withSpo2(96).withOnOxygen(true).withOxygenFlow(flows[i])));
            }
            page.driver().executeScript("location.hash = arguments[0]", "/diary/" + kim.id());
            page.title("Diary of Kim");
            page.see(By.cssSelector("[data-measure=oxygen-flow] canvas"));
            page.picture("oxygen-flow-of-a-baby");

            assertThat((Double) page.driver().executeScript("""
                            const canvas = document.querySelector('[data-measure=oxygen-flow] canvas');
                            const line = document.createElement('canvas').getContext('2d');
                            line.fillStyle = getComputedStyle(document.documentElement).getPropertyValue('--main').trim();
                            line.fillRect(0, 0, 1, 1);
                            const wanted = line.getImageData(0, 0, 1, 1).data;
                            const { data, width, height } = canvas.getContext('2d').getImageData(0, 0, canvas.width, canvas.height);
                            const rows = [];
                            for (let i = 0; i < width * height; i++) {
                              if ([0, 1, 2].every((c) => data[4 * i + c] === wanted[c]) && data[4 * i + 3] === 255) {
                                rows.push(Math.floor(i / width));
                              }
                            }
                            return (rows.at(-1) - rows[0]) / height + 1e-9;
                            """))
                    .as("share of the plot's height from the lowest to the highest flow")
                    .isGreaterThan(0.25);
            assertThat(page.see(By.id("oxygen-flow-words")).getText()).contains("0.125 l/min on ", "lowest 0.06 l/min");
            assertThat(page.faults()).isEmpty();
        }
    }

    private static void weigh(BrowserOnPage page, String written) {
        page.see(By.id("weight")).sendKeys(Keys.chord(Keys.CONTROL, "a"), written, Keys.TAB);
    }

    @Test
    void theKeyboardAloneIsEnough() throws IOException {
        try (BrowserOnPage page = new BrowserOnPage(browser, temp, "wheeze", Size.DESKTOP)) {
            child(page);
            page.driver().navigate().refresh();
            page.title("Who is it about?");
            Keyboard keys = new Keyboard(page);
            keys.to("Start a round for Mia").press(Keys.ENTER);
            page.title("Danger signs first");
            keys.to("none is there").press(Keys.ENTER);
            page.title("Measured and seen");
            keys.to("spo2").type("96");
            keys.to("Go on to the chest").press(Keys.ENTER);
            page.title("Listen to the chest");
            keys.to("side, lower, left: still open").press(Keys.SPACE);
            keys.back("Record here").press(Keys.ENTER);
            page.title("Record: side, lower, left");
            keys.to("Switch the microphone on").press(Keys.ENTER);
            page.see(By.id("start"));
            keys.at("Start recording").press(Keys.ENTER);
            page.waiting()
                    .until(d -> page.see(By.cssSelector(".seconds strong"))
                            .getText()
                            .matches("[6-9] s"));
            keys.at("Stop and examine").press(Keys.ENTER);
            page.see(By.cssSelector(".evidence button"));
            keys.to("Wheeze at").press(Keys.ENTER);
            page.see(By.cssSelector(".evidence button.chosen"));
        }
    }

    /** Tab, Enter, Space: what a person without a mouse has. */
    private static final class Keyboard {
        private static final int MOST_TABS = 150;
        private final BrowserOnPage page;

        Keyboard(BrowserOnPage page) {
            this.page = page;
        }

        private static String name(WebElement element) {
            String label = element.getDomAttribute("aria-label");
            String id = element.getDomAttribute("id");
            return element.getText().strip() + " " + (label == null ? "" : label) + " " + (id == null ? "" : id);
        }

        Keyboard at(String words) {
            page.waiting().until(d -> name(d.switchTo().activeElement()).contains(words));
            return this;
        }

        Keyboard to(String words) {
            return move(words, Keys.TAB);
        }

        Keyboard back(String words) {
            return move(words, Keys.chord(Keys.SHIFT, Keys.TAB));
        }

        private Keyboard move(String words, CharSequence key) {
            for (int i = 0; i < MOST_TABS; i++) {
                WebElement now = page.driver().switchTo().activeElement();
                if (name(now).contains(words)
                        && !now.getTagName().equals("body")
                        && !now.getTagName().equals("main")) {
                    return this;
                }
                new Actions(page.driver()).sendKeys(key).perform();
            }
            throw new AssertionError("the keyboard does not reach: " + words);
        }

        void press(CharSequence key) {
            new Actions(page.driver()).sendKeys(key).perform();
        }

        void type(String words) {
            new Actions(page.driver()).sendKeys(words).perform();
        }
    }

    @Test
    void aFileIsBroughtAndADamagedOneIsOneSentence() throws IOException {
        try (BrowserOnPage page = new BrowserOnPage(browser, temp, "fine-crackles", Size.PHONE)) {
            Round round = ready(page);
            page.diary()
                    .rounds()
                    .change(page.diary()
                            .rounds()
                            .get(round.id())
                            .with(new Symptoms(Breathlessness.AT_REST, false, false, false)));
            firstTake(page, round, "back-lower-left");
            Path damaged = Files.write(temp.resolve("damaged.wav"), new byte[] {'R', 'I', 'F', 'F', 1, 2, 3});
            page.see(By.id("file")).sendKeys(damaged.toString());
            assertThat(page.see(By.cssSelector(".error[role=alert]")).getText()).startsWith("damaged.wav");
            page.checkScreen("damaged-file");

            page.see(By.id("file")).sendKeys(temp.resolve("microphone.wav").toString());
            page.see(By.cssSelector(".result"));
            assertThat(page.see(By.id("so-far")).getText())
                    .as("what does not wait is told before the last place")
                    .contains(Outcome.BE_SEEN_TODAY.words());
            assertThat(page.see(By.id("other-kind")).getText())
                    .as("synthesised sounds are unlike what was learnt from: the other kind is not told to be missing")
                    .contains("can miss a wheeze");
            page.press(words("What moved the suggestion most"));
            assertThat(page.see(By.cssSelector(".result details")).getText())
                    .contains("a continuous sound not told (it can miss most here), crackles ");

            page.driver().navigate().back();
            page.title("Record: back, lower, left");
            page.see(By.id("file")).sendKeys(temp.resolve("microphone.wav").toString());
            assertThat(page.see(By.cssSelector(".error[role=alert]")).getText()).contains("in the round already");
            page.see(By.id("file")).sendKeys(elevenMinutes().toString());
            page.waiting()
                    .until(d -> page.see(By.cssSelector(".error[role=alert]"))
                            .getText()
                            .contains("longer than the 10 minutes"));

            assertThat(page.diary().takes().ofRound(round.id()))
                    .singleElement()
                    .satisfies(t -> assertThat(t.fileName()).isEqualTo("microphone.wav"));
            emergencyNumberAndOlderFile(page, round);
        }
    }

    /** The number is set elsewhere than what was measured; and the file of an earlier round would answer for today's chest. */
    private void emergencyNumberAndOlderFile(BrowserOnPage page, Round round) {
        page.driver()
                .get("http://127.0.0.1:%d/#/round/%s/end"
                        .formatted(page.server().port(), round.id()));
        assertThat(page.see(By.cssSelector("main li a[href='#/settings']")).getText())
                .contains("which number to call in an emergency");
        Round later = page.diary().rounds().start(round.personId());
        firstTake(page, later, "back-lower-left");
        page.see(By.id("file")).sendKeys(temp.resolve("microphone.wav").toString());
        assertThat(page.see(By.cssSelector(".error[role=alert]")).getText())
                .contains("the very recording that stands in the round of " + round.day());
        assertThat(page.diary().takes().ofRound(later.id())).isEmpty();
    }

    /** Too long for the program, no trouble for a browser that decodes it. */
    private Path elevenMinutes() {
        Path file = temp.resolve("long.wav");
        WavWriter.write(file, new Recording(new double[11 * 60 * 4000], 4000, "long"), WavWriter.Encoding.PCM_16);
        return file;
    }

    /** Who puts a file at the wrong place is shown the way out, and goes it by keyboard. */
    @ParameterizedTest
    @EnumSource
    void aTakeAtAWrongPlaceIsTakenOutAfterAskingOnce(Size size) throws IOException {
        try (BrowserOnPage page = new BrowserOnPage(browser, temp, "wheeze", size)) {
            Round round = ready(page);
            byte[] sound = Files.readAllBytes(temp.resolve("microphone.wav"));
            RoundService service = ShippedExaminer.rounds(page.diary());
            Take kept = service.add(
                    new NewTake(round.id(), Sites.of("neck"), TakeReason.FIRST, "kept.wav"),
                    WavWriter.toBytes(new Recording(new double[40_000], 4000, "silence"), WavWriter.Encoding.PCM_16));
            Take wrong = service.add(
                    new NewTake(round.id(), Sites.of("back-lower-right"), TakeReason.FIRST, "wrong.wav"), sound);
            firstTake(page, round, "back-lower-left");
            page.see(By.cssSelector("input[type=file]"))
                    .sendKeys(temp.resolve("microphone.wav").toString());
            assertThat(page.see(By.cssSelector("[role=alert]")).getText())
                    .contains("take that one out (step 3, below the drawing: Recorded so far)");

            page.driver()
                    .get("http://127.0.0.1:%d/#/round/%s/chest"
                            .formatted(page.server().port(), round.id()));
            By ask = By.id("take-out-" + wrong.id());
            page.see(ask).sendKeys(Keys.ENTER);
            assertThat(page.see(By.id("take-out-sure")).getText())
                    .startsWith("Take out back, lower, right, first take (wrong.wav)?")
                    .contains("deleted for good");
            page.checkScreen("take-out");
            page.press(words("Cancel"));
            assertThat(page.driver().switchTo().activeElement().getDomAttribute("id"))
                    .as("who cancels stands where they were")
                    .isEqualTo("take-out-" + wrong.id());
            assertThat(page.diary().takes().ofRound(round.id())).containsExactly(kept, wrong);

            page.press(ask);
            page.see(words("Yes, take it out")).sendKeys(Keys.ENTER);
            assertThat(page.see(By.id("taken-out")).getText()).startsWith("Taken out: back, lower, right, first take.");
            assertThat(page.driver().findElements(ask)).isEmpty();
            assertThat(page.diary().takes().ofRound(round.id())).containsExactly(kept);
            assertThat(page.diary().recordings().path(wrong.recordingSha256())).doesNotExist();
            assertThat(page.diary().recordings().path(kept.recordingSha256())).exists();
            page.checkScreen("taken-out");

            service.finish(round.id());
            page.driver().navigate().refresh();
            page.title("Listen to the chest");
            page.see(words("neck"));
            assertThat(page.driver().findElements(By.id("take-out-" + kept.id())))
                    .as("what a clinician was shown is not changed afterwards")
                    .isEmpty();
            assertThat(page.faults()).isEmpty();
        }
    }

    @Test
    void theDiaryErasesOnlyAfterAskingTwice() throws IOException {
        try (BrowserOnPage page = new BrowserOnPage(browser, temp, "usual", Size.PHONE)) {
            Round round = ready(page);
            page.driver()
                    .get("http://127.0.0.1:%d/#/diary/%s"
                            .formatted(page.server().port(), round.personId()));
            page.title("Diary of Mia");
            page.press(By.id("erase"));
            page.see(By.id("erase-name")).sendKeys("Ma");
            page.press(words("Erase for good"));
            assertThat(page.see(By.cssSelector(".error[role=alert]")).getText()).contains("nothing was erased");
            page.checkScreen("erase");
            assertThat(page.diary().persons().all()).hasSize(1);

            WebElement name = page.see(By.id("erase-name"));
            name.clear();
            name.sendKeys("Mia");
            page.press(words("Erase for good"));
            page.title("Who is it about?");
            assertThat(page.diary().persons().all()).isEmpty();
        }
    }

    private static String when(BrowserOnPage page, String text) {
        return (String) page.driver()
                .executeAsyncScript(
                        "import('/js/ui.js').then((ui) => arguments[arguments.length - 1](ui.when(arguments[0])))",
                        text);
    }

    private static void clockOfTheBrowser(BrowserOnPage page, String zone) {
        page.driver().executeCdpCommand("Emulation.setTimezoneOverride", Map.of("timezoneId", zone));
    }

    /** Clocks in Berlin went back on 2026-10-25 at 03:00 (IANA time zone database). [P] Times are told as on the clock where they were written down. [C] */
    @Test
    void timesAreThoseOfTheClockWhereTheyWereWrittenDown() throws IOException {
        try (BrowserOnPage page = new BrowserOnPage(browser, temp, "usual", Size.PHONE)) {
            clockOfTheBrowser(page, "Europe/Berlin");
            try {
                assertThat(when(page, "2026-10-24T14:05:00.123+02:00"))
                        .contains("24", "05")
                        .doesNotContain("UTC");
                assertThat(when(page, "2026-10-25T02:30+02:00"))
                        .contains("02:30")
                        .endsWith(" (UTC+02:00)");
                assertThat(when(page, "2026-10-25T02:30+01:00"))
                        .contains("02:30")
                        .endsWith(" (UTC+01:00)");
                assertThat(when(page, "2026-10-25T08:30+01:00"))
                        .contains("08:30")
                        .doesNotContain("UTC");
                // late on the 1st in New York, when it was the 2nd in Berlin
                assertThat(when(page, "2026-06-01T23:10-04:00"))
                        .contains("1", "10")
                        .endsWith(" (UTC-04:00)");
                assertThat(when(page, "2026-06-01T07:10Z")).contains("07:10").endsWith(" (UTC+00:00)");

                Person mia = child(page);
                OffsetDateTime inTokyo =
                        OffsetDateTime.now(ZoneOffset.ofHours(9)).minusHours(2).withNano(0);
                Round unused = page.diary().rounds().start(mia.id(), inTokyo);
                page.driver()
                        .get("http://127.0.0.1:%d/#/diary/%s"
                                .formatted(page.server().port(), mia.id()));
                page.title("Diary of Mia");
                assertThat(page.see(By.cssSelector("#main h3")).getText())
                        .contains(DateTimeFormatter.ofPattern(":mm").format(inTokyo))
                        .endsWith("(UTC+09:00)");
                page.checkScreen("diary-of-a-journey");
            } finally {
                clockOfTheBrowser(page, "");
            }
        }
    }

    @ParameterizedTest
    @EnumSource
    void theEquipmentCheckAndTheSettingsSayWhatTheyMean(Size size) throws IOException {
        try (BrowserOnPage page = new BrowserOnPage(browser, temp, "usual", size)) {
            page.press(words("Equipment check"));
            page.title("Equipment check");
            assertThat(page.see(By.id("test-tap")).getAccessibleName()).isEqualTo("Start: Tap");
            page.press(By.id("test-silence"));
            page.see(By.cssSelector("#main .cards li:first-child .note, #main .cards li:first-child .warn"));
            page.waiting()
                    .until(d -> d.findElement(By.cssSelector("#main .cards li:first-child"))
                            .getText()
                            .contains("Once more"));
            page.checkScreen("equipment");
            page.press(words("Settings"));
            page.title("Settings");
            page.press(words("°F"));
            page.press(words("Keep"));
            page.see(By.id("kept"));
            page.waiting()
                    .until(d -> "Kept."
                            .equals(d.findElement(By.cssSelector("[role=status]"))
                                    .getDomProperty("textContent")));
            page.checkScreen("settings");
            assertThat(page.diary().settings().temperatureUnit().name()).isEqualTo("FAHRENHEIT");
        }
    }
}
