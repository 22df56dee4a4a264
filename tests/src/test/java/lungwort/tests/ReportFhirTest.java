package lungwort.tests;

import static org.assertj.core.api.Assertions.assertThat;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.context.support.DefaultProfileValidationSupport;
import ca.uhn.fhir.parser.StrictErrorHandler;
import ca.uhn.fhir.validation.FhirValidator;
import ca.uhn.fhir.validation.ResultSeverityEnum;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.hl7.fhir.common.hapi.validation.support.CommonCodeSystemsTerminologyService;
import org.hl7.fhir.common.hapi.validation.support.InMemoryTerminologyServerValidationSupport;
import org.hl7.fhir.common.hapi.validation.support.ValidationSupportChain;
import org.hl7.fhir.common.hapi.validation.validator.FhirInstanceValidator;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Media;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Patient;
import org.hl7.fhir.r4.model.Reference;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The FHIR bundle, read and checked by a general FHIR library (HAPI FHIR) against the definitions of R4. */
class ReportFhirTest {
    private static final FhirContext R4 = FhirContext.forR4();

    @TempDir
    static Path temp;

    @BeforeAll
    static void aRound() {
        good("practice", "wheeze", "usual", "too-quiet", "--out", temp.resolve("s"));
        good("diary", "person", "add", "Mia", "--born", "2021-04", "--diary", diary());
        good(
                "round",
                "start",
                "--person",
                "Mia",
                "--no-other-danger-signs",
                "--spo2",
                "94",
                "--rate",
                "28",
                "--systolic",
                "98",
                "--weight",
                "17.4",
                "--on-oxygen",
                "yes",
                "--oxygen-flow",
                "1.5",
                "--fever",
                "yes",
                "--chest-pain",
                "no",
                "--medicines",
                "blue inhaler",
                "--diary",
                diary());
        add("wheeze", "back-lower-left");
        add("usual", "back-lower-right");
        add("too-quiet", "back-upper-left");
        good("round", "finish", "--person", "Mia", "--diary", diary());
    }

    private static Path diary() {
        return temp.resolve("diary");
    }

    private static void add(String sound, String site) {
        good(
                "round",
                "add",
                temp.resolve("s").resolve(sound + ".wav"),
                "--person",
                "Mia",
                "--site",
                site,
                "--diary",
                diary());
    }

    private static void good(Object... arguments) {
        Run run = Run.lungwort(arguments);
        assertThat(run.exit()).as(run.err()).isZero();
    }

    private String json(String... more) throws Exception {
        Path file = temp.resolve("r.json");
        List<Object> arguments =
                new java.util.ArrayList<>(List.of("report", "--person", "Mia", "--out", file, "--diary", diary()));
        arguments.addAll(List.of(more));
        good(arguments.toArray());
        return Files.readString(file);
    }

    private static Bundle strict(String json) {
        return R4.newJsonParser()
                .setParserErrorHandler(new StrictErrorHandler())
                .parseResource(Bundle.class, json);
    }

    @Test
    void theBundleFitsTheDefinitionsOfR4() throws Exception {
        for (String json : List.of(json(), json("--without-name", "--without-notes", "--without-audio"))) {
            assertThat(errors(json)).isEmpty();
        }
    }

    /** Narrative in basic XHTML (txt-1, txt-2) for whoever sees no more than text (dom-6, which is a warning). */
    @Test
    void everyResourceTellsItselfInWords() throws Exception {
        for (String json : List.of(json(), json("--without-name", "--without-notes", "--without-audio"))) {
            assertThat(messages(json)).noneMatch(m -> m.contains("dom-6") || m.contains("txt-"));
            assertThat(messages(json.replace("\"text\" : {\n        \"status\"", "\"meta\" : {\n        \"status\"")))
                    .as("the check itself sees where one is missing")
                    .anyMatch(m -> m.contains("dom-6"));
        }
    }

    @Test
    void theCheckItselfSeesWhatDoesNotFit() throws Exception {
        String json = json("--without-audio");

        assertThat(errors(json.replace("\"preliminary\"", "\"guess\""))).isNotEmpty();
        assertThat(errors(json.replace("\"effectiveDateTime\"", "\"when\""))).isNotEmpty();
        assertThat(errors(json.replace("\"code\" : \"/min\"", "\"code\" : 5"))).isNotEmpty();
    }

    private static List<String> errors(String json) {
        return messages(json, ResultSeverityEnum.ERROR);
    }

    private static List<String> messages(String json) {
        return messages(json, ResultSeverityEnum.INFORMATION);
    }

    private static List<String> messages(String json, ResultSeverityEnum from) {
        FhirInstanceValidator instance = new FhirInstanceValidator(new ValidationSupportChain(
                new DefaultProfileValidationSupport(R4),
                new CommonCodeSystemsTerminologyService(R4),
                new InMemoryTerminologyServerValidationSupport(R4)));
        FhirValidator validator = R4.newValidator().registerValidatorModule(instance);
        return validator.validateWithResult(json).getMessages().stream()
                .filter(m -> m.getSeverity().ordinal() >= from.ordinal())
                // LOINC and SNOMED CT themselves do not come with the library: their codes cannot be looked up here.
                .filter(m -> !m.getMessage().contains("http://snomed.info/sct")
                        && !m.getMessage().contains("http://loinc.org"))
                .map(m -> m.getLocationString() + ": " + m.getMessage())
                .toList();
    }

    @Test
    void itHoldsTheCodesOfTheTradeAndEveryReferenceLeadsSomewhere() throws Exception {
        Bundle bundle = strict(json());

        Set<String> urls = new HashSet<>();
        bundle.getEntry().forEach(e -> assertThat(urls.add(e.getFullUrl())).isTrue());
        List<Observation> observations = resources(bundle, Observation.class);
        for (Observation o : observations) {
            assertThat(urls).contains(o.getSubject().getReference());
            o.getDerivedFrom().stream()
                    .map(Reference::getReference)
                    .forEach(r -> assertThat(urls).contains(r));
        }
        Observation spo2 = coded(observations, "59408-5");
        assertThat(spo2.getCode().getCoding()).extracting(c -> c.getCode()).containsExactly("2708-6", "59408-5");
        assertThat(spo2.getValueQuantity().getValue()).isEqualByComparingTo("94");
        assertThat(spo2.getValueQuantity().getCode()).isEqualTo("%");
        assertThat(coded(observations, "9279-1").getValueQuantity().getCode()).isEqualTo("/min");
        assertThat(coded(observations, "29463-7").getValueQuantity()).satisfies(weight -> {
            assertThat(weight.getValue()).isEqualByComparingTo("17.4");
            assertThat(weight.getSystem()).isEqualTo("http://unitsofmeasure.org");
            assertThat(weight.getCode()).isEqualTo("kg");
        });
        assertThat(coded(observations, "3151-8").getValueQuantity()).satisfies(flow -> {
            assertThat(flow.getValue()).isEqualByComparingTo("1.5");
            assertThat(flow.getSystem()).isEqualTo("http://unitsofmeasure.org");
            assertThat(flow.getCode()).isEqualTo("L/min");
        });
        Observation pressure = coded(observations, "85354-9");
        assertThat(pressure.getComponent()).hasSize(2).anySatisfy(c -> {
            assertThat(c.getCode().hasCoding("http://loinc.org", "8480-6")).isTrue();
            assertThat(c.getValueQuantity().getValue()).isEqualByComparingTo("98");
            assertThat(c.getValueQuantity().getCode()).isEqualTo("mm[Hg]");
        });
        assertThat(answered(observations, "extra oxygen").getValueBooleanType().booleanValue())
                .isTrue();
        assertThat(answered(observations, "pain or tightness")
                        .getValueBooleanType()
                        .booleanValue())
                .isFalse();
        assertThat(answered(observations, "feverish").getValueBooleanType().booleanValue())
                .isTrue();
        assertThat(answered(observations, "Medicines").getValueStringType().getValue())
                .isEqualTo("blue inhaler");
        assertThat(observations)
                .as("not asked, so not told")
                .noneMatch(o -> o.getCode().getText().contains("chest infection"));
        List<Observation> sounds = observations.stream()
                .filter(o -> o.getCode().hasCoding("http://snomed.info/sct", "37931006"))
                .toList();
        assertThat(sounds).hasSizeGreaterThanOrEqualTo(3).allSatisfy(o -> {
            assertThat(o.getStatus()).isEqualTo(Observation.ObservationStatus.PRELIMINARY);
            assertThat(o.getDerivedFrom()).hasSize(1);
        });
        assertThat(sounds)
                .anySatisfy(o -> assertThat(
                                o.getDataAbsentReason().getCodingFirstRep().getCode())
                        .isEqualTo("unknown"));
        assertThat(resources(bundle, Media.class)).hasSize(3).allSatisfy(m -> {
            assertThat(m.getContent().getContentType()).isEqualTo("audio/wav");
            assertThat(new String(m.getContent().getData(), 0, 4, java.nio.charset.StandardCharsets.US_ASCII))
                    .isEqualTo("RIFF");
        });
    }

    private static Observation answered(List<Observation> observations, String words) {
        return observations.stream()
                .filter(o -> o.getCode().getText().contains(words))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void withoutNameAndSoundNoneIsThere() throws Exception {
        Bundle bundle = strict(json("--without-name", "--without-audio"));

        Patient patient = resources(bundle, Patient.class).get(0);
        assertThat(patient.hasName()).isFalse();
        assertThat(patient.hasBirthDate()).isFalse();
        assertThat(resources(bundle, Media.class)).isEmpty();
    }

    private static Observation coded(List<Observation> observations, String code) {
        return observations.stream()
                .filter(o -> o.getCode().hasCoding("http://loinc.org", code))
                .findFirst()
                .orElseThrow();
    }

    private static <T> List<T> resources(Bundle bundle, Class<T> type) {
        return bundle.getEntry().stream()
                .map(Bundle.BundleEntryComponent::getResource)
                .filter(type::isInstance)
                .map(type::cast)
                .toList();
    }
}
