package lungwort.feature;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;

class FeatureCatalogueTest {
    /** Set this system property to write the file anew after a change: -Dlungwort.features.write=true. */
    private static final String WRITE = "lungwort.features.write";

    @Test
    void theDocumentListsTheCatalogueAsItIs() throws IOException {
        Path file = Path.of("FEATURES.md");
        if (Boolean.getBoolean(WRITE)) {
            Files.writeString(file, FeatureDocument.text());
        }
        assertThat(file).as("written by the test itself with -D%s=true", WRITE).hasContent(FeatureDocument.text());
    }

    @Test
    void everyFeatureHasAnIndexAUnitAndAFormula() {
        for (FeatureCatalogue catalogue :
                new FeatureCatalogue[] {FeatureCatalogue.segment(), FeatureCatalogue.recording()}) {
            for (int i = 0; i < catalogue.size(); i++) {
                FeatureDefinition f = catalogue.features().get(i);
                assertThat(catalogue.indexOf(f.name())).isEqualTo(i);
                assertThat(f.unit()).isNotBlank();
                assertThat(f.formula()).hasSizeGreaterThan(10);
            }
        }
        assertThat(FeatureCatalogue.segment().indexOf("no such feature")).isEqualTo(-1);
    }

    @Test
    void theDigestIsOfBothCatalogues() {
        assertThat(FeatureCatalogue.digestOfAll())
                .hasSize(64)
                .isNotEqualTo(FeatureCatalogue.segment().digest());
    }
}
