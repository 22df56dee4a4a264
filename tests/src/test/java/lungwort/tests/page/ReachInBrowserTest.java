package lungwort.tests.page;

import static lungwort.tests.page.BrowserOnPage.words;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import lungwort.cli.ShippedExaminer;
import lungwort.diary.NewTake;
import lungwort.diary.Person;
import lungwort.diary.Round;
import lungwort.diary.Take;
import lungwort.guidance.DangerAnswers;
import lungwort.guidance.Sites;
import lungwort.guidance.TakeReason;
import lungwort.guidance.Vitals;
import lungwort.tests.page.BrowserOnPage.Size;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.openqa.selenium.By;
import org.openqa.selenium.Keys;
import org.openqa.selenium.support.ui.Select;

/** The page for whoever goes by keyboard, hears it, sees it in colours or letters of their own, or loses the microphone in the middle. */
class ReachInBrowserTest extends InBrowser {
    /** Shows to the test which microphone and which sound way the page uses. */
    private static final String LOOK_ON = """
            const open = navigator.mediaDevices.getUserMedia.bind(navigator.mediaDevices);
            navigator.mediaDevices.getUserMedia = async (wanted) => {
              await window.late;
              const stream = await open(wanted);
              window.track = stream.getAudioTracks()[0];
              return stream;
            };
            const Way = window.AudioContext;
            window.AudioContext = class extends Way {
              constructor() {
                super();
                window.way = this;
              }
            };
            """;

    private static void open(BrowserOnPage page, String screen) {
        page.driver().get("http://127.0.0.1:%d/#%s".formatted(page.server().port(), screen));
    }

    /** Without a new page, so that what the page still has to do is not cut off. */
    private static void step(BrowserOnPage page, String screen) {
        page.driver().executeScript("location.hash = arguments[0]", screen);
    }

    private static void recordedSeconds(BrowserOnPage page, String pattern) {
        page.waiting()
                .until(d ->
                        page.see(By.cssSelector(".seconds strong")).getText().matches(pattern + " s"));
    }

    /** Waits until the focus is on an element of that id. */
    private static void at(BrowserOnPage page, String id) {
        page.waiting()
                .withMessage(() -> "the focus is on "
                        + page.driver().switchTo().activeElement().getDomProperty("outerHTML"))
                .until(d -> id.equals(d.switchTo().activeElement().getDomAttribute("id")));
    }

    private static void said(BrowserOnPage page, String words) {
        page.waiting()
                .withMessage(() -> "said was: "
                        + page.driver().findElement(By.id("status")).getDomProperty("textContent"))
                .until(d -> String.valueOf(d.findElement(By.id("status")).getDomProperty("textContent"))
                        .contains(words));
    }

    /** Unplugged, as a browser tells it; and fallen silent without a word. The silence after it is none of the chest. */
    @ParameterizedTest
    @ValueSource(strings = {"track.stop(); track.dispatchEvent(new Event('ended'))", "way.suspend()"})
    void aMicrophoneThatGoesEndsTheRecordingAndWhatCameBeforeIsKept(String goes) throws IOException {
        try (BrowserOnPage page = new BrowserOnPage(browser, temp, "wheeze", Size.PHONE)) {
            Round round = ready(page);
            firstTake(page, round, "back-lower-left");
            page.driver().executeScript(LOOK_ON);
            startRecording(page);
            recordedSeconds(page, "[5-9]");
            page.driver().executeScript(goes);

            at(page, "examine");
            assertThat(page.see(By.cssSelector("#cut [role=alert]")).getText())
                    .contains("Nothing comes from the microphone any more")
                    .containsPattern("is kept: \\d+ s");
            page.checkScreen("cut");
            page.press(By.id("anew"));
            at(page, "open");
            page.press(By.id("open"));
            page.see(By.id("start"));
            page.driver().executeScript("track.stop(); track.dispatchEvent(new Event('ended'))");
            assertThat(page.see(By.cssSelector(".error[role=alert]")).getText()).contains("Nothing comes from");
            assertThat(page.driver().findElements(By.id("start")))
                    .as("nothing is recorded with a microphone that is gone")
                    .isEmpty();

            step(page, "/round/" + round.id() + "/chest");
            page.press(words("Keep and examine it"));
            page.see(By.cssSelector(".result"));
            assertThat(page.diary().takes().ofRound(round.id()))
                    .singleElement()
                    .satisfies(t -> assertThat(t.examination().orElseThrow().pauses())
                            .as("the silence of a missing microphone is no pause of the breath")
                            .isEmpty());
        }
    }

    @Test
    void aMicrophoneThatOpensAfterItsScreenWasLeftIsSwitchedOffAgain() throws IOException {
        try (BrowserOnPage page = new BrowserOnPage(browser, temp, "wheeze", Size.PHONE)) {
            Round round = ready(page);
            firstTake(page, round, "back-lower-left");
            page.driver().executeScript(LOOK_ON + "window.late = new Promise((go) => { window.allow = go; });");
            page.press(By.id("open"));
            step(page, "/round/" + round.id() + "/chest");
            page.title("Listen to the chest");
            page.driver().executeScript("allow()");
            page.waiting()
                    .until(d -> "ended"
                            .equals(page.driver().executeScript("return window.track && window.track.readyState")));
        }
    }

    @Test
    void whatCouldNotBeSentFollowsThoughTheScreenWasLeft() throws IOException {
        try (BrowserOnPage page = new BrowserOnPage(browser, temp, "wheeze", Size.PHONE)) {
            Round round = ready(page);
            firstTake(page, round, "back-lower-left");
            startRecording(page);
            recordedSeconds(page, "[2-9]");
            page.block("*/samples*");
            page.see(By.cssSelector(".error[role=alert]"));
            sleepSeconds(5);
            step(page, "/round/" + round.id() + "/chest");
            page.title("Listen to the chest");
            assertThat(page.driver()
                            .executeScript("const leaving = new Event('beforeunload', { cancelable: true });"
                                    + "dispatchEvent(leaving); return leaving.defaultPrevented"))
                    .as("whoever closes the page now is asked first")
                    .isEqualTo(true);
            page.block();
            sleepSeconds(4);
            page.driver().navigate().refresh();
            page.waiting()
                    .until(d -> page.see(By.cssSelector(".card.warn"))
                            .getText()
                            .matches("(?s).* ([7-9]|[1-9][0-9]) seconds are saved.*"));

            step(page, "/round/" + round.id() + "/end");
            assertThat(page.see(By.id("waiting")).getText())
                    .as("what was cut off is not taken for nothing at the end of the round")
                    .contains("not examined yet: back, lower, left");
        }
    }

    /** A key that is held presses about 30 times a second. */
    @Test
    void aKeyHeldDownPressesNothingThatCameInItsPlace() throws IOException {
        try (BrowserOnPage page = new BrowserOnPage(browser, temp, "wheeze", Size.PHONE)) {
            Round round = ready(page);
            firstTake(page, round, "back-lower-left");
            page.press(By.id("open"));
            at(page, "start");
            sleepSeconds(1);
            for (int i = 0; i < 15; i++) {
                key(page, "keyDown", i > 0);
                if (i == 0) {
                    at(page, "stop");
                }
            }
            key(page, "keyUp", false);
            recordedSeconds(page, "[2-9]");
            page.see(By.id("stop")).sendKeys(Keys.ENTER);
            page.see(By.cssSelector(".result"));
        }
    }

    private static void key(BrowserOnPage page, String type, boolean repeated) {
        Map<String, Object> key = new HashMap<>(Map.of(
                "type", type, "key", "Enter", "code", "Enter", "windowsVirtualKeyCode", 13, "autoRepeat", repeated));
        if (type.equals("keyDown")) {
            key.put("text", "\r");
        }
        page.driver().executeCdpCommand("Input.dispatchKeyEvent", key);
    }

    @Test
    void whereTheChosenMicrophoneIsGoneAnotherCanBeChosen() throws IOException {
        try (BrowserOnPage page = new BrowserOnPage(browser, temp, "wheeze", Size.PHONE)) {
            Round round = ready(page);
            page.driver().executeScript("localStorage.setItem('microphone', 'the stethoscope of yesterday')");
            firstTake(page, round, "back-lower-left");
            page.press(By.id("open"));
            assertThat(page.see(By.cssSelector(".error[role=alert]")).getText())
                    .startsWith("The microphone that was chosen is not there.");
            page.driver().executeScript("""
                            window.gone = 0;
                            const sentence = document.querySelector('.error[role=alert]');
                            new MutationObserver(() => { window.gone += sentence.hidden ? 1 : 0; }).observe(sentence, { attributes: true });
                            """);
            page.press(By.id("open"));
            page.waiting()
                    .withMessage("the same sentence is read aloud again")
                    .until(d -> Long.valueOf(1).equals(page.driver().executeScript("return window.gone")));
            Select device = new Select(page.see(By.id("device")));
            assertThat(device.getFirstSelectedOption().getText()).isEqualTo("The one chosen before (not there)");
            page.checkScreen("microphone-gone");
            device.selectByVisibleText("The computer's usual one");
            page.see(By.id("start"));
            assertThat(page.driver().findElements(By.cssSelector(".error"))).isEmpty();
        }
    }

    /** "None heard" alone would be taken for good news. */
    @Test
    void whoHearsThePageHearsWhatASuggestionIsWorth() throws IOException {
        try (BrowserOnPage page = new BrowserOnPage(browser, temp, "usual", Size.PHONE)) {
            Round round = ready(page);
            Take take = ShippedExaminer.rounds(page.diary())
                    .add(
                            new NewTake(round.id(), Sites.of("back-lower-left"), TakeReason.FIRST, "a.wav"),
                            Files.readAllBytes(temp.resolve("microphone.wav")));
            open(page, "/take/" + take.id());
            said(page, "Danger signs and measured values count more");
        }
    }

    @Test
    void theFocusGoesAlongWithWhatIsDone() throws IOException {
        try (BrowserOnPage page = new BrowserOnPage(browser, temp, "usual", Size.DESKTOP)) {
            Round round = ready(page);
            open(page, "/round/" + round.id() + "/signs");
            page.press(words("Not sure: take it back"));
            page.waiting()
                    .until(d -> "radio".equals(d.switchTo().activeElement().getDomAttribute("type")));

            open(page, "/round/" + round.id() + "/vitals");
            page.press(By.id("count"));
            at(page, "breath");
            page.driver()
                    .executeScript(
                            "const now = performance.now.bind(performance); performance.now = () => now() + 61000;");
            at(page, "counted");
            page.press(words("Count again"));
            at(page, "breath");
            page.press(words("Stop counting"));
            at(page, "count");
            page.see(By.id("spo2")).sendKeys("80");
            page.press(words("Go on to the chest"));
            page.waiting()
                    .until(d -> "alarm".equals(d.switchTo().activeElement().getDomAttribute("class")));

            open(page, "/round/" + round.id() + "/end");
            page.see(By.id("note")).sendKeys("slept badly");
            page.press(words("Keep the note"));
            said(page, "Kept.");
            notesAndRoundsInTheDiary(page, round);
        }
    }

    private static void notesAndRoundsInTheDiary(BrowserOnPage page, Round round) {
        open(page, "/diary/" + round.personId());
        page.see(By.id("words"));
        String note =
                page.diary().notes().ofPerson(round.personId()).get(0).id().toString();
        page.press(By.id("delete-" + note));
        at(page, "delete-note");
        page.press(words("Cancel"));
        at(page, "delete-" + note);
        page.press(By.id("change-" + note));
        at(page, "change-note");
        page.press(words("Cancel"));
        at(page, "change-" + note);
        page.press(By.id("erase-" + round.id()));
        at(page, "erase-title");
        page.press(words("Cancel"));
        at(page, "erase-" + round.id());
        page.press(By.id("erase-" + round.id()));
        page.see(By.id("erase-name")).sendKeys("Mia");
        page.press(words("Erase for good"));
        at(page, "done");
    }

    @Test
    void aTrendHasANameForWhoHearsThePage() throws IOException {
        try (BrowserOnPage page = new BrowserOnPage(browser, temp, "usual", Size.PHONE)) {
            Round round = ready(page);
            page.diary().rounds().change(page.diary().rounds().get(round.id()).with(Vitals.NONE.withSpo2(97)));
            open(page, "/diary/" + round.personId());
            assertThat(page.see(By.cssSelector(".plot[role=img]")).getAccessibleName())
                    .isEqualTo("SpO2 from day to day, as a line; the table below holds the same numbers");
        }
    }

    /** Colours of the person's own take away every filled ground, which is all that an alarm and a chosen answer were made of. */
    @Test
    void anAlarmAndAnAnswerStandOutInColoursOfThePersonsOwn() throws IOException {
        try (BrowserOnPage page = new BrowserOnPage(browser, temp, "usual", Size.PHONE)) {
            Person person = child(page);
            Round round = page.diary().rounds().start(person.id());
            DangerAnswers none = DangerAnswers.noneOf(person.age(round.day()));
            page.diary().rounds().change(round.with(none.correctedBy(new DangerAnswers(Set.of("blue"), Set.of()))));
            open(page, "/round/" + round.id() + "/signs");
            page.see(By.cssSelector(".alarm"));
            page.driver()
                    .executeCdpCommand(
                            "Emulation.setEmulatedMedia",
                            Map.of("features", List.of(Map.of("name", "forced-colors", "value", "active"))));
            try {
                assertThat(page.see(By.cssSelector(".alarm")).getCssValue("border-top-style"))
                        .isEqualTo("solid");
                assertThat(page.see(By.cssSelector(".option input:checked + span"))
                                .getCssValue("background-color"))
                        .isNotEqualTo(page.see(By.cssSelector(".option input:not(:checked) + span"))
                                .getCssValue("background-color"));
                page.picture("forced-colours");
            } finally {
                page.colourScheme("light");
            }
        }
    }

    /** Letters of more than twice the size beside the answers left no room for the questions. */
    @Test
    void aDangerSignCanBeReadInVeryLargeLetters() throws IOException {
        try (BrowserOnPage page = new BrowserOnPage(browser, temp, "usual", Size.DESKTOP)) {
            Round round = ready(page);
            open(page, "/round/" + round.id() + "/signs");
            page.see(By.cssSelector(".sign legend"));
            page.driver().executeScript("document.documentElement.style.fontSize = '450%'");
            double question = page.see(By.cssSelector(".sign legend")).getRect().getWidth();
            double row = page.see(By.cssSelector(".sign")).getRect().getWidth();
            page.driver().executeScript("document.documentElement.style.fontSize = ''");
            assertThat(question / row).isGreaterThan(0.75);
        }
    }
}
