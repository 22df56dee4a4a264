package lungwort.tests.page;

import java.io.IOException;
import java.nio.file.Path;
import java.time.YearMonth;
import lungwort.diary.Person;
import lungwort.diary.Round;
import lungwort.guidance.ClinicianLimits;
import lungwort.guidance.Condition;
import lungwort.guidance.Conditions;
import lungwort.guidance.DangerAnswers;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.By;

/** What tests in a browser share: one browser for all of a class, and the way to the screen that is looked at. */
abstract class InBrowser {
    @TempDir
    Path temp;

    @TempDir
    static Path profile;

    static SharedBrowser browser;

    @BeforeAll
    static void startTheBrowser() throws IOException {
        browser = new SharedBrowser(profile);
    }

    @AfterAll
    static void endTheBrowser() {
        if (browser != null) {
            browser.close();
        }
    }

    static Person child(BrowserOnPage page) {
        return page.diary()
                .persons()
                .add("Mia", YearMonth.of(2021, 4), Conditions.of(Condition.ASTHMA), "", ClinicianLimits.NONE);
    }

    /** A round past its danger signs, ready to record. */
    static Round ready(BrowserOnPage page) {
        Person person = child(page);
        Round round = page.diary().rounds().start(person.id());
        page.diary().rounds().change(round.with(DangerAnswers.noneOf(person.age(round.day()))));
        return round;
    }

    /** Opens the first take at a site. */
    static void firstTake(BrowserOnPage page, Round round, String site) {
        page.driver()
                .get("http://127.0.0.1:%d/#/round/%s/record/%s/first"
                        .formatted(page.server().port(), round.id(), site));
    }

    /** Opens the microphone and begins to record. */
    static void startRecording(BrowserOnPage page) {
        page.press(By.id("open"));
        page.press(By.id("start"));
    }

    static void sleepSeconds(int seconds) {
        try {
            Thread.sleep(1000L * seconds);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
