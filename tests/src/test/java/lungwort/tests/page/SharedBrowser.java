package lungwort.tests.page;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Assumptions;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeDriverService;
import org.openqa.selenium.chrome.ChromeOptions;

/** Debian's chromium, started once for all tests of the page: a start takes longer than most of them. */
final class SharedBrowser implements AutoCloseable {
    private static final Path CHROMIUM = Path.of("/usr/bin/chromium");
    private static final Path DRIVER = Path.of("/usr/bin/chromedriver");

    private final Path microphone;
    private final ChromeDriver driver;

    /** @param folder for its profile and what its microphone plays */
    SharedBrowser(Path folder) throws IOException {
        skipAloudWithoutBrowser();
        microphone = folder.resolve("microphone.wav");
        driver = new ChromeDriver(
                new ChromeDriverService.Builder()
                        .usingDriverExecutable(DRIVER.toFile())
                        .build(),
                options(microphone, Files.createDirectories(folder.resolve("profile"))));
    }

    private static void skipAloudWithoutBrowser() {
        boolean there = Files.isExecutable(CHROMIUM) && Files.isExecutable(DRIVER);
        if (!there) {
            System.out.println(
                    "Browser tests are skipped: chromium and chromedriver are not installed (Debian: chromium, chromium-driver).");
        }
        Assumptions.assumeTrue(there, "chromium and chromedriver are not installed");
    }

    private static ChromeOptions options(Path microphone, Path profile) {
        ChromeOptions options = new ChromeOptions();
        options.setBinary(CHROMIUM.toFile());
        options.addArguments(
                "--headless=new",
                "--no-sandbox",
                "--disable-gpu",
                "--disable-quic",
                "--no-first-run",
                "--disable-background-networking",
                "--disable-component-update",
                "--disable-sync",
                "--disable-dev-shm-usage",
                "--autoplay-policy=no-user-gesture-required",
                "--use-fake-device-for-media-stream",
                "--use-fake-ui-for-media-stream",
                "--use-file-for-fake-audio-capture=" + microphone,
                "--user-data-dir=" + profile);
        return options;
    }

    ChromeDriver driver() {
        return driver;
    }

    /** What the microphone plays from the next time on that it is switched on: the file is read anew each time. */
    void play(byte[] wav) throws IOException {
        Files.write(microphone, wav);
    }

    /** Leaves one empty tab behind, without anything that a test kept in the browser. */
    static void leave(ChromeDriver driver) {
        List<String> tabs = new ArrayList<>(driver.getWindowHandles());
        for (String tab : tabs.subList(1, tabs.size())) {
            driver.switchTo().window(tab).close();
        }
        driver.switchTo().window(tabs.get(0));
        driver.get("about:blank");
        driver.manage().deleteAllCookies();
    }

    @Override
    public void close() {
        driver.quit();
    }
}
