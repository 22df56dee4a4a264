package lungwort.report;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.StringReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import java.util.stream.StreamSupport;
import javax.xml.parsers.DocumentBuilderFactory;
import lungwort.audio.Recording;
import lungwort.diary.Diary;
import lungwort.diary.Examples;
import lungwort.diary.NewTake;
import lungwort.diary.Person;
import lungwort.diary.Round;
import lungwort.examine.Examination;
import lungwort.guidance.ClinicianLimits;
import lungwort.guidance.Condition;
import lungwort.guidance.Conditions;
import lungwort.guidance.DangerAnswers;
import lungwort.guidance.RateSource;
import lungwort.guidance.Site;
import lungwort.guidance.TakeReason;
import lungwort.guidance.Vitals;
import lungwort.json.Json;
import lungwort.round.RoundService;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;

/** What is read of the FHIR bundle where a system shows the resources' text alone. FHIR R4, Narrative: txt-1, txt-2, dom-6 [P]. */
class FhirNarrativeTest {
    private static final String HOSTILE = "<script>alert(1)</script>\" onload='x' & ]]> <!-- \u202Egnp \uFFFF \uD800x";
    private static final Set<String> ELEMENTS = Set.of("div", "p", "ul", "li", "br");

    /** All that a narrative may say of its own. */
    private static final Set<String> OWN_WORDS = Set.of("nickname", "born", "in", "yes", "no", "at", "least");

    @TempDir
    Path temp;

    private Diary diary;
    private RoundService rounds;
    private ReportService reports;

    @BeforeEach
    void open() {
        diary = Diary.open(temp.resolve("diary"), new Examples.MovingClock());
        rounds = Examples.service(diary);
        reports = new ReportService(rounds, (content, name) -> new Recording(new double[] {0.5}, 4000, name));
    }

    @AfterEach
    void close() {
        diary.close();
    }

    private UUID round(String name, String words) {
        Person person = diary.persons()
                .add(name, YearMonth.of(2021, 4), Conditions.of(Condition.ASTHMA), words, ClinicianLimits.NONE);
        Round round = rounds.start(person);
        rounds.change(
                round.id(),
                now -> now.with(new DangerAnswers(Set.of("blue"), Set.of("pauses-in-breathing")))
                        .with(Vitals.NONE
                                .withSpo2(91)
                                .withRespiratoryRate(28, RateSource.HEARD)
                                .withSystolic(98))
                        .withSymptomWords(words));
        diary.notes().add(person.id(), round.id(), "note: " + words);
        List<String> sounds =
                List.of("wheezes 2", "crackles 4", "wheezes 0", "unfamiliar", "unusable", "pause 9", "hasty");
        for (int i = 0; i < sounds.size(); i++) {
            Site site = new Site(
                    Site.Face.BACK,
                    Site.Height.values()[i % Site.Height.values().length],
                    i % 2 == 0 ? Site.Side.LEFT : Site.Side.RIGHT);
            rounds.add(
                    new NewTake(round.id(), site, i < 6 ? TakeReason.FIRST : TakeReason.AFTER_COUGH, i + ".wav"),
                    sounds.get(i).getBytes(StandardCharsets.UTF_8));
        }
        return round.id();
    }

    private List<JsonNode> resources(UUID round, ReportOptions options) {
        JsonNode bundle = Json.parse(
                new String(reports.write(reports.ofRound(round, options), ReportFormat.FHIR), StandardCharsets.UTF_8),
                "bundle");
        return StreamSupport.stream(bundle.get("entry").spliterator(), false)
                .map(e -> e.get("resource"))
                .toList();
    }

    private static Element div(JsonNode resource) throws Exception {
        DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
        factory.setNamespaceAware(true);
        factory.setFeature("http://apache.org/xml/features/disallow-doctype-decl", true);
        String div = resource.path("text").path("div").asText();
        return factory.newDocumentBuilder()
                .parse(new InputSource(new StringReader(div)))
                .getDocumentElement();
    }

    private static String words(JsonNode resource) {
        try {
            return div(resource).getTextContent();
        } catch (Exception e) {
            throw new AssertionError(resource.path("text").toString(), e);
        }
    }

    private static List<JsonNode> of(List<JsonNode> resources, String type) {
        return resources.stream()
                .filter(r -> r.get("resourceType").asText().equals(type))
                .toList();
    }

    @Test
    void everyResourceTellsItselfInPlainXhtmlWhateverItsWordsAre() throws Exception {
        UUID round = round("Mia", HOSTILE);
        OlderDiary.nickname(temp.resolve("diary"), HOSTILE);
        for (ReportOptions options : List.of(ReportOptions.ALL, new ReportOptions(false, false, false))) {
            List<JsonNode> resources = resources(round, options);
            assertThat(resources).hasSizeGreaterThan(12);
            for (JsonNode resource : resources) {
                assertThat(resource.path("text").path("status").asText()).isEqualTo("generated");
                Element div = div(resource);
                assertThat(div.getNamespaceURI()).isEqualTo("http://www.w3.org/1999/xhtml");
                assertThat(div.getTextContent()).isNotBlank().doesNotContain("\u202E", "\uFFFF");
                NodeList all = div.getElementsByTagName("*");
                for (int i = 0; i < all.getLength(); i++) {
                    assertThat(all.item(i).getNodeName()).isIn(ELEMENTS);
                    assertThat(all.item(i).getAttributes().getLength()).isZero();
                }
            }
        }
        String nickname =
                words(of(resources(round, ReportOptions.ALL), "Patient").get(0));
        assertThat(nickname).contains("<script>alert(1)</script>\" onload='x' & ]]> <!-- ");
        assertThat(resources(round, new ReportOptions(false, false, true)))
                .allSatisfy(r -> assertThat(words(r)).doesNotContain("alert"));
    }

    /** A share of 12.5 % of the breathing is 13 % in the report for people: more decimals would claim a precision that nobody measured. */
    @Test
    void measuredNumbersHaveTheDecimalsOfTheReportForPeople() {
        List<JsonNode> measured = new ArrayList<>();
        List<String> told = new ArrayList<>();
        for (JsonNode resource : resources(round("Mia", "likes sailing boats"), ReportOptions.ALL)) {
            if (!resource.path("component").isEmpty() && resource.has("method")) {
                told.add(words(resource));
                resource.get("component").forEach(measured::add);
            }
        }
        assertThat(measured).hasSizeGreaterThan(10).allSatisfy(component -> {
            int decimals = component.at("/code/text").asText().equals("crackles a breath") ? 1 : 0;
            assertThat(component.at("/valueQuantity/value").decimalValue().scale())
                    .as(component.toString())
                    .isLessThanOrEqualTo(decimals);
        });
        assertThat(measured.stream()
                        .filter(c -> c.at("/code/text").asText().startsWith("share of the time"))
                        .map(c -> c.at("/valueQuantity/value").asInt()))
                .contains(13);
        assertThat(told)
                .anySatisfy(words -> assertThat(words).contains("13 %"))
                .allSatisfy(words -> assertThat(words).doesNotContain("12.5"));
    }

    /** Taken apart, it holds the resource's own words and numbers and hardly anything else. */
    @Test
    void noneClaimsMoreThanItsResourceDoes() {
        for (JsonNode resource : resources(round("Mia", "likes sailing boats"), ReportOptions.ALL)) {
            String rest = words(resource)
                    .toLowerCase(Locale.ROOT)
                    .replace(FhirNarrative.NO_SOUND.toLowerCase(Locale.ROOT), " ");
            ObjectNode without = resource.deepCopy();
            without.remove("text");
            List<String> held = new ArrayList<>();
            values(without, held);
            for (String own : held.stream()
                    .filter(h -> h.length() > 3)
                    .sorted(Comparator.comparing(String::length).reversed())
                    .toList()) {
                rest = rest.replace(own, " ");
            }
            Set<String> left = Arrays.stream(rest.split("[^\\p{L}\\p{N}%/]+"))
                    .filter(w -> !w.isEmpty() && !OWN_WORDS.contains(w) && !held.contains(w))
                    .collect(Collectors.toSet());
            assertThat(left).as(resource.toString()).isEmpty();
        }
    }

    private static void values(JsonNode node, List<String> held) {
        if (node.isContainerNode()) {
            node.forEach(n -> values(n, held));
        } else {
            // A div knows no line ends of its own.
            node.asText().toLowerCase(Locale.ROOT).strip().lines().forEach(held::add);
        }
    }

    @Test
    void answersAreToldAsGiven() {
        List<JsonNode> observations = of(resources(round("Mia", ""), ReportOptions.ALL), "Observation");
        Stream<JsonNode> yesOrNo = observations.stream().filter(o -> o.has("valueBoolean"));
        assertThat(yesOrNo)
                .hasSizeGreaterThanOrEqualTo(2)
                .allSatisfy(o -> assertThat(words(o))
                        .startsWith(o.path("code").path("text").asText()
                                + (o.get("valueBoolean").asBoolean() ? ": yes" : ": no")));
        assertThat(observations)
                .anySatisfy(o -> assertThat(words(o)).startsWith("SpO2: 91 %"))
                .anySatisfy(o -> assertThat(words(o)).contains("Diastolic blood pressure: Not asked for"))
                .anySatisfy(o -> assertThat(words(o))
                        .startsWith("Respiratory rate: 28 breaths/minute")
                        .contains("Preliminary", "not counted"));
    }

    @Test
    void allThatSoftwareSuggestsIsReadWithItsCaution() {
        List<JsonNode> resources = resources(round("Mia", ""), ReportOptions.ALL);

        List<JsonNode> software = of(resources, "Observation").stream()
                .filter(o -> o.has("device"))
                .toList();
        assertThat(software)
                .hasSizeGreaterThan(7)
                .allSatisfy(o -> assertThat(words(o)).contains("Preliminary", Examination.CAUTION));
        assertThat(of(resources, "Observation").stream().filter(o -> !o.has("device")))
                .allSatisfy(o -> assertThat(words(o)).doesNotContain("Preliminary"));
        assertThat(words(of(resources, "Device").get(0))).contains(Examination.CAUTION, "Left out: pictures");
        assertThat(software).anySatisfy(o -> assertThat(words(o)).contains("cannot be judged"));
    }

    /** What has no resource of its own is told with the next step: nobody may take it for a no. */
    @Test
    void theNextStepSaysWhatIsNotKnownAndWhatWasLeftOut() {
        UUID round = round("Mia", "likes sailing boats");
        JsonNode step = of(resources(round, new ReportOptions(false, false, false)), "Observation").stream()
                .filter(o -> o.path("code").path("text").asText().startsWith("Next step"))
                .findFirst()
                .orElseThrow();
        String open = rounds.view(round)
                .dangerSignsOpen()
                .get(0)
                .question(rounds.view(round).age());

        assertThat(words(step))
                .contains("Danger signs not answered, not taken as absent: " + open)
                .contains("Not known, and not taken as normal: ")
                .contains("Left out: the name, the birth month")
                .contains("all free words")
                .contains("the recordings (their sound; what was measured in them is here)")
                .doesNotContain("sailing");
        assertThat(resources(round, ReportOptions.ALL))
                .as("notes are told, as in the other formats")
                .anySatisfy(r -> assertThat(words(r)).startsWith("Note, in the family's words: note: likes sailing"))
                .anySatisfy(r -> assertThat(words(r)).startsWith("About this person, in the family's words: likes"));
    }
}
