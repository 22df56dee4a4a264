package lungwort.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import lungwort.guidance.Age;
import lungwort.guidance.ClinicianLimits;
import lungwort.guidance.Condition;
import lungwort.guidance.Conditions;
import lungwort.guidance.DangerSign;
import lungwort.guidance.EmergencyNumber;
import lungwort.guidance.Guidance;
import lungwort.guidance.Outcome;
import lungwort.guidance.Site;
import lungwort.guidance.Sites;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** What is filled in on paper asks what the page asks, by the same limits, on one sheet. */
class BedsideSheetTest {
    private static final LocalDate DAY = LocalDate.of(2026, 12, 1);
    private static final Conditions ALL = new Conditions(Set.of(Condition.values()));
    private static final ClinicianLimits SET = new ClinicianLimits(
            new ClinicianLimits.Limit(89, 85),
            new ClinicianLimits.Limit(28, 33),
            new ClinicianLimits.Limit(117, 129),
            false,
            420,
            null,
            "an invented clinician of the ward for lungs and sleep",
            "2026-11-02");

    /** Every age at which a question or a limit begins or ends, with nothing known and with all that can be. */
    static List<SheetContent> everybody() {
        List<SheetContent> all = new ArrayList<>();
        for (int months :
                new int[] {0, 1, 2, 3, 5, 6, 11, 12, 18, 24, 36, 47, 48, 59, 60, 96, 143, 144, 191, 192, 216, 1000}) {
            all.add(new SheetContent("", Age.ofMonths(months), Conditions.NONE, ClinicianLimits.NONE, null, DAY));
            all.add(new SheetContent(
                    "a nickname as long as it may be, of sixty characters in all.",
                    Age.ofMonths(months),
                    ALL,
                    SET,
                    new EmergencyNumber("112"),
                    DAY));
        }
        return all;
    }

    @ParameterizedTest
    @MethodSource("everybody")
    void oneSheetHoldsEveryQuestionAndEveryPlace(SheetContent sheet) throws IOException {
        PdfPrint print = BedsideSheet.print(sheet);

        assertThat(print.pages()).as("both sides of one sheet").isEqualTo(2);
        String text = text(print.bytes());
        assertThat(Guidance.dangerSigns(sheet.age(), sheet.conditions()))
                .extracting((DangerSign sign) -> sign.question(sheet.age()))
                .allSatisfy(question -> assertThat(text).contains(question));
        List<Site> sites = Sites.round(sheet.age());
        for (int i = 0; i < sites.size(); i++) {
            assertThat(text).contains("%d %s".formatted(i + 1, sites.get(i).words()), Sites.where(sites.get(i)));
        }
    }

    @Test
    void whatOutranksAllStandsBeforeWhatCanWaitAndNamesTheNumber() throws IOException {
        String text = text(BedsideSheet.write(new SheetContent(
                "Otto",
                Age.ofYears(82),
                Conditions.of(Condition.HEART_FAILURE),
                ClinicianLimits.NONE,
                new EmergencyNumber("112"),
                DAY)));

        assertThat(text)
                .containsSubsequence(
                        "Otto, 82 years",
                        "call 112 now. Record nothing",
                        "lips, tongue or face blue or grey",
                        "have a clinician see this person today",
                        "weight risen by more than 2 kg",
                        "2. Measure",
                        "4. Listen");
        assertThat(Guidance.dangerSign("fluid-gain").outcome()).isEqualTo(Outcome.BE_SEEN_TODAY);
        // UK home oximetry for adults, as the guidance holds it: 92 % or less, 94 % or less.
        assertThat(text).contains("92 % or less 94 % or less", "rise of weight within 3 days above 2 kg");
        assertThat(text).contains("no all-clear", "Lungwort suggests, it does not diagnose");
    }

    @Test
    void limitsOfAClinicianStandInPlaceOfTheGeneralOnesAndSayWhose() throws IOException {
        String text = text(BedsideSheet.write(new SheetContent(
                "Otto", Age.ofYears(64), Conditions.of(Condition.COPD), SET, new EmergencyNumber("112"), DAY)));

        assertThat(text)
                .contains("85 % or less 89 % or less")
                .doesNotContain("92 % or less")
                .contains("set for this person by an invented clinician", "used in place of the general ones");
    }

    /** A target of 88 to 92 % that nobody has set yet would make the general limits look like a mistake. */
    @Test
    void whereAnotherTargetIsUsualItSaysThatOnlyAClinicianCanSetIt() throws IOException {
        SheetContent nobodys = new SheetContent("", Age.ofYears(64), Conditions.NONE, ClinicianLimits.NONE, null, DAY);
        SheetContent copd =
                new SheetContent("", Age.ofYears(64), Conditions.of(Condition.COPD), ClinicianLimits.NONE, null, DAY);

        assertThat(text(BedsideSheet.write(copd))).contains("oxygen target of 88 to 92 %. Only a clinician can set it");
        assertThat(text(BedsideSheet.write(nobodys)))
                .doesNotContain("88 to 92 %")
                .contains("the emergency number (write it here:");
    }

    /** One limit that leads to two steps leads to the graver. */
    @Test
    void theSameLimitIsNotWrittenTwice() throws IOException {
        String baby = text(BedsideSheet.write(
                new SheetContent("", Age.ofMonths(7), Conditions.NONE, ClinicianLimits.NONE, null, DAY)));

        assertThat(baby.split("below 92 %", -1)).hasSize(2);
    }

    @Test
    void theSameSheetIsTheSameBytes() {
        SheetContent sheet = everybody().get(1);

        assertThat(BedsideSheet.write(sheet)).isEqualTo(BedsideSheet.write(sheet));
    }

    private static String text(byte[] pdf) throws IOException {
        try (PDDocument document = Loader.loadPDF(pdf)) {
            return new PDFTextStripper().getText(document).replaceAll("\\s+", " ");
        }
    }
}
