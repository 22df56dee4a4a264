package lungwort.tests.page;

import static lungwort.tests.page.BrowserOnPage.words;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;
import lungwort.diary.Person;
import lungwort.diary.Round;
import lungwort.guidance.ClinicianLimits;
import lungwort.guidance.DangerAnswers;
import lungwort.tests.page.BrowserOnPage.Size;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.openqa.selenium.By;

/** A window that shows a round while another window, another page or a command changes it: nothing that stood there goes on to reassure. */
class TwoWindowsInBrowserTest extends InBrowser {
    /** As a window that lies behind others, and is not come back to yet. */
    private static final String BEHIND =
            "Object.defineProperty(document, 'hidden', { configurable: true, get: () => true })";

    private static final String IN_FRONT =
            "delete document.hidden; document.dispatchEvent(new Event('visibilitychange'))";

    private static void open(BrowserOnPage page, String screen) {
        page.driver().get("http://127.0.0.1:%d/#%s".formatted(page.server().port(), screen));
    }

    /** What another window answers. */
    private static void answerBlue(BrowserOnPage page, Round round) {
        Round now = page.diary().rounds().get(round.id());
        page.diary().rounds().change(now.with(now.dangerSigns().correctedBy(DangerAnswers.yes("blue"))));
    }

    private static String main(BrowserOnPage page) {
        return page.driver().findElement(By.tagName("main")).getText();
    }

    @ParameterizedTest
    @ValueSource(strings = {"end", "signs", "vitals", "chest", "record/neck/first"})
    void anEmergencyOfAnotherWindowIsToldOnEveryScreen(String screen) throws IOException {
        try (BrowserOnPage page = new BrowserOnPage(browser, temp, "wheeze", Size.DESKTOP)) {
            Round round = ready(page);
            open(page, "/round/%s/%s".formatted(round.id(), screen));
            page.see(By.cssSelector(".steps"));
            assertThat(page.driver().findElements(By.cssSelector(".alarm"))).isEmpty();

            answerBlue(page, round);

            assertThat(page.see(By.cssSelector(".alarm")).getText()).contains("lips, tongue or face");
        }
    }

    @Test
    void aRoundIsFinishedWithTheNextStepThatWasRead() throws IOException {
        try (BrowserOnPage page = new BrowserOnPage(browser, temp, "wheeze", Size.DESKTOP)) {
            Round round = ready(page);
            open(page, "/round/" + round.id() + "/end");
            page.see(By.id("finish"));
            page.driver().executeScript(BEHIND);
            answerBlue(page, round);

            page.press(By.id("finish"));

            page.see(By.cssSelector(".alarm"));
            assertThat(page.see(By.id("other-window")).getText()).contains("has changed");
            assertThat(page.diary().rounds().get(round.id()).open()).isTrue();
            page.picture("other-window");
            page.press(By.id("finish"));
            page.title("Diary of Mia");
            assertThat(main(page)).contains("Emergency: call for help now");
        }
    }

    @Test
    void noneOfThemTakesBackNoDangerSignOfAnotherWindow() throws IOException {
        try (BrowserOnPage page = new BrowserOnPage(browser, temp, "wheeze", Size.PHONE)) {
            Round round = page.diary().rounds().start(child(page).id());
            open(page, "/round/" + round.id() + "/signs");
            page.see(By.cssSelector(".sign"));
            page.driver().executeScript(BEHIND);
            answerBlue(page, round);

            page.press(words("I looked for all of these: none is there"));

            page.see(By.cssSelector(".alarm"));
            assertThat(page.diary().rounds().get(round.id()).dangerSigns().yes())
                    .containsExactly("blue");
        }
    }

    @Test
    void aWindowThatIsComeBackToLooksAgain() throws IOException {
        try (BrowserOnPage page = new BrowserOnPage(browser, temp, "wheeze", Size.PHONE)) {
            Round round = ready(page);
            open(page, "/round/" + round.id() + "/vitals");
            page.see(By.id("pulse")).sendKeys("12");
            page.driver().executeScript(BEHIND);
            answerBlue(page, round);
            sleepSeconds(7);
            assertThat(page.driver().findElements(By.cssSelector(".alarm")))
                    .as("a window that nobody sees is left alone")
                    .isEmpty();

            page.driver().executeScript(IN_FRONT);

            page.see(By.cssSelector(".alarm"));
            assertThat(page.see(By.id("pulse")).getDomProperty("value"))
                    .as("what is being written stays")
                    .isEqualTo("12");
        }
    }

    @Test
    void whoIsErasedWhileSomebodyRecordsIsNotRecordedOn() throws IOException {
        try (BrowserOnPage page = new BrowserOnPage(browser, temp, "wheeze", Size.DESKTOP)) {
            Round round = ready(page);
            firstTake(page, round, "neck");
            startRecording(page);
            page.waiting()
                    .until(d -> page.see(By.cssSelector(".seconds strong"))
                            .getText()
                            .matches("[2-9] s"));

            page.diary().eraser().person(round.personId());

            page.title("That did not work");
            assertThat(main(page)).contains("it was erased").doesNotContain("is sent as soon as it can be");
            sleepSeconds(3);
            try (Stream<Path> left = Files.walk(temp.resolve("diary"))) {
                assertThat(left.filter(f -> f.toString().contains("unfinished")
                                        || f.toString().contains("recordings"))
                                .filter(Files::isRegularFile))
                        .isEmpty();
            }
        }
    }

    /** Thrown away in another window, a recording does not go on being made, and nobody is told that it is sent later. */
    @Test
    void whatIsThrownAwayElsewhereIsSaidAtOnce() throws IOException {
        try (BrowserOnPage page = new BrowserOnPage(browser, temp, "wheeze", Size.DESKTOP)) {
            Round round = ready(page);
            firstTake(page, round, "neck");
            startRecording(page);
            page.waiting()
                    .until(d -> page.see(By.cssSelector(".seconds strong"))
                            .getText()
                            .matches("[2-9] s"));
            try (Stream<Path> files = Files.list(temp.resolve("diary/unfinished"))) {
                for (Path file : files.toList()) {
                    Files.delete(file);
                }
            }

            assertThat(page.see(By.cssSelector(".error[role=alert]")).getText())
                    .contains("already kept or thrown away");
            assertThat(main(page)).doesNotContain("is sent as soon as it can be");
            page.see(By.id("open"));
        }
    }

    @Test
    void aNameChangedHereTakesBackNoLimitOfAnotherWindow() throws IOException {
        try (BrowserOnPage page = new BrowserOnPage(browser, temp, "wheeze", Size.DESKTOP)) {
            Person mia = child(page);
            open(page, "/person/" + mia.id());
            page.see(By.id("nickname")).sendKeys("a");
            ClinicianLimits set = new ClinicianLimits(
                    new ClinicianLimits.Limit(90, 85), null, null, false, null, null, "Dr. A", "2026-03-01");
            page.diary().persons().change(mia.withLimits(set));

            page.press(words("Keep"));
            page.title("Who is it about?");

            assertThat(page.diary().persons().get(mia.id()).nickname()).isEqualTo("Miaa");
            assertThat(page.diary().persons().get(mia.id()).limits()).isEqualTo(set);
        }
    }
}
