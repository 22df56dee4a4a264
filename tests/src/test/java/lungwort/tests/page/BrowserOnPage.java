package lungwort.tests.page;

import static org.assertj.core.api.Assertions.assertThat;

import com.deque.html.axecore.results.Results;
import com.deque.html.axecore.selenium.AxeBuilder;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import lungwort.audio.WavWriter;
import lungwort.cli.ShippedExaminer;
import lungwort.diary.Diary;
import lungwort.page.PageServer;
import lungwort.practice.PracticeScenes;
import org.jspecify.annotations.Nullable;
import org.openqa.selenium.By;
import org.openqa.selenium.Dimension;
import org.openqa.selenium.JavascriptExecutor;
import org.openqa.selenium.OutputType;
import org.openqa.selenium.StaleElementReferenceException;
import org.openqa.selenium.WebDriver;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.interactions.Actions;
import org.openqa.selenium.support.ui.ExpectedConditions;
import org.openqa.selenium.support.ui.FluentWait;
import org.openqa.selenium.support.ui.WebDriverWait;

/** A page that is served, and a browser on it whose microphone plays a synthesised recording. Each has a diary of its own; the browser is shared. */
final class BrowserOnPage implements AutoCloseable {
    /** A desktop window and a phone's, in CSS pixels. */
    enum Size {
        DESKTOP(1280, 900),
        PHONE(390, 844);

        private final int width;
        private final int height;

        Size(int width, int height) {
            this.width = width;
            this.height = height;
        }
    }

    private static final int SMALLEST_PHONE_PX = 320;

    private static final Duration PATIENCE = Duration.ofSeconds(40);

    /** Longer than two presses of a double press lie apart on the page (double-press.js). */
    private static final Duration BETWEEN_PRESSES = Duration.ofMillis(500);

    /** Folder for pictures of every screen, named by {@code -Dlungwort.screens=DIR}; none is made without it. */
    private static final String SCREENS = System.getProperty("lungwort.screens", "");

    private final Diary diary;
    private final PageServer server;
    private final ChromeDriver driver;
    private final List<Exception> faults = new CopyOnWriteArrayList<>();
    private final Size size;

    BrowserOnPage(SharedBrowser browser, Path folder, String scene, Size size) throws IOException {
        this.size = size;
        byte[] sound =
                WavWriter.toBytes(PracticeScenes.of(scene).scene().synthesise().recording(), WavWriter.Encoding.PCM_16);
        Files.write(folder.resolve("microphone.wav"), sound);
        browser.play(sound);
        diary = Diary.open(folder.resolve("diary"));
        ShippedExaminer.warmUp();
        server = PageServer.start(ShippedExaminer.rounds(diary), 0, faults::add);
        driver = browser.driver();
        driver.manage().window().setSize(new Dimension(size.width, size.height));
        narrow();
        driver.get(server.address());
        title("Who is it about?");
    }

    /** A window cannot be as narrow as a phone; the screen it believes to have can. */
    private void narrow() {
        block();
        driver.executeCdpCommand("Emulation.clearDeviceMetricsOverride", java.util.Map.of());
        if (size == Size.PHONE) {
            screenWidth(size.width);
        }
    }

    /** Takes the network from the browser, or gives it back. */
    void online(boolean there) {
        driver.executeCdpCommand("Network.enable", java.util.Map.of());
        driver.executeCdpCommand(
                "Network.emulateNetworkConditions",
                java.util.Map.of("offline", !there, "latency", 0, "downloadThroughput", -1, "uploadThroughput", -1));
    }

    Diary diary() {
        return diary;
    }

    ChromeDriver driver() {
        return driver;
    }

    PageServer server() {
        return server;
    }

    /** Waits for a heading of the screen. */
    void title(String words) {
        waiting().until(d -> d.findElements(By.tagName("h1")).stream().anyMatch(h -> text(h).equals(words)));
    }

    private static String text(WebElement element) {
        try {
            return element.getText();
        } catch (StaleElementReferenceException e) {
            return "";
        }
    }

    WebElement see(By by) {
        return waiting().until(ExpectedConditions.visibilityOfElementLocated(by));
    }

    /** As a person presses, who needs a moment from one button to the next: a faster second press at the same place is a double press to the page. */
    void press(By by) {
        new Actions(driver).pause(BETWEEN_PRESSES).perform();
        WebElement element = waiting().until(ExpectedConditions.elementToBeClickable(by));
        ((JavascriptExecutor) driver).executeScript("arguments[0].scrollIntoView({block:'center'})", element);
        element.click();
    }

    /** A button or link by its words. */
    static By words(String words) {
        return By.xpath(
                "//*[self::button or self::a or self::label or self::summary][contains(normalize-space(.), \"%s\")]"
                        .formatted(words));
    }

    /** What is drawn anew while it is looked at is looked at again. */
    FluentWait<WebDriver> waiting() {
        return new WebDriverWait(driver, PATIENCE).ignoring(StaleElementReferenceException.class);
    }

    /** Looks at the screen as a person would who cannot see it well, or has a phone. */
    void checkScreen(String name) throws IOException {
        Results results = new AxeBuilder()
                .withTags(List.of("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"))
                .analyze(driver);
        assertThat(results.getPasses()).as("axe looked at %s", name).hasSizeGreaterThan(10);
        assertThat(results.getViolations())
                .as("axe on %s", name)
                .filteredOn(rule -> List.of("serious", "critical").contains(rule.getImpact()))
                .extracting(rule -> rule.getId() + ": " + rule.getHelp() + " " + rule.getNodes())
                .isEmpty();
        assertThat(tooWide()).as("%s is not wider than the window", name).isEqualTo(0L);
        byNight(name);
        if (size == Size.PHONE) {
            withLargeLettersOnASmallPhone(name);
        }
        assertThat(driver.findElement(By.cssSelector("footer .caution")).getText())
                .as("caution on %s", name)
                .contains("does not diagnose");
        assertThat(driver.findElement(By.tagName("body")).getText())
                .as("words of %s", name)
                .doesNotContainPattern("\\[[a-z]+\\.[A-Za-z.-]+\\]")
                .doesNotContain("undefined", "NaN", "[object");
        picture(name);
    }

    /** As for a person whose computer asks for dark pages: every word still stands out of what is behind it. */
    private void byNight(String name) throws IOException {
        try {
            colourScheme("dark");
            Results results = new AxeBuilder().analyze(driver);
            assertThat(results.getPasses())
                    .as("axe looked at %s by night", name)
                    .extracting(rule -> rule.getId())
                    .contains("color-contrast");
            assertThat(results.getViolations())
                    .as("axe on %s by night", name)
                    .extracting(rule -> rule.getHelp() + " " + rule.getNodes())
                    .isEmpty();
            picture(name + "-night");
        } finally {
            colourScheme("light");
        }
    }

    /** Asks for dark or light pages, as a computer does by its settings. */
    void colourScheme(String scheme) {
        driver.executeCdpCommand(
                "Emulation.setEmulatedMedia",
                java.util.Map.of(
                        "features", List.of(java.util.Map.of("name", "prefers-color-scheme", "value", scheme))));
        // Buttons change their colour within 0.15 s; a colour half way is on no screen for long.
        new Actions(driver).pause(Duration.ofMillis(250)).perform();
    }

    private @Nullable Object tooWide() {
        return driver.executeScript(
                "return document.documentElement.scrollWidth - document.documentElement.clientWidth");
    }

    /** Letters of twice the size on the narrowest telephone: nothing is read by scrolling sideways (WCAG 2.2, 1.4.4 and 1.4.10 together). */
    private void withLargeLettersOnASmallPhone(String name) throws IOException {
        try {
            screenWidth(SMALLEST_PHONE_PX);
            driver.executeScript(
                    "document.documentElement.style.fontSize = '200%'; dispatchEvent(new Event('resize'))");
            assertThat(tooWide())
                    .as("%s with letters of twice the size is not wider than %d px", name, SMALLEST_PHONE_PX)
                    .isEqualTo(0L);
            picture(name + "-large");
        } finally {
            driver.executeScript("document.documentElement.style.fontSize = ''");
            screenWidth(size.width);
            driver.executeScript("dispatchEvent(new Event('resize'))");
        }
    }

    private void screenWidth(int width) {
        driver.executeCdpCommand(
                "Emulation.setDeviceMetricsOverride",
                java.util.Map.of("width", width, "height", size.height, "deviceScaleFactor", 1, "mobile", true));
    }

    /** Keeps a picture of the screen, if pictures are wanted. */
    void picture(String name) throws IOException {
        if (!SCREENS.isEmpty()) {
            Path folder = Files.createDirectories(Path.of(SCREENS));
            Files.write(
                    folder.resolve(size.name().toLowerCase(java.util.Locale.ROOT) + "-" + name + ".png"),
                    driver.getScreenshotAs(OutputType.BYTES));
        }
    }

    /** Lets no request to these addresses through, as if Lungwort had stopped; without any, all come through again. */
    void block(String... addresses) {
        driver.executeCdpCommand("Network.enable", java.util.Map.of());
        driver.executeCdpCommand("Network.setBlockedURLs", java.util.Map.of("urls", List.of(addresses)));
    }

    List<Exception> faults() {
        return faults;
    }

    @Override
    public void close() {
        SharedBrowser.leave(driver);
        server.close();
        diary.close();
    }
}
